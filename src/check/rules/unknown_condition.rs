//! `unknown-condition`: a limit in a state that nobody asks for is never judged against.

use crate::check::Subject;
use crate::diag::nearest;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Domain, Entry};
use crate::quantity::{Kind, Value};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "unknown_condition",
    "unknown-condition",
    Error,
    Reference,
    "a statement names a state its entry does not have"
);

/// Every word of `when`, against the states of the entry.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        for (state, word) in &statement.identity.when {
            let Some((state_span, word_span)) = statement.words_at(state) else { continue };
            let found = match entry.states.get(state) {
                None if !entry.whole => None,
                None => Some(no_state(entry, state, state_span)),
                Some(Domain::Words(words)) if !words.contains(word) => {
                    Some(no_word(entry, state, word, words, word_span))
                }
                Some(Domain::Kind(kind)) => no_quantity(subject, state, word, *kind, word_span),
                Some(Domain::Words(_)) => None,
            };
            if let Some(finding) = found {
                sink.push(finding.with(entry.span, "the entry is defined here").about(statement.span));
            }
        }
    }
}

fn no_state(entry: &Entry, state: &str, span: Span) -> Finding {
    let known: Vec<_> = entry.states.keys().map(String::as_str).collect();
    let help = match (nearest(state, known.iter().copied()), known.is_empty()) {
        (Some(near), _) => format!("did you mean `{near}`?"),
        (None, true) => {
            "it has no states: leave `when` out, or give the entry states in the catalogue".to_owned()
        }
        (None, false) => format!("its states are `{}`", known.join("`, `")),
    };
    Finding::new(&RULE, span, format!("`{}` does not depend on `{state}`", entry.id), help)
}

fn no_word(entry: &Entry, state: &str, word: &str, words: &[String], span: Span) -> Finding {
    let help = nearest(word, words.iter().map(String::as_str)).map_or_else(
        || format!("it is one of `{}`", words.join("`, `")),
        |near| format!("did you mean `{near}`?"),
    );
    Finding::new(&RULE, span, format!("`{state}` of `{}` is never `{word}`", entry.id), help)
}

fn no_quantity(subject: &Subject<'_>, state: &str, word: &str, kind: Kind, span: Span) -> Option<Finding> {
    match Value::parse(word) {
        Ok(value) if value.unit().kind() == kind => None,
        Ok(value) => Some(Finding::new(
            &RULE,
            span,
            format!(
                "`{state}` takes units of {}, and `{word}` has a unit of {}",
                kind.title(),
                value.unit().kind().title()
            ),
            "write it in a unit of its kind",
        )),
        Err(error) => {
            let at = subject.sources.inside(span, word, error.range.clone());
            Some(Finding::new(&RULE, at, error.message(), error.help_for(word)))
        }
    }
}
