//! What else a base knows of a value, to tell which of two readings of it is the odd one out.

use super::Subject;
use crate::model::{Printed, Statement};
use crate::quantity::{Value, Witness, beyond};

/// The witnesses of one value of a statement: the plausible span, the second reading, the same entry
/// elsewhere. `place` is that of [`crate::model::Form::alternatives`].
pub fn of<'a>(subject: &Subject<'a>, statement: &'a Statement, place: usize) -> Vec<Witness<'a>> {
    let entry = subject.model.entries.get(&statement.identity.of);
    let mut all: Vec<_> = entry
        .and_then(|entry| entry.plausible.as_ref())
        .map(|span| Witness::Plausible(&span.value))
        .into_iter()
        .collect();
    all.extend(second(statement, place).iter().map(|one| Witness::Again(&one.value, "the second reading")));
    let elsewhere = elsewhere(subject, statement, place);
    if !elsewhere.is_empty() {
        all.push(Witness::Like(elsewhere, "the same entry elsewhere"));
    }
    all
}

/// What a second reader found in the same place, where the two readings differ.
fn second(statement: &Statement, place: usize) -> &[Printed] {
    let forms = statement.second_reading.as_ref().map(crate::model::Form::alternatives);
    forms.and_then(|all| all.get(place).copied()).unwrap_or_default()
}

/// The same entry in other places and conditions, in the value that a bulletin takes the place of, and in
/// other engines; those of the same engine alone where there are any.
fn elsewhere<'a>(subject: &Subject<'a>, statement: &Statement, place: usize) -> Vec<&'a Value> {
    let others = |own: bool| -> Vec<&'a Value> {
        let all = subject.statements().filter(|one| {
            one.identity.of == statement.identity.of
                && one.span != statement.span
                && (one.span.file == statement.span.file) == own
        });
        all.filter_map(|one| Some(&one.form.alternatives().get(place)?.first()?.value)).collect()
    };
    let own = others(true);
    if own.is_empty() { others(false) } else { own }
}

/// Whether a value lies outside what is plausible for its entry: then that is what there is to say of it.
pub fn implausible(subject: &Subject<'_>, statement: &Statement, value: &Value) -> bool {
    let entry = subject.model.entries.get(&statement.identity.of);
    let span = entry.and_then(|entry| entry.plausible.as_ref());
    span.is_some_and(|span| beyond(value, &span.value).is_some())
}
