//! `value-not-understood`: a value that is guessed at is worse than none.

use crate::quantity::ValueError;
use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("value_not_understood", "value-not-understood", Error, Units, "a value is not written as a value");

/// A value that does not read as one; the span is at what is wrong in it.
pub fn finding(span: Span, error: &ValueError) -> Finding {
    Finding::new(&RULE, span, error.message(), error.help())
}
