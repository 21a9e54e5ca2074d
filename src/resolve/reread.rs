//! Second readings: matched to statements, compared, and the statements they agree with confirmed.
//!
//! A reading agrees when value, unit, place, condition, source, page, row, column and footnote are the
//! same, and another person made it; for what is critical, the fastener and the pattern too. Whatever differs or
//! is not known is a finding, and the statement stays unconfirmed; so a confirmation lapses by itself when either
//! side changes.

mod alike;
mod misnamed;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::engine::{Surroundings, with_condition_of};
use super::rules::{
    reread_by_same_reader, reread_differs, reread_from_elsewhere, reread_incomplete, reread_without_statement,
};
use super::statement::{self, Scope};
use super::values::Reader;
use crate::diag::Sink;
use crate::load::format::{Located, Reread, RereadsFile, Spec};
use crate::load::place::FileKind;
use crate::load::{Decoded, Loaded};
use crate::model::{Confirmation, Date, Engine, EngineId, Form, Identity, Printed, Statement, VariantId};
use crate::quantity::{Exact, Value, exact_text};
use crate::source::Span;
use alike::Alike;
use misnamed::is_misnamed;

/// Holds every second reading against its statement.
pub fn confirm(
    loaded: &Loaded,
    around: &Surroundings<'_>,
    engines: &mut BTreeMap<EngineId, Engine>,
    sink: &mut Sink,
) {
    for file in &loaded.rereads {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        let source = file.data.source.iter();
        source.for_each(|id| _ = around.names.manuals.knows(file.file, id, reader.sink));
        if !around.names.engines.knows(file.file, &file.data.engine, reader.sink) {
            continue;
        }
        let Some(engine) = engines.get_mut(file.data.engine.as_str()) else { continue };
        let engine_read = engine.whole && !loaded.damaged.contains(&FileKind::Catalogue);
        confirm_engine(file, engine, engine_read, around, &mut reader);
    }
}

fn confirm_engine(
    file: &Decoded<RereadsFile>,
    engine: &mut Engine,
    engine_read: bool,
    around: &Surroundings<'_>,
    reader: &mut Reader<'_>,
) {
    let on = file.data.date.as_ref().and_then(|day| reader.day(day));
    let mut seen = BTreeSet::new();
    let mut alike = Alike::default();
    for raw in &file.data.reread {
        let variant = raw.get().variant.as_ref().map(|id| VariantId::new(id.as_str()));
        let Some(second) = read(raw, file, variant.as_ref(), &engine.statements, around, reader) else {
            continue;
        };
        let entry = around.entries.get(&second.identity.of);
        let plausible = entry.and_then(|entry| entry.plausible.as_ref()).map(|span| &span.value);
        let critical = entry.is_some_and(|entry| entry.critical);
        let again = Again { second: &second, by: file.data.read_by.as_str(), on, plausible, critical };
        match find(engine, variant.as_ref(), &second.identity) {
            Some(first) if !first.understood || !second.understood => {}
            Some(first) => {
                let twice = !seen.insert((variant.clone(), second.identity.clone()));
                let outcome = again.held_against(first, reader, &mut alike);
                let differs = matches!(outcome, Confirmation::Differs { .. });
                // A reading that confirms nothing leaves the place to the next one.
                if !twice || differs || first.confirmation == Confirmation::ReadOnce {
                    let first = Arc::make_mut(first);
                    first.confirmation = outcome;
                    first.second_reading = differs.then(|| second.form.clone());
                }
            }
            None if engine_read => {
                if is_misnamed(engine, variant.as_ref(), &second, entry, reader) {
                    continue;
                }
                let near = nearest(engine, variant.as_ref(), &second);
                reader.sink.push(reread_without_statement::finding(
                    second.span,
                    &second.identity,
                    near.as_ref(),
                ));
            }
            None => {}
        }
    }
    alike.report(file, engine, reader);
}

/// A second reading as a statement of its own.
fn read(
    raw: &Located<Reread>,
    file: &Decoded<RereadsFile>,
    variant: Option<&VariantId>,
    base: &[Arc<Statement>],
    around: &Surroundings<'_>,
    reader: &mut Reader<'_>,
) -> Option<Arc<Statement>> {
    let scope = Scope {
        entries: around.entries,
        names: around.names,
        source: file.data.source.as_ref(),
        read_by: Some(&file.data.read_by),
        variant,
    };
    let spec = Located::new(as_spec(raw.get()), raw.range());
    let statement = statement::statement(&spec, &scope, reader)?;
    Some(if variant.is_some() { with_condition_of(base, statement) } else { statement })
}

/// A second reading has the keys of a statement, less what only the first reader decides.
fn as_spec(raw: &Reread) -> Spec {
    Spec {
        of: raw.of.clone(),
        place: raw.place.clone(),
        when: raw.when.clone(),
        window: raw.window.clone(),
        set_to: raw.set_to.clone(),
        new: raw.new.clone(),
        wear_limit: raw.wear_limit.clone(),
        setting: raw.setting.clone(),
        stages: raw.stages.clone(),
        points: raw.points.clone(),
        direction: raw.direction.clone(),
        seen_from: raw.seen_from.clone(),
        interval: raw.interval.clone(),
        first: raw.first.clone(),
        severe: raw.severe.clone(),
        selection: raw.selection.clone(),
        pins: raw.pins.clone(),
        text: raw.text.clone(),
        absent: raw.absent.clone(),
        fastener: raw.fastener.clone(),
        pattern: raw.pattern.clone(),
        source: raw.source.clone(),
        page: raw.page.clone(),
        row: raw.row.clone(),
        column: raw.column.clone(),
        footnote: raw.footnote.clone(),
        read_by: None,
        misprint: None,
        note: None,
    }
}

fn list<'e>(engine: &'e mut Engine, variant: Option<&VariantId>) -> Option<&'e mut Vec<Arc<Statement>>> {
    match variant {
        None => Some(&mut engine.statements),
        Some(id) => engine.variants.iter_mut().find(|one| one.id == *id).map(|one| &mut one.statements),
    }
}

fn find<'e>(
    engine: &'e mut Engine,
    variant: Option<&VariantId>,
    identity: &Identity,
) -> Option<&'e mut Arc<Statement>> {
    list(engine, variant)?.iter_mut().find(|one| one.identity == *identity)
}

/// The statement of the same entry that was read from the same place of the page, if there is just one.
fn nearest(engine: &mut Engine, variant: Option<&VariantId>, second: &Statement) -> Option<(Span, Identity)> {
    let same = |one: &&Arc<Statement>| {
        one.identity.of == second.identity.of
            && one.provenance.row == second.provenance.row
            && one.provenance.column == second.provenance.column
    };
    let all: Vec<_> =
        list(engine, variant)?.iter().filter(same).map(|one| (one.span, one.identity.clone())).collect();
    match all.as_slice() {
        [only] => Some(only.clone()),
        _ => None,
    }
}

/// A second reading, with who made it and when.
struct Again<'a> {
    second: &'a Statement,
    by: &'a str,
    on: Option<Date>,
    /// The plausible span of its entry.
    plausible: Option<&'a Value>,
    /// Whether a wrong value of its entry can kill.
    critical: bool,
}

impl Again<'_> {
    fn held_against(&self, first: &Statement, reader: &mut Reader<'_>, alike: &mut Alike) -> Confirmation {
        let second = self.second;
        let Alike { same, nameless } = alike;
        if first.provenance.is_read_by(self.by) {
            same.push(reread_by_same_reader::finding(second.span, first, self.by));
            return Confirmation::ReadOnce;
        }
        if let Some((key, mine, theirs, at)) = value_difference(&first.form, &second.form) {
            let at = at.unwrap_or((second.span, first.span));
            let said = (key, mine.as_str(), theirs.as_str());
            reader.sink.push(reread_differs::finding(at, first, &second.form, self.plausible, said));
            return self.differs();
        }
        let elsewhere = differing_places(first, second);
        if !elsewhere.is_empty() {
            // That the first reading names no source or page is said where it stands.
            let told = |(what, mine, _): &Elsewhere| mine.is_none() && matches!(*what, "source" | "page");
            if !elsewhere.iter().all(told) {
                reader.sink.push(reread_from_elsewhere::finding(second.span, first, &elsewhere));
            }
            return self.differs();
        }
        if let Some((key, mine, theirs)) = fastening_difference(first, second) {
            let said = (key, mine.as_str(), theirs.as_str());
            let at = (second.span, first.span);
            reader.sink.push(reread_differs::finding(at, first, &second.form, None, said));
            return self.differs();
        }
        let lacking = self.lacking(first);
        if !lacking.is_empty() {
            let finding = reread_incomplete::finding(second.span, first, self.by, &lacking);
            if lacking == [Lacking::FirstReader] {
                nameless.push(finding);
            } else {
                reader.sink.push(finding);
            }
            return Confirmation::ReadOnce;
        }
        Confirmation::Confirmed { by: self.by.to_owned(), on: self.on }
    }

    /// What a confirmation rests on, and is not there.
    fn lacking(&self, first: &Statement) -> Vec<Lacking> {
        let stated = !matches!(first.form, Form::Absent(_));
        let unread = |mine: bool, theirs: bool| self.critical && mine && !theirs;
        let all = [
            (Lacking::FirstReader, first.provenance.read_by.is_none()),
            (Lacking::Page, stated && first.provenance.page.is_none()),
            (Lacking::Fastener, unread(first.fastener.is_some(), self.second.fastener.is_some())),
            (Lacking::Pattern, unread(!first.pattern.is_empty(), !self.second.pattern.is_empty())),
        ];
        all.into_iter().filter(|(_, lacks)| *lacks).map(|(what, _)| what).collect()
    }

    fn differs(&self) -> Confirmation {
        let found = Box::new(self.second.provenance.clone());
        Confirmation::Differs { by: self.by.to_owned(), on: self.on, found }
    }
}

/// What a confirmation rests on, beside two equal values from one place.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Lacking {
    /// Nobody knows who read first, and so that it was another.
    FirstReader,
    /// Neither reader names a page.
    Page,
    /// The second reader does not say what the torque is for.
    Fastener,
    /// The second reader does not say in which order.
    Pattern,
}

/// A part of the fastener, or the pattern, that the second reader names otherwise; what is not read again is no difference.
fn fastening_difference(first: &Statement, second: &Statement) -> Option<(&'static str, String, String)> {
    let or_none =
        |word: Option<&(&'static str, String)>| word.map_or("none".to_owned(), |(_, word)| word.clone());
    if let (Some(mine), Some(theirs)) = (&first.fastener, &second.fastener) {
        let (mine, theirs) = (mine.words(), theirs.words());
        let keys = mine.iter().chain(&theirs).map(|(key, _)| *key);
        for key in keys {
            let of = |all: &[(&'static str, String)]| or_none(all.iter().find(|(one, _)| *one == key));
            let (mine, theirs) = (of(&mine), of(&theirs));
            if mine != theirs {
                return Some((key, mine, theirs));
            }
        }
    }
    let (mine, theirs) = (&first.pattern, &second.pattern);
    let bolts = |all: &[(Exact, Exact)]| {
        let one = |(across, up): &(Exact, Exact)| format!("{}, {}", exact_text(across), exact_text(up));
        all.iter().map(one).collect::<Vec<_>>().join("; ")
    };
    (!mine.is_empty() && !theirs.is_empty() && mine != theirs)
        .then(|| ("pattern", bolts(mine), bolts(theirs)))
}

/// A key whose value differs: the key, the first and the second reading, and their spans if they have any.
type Difference = (&'static str, String, String, Option<(Span, Span)>);

fn value_difference(first: &Form, second: &Form) -> Option<Difference> {
    let (mine, theirs) = (first.texts(), second.texts());
    let keys = mine.iter().chain(&theirs).map(|(key, ..)| *key);
    keys.collect::<BTreeSet<_>>().into_iter().find_map(|key| difference_of(key, &mine, &theirs))
}

/// One text of a form: its key, itself, and where it stands.
type Said = (&'static str, String, Option<Span>);

fn difference_of(key: &'static str, mine: &[Said], theirs: &[Said]) -> Option<Difference> {
    let of = |all: &[Said]| all.iter().filter(|(one, ..)| *one == key).cloned().collect::<Vec<_>>();
    let (mine, theirs) = (of(mine), of(theirs));
    let joined = |all: &[Said]| all.iter().map(|(_, text, _)| text.as_str()).collect::<Vec<_>>().join(", ");
    if mine.len() != theirs.len() {
        let spans = theirs.first().and_then(|one| one.2).zip(mine.first().and_then(|one| one.2));
        return Some((key, joined(&mine), joined(&theirs), spans));
    }
    let sorted = |all: &[Said]| all.iter().map(|(_, text, _)| text.clone()).collect::<BTreeSet<_>>();
    if mine != theirs && mine.len() > 1 && sorted(&mine) == sorted(&theirs) && is_alternatives(key) {
        let spans = theirs.first().and_then(|one| one.2).zip(mine.first().and_then(|one| one.2));
        return texts_differ(&mine, &theirs).then(|| (key, joined(&mine), joined(&theirs), spans));
    }
    let pair = mine.into_iter().zip(theirs).find(|(mine, theirs)| mine.1 != theirs.1);
    pair.map(|(mine, theirs)| (key, mine.1, theirs.1, theirs.2.zip(mine.2)))
}

/// Whether a key lists printed forms of one value.
fn is_alternatives(key: &str) -> bool {
    matches!(key, "window" | "set_to" | "new" | "wear_limit" | "setting")
}

fn texts_differ(mine: &[Said], theirs: &[Said]) -> bool {
    mine.iter().zip(theirs).any(|(mine, theirs)| mine.1 != theirs.1)
}

/// Part of a place: what, what the first reader names, what the second.
pub(crate) type Elsewhere = (&'static str, Option<String>, Option<String>);

/// What the two readers name differently of where the value stands: what, the first, the second.
fn differing_places(first: &Statement, second: &Statement) -> Vec<Elsewhere> {
    let (mine, theirs) = (&first.provenance, &second.provenance);
    let source = |id: &Option<crate::model::SourceId>| id.as_ref().map(ToString::to_string);
    let all = [
        ("source", source(&mine.source), source(&theirs.source)),
        ("page", mine.page.clone(), theirs.page.clone()),
        ("row", mine.row.clone(), theirs.row.clone()),
        ("column", mine.column.clone(), theirs.column.clone()),
        ("footnote", mine.footnote.clone(), theirs.footnote.clone()),
    ];
    all.into_iter().filter(|(_, mine, theirs)| mine != theirs).collect()
}

impl Form {
    /// Everything a form says on its page, misprints too, text by text, in canonical spelling: two forms are the
    /// same when these are.
    fn texts(&self) -> Vec<Said> {
        let printed = |key: &'static str, all: &[Printed]| -> Vec<Said> {
            all.iter().map(Printed::on_page).map(|one| (key, one.value.text(), Some(one.span))).collect()
        };
        match self {
            Self::Window { printed: all, set_to } => {
                [printed("window", all), printed("set_to", set_to)].concat()
            }
            Self::Fit { new, wear_limit } => {
                [printed("new", new), printed("wear_limit", wear_limit)].concat()
            }
            Self::Setting(all) => printed("setting", all),
            Self::Stages(stages) => stages.iter().flat_map(|stage| printed("stages", stage)).collect(),
            Self::Points(points) => {
                let both = |point: &crate::model::Point| {
                    let (reads, at) = (point.reads.on_page(), point.at.on_page());
                    ("points", format!("{} at {}", reads.value.text(), at.value.text()), Some(reads.span))
                };
                points.iter().map(both).collect()
            }
            Self::Direction { turns, seen_from } => {
                let seen = seen_from.clone().unwrap_or_else(|| "nowhere".to_owned());
                vec![("direction", turns.word().to_owned(), None), ("seen_from", seen, None)]
            }
            Self::Interval { regular, first, severe } => {
                [printed("interval", regular), printed("first", first), printed("severe", severe)].concat()
            }
            Self::Selection(selection) => {
                let row = |(inputs, part): &(Vec<String>, String)| {
                    ("selection", format!("{} → {part}", inputs.join(", ")), None)
                };
                selection.rows.iter().map(row).collect()
            }
            Self::Pins(pins) => pins.iter().map(|pin| ("pins", cavity(pin), None)).collect(),
            Self::Text(text) => vec![("text", text.clone(), None)],
            Self::Absent(why) => vec![("absent", why.word().to_owned(), None)],
        }
    }
}

fn cavity(pin: &crate::model::Pin) -> String {
    let wire = pin.wire.as_deref().unwrap_or("no wire");
    let expect = pin.expect.iter().map(|(state, value)| format!("{state} {value}"));
    let said: Vec<_> = [wire.to_owned(), pin.function.clone()].into_iter().chain(expect).collect();
    format!("{}: {}", pin.cavity, said.join(", "))
}
