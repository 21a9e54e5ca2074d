//! `number-out-of-range`: a count of zero cylinders is a slip, whatever it was meant to be.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("number_out_of_range", "number-out-of-range", Error, Form, "a number is outside what its key takes");

/// A number outside what its key takes.
pub fn finding(span: Span, key: &str, typed: &str, bound: &str) -> Finding {
    Finding::new(&RULE, span, format!("`{key}` is {typed}; it must be {bound}"), format!("write a number that is {bound}"))
}
