//! `recalled-value-stated`: what is known to be wrong must not go out again.

use std::sync::Arc;

use crate::check::Subject;
use crate::check::alike::allow_the_same;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Printed, Recall, Statement, Words};
use crate::quantity::Value;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "recalled_value_stated",
    "recalled-value-stated",
    Error,
    Reference,
    "a value that is recalled as wrong is still stated"
);

/// Every recalled value.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for recall in &subject.model.recalls {
        let engines = subject.model.led_to(&recall.engine);
        let entries = subject.model.led_to(&recall.of);
        let engines = subject.model.engines.values().filter(|one| engines.contains(one.id.as_str()));
        let stated = engines.flat_map(|engine| {
            let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
            engine.statements.iter().chain(varied)
        });
        let of_it = |one: &&Arc<Statement>| entries.contains(one.identity.of.as_str());
        for statement in stated.filter(of_it).filter(|one| states(one, recall)) {
            let message =
                format!("{} is still `{}`, which is recalled as wrong", statement.identity, recall.value);
            let help = "correct the statement; if it is right after all, take the recall out";
            let finding = Finding::new(&RULE, recall.value_span, message, help);
            sink.push(finding.with(statement.span, "the statement is here"));
        }
    }
}

/// True if a statement says the recalled value, however either is written: what counts is what it allows.
fn states(statement: &Statement, recall: &Recall) -> bool {
    let identity = &statement.identity;
    let recalled = Value::parse(&recall.value).ok();
    let same = |one: &&Printed| {
        one.typed == recall.value || recalled.as_ref().is_some_and(|other| allow_the_same(&one.value, other))
    };
    identity.place == recall.place
        && same_state(&identity.when, &recall.when)
        && statement.form.printed().iter().any(same)
}

/// True if two states are one; a quantity is the same however it is written.
fn same_state(one: &Words, other: &Words) -> bool {
    let word = |word: &String| Value::parse(word).map_or_else(|_| word.clone(), |value| value.text());
    let spelt = |all: &Words| all.iter().map(|(key, one)| (key.clone(), word(one))).collect::<Words>();
    spelt(one) == spelt(other)
}
