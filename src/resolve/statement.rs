//! One statement: its identity in canonical words, its value parsed, its source looked up.

use std::sync::Arc;

use super::misprint;
use super::names::Names;
use super::pattern::pattern;
use super::reference::owned;
use super::rules::direction_seen_from_nowhere;
use super::values::Reader;
use crate::load::format::{self, Located, Spec, Text};
use crate::model::{
    Absence, Confirmation, Domain, Entry, EntryId, Fastener, Form, Identity, Pin, Point, Provenance,
    Selection, SourceId, Statement, VariantId, Words,
};
use crate::quantity::Value;
use std::collections::BTreeMap;

/// What statements fall back on and are read against.
pub struct Scope<'a> {
    /// Every entry.
    pub entries: &'a BTreeMap<EntryId, Entry>,
    /// Every name.
    pub names: &'a Names,
    /// Source of statements that give none.
    pub source: Option<&'a Text>,
    /// Reader of statements that give none.
    pub read_by: Option<&'a Text>,
    /// The variant that makes the statements.
    pub variant: Option<&'a VariantId>,
}

/// A statement; none, with a finding, if its entry is not known. One whose value is not understood goes on, so that
/// what else is wrong with it shows too.
pub fn statement(raw: &Located<Spec>, scope: &Scope<'_>, reader: &mut Reader<'_>) -> Option<Arc<Statement>> {
    let spec = raw.get();
    let known = scope.names.entries.knows(reader.file, &spec.of, reader.sink);
    let form = misprint::put_right(form(spec, reader), spec.misprint.as_ref(), reader);
    let named = spec.source.as_ref().or(scope.source);
    let source = named.filter(|id| scope.names.manuals.knows(reader.file, id, reader.sink));
    let pattern = pattern(spec, form.as_ref(), reader);
    let of = EntryId::new(spec.of.as_str());
    let entry = scope.entries.get(&of).filter(|_| known)?;
    let when = conditions(&spec.when, entry);
    let place = spec.place.iter().map(|(axis, place)| (axis.as_str().to_owned(), place.as_str().to_owned()));
    Some(Arc::new(Statement {
        span: reader.span(&spec.of),
        identity: Identity { of, place: place.collect(), when },
        understood: form.is_some(),
        form: form.unwrap_or(Form::Absent(Absence::NotRead)),
        provenance: Provenance {
            source: source.map(|id| SourceId::new(id.as_str())),
            page: owned(spec.page.as_ref()),
            row: owned(spec.row.as_ref()),
            column: owned(spec.column.as_ref()),
            footnote: owned(spec.footnote.as_ref()),
            read_by: owned(spec.read_by.as_ref().or(scope.read_by)),
        },
        variant: scope.variant.cloned(),
        fastener: spec.fastener.as_ref().map(|one| fastener(one.get())),
        pattern,
        misprint: spec.misprint.as_ref().map(|one| misprint::kept(one.get())),
        note: owned(spec.note.as_ref()),
        typed: typed_words(spec, reader),
        confirmation: confirmation(spec),
        second_reading: None,
        source_unknown: named.is_some() && source.is_none(),
    }))
}

/// Before any second reading: nothing to confirm where nothing was read.
fn confirmation(spec: &Spec) -> Confirmation {
    match spec.absent.as_ref().map(Located::get) {
        Some(Absence::NotApplicable | Absence::NotRead) => Confirmation::NotNeeded,
        _ => Confirmation::ReadOnce,
    }
}

/// Where the words of place and condition stand, for findings about them.
fn typed_words(spec: &Spec, reader: &Reader<'_>) -> Vec<(String, crate::source::Span, crate::source::Span)> {
    let all = spec.place.iter().chain(&spec.when);
    all.map(|(key, word)| (key.as_str().to_owned(), reader.span(key), reader.span(word))).collect()
}

/// Conditions in canonical spelling: a quantity is written one way, a word stays as typed.
pub fn conditions(when: &format::Words, entry: &Entry) -> Words {
    let canonical = |state: &Text, typed: &Text| match entry.states.get(state.as_str()) {
        Some(Domain::Kind(_)) => {
            Value::parse(typed.as_str()).map_or_else(|_| typed.as_str().to_owned(), |value| value.text())
        }
        _ => typed.as_str().to_owned(),
    };
    when.iter().map(|(state, typed)| (state.as_str().to_owned(), canonical(state, typed))).collect()
}

/// The value of a statement. Every key of the form is read, so that all its findings show at once.
fn form(spec: &Spec, reader: &mut Reader<'_>) -> Option<Form> {
    if let Some(texts) = &spec.window {
        let printed = reader.forms(texts);
        let set_to = reader.optional_forms(spec.set_to.as_ref());
        return Some(Form::Window { printed: printed?, set_to: set_to? });
    }
    if spec.new.is_some() || spec.wear_limit.is_some() {
        let new = reader.optional_forms(spec.new.as_ref());
        let wear_limit = reader.optional_forms(spec.wear_limit.as_ref());
        return Some(Form::Fit { new: new?, wear_limit: wear_limit? });
    }
    if let Some(texts) = &spec.setting {
        return reader.forms(texts).map(Form::Setting);
    }
    if let Some(stages) = &spec.stages {
        let read: Vec<_> = stages.iter().map(|stage| reader.forms(stage.0.texts())).collect();
        return read.into_iter().collect::<Option<_>>().map(Form::Stages);
    }
    if let Some(points) = &spec.points {
        let read: Vec<_> = points.iter().map(|pair| point(pair, reader)).collect();
        return read.into_iter().collect::<Option<_>>().map(Form::Points);
    }
    if let Some(texts) = &spec.interval {
        let regular = reader.forms(texts);
        let first = reader.optional_forms(spec.first.as_ref());
        let severe = reader.optional_forms(spec.severe.as_ref());
        return Some(Form::Interval { regular: regular?, first: first?, severe: severe? });
    }
    words_form(spec, reader)
}

/// The forms that hold words and no quantity.
fn words_form(spec: &Spec, reader: &mut Reader<'_>) -> Option<Form> {
    if let Some(direction) = &spec.direction {
        let seen_from = owned(spec.seen_from.as_ref());
        if seen_from.is_none() {
            let way = direction.get().word();
            reader.sink.push(direction_seen_from_nowhere::finding(reader.span(direction), way));
            return None;
        }
        return Some(Form::Direction { turns: *direction.get(), seen_from });
    }
    if let Some(raw) = &spec.selection {
        return Some(Form::Selection(selection(raw)));
    }
    if let Some(pins) = &spec.pins {
        return Some(Form::Pins(pins.iter().map(pin).collect()));
    }
    if let Some(absent) = &spec.absent {
        return Some(Form::Absent(*absent.get()));
    }
    owned(spec.text.as_ref()).map(Form::Text)
}

fn point(pair: &[Text], reader: &mut Reader<'_>) -> Option<Point> {
    let [at, reads] = pair else { return None };
    let (at, reads) = (reader.printed(at), reader.printed(reads));
    Some(Point { at: at?, reads: reads? })
}

fn selection(raw: &format::Selection) -> Selection {
    let text = |one: &Text| one.as_str().to_owned();
    let rows = raw.rows.iter().filter_map(|row| {
        let (part, inputs) = row.split_last()?;
        Some((inputs.iter().map(text).collect(), text(part)))
    });
    Selection { by: raw.by.iter().map(text).collect(), rows: rows.collect() }
}

fn pin(raw: &format::Pin) -> Pin {
    let expect =
        raw.expect.iter().map(|(state, value)| (state.as_str().to_owned(), value.as_str().to_owned()));
    Pin {
        cavity: raw.cavity.as_str().to_owned(),
        wire: owned(raw.wire.as_ref()),
        function: raw.function.as_str().to_owned(),
        expect: expect.collect(),
    }
}

fn fastener(raw: &format::Fastener) -> Fastener {
    Fastener {
        thread: owned(raw.thread.as_ref()),
        class: owned(raw.class.as_ref()),
        threads: owned(raw.threads.as_ref()),
        hand: raw.hand,
        count: raw.count,
        reuse: raw.reuse,
        into: owned(raw.into.as_ref()),
    }
}
