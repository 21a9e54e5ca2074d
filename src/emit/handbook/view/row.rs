//! The engine sheet: lettered groups, one row a statement.

use serde::Serialize;

use super::drawings;
use super::form::{self, Every, Line, Matrix, MisprintLine, Picks, PinRow};
use super::judged::Judged;
use super::links::Links;
use super::scope;
use super::standing::Standing;
use super::text::{Figure, bind, sentence};
use crate::emit::drawing::Drawing;
use crate::model::{Entry, Fastener, Form, Hand, Model, Point, Provenance, Reuse, Statement};
use crate::quantity::convert;

/// One statement.
#[derive(Debug, Serialize)]
pub struct Row {
    /// Anchor.
    pub anchor: String,
    /// Entry id: `data-spec`.
    pub of: String,
    /// `data-where`.
    pub place: String,
    /// `data-when`.
    pub when: String,
    /// Key of the form.
    pub form: &'static str,
    /// True where the form asks for more than one column.
    pub wide: bool,
    /// What the trade calls it.
    pub title: String,
    /// Place and condition in words.
    pub scope: Vec<String>,
    /// Values of a window, fit or setting.
    pub lines: Vec<Line>,
    /// Values applied in steps.
    pub stages: Vec<Line>,
    /// Service intervals.
    pub intervals: Vec<Every>,
    /// Table of points: headings, then rows.
    pub points: Option<PointTable>,
    /// Direction of rotation.
    pub turns: Option<TurnView>,
    /// Parts chosen by one input.
    pub picks: Option<Picks>,
    /// Parts chosen by two inputs.
    pub matrix: Option<Matrix>,
    /// Cavities of a connector.
    pub pins: Vec<PinRow>,
    /// Words.
    pub text: Option<String>,
    /// Why there is no value.
    pub absent: Option<&'static str>,
    /// Drawing of it.
    pub drawing: Option<Drawing>,
    /// Height of the drawing that comes to it later: the room that is kept.
    pub room: Option<String>,
    /// Bolts in tightening order.
    pub pattern: Option<Drawing>,
    /// The fastener in one sentence.
    pub fastener: Option<String>,
    /// What is printed wrongly.
    pub misprint: Option<MisprintLine>,
    /// Notes of the statement, then of the entry.
    pub notes: Vec<String>,
    /// How far it is to be trusted.
    pub standing: Standing,
    /// Usual gauge: title and link.
    pub gauge: Option<(String, String)>,
    /// The source: title and link to its page there.
    pub source: Option<(String, String)>,
    /// The page there.
    pub page: Option<String>,
    /// Page, row, column, footnote.
    pub found: Vec<String>,
    /// Who read it.
    pub read_by: Option<String>,
    /// The bulletin that sets it, if one does.
    pub bulletin: bool,
    /// What a reading is judged by.
    pub judged: Option<Judged>,
}

/// A direction of rotation.
#[derive(Clone, Debug, Serialize)]
pub struct TurnView {
    /// `counter-clockwise`.
    pub way: &'static str,
    /// `seen from the clutch side`.
    pub seen: Option<String>,
}

/// A table of points.
#[derive(Clone, Debug, Serialize)]
pub struct PointTable {
    /// What it is read at, what is read.
    pub head: (String, String),
    /// Rows: at, reads, and the limits where they are not printed as such.
    pub rows: Vec<PointRow>,
}

/// One point.
#[derive(Clone, Debug, Serialize)]
pub struct PointRow {
    /// What it is read at.
    pub at: Figure,
    /// What is read.
    pub reads: Figure,
    /// Its limits worked out, where they are printed as a tolerance.
    pub limits: Option<String>,
}

impl Row {
    /// The row of a statement; `first` of its entry on the sheet, or not.
    pub fn of(model: &Model, entry: &Entry, statement: &Statement, anchor: String, first: bool) -> Self {
        let units = &model.base.units;
        let Statement { identity, provenance, .. } = statement;
        let standing = Standing::of(model, statement);
        let shown = standing.withheld.is_none();
        // What is withheld is taken out before anything is made of it.
        let withheld = Form::Setting(Vec::new());
        let form = if shown { &statement.form } else { &withheld };
        let stages = match form {
            Form::Stages(stages) => {
                stages.iter().filter_map(|stage| form::line(None, stage, units)).collect()
            }
            _ => Vec::new(),
        };
        let of_entry = entry.note.as_ref().filter(|_| first);
        let notes = statement.note.iter().filter(|_| shown).chain(of_entry).map(|note| sentence(note));
        let gauge = entry.gauge.as_ref().and_then(|id| model.gauges.get(id));
        let source = provenance.source.as_ref().and_then(|id| model.sources.get(id));
        Self {
            anchor,
            of: identity.of.to_string(),
            place: scope::attribute(&identity.place),
            when: scope::attribute(&identity.when),
            form: statement.form.key(),
            wide: matches!(statement.form, Form::Pins(_) | Form::Selection(_) | Form::Text(_)),
            title: entry.title.clone(),
            scope: scope::in_words(identity),
            lines: form::lines(form, units),
            stages,
            intervals: form::intervals(form),
            points: if let Form::Points(points) = form { Some(point_table(points)) } else { None },
            turns: turns(form),
            picks: if let Form::Selection(table) = form { form::picks(table) } else { None },
            matrix: if let Form::Selection(table) = form { form::matrix(table) } else { None },
            pins: if let Form::Pins(pins) = form { pins.iter().map(form::pin).collect() } else { Vec::new() },
            text: if let Form::Text(text) = form { Some(bind(text)) } else { None },
            absent: if let Form::Absent(why) = form { Some(form::absent(*why)) } else { None },
            drawing: if shown { drawings::of(statement, &entry.title) } else { None },
            room: None,
            pattern: if shown { drawings::pattern(statement, &entry.title) } else { None },
            fastener: statement.fastener.as_ref().filter(|_| shown).map(fastener),
            misprint: statement.misprint.as_ref().filter(|_| shown).map(form::misprint),
            standing,
            notes: notes.collect(),
            gauge: gauge.map(|gauge| (gauge.title.clone(), Links::gauge(&gauge.id))),
            source: source.map(|source| {
                (source.name().to_owned(), Links::source(&source.id, provenance.page.as_deref()))
            }),
            page: provenance.page.as_deref().map(page_words),
            found: found(provenance, shown && model.base.publish.labels),
            read_by: provenance.read_by.clone(),
            bulletin: statement.variant.is_some(),
            judged: Judged::of(model, entry, statement),
        }
    }
}

impl Row {
    /// The row as the source prints it: no drawing, nothing worked out, no note of ours.
    pub fn only_printed(mut self) -> Self {
        self.lines.iter_mut().chain(&mut self.stages).for_each(|line| line.converted = None);
        let points = self.points.iter_mut().flat_map(|table| &mut table.rows);
        points.for_each(|row| row.limits = None);
        Self { drawing: None, pattern: None, notes: Vec::new(), gauge: None, judged: None, ..self }
    }
}

fn turns(form: &Form) -> Option<TurnView> {
    let Form::Direction { turns, seen_from } = form else { return None };
    Some(TurnView { way: form::way(*turns), seen: seen_from.as_deref().map(form::seen) })
}

fn point_table(points: &[Point]) -> PointTable {
    let head = |pick: fn(&Point) -> &crate::model::Printed, other: &str| {
        points
            .first()
            .map_or_else(|| other.to_owned(), |one| pick(one).value.unit().kind().title().to_owned())
    };
    let row = |point: &Point| {
        let reads = &point.reads.value;
        // Worked out in the printed unit: rounded to the printed digits, never wider.
        let limits = reads.nominal().and_then(|_| convert(reads, reads.unit()).ok());
        let limits = limits.filter(|limits| limits.text != reads.text());
        PointRow {
            at: Figure::printed(&point.at),
            reads: Figure::printed(&point.reads),
            limits: limits.map(|limits| bind(&limits.text)),
        }
    };
    PointTable {
        head: (head(|one| &one.at, "at"), head(|one| &one.reads, "reads")),
        rows: points.iter().map(row).collect(),
    }
}

/// `page 5-12`, then the maker's own words there, where they are published.
fn found(provenance: &Provenance, labels: bool) -> Vec<String> {
    let Provenance { page, row, column, footnote, .. } = provenance;
    let named = |name: &str, text: &Option<String>| {
        text.as_ref().filter(|_| labels).map(|text| format!("{name} “{text}”"))
    };
    [page.as_deref().map(page_words), named("row", row), named("column", column), named("footnote", footnote)]
        .into_iter()
        .flatten()
        .collect()
}

fn page_words(page: &str) -> String {
    format!("page\u{a0}{page}")
}

/// The fastener in one sentence: `8 of M9x1.25, class 10.9, threads oiled, into aluminium. …`
pub fn fastener(fastener: &Fastener) -> String {
    let Fastener { thread, class, threads, hand, count, reuse, into } = fastener;
    let many = match (count, thread) {
        (Some(count), Some(thread)) => Some(format!("{count} × {thread}")),
        (Some(count), None) => Some(format!("{count} of them")),
        (None, thread) => thread.clone(),
    };
    let hand = hand.map(|hand| match hand {
        Hand::Right => "right-hand thread".to_owned(),
        Hand::Left => "left-hand thread: tightens counter-clockwise".to_owned(),
    });
    let parts = [
        many,
        class.as_ref().map(|class| format!("class {class}")),
        threads.as_ref().map(|state| format!("threads {state}")),
        into.as_ref().map(|part| format!("into {part}")),
        hand,
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    let again = reuse.map(|reuse| match reuse {
        Reuse::Never => "Fit new ones every time.",
        Reuse::IfGood => "Use again only if they pass the manual’s check.",
        Reuse::Yes => "May be used again.",
    });
    let said = if parts.is_empty() { None } else { Some(sentence(&parts.join(", "))) };
    let sentences: Vec<String> = said.into_iter().chain(again.map(str::to_owned)).collect();
    sentences.join(" ")
}
