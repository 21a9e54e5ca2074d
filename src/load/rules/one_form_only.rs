//! `one-form-only`: a statement says one thing; two would leave it open which holds.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "one_form_only",
    "one-form-only",
    Error,
    Form,
    "a statement has no value, or values of two forms"
);

/// The forms a statement can take, as keys.
pub const FORMS: [&str; 12] = [
    "window",
    "new",
    "wear_limit",
    "setting",
    "stages",
    "points",
    "direction",
    "interval",
    "selection",
    "pins",
    "text",
    "absent",
];

/// A statement without any form.
pub fn none(span: Span, noun: &str) -> Finding {
    Finding::new(
        &RULE,
        span,
        format!("{noun} has no value"),
        format!("give it one of `{}`; if there is none, say why with `absent`", FORMS[..11].join("`, `")),
    )
}

/// A statement with more than one form.
pub fn several(span: Span, noun: &str, forms: &[&str]) -> Finding {
    Finding::new(
        &RULE,
        span,
        format!("{noun} has values of {} forms: `{}`", forms.len(), forms.join("`, `")),
        "keep one; a second value needs a statement of its own, and words about a value go into `note`",
    )
}
