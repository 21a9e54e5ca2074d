//! `value-not-understood`: a value that is guessed at is worse than none.

use crate::diag::{Finding, Rule};
use crate::quantity::{Slip, ValueError};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "value_not_understood",
    "value-not-understood",
    Error,
    Units,
    "a value is not written as a value"
);

/// A value that does not read as one; the span is at what is wrong in it. `slip` is what it was probably meant as.
pub fn finding(span: Span, error: &ValueError, slip: Option<Slip>) -> Finding {
    let help = slip.map_or_else(
        || error.help(),
        |slip| format!("probably {}; write `{}` if the page says so", slip.what, slip.offer),
    );
    Finding::new(&RULE, span, error.message(), help)
}
