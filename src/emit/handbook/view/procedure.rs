//! The sheet of a procedure for one build: what it needs, and the parts that links turn into.

use serde::Serialize;

use super::atlas::Atlas;
use super::drawings;
use super::form::{self, Brief, Line};
use super::hazard::Panel;
use super::how_to::how_to;
use super::judged::Judged;
use super::links::Links;
use super::row::fastener;
use super::scope;
use super::shims::ShimsView;
use super::standing::{self, Mark};
use super::text::{bind, sentence};
use super::title_block::TitleBlock;
use crate::emit::drawing::{Drawing, rotation};
use crate::model::{Build, EntryId, Form, Model, Need, Procedure, ProcedureState, Statement, Words};
use crate::quantity::Value;

/// The sheet of a procedure.
#[derive(Debug, Serialize)]
pub struct ProcedureView {
    /// Title block of its build.
    pub block: TitleBlock,
    /// Title.
    pub title: String,
    /// Minutes it takes.
    pub minutes: Option<u32>,
    /// State of the engine in words.
    pub state: &'static str,
    /// Tools, gauges and access.
    pub needs: Vec<String>,
    /// Every hazard it declares.
    pub panels: Vec<Panel>,
    /// The rendered body.
    pub body: String,
    /// Id of the procedure.
    pub id: String,
    /// What stands open between two steps: what, the step that opens it, the step that closes it.
    pub left_open: Vec<(String, u32, u32)>,
    /// What shows that the work holds.
    pub proof: Option<String>,
    /// True where a shim plan may follow.
    pub shims: bool,
    /// The same for programs: a `HowTo` of schema.org as JSON-LD.
    pub how_to: String,
}

/// A value in a sentence: each statement that is meant, named where there are several.
#[derive(Debug, Serialize)]
pub struct Inline {
    /// Text of the link.
    pub label: String,
    /// The values.
    pub values: Vec<InlineValue>,
}

/// One value in a sentence.
#[derive(Debug, Serialize)]
pub struct InlineValue {
    /// Place and condition, where several values stand together.
    pub scope: Vec<String>,
    /// The value.
    pub value: Brief,
    /// The mark of a value that nobody confirmed.
    pub mark: Option<Mark>,
    /// Its row on the engine sheet, beside this page.
    pub href: String,
    /// Entry id.
    pub of: String,
    /// `data-where`.
    pub place: String,
    /// `data-when`.
    pub when: String,
}

/// A reading to take: the limits it is judged against, one line a place.
#[derive(Debug, Serialize)]
pub struct Readings {
    /// What is measured.
    pub label: String,
    /// The lines.
    pub lines: Vec<ReadingLine>,
}

/// One reading.
#[derive(Debug, Serialize)]
pub struct ReadingLine {
    /// Place and condition in words.
    pub scope: Vec<String>,
    /// The limits.
    pub values: Vec<Line>,
    /// The value in brief, where it is no window.
    pub brief: Brief,
    /// The mark of a value that nobody confirmed.
    pub mark: Option<Mark>,
    /// Its row on the engine sheet.
    pub href: String,
    /// Unit to write behind the reading.
    pub unit: Option<&'static str>,
    /// The limits drawn.
    pub drawing: Option<Drawing>,
    /// Entry id.
    pub of: String,
    /// `data-where`.
    pub place: String,
    /// `data-when`.
    pub when: String,
    /// What a reading is judged by.
    pub judged: Option<Judged>,
}

/// A fastener tightened at a step: its stages and its bolts in their order, drawn.
#[derive(Debug, Serialize)]
pub struct Tightening {
    /// Place and condition in words.
    pub scope: Vec<String>,
    /// The stages drawn.
    pub drawing: Option<Drawing>,
    /// The bolts in tightening order.
    pub pattern: Option<Drawing>,
    /// The fastener in one sentence.
    pub fastener: Option<String>,
}

/// A turn in the engine's own direction.
#[derive(Debug, Serialize)]
pub struct TurnPart {
    /// `90°`.
    pub angle: String,
    /// `counter-clockwise`, that it is withheld, or none where the engine does not say.
    pub way: Option<&'static str>,
    /// `seen from the clutch side`.
    pub seen: Option<String>,
    /// The mark of a direction that nobody confirmed.
    pub mark: Option<Mark>,
    /// The turn drawn.
    pub drawing: Option<Drawing>,
}

impl ProcedureView {
    /// The sheet of a procedure, its body already rendered.
    pub fn of<'a>(
        atlas: &Atlas<'a>,
        build: &'a Build,
        procedure: &Procedure,
        hash: &str,
        body: String,
    ) -> Self {
        let model = atlas.model;
        let need = |need: &Need| match need {
            Need::Gauge(id) => {
                model.gauges.get(id).map_or_else(|| id.to_string(), |gauge| gauge.title.clone())
            }
            Need::Words(words) => bind(words),
        };
        Self {
            block: TitleBlock::of(atlas, build, hash),
            title: procedure.title.clone(),
            minutes: procedure.minutes,
            state: state_words(procedure.state),
            needs: procedure.needs.iter().map(need).collect(),
            panels: Panel::several(model, &procedure.hazards),
            body,
            id: procedure.id.to_string(),
            left_open: procedure.left_open.iter().map(|one| (bind(&one.what), one.from, one.until)).collect(),
            proof: procedure.proof.as_deref().map(sentence),
            shims: ShimsView::follows(procedure) && ShimsView::of(model, build).is_some(),
            how_to: how_to(atlas, build, procedure),
        }
    }
}

/// The state of the engine in words.
pub const fn state_words(state: ProcedureState) -> &'static str {
    match state {
        ProcedureState::Cold => "engine cold",
        ProcedureState::Hot => "engine hot",
        ProcedureState::Any => "cold or hot",
    }
}

/// The statements of an entry that the words of a link leave, with their anchors.
///
/// A statement without a value is meant only where no other is: its reason then stands in the step.
pub fn meant<'a>(
    atlas: &Atlas<'a>,
    build: &'a Build,
    of: &EntryId,
    narrow: &Words,
) -> Vec<(&'a Statement, String)> {
    let named: Vec<_> = atlas.rows(build).filter(|(one, _)| one.identity.of == *of).collect();
    let valued: Vec<_> = build.values(of, narrow).map(|one| &one.identity).collect();
    let pick = |wanted: &dyn Fn(&Statement) -> bool| {
        let picked = named.iter().filter(|(one, _)| wanted(one));
        picked.map(|(one, anchor)| (*one, (*anchor).to_owned())).collect::<Vec<_>>()
    };
    if valued.is_empty() { pick(&|_| true) } else { pick(&|one| valued.contains(&&one.identity)) }
}

impl Inline {
    /// The value a link stands for.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, of: &EntryId, narrow: &Words, label: &str) -> Self {
        let meant = meant(atlas, build, of, narrow);
        let common = scope::common(meant.iter().map(|(one, _)| &one.identity));
        let value = |(one, anchor): (&Statement, String)| InlineValue {
            scope: scope::apart(&one.identity, &common),
            value: standing::brief(atlas.model, one),
            mark: standing::mark(atlas.model, one),
            href: format!("engine.html#{anchor}"),
            of: of.to_string(),
            place: scope::attribute(&one.identity.place),
            when: scope::attribute(&one.identity.when),
        };
        Self { label: label.to_owned(), values: meant.into_iter().map(value).collect() }
    }
}

impl Readings {
    /// The readings a link asks for.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, of: &EntryId, narrow: &Words, label: &str) -> Self {
        let model = atlas.model;
        let entry = model.entries.get(of);
        let title = entry.map(|entry| entry.title.as_str()).unwrap_or_default();
        let line = |(one, anchor): (&Statement, String)| {
            let shown = !model.withholds(one);
            ReadingLine {
                scope: scope::in_words(&one.identity),
                unit: unit_of(&one.form),
                drawing: if shown { drawings::of(one, title) } else { None },
                values: if shown { form::lines(&one.form, &model.base.units) } else { Vec::new() },
                brief: standing::brief(model, one),
                mark: standing::mark(model, one),
                href: format!("engine.html#{anchor}"),
                of: of.to_string(),
                place: scope::attribute(&one.identity.place),
                when: scope::attribute(&one.identity.when),
                judged: entry.and_then(|entry| Judged::of(model, entry, one)),
            }
        };
        let label = if label.is_empty() { title } else { label };
        Self {
            label: label.to_owned(),
            lines: meant(atlas, build, of, narrow).into_iter().map(line).collect(),
        }
    }
}

fn unit_of(form: &Form) -> Option<&'static str> {
    let first = form.alternatives().into_iter().flatten().next()?;
    Some(first.value.unit().symbol())
}

impl Tightening {
    /// What is drawn of a value that a link stands for: stages, or the order of the bolts.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, of: &EntryId, narrow: &Words) -> Vec<Self> {
        let model = atlas.model;
        let title = model.entries.get(of).map(|entry| entry.title.clone()).unwrap_or_default();
        let drawn = meant(atlas, build, of, narrow).into_iter().filter_map(|(one, _)| {
            let staged = matches!(one.form, Form::Stages(_));
            if model.withholds(one) || !staged && one.pattern.is_empty() {
                return None;
            }
            Some(Self {
                scope: scope::in_words(&one.identity),
                drawing: drawings::of(one, &title).filter(|_| staged),
                pattern: drawings::pattern(one, &title),
                fastener: one.fastener.as_ref().map(fastener),
            })
        });
        drawn.collect()
    }
}

impl TurnPart {
    /// A turn by an angle in the direction the build states.
    pub fn of(model: &Model, build: &Build, of: &EntryId, angle: &Value) -> Self {
        let withheld = build.of(of).any(|one| model.withholds(one));
        let stated = build.of(of).filter(|one| !model.withholds(one)).find_map(|one| match &one.form {
            Form::Direction { turns, seen_from } => Some((*turns, seen_from.as_deref())),
            _ => None,
        });
        let text = bind(angle.text().trim_start_matches('+'));
        let drawn = stated.zip(drawings::degrees(angle)).map(|((turns, seen_from), degrees)| {
            let label = format!("turn {text} {}", form::turning(turns, seen_from));
            rotation::turn(turns, degrees, &text, &label)
        });
        Self {
            angle: text,
            way: stated
                .map(|(turns, _)| form::way(turns))
                .or(withheld.then_some("in a direction that is withheld")),
            seen: stated.and_then(|(_, side)| side).map(form::seen),
            mark: build.of(of).find_map(|one| standing::mark(model, one)),
            drawing: drawn,
        }
    }
}

/// The sheet of another procedure of the same build, beside this page; none if it does not fit.
pub fn beside(model: &Model, build: &Build, id: &crate::model::ProcedureId) -> Option<(String, String)> {
    let procedure = model.procedures.get(id)?;
    model.fits_build(&procedure.fits, build).then(|| (format!("{id}.html"), procedure.title.clone()))
}

/// Procedures that fit a build, in order of title.
pub fn fitting<'a>(model: &'a Model, build: &Build) -> Vec<&'a Procedure> {
    let all = model.procedures.values();
    let mut fitting: Vec<&Procedure> = all.filter(|one| model.fits_build(&one.fits, build)).collect();
    fitting.sort_by(|one, other| one.title.cmp(&other.title));
    fitting
}

/// The link to a procedure of a build.
pub fn link(build: &Build, procedure: &Procedure) -> super::engine::ProcedureLink {
    super::engine::ProcedureLink {
        title: procedure.title.clone(),
        href: Links::procedure(&build.id, &procedure.id),
        minutes: procedure.minutes,
    }
}
