//! The engine sheet: lettered groups, one row a statement.

use std::collections::BTreeMap;

use serde::Serialize;

use super::codes::{CodesLink, given_by};
use super::complaint::fitting_complaints;
use super::form::{self, Every, Line, Matrix, MisprintLine, Picks, PinRow};
use super::hazard::Hazards;
use super::judged::Judged;
use super::links::Links;
use super::scope;
use super::shims::ShimsView;
use super::standing::Standing;
use super::text::{Figure, bind, count, sentence};
use super::title_block::TitleBlock;
use super::{atlas::Atlas, drawings};
use crate::emit::drawing::Drawing;
use crate::model::{
    Build, BuildId, Entry, Fastener, Form, Hand, Model, Point, Provenance, Reuse, ServiceGroup, Statement,
};
use crate::quantity::convert;

/// The engine sheet of a build.
#[derive(Debug, Serialize)]
pub struct EngineView {
    /// Title block.
    pub block: TitleBlock,
    /// Groups that have a row.
    pub groups: Vec<GroupView>,
    /// Procedures that fit: title, link, minutes.
    pub procedures: Vec<ProcedureLink>,
    /// Complaints that fit: title and link.
    pub complaints: Vec<(String, String)>,
    /// Sets of fault codes that the engine gives.
    pub codes: Vec<CodesLink>,
    /// The shim planner, if it has shims.
    pub shims: Option<ShimsView>,
    /// Its coverage sheet.
    pub coverage: String,
    /// How many values.
    pub values: String,
    /// How many manuals and bulletins they were read from.
    pub sources: String,
}

impl EngineView {
    /// Takes the drawings of limits and curves out of the rows, by group: a sheet is read before it is
    /// looked at, and a memory stick has no compression. What must be seen at once stays: which way the
    /// engine turns, and in which order bolts are tightened.
    pub fn take_drawings(&mut self, build: &BuildId) -> Vec<DrawnGroup> {
        let mut taken = Vec::new();
        for group in &mut self.groups {
            let blocks: Vec<Vec<Drawn>> = group.rows.chunks_mut(BLOCK).map(take_block).collect();
            if blocks.iter().any(|block| !block.is_empty()) {
                let name = group.anchor.trim_start_matches("group-");
                group.drawings = Some(format!("drawings-{name}"));
                taken.push(DrawnGroup {
                    path: Links::drawings_script(build, name),
                    anchor: group.anchor.clone(),
                    letter: group.letter.clone(),
                    title: group.title.clone(),
                    blocks,
                });
            }
        }
        taken
    }
}

/// So many rows have their drawings in one script; `site/drawn.js` counts alike.
const BLOCK: usize = 12;

fn take_block(rows: &mut [Row]) -> Vec<Drawn> {
    let later = rows.iter_mut().filter(|row| row.turns.is_none());
    let drawn = later.filter_map(|row| {
        Some(Drawn {
            drawing: row.drawing.take()?,
            anchor: row.anchor.clone(),
            title: row.title.clone(),
            scope: row.scope.clone(),
        })
    });
    drawn.collect()
}

/// The drawings of one service group.
#[derive(Debug, Serialize)]
pub struct DrawnGroup {
    /// Path of the scripts that hold them, but for the number and the ending.
    #[serde(skip)]
    pub path: String,
    /// Anchor of the group.
    pub anchor: String,
    /// Its letter.
    pub letter: String,
    /// Its title.
    pub title: String,
    /// The drawings of each block of rows, in the order of the sheet.
    pub blocks: Vec<Vec<Drawn>>,
}

/// The drawing of one row.
#[derive(Debug, Serialize)]
pub struct Drawn {
    /// Anchor of the row on the engine sheet.
    pub anchor: String,
    /// What the trade calls it.
    pub title: String,
    /// Place and condition in words.
    pub scope: Vec<String>,
    /// The drawing.
    pub drawing: Drawing,
}

impl DrawnGroup {
    /// The classic scripts that bring the drawings to their rows: they run from `file://`, where nothing
    /// can be fetched. One a block, by path.
    pub fn scripts(&self) -> impl Iterator<Item = (String, Vec<u8>)> {
        self.blocks.iter().enumerate().map(|(at, block)| {
            let drawings: BTreeMap<&str, &str> =
                block.iter().map(|one| (one.anchor.as_str(), one.drawing.as_str())).collect();
            let script = format!("baybookDrawings({});\n", serde_json::json!(drawings));
            (format!("{}-{at}.js", self.path), script.into_bytes())
        })
    }
}

/// The sheet that shows every drawing of a build, for readers without scripts and for paper.
#[derive(Debug, Serialize)]
pub struct DrawingsView<'a> {
    /// Title block.
    pub block: &'a TitleBlock,
    /// The drawings by group.
    pub groups: &'a [DrawnGroup],
}

/// A procedure of the build.
#[derive(Clone, Debug, Serialize)]
pub struct ProcedureLink {
    /// Title.
    pub title: String,
    /// Its sheet.
    pub href: String,
    /// Minutes it takes.
    pub minutes: Option<u32>,
}

/// One service group.
#[derive(Debug, Serialize)]
pub struct GroupView {
    /// Its letter; `I` and `O` are left out, as on a drawing.
    pub letter: String,
    /// Title.
    pub title: String,
    /// Anchor.
    pub anchor: String,
    /// Hazards of its entries, each once, by signal word.
    pub panels: Vec<Hazards>,
    /// Rows.
    pub rows: Vec<Row>,
    /// The scripts that hold the drawings of the group, but for the number of the block of rows and the
    /// ending; none where nothing is left to them.
    pub drawings: Option<String>,
}

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

impl EngineView {
    /// The engine sheet of a build.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, hash: &str, procedures: Vec<ProcedureLink>) -> Self {
        let mut sources: Vec<_> =
            build.statements.iter().filter_map(|one| one.provenance.source.as_ref()).collect();
        sources.sort();
        sources.dedup();
        let complaints = fitting_complaints(atlas.model, build).into_iter();
        Self {
            block: TitleBlock::of(atlas, build, hash),
            groups: groups(atlas, build),
            procedures,
            complaints: complaints
                .map(|one| (one.title.clone(), Links::complaint(&build.id, &one.id)))
                .collect(),
            codes: given_by(atlas.model, build),
            shims: ShimsView::of(atlas.model, build),
            coverage: Links::coverage(&build.engine),
            values: count(build.statements.len(), "value", "values"),
            sources: count(sources.len(), "manual or bulletin", "manuals and bulletins"),
        }
    }
}

fn groups<'a>(atlas: &Atlas<'a>, build: &'a Build) -> Vec<GroupView> {
    let (model, named) = (atlas.model, atlas.rows(build).collect::<Vec<_>>());
    let lettered = model.groups.iter().zip(letters());
    let views = lettered.map(|(group, letter)| group_view(model, group, letter, &named));
    views.filter(|view| !view.rows.is_empty()).collect()
}

fn group_view(
    model: &Model,
    group: &ServiceGroup,
    letter: String,
    named: &[(&Statement, &str)],
) -> GroupView {
    let inside = named.iter().filter(|(one, _)| group.entries.contains(&one.identity.of));
    let mut last = None;
    let rows = inside.clone().filter_map(|(one, anchor)| {
        let entry = model.entries.get(&one.identity.of)?;
        // What the catalogue says of an entry stands once, at its first row.
        let first = last.replace(&entry.id) != Some(&entry.id);
        Some(Row::of(model, entry, one, (*anchor).to_owned(), first))
    });
    let hazards = inside.clone().filter(|(one, _)| !matches!(one.form, Form::Absent(_)));
    let hazards = hazards.filter_map(|(one, _)| model.entries.get(&one.identity.of));
    GroupView {
        letter,
        title: group.title.clone(),
        anchor: format!("group-{}", scope::entry(&group.id)),
        panels: Hazards::of(model, hazards.flat_map(|entry| &entry.hazards)),
        rows: rows.collect(),
        drawings: None,
    }
}

/// A, B, C …, Z, AA, AB …, without I and O, which read as numbers: the lettering of ISO 5457.
pub fn letters() -> impl Iterator<Item = String> {
    const USED: &str = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    let single = USED.chars().map(String::from);
    let double = USED.chars().flat_map(|a| USED.chars().map(move |b| format!("{a}{b}")));
    single.chain(double).chain((1_u32..).map(|number| format!("Z{number}")))
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
            pattern: if shown { drawings::pattern(statement, &entry.title) } else { None },
            fastener: statement.fastener.as_ref().filter(|_| shown).map(fastener),
            misprint: statement.misprint.as_ref().filter(|_| shown).map(form::misprint),
            standing,
            notes: notes.collect(),
            gauge: gauge.map(|gauge| (gauge.title.clone(), Links::gauge(&gauge.id))),
            source: source
                .map(|source| (source.title.clone(), Links::source(&source.id, provenance.page.as_deref()))),
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
            at: Figure::of(&point.at.value),
            reads: Figure::of(reads),
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
