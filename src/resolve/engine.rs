//! Engines with their statements, and variants with theirs.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::names::Names;
use super::reference::owned;
use super::registry::Registry;
use super::rules::statement_twice;
use super::statement::{self, Scope};
use super::values::Reader;
use crate::diag::Sink;
use crate::load::format::{self, Located, Spec};
use crate::load::{Decoded, Loaded};
use crate::model::{
    Engine, EngineId, Entry, EntryId, Identity, Layout, MachineId, MakerId, OnValue, Reach, SourceId,
    Statement, Variant, VariantId, Waiver, Words,
};

/// What engines are read against.
pub struct Surroundings<'a> {
    /// Every name.
    pub names: &'a Names,
    /// Every entry.
    pub entries: &'a BTreeMap<EntryId, Entry>,
    /// Year in which a span that is still open ends.
    pub open_year: u16,
}

/// Every engine.
pub fn engines(loaded: &Loaded, around: &Surroundings<'_>, sink: &mut Sink) -> BTreeMap<EngineId, Engine> {
    let mut all = BTreeMap::new();
    for file in &loaded.engines {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        let engine = engine(file, around, &mut reader);
        all.entry(engine.id.clone()).or_insert(engine);
    }
    all
}

fn engine(file: &Decoded<format::EngineFile>, around: &Surroundings<'_>, reader: &mut Reader<'_>) -> Engine {
    let raw = &file.data;
    around.names.makers.knows(reader.file, &raw.maker, reader.sink);
    // Though no statement may fall back on it.
    raw.defaults.source.iter().for_each(|id| _ = around.names.manuals.knows(reader.file, id, reader.sink));
    let scope = Scope {
        entries: around.entries,
        names: around.names,
        source: raw.defaults.source.as_ref(),
        read_by: raw.defaults.read_by.as_ref(),
        variant: None,
    };
    let statements = statements(&raw.spec, &scope, reader);
    let variants = variants(raw, &statements, around, reader);
    Engine {
        id: EngineId::new(raw.id.as_str()),
        span: reader.span(&raw.id),
        maker: MakerId::new(raw.maker.as_str()),
        title: raw.title.as_str().to_owned(),
        layout: raw.layout.as_ref().map(|one| layout(one.get(), reader)),
        statements,
        variants,
        waivers: raw.waive.iter().filter_map(|one| waiver(one.get(), around, reader)).collect(),
        whole: file.whole,
    }
}

/// Statements that are understood; one made twice is a finding and counts once.
fn statements(specs: &[Located<Spec>], scope: &Scope<'_>, reader: &mut Reader<'_>) -> Vec<Arc<Statement>> {
    let mut seen: BTreeMap<Identity, crate::source::Span> = BTreeMap::new();
    let mut all = Vec::new();
    for raw in specs {
        let Some(one) = statement::statement(raw, scope, reader) else { continue };
        if let Some(first) = seen.get(&one.identity) {
            reader.sink.push(statement_twice::finding(one.span, *first, &one.identity.to_string()));
        } else {
            seen.insert(one.identity.clone(), one.span);
            all.push(one);
        }
    }
    all
}

fn layout(raw: &format::Layout, reader: &mut Reader<'_>) -> Layout {
    let mut value = |text: &Option<format::Text>| text.as_ref().and_then(|text| reader.printed(text));
    Layout {
        bore: value(&raw.bore),
        stroke: value(&raw.stroke),
        displacement: value(&raw.displacement),
        cycle: raw.cycle.as_str().to_owned(),
        fuel: raw.fuel.as_str().to_owned(),
        cylinders: *raw.cylinders.get(),
        words: owned(raw.words.as_ref()),
    }
}

fn waiver(
    raw: &format::Waiver,
    around: &Surroundings<'_>,
    reader: &mut Reader<'_>,
) -> Option<Waiver<OnValue>> {
    let until = reader.day(&raw.until);
    let known = around.names.entries.knows(reader.file, &raw.on.of, reader.sink);
    let of = EntryId::new(raw.on.of.as_str());
    let entry = around.entries.get(&of).filter(|_| known)?;
    let place =
        raw.on.place.iter().map(|(axis, place)| (axis.as_str().to_owned(), place.as_str().to_owned()));
    let when = statement::conditions(&raw.on.when, entry);
    Some(Waiver {
        span: reader.span(&raw.rule),
        rule: raw.rule.as_str().to_owned(),
        on: OnValue {
            statement: Identity { of, place: place.collect(), when },
            value: raw.on.value.as_str().to_owned(),
            value_span: reader.span(&raw.on.value),
        },
        because: raw.because.as_str().to_owned(),
        until: until?,
        until_span: reader.span(&raw.until),
    })
}

fn variants(
    raw: &format::EngineFile,
    base: &[Arc<Statement>],
    around: &Surroundings<'_>,
    reader: &mut Reader<'_>,
) -> Vec<Variant> {
    let mut ids = Registry::new("a variant", "this engine", true);
    let distinct: Vec<_> = raw
        .variant
        .iter()
        .map(Located::get)
        .filter(|one| ids.define(reader.file, &one.id, reader.sink))
        .collect();
    distinct.into_iter().map(|one| variant(one, raw, base, &ids, around, reader)).collect()
}

fn variant(
    raw: &format::Variant,
    engine: &format::EngineFile,
    base: &[Arc<Statement>],
    ids: &Registry,
    around: &Surroundings<'_>,
    reader: &mut Reader<'_>,
) -> Variant {
    let id = VariantId::new(raw.id.as_str());
    let source = raw.source.as_ref().filter(|id| around.names.manuals.knows(reader.file, id, reader.sink));
    let scope = Scope {
        entries: around.entries,
        names: around.names,
        source: raw.source.as_ref().or(engine.defaults.source.as_ref()),
        read_by: raw.read_by.as_ref().or(engine.defaults.read_by.as_ref()),
        variant: Some(&id),
    };
    let statements = statements(&raw.spec, &scope, reader);
    let statements = statements.into_iter().map(|one| with_condition_of(base, one)).collect();
    let replaces = raw.replaces.iter().filter(|one| ids.knows(reader.file, one, reader.sink));
    let replaces = replaces.map(|one| VariantId::new(one.as_str())).collect();
    Variant {
        span: reader.span(&raw.id),
        source: source.map(|id| SourceId::new(id.as_str())),
        reach: raw.applies.iter().filter_map(|one| reach(one, around, reader)).collect(),
        replaces,
        note: owned(raw.note.as_ref()),
        statements,
        id,
    }
}

/// A bulletin's value that names no state holds in the state of the value it takes the place of, where
/// that is one and the same for all of them.
pub fn with_condition_of(base: &[Arc<Statement>], statement: Arc<Statement>) -> Arc<Statement> {
    if !statement.identity.when.is_empty() {
        return statement;
    }
    let mut states: Vec<&Words> = base
        .iter()
        .filter(|one| statement.identity.covers(&one.identity))
        .map(|one| &one.identity.when)
        .collect();
    states.sort();
    states.dedup();
    match states.as_slice() {
        [only] if !only.is_empty() => {
            let mut kept = Statement::clone(&statement);
            kept.identity.when = (*only).clone();
            Arc::new(kept)
        }
        _ => statement,
    }
}

fn reach(
    raw: &Located<format::VariantReach>,
    around: &Surroundings<'_>,
    reader: &mut Reader<'_>,
) -> Option<Reach> {
    let applies = raw.get();
    let known = around.names.machines.knows(reader.file, &applies.machine, reader.sink);
    let years = applies.years.as_ref().map(|text| reader.years(text, around.open_year));
    let serial = applies.serial.as_ref().map(|span| reader.serial(span));
    let unread = matches!(years, Some(None)) || matches!(serial, Some(None));
    (known && !unread).then(|| Reach {
        span: reader.span(&applies.machine),
        machine: MachineId::new(applies.machine.as_str()),
        years: years.flatten(),
        serial: serial.flatten(),
    })
}
