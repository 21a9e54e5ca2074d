//! `set-to-outside-window`: nobody can set it so that it passes.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Form;
use crate::quantity::{Limit, Value};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "set_to_outside_window",
    "set-to-outside-window",
    Error,
    Physics,
    "a value to set to lies outside the window"
);

/// Every `set_to`, against its window.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Window { printed, set_to } = &statement.form else { continue };
        let (Some(window), Some(set)) = (printed.first(), set_to.first()) else { continue };
        if window.value.unit().kind() == set.value.unit().kind() && outside(&window.value, &set.value) {
            let message = format!("`{}` lies outside the window `{}`", set.value.text(), window.value.text());
            let help = "look at the page again; one of the two belongs to another row, or a digit slipped";
            sink.push(
                Finding::new(&RULE, set.span, message, help)
                    .with(window.span, "the window is here")
                    .about(statement.span),
            );
        }
    }
}

fn outside(window: &Value, set: &Value) -> bool {
    let si = |value: &Value, end: Option<Limit>| end.map(|end| value.unit().to_si(&end.exact));
    let below = si(window, window.min()).zip(si(set, set.min())).is_some_and(|(least, set)| set < least);
    let above = si(window, window.max()).zip(si(set, set.max())).is_some_and(|(most, set)| set > most);
    below || above
}
