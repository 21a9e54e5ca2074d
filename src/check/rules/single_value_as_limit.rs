//! `single-value-as-limit`: without its tolerance, its `min` or its `max`, a limit says nothing to judge by.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Printed, Statement};
use crate::quantity::Shape;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "single_value_as_limit",
    "single-value-as-limit",
    Warning,
    Physics,
    "a window or a wear limit is a single value"
);

/// Every window, and every wear limit.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let (forms, what, help) = match &statement.form {
            Form::Window { printed, .. } => (printed, "window", WINDOW),
            Form::Fit { wear_limit, .. } => (wear_limit, "wear limit", WEAR_LIMIT),
            _ => continue,
        };
        if let Some(single) = forms.iter().find(|one| matches!(one.value.shape(), Shape::Single(_))) {
            sink.push(finding(statement, single, what, help).about(statement.span));
        }
    }
}

const WINDOW: &str = "look at the page again: a tolerance, a second limit, `min` or `max` may be left out; \
    a value to apply is a `setting`, one to aim at is `set_to`";
const WEAR_LIMIT: &str = "say whether it is the least or the most: `min` or `max` before the value";

fn finding(statement: &Statement, single: &Printed, what: &str, help: &str) -> Finding {
    let message =
        format!("the {what} of {} is the single value `{}`", statement.identity, single.value.text());
    Finding::new(&RULE, single.span, message, help)
}
