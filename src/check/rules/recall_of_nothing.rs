//! `recall-of-nothing`: a recall that fits no reading and no record warns nobody.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink, nearest};
use crate::load::place::FileKind;
use crate::model::{Domain, EngineId, Entry, EntryId, FormName, Recall};
use crate::quantity::{Shape, Value};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "recall_of_nothing",
    "recall-of-nothing",
    Error,
    Reference,
    "a recall names what no release can have stated"
);

/// Every recall: its engine and its entry live or are retired; place, state and value are some that the entry has.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for recall in &subject.model.recalls {
        let engines: Vec<&str> = subject.model.engines.keys().map(EngineId::as_str).collect();
        if !subject.damaged.contains(&FileKind::Engine) {
            known(subject, "engine", &recall.engine, recall.engine_span, &engines, sink);
        }
        if subject.damaged.contains(&FileKind::Catalogue) {
            continue;
        }
        let entries: Vec<&str> = subject.model.entries.keys().map(EntryId::as_str).collect();
        known(subject, "entry", &recall.of, recall.of_span, &entries, sink);
        if let Some(entry) = subject.model.entries.get(recall.of.as_str()).filter(|entry| entry.whole) {
            recall
                .place
                .iter()
                .filter_map(|pair| place(entry, pair))
                .for_each(|said| push(recall, entry, said, sink));
            recall
                .when
                .iter()
                .filter_map(|pair| state(entry, pair))
                .for_each(|said| push(recall, entry, said, sink));
            value(subject, recall, entry, sink);
        }
    }
}

/// An id that neither lives nor stands among the retired.
fn known(subject: &Subject<'_>, noun: &str, id: &str, span: Span, live: &[&str], sink: &mut Sink) {
    let retired = subject.model.retired.iter().map(|one| one.id.as_str());
    if live.contains(&id) || retired.clone().any(|one| one == id) {
        return;
    }
    let help = nearest(id, live.iter().copied().chain(retired)).map_or_else(
        || "name one that lives; one that lived once stands in `ids.toml` as `[[retired]]`".to_owned(),
        |near| format!("did you mean `{near}`?"),
    );
    let message = format!("there is no {noun} `{id}`, and none is retired: this recall warns nobody");
    sink.push(Finding::new(&RULE, span, message, help));
}

/// What is wrong, the word it is about, and how to mend it.
type Said = (String, String, String);

fn push(recall: &Recall, entry: &Entry, (word, message, help): Said, sink: &mut Sink) {
    let span =
        recall.typed.iter().find(|(typed, _)| *typed == word).map_or(recall.of_span, |(_, span)| *span);
    sink.push(Finding::new(&RULE, span, message, help).with(entry.span, "the entry is defined here"));
}

fn listed(words: &[String]) -> String {
    format!("it has `{}`", words.join("`, `"))
}

fn place(entry: &Entry, (axis, place): (&String, &String)) -> Option<Said> {
    let known: Vec<String> = entry.axes.keys().cloned().collect();
    match entry.axes.get(axis) {
        None if known.is_empty() => {
            Some((axis.clone(), format!("`{}` has no places", entry.id), "leave `where` out".to_owned()))
        }
        None => Some((axis.clone(), format!("`{}` is not told apart by `{axis}`", entry.id), listed(&known))),
        Some(places) if !places.contains(place) => {
            Some((axis.clone(), format!("`{}` has no {axis} `{place}`", entry.id), listed(places)))
        }
        Some(_) => None,
    }
}

fn state(entry: &Entry, (state, word): (&String, &String)) -> Option<Said> {
    let states: Vec<String> = entry.states.keys().cloned().collect();
    match entry.states.get(state) {
        None if states.is_empty() => {
            Some((state.clone(), format!("`{}` has no states", entry.id), "leave `when` out".to_owned()))
        }
        None => {
            Some((state.clone(), format!("`{}` does not depend on `{state}`", entry.id), listed(&states)))
        }
        Some(Domain::Words(words)) if !words.contains(word) => {
            Some((state.clone(), format!("`{state}` of `{}` is never `{word}`", entry.id), listed(words)))
        }
        Some(Domain::Kind(kind)) if !Value::parse(word).is_ok_and(|value| value.unit().kind() == *kind) => {
            let message = format!("`{state}` takes units of {}, and not `{word}`", kind.title());
            Some((state.clone(), message, "write it as the release had it".to_owned()))
        }
        Some(_) => None,
    }
}

/// The value, where the entry holds quantities and nothing else.
fn value(subject: &Subject<'_>, recall: &Recall, entry: &Entry, sink: &mut Sink) {
    let worded = [FormName::Direction, FormName::Selection, FormName::Pins, FormName::Text];
    let Some(kind) = entry.kind.filter(|_| !entry.forms.iter().any(|form| worded.contains(form))) else {
        return;
    };
    let at = |range| subject.sources.inside(recall.value_span, &recall.value, range);
    let (span, message, help) = match Value::parse(&recall.value) {
        Err(error) => (at(error.range.clone()), error.message(), error.help()),
        // A turn of a bolt may be a stage of anything.
        Ok(value) if value.unit().kind() == kind || matches!(value.shape(), Shape::Turn(_)) => return,
        Ok(value) => {
            let (unit, kinds) = (value.unit(), (value.unit().kind().title(), kind.title()));
            let message = format!(
                "`{}` is a unit of {}, and `{}` takes units of {}",
                unit.symbol(),
                kinds.0,
                entry.id,
                kinds.1
            );
            (at(value.unit_range()), message, "write the value as the release had it".to_owned())
        }
    };
    sink.push(Finding::new(&RULE, span, message, help).with(entry.span, "the entry is defined here"));
}
