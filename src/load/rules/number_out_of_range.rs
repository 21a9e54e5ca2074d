//! `number-out-of-range`: a count of zero cylinders is a slip, whatever it was meant to be.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "number_out_of_range",
    "number-out-of-range",
    Error,
    Form,
    "a number is outside what its key takes"
);

/// What is written as a number, and is none to reckon with: `inf`, `nan`, or one too long to hold.
pub fn no_number(span: Span, key: &str, typed: &str) -> Finding {
    let help = "write the number that is meant; a value with a unit stands in quotes";
    Finding::new(&RULE, span, format!("`{key}` is {typed}, which is no number to reckon with"), help)
}

/// A number outside what its key takes.
pub fn finding(span: Span, key: &str, typed: &str, bound: &str) -> Finding {
    Finding::new(
        &RULE,
        span,
        format!("`{key}` is {typed}; it must be {bound}"),
        format!("write a number that is {bound}"),
    )
}
