//! `duplicate-id`: two things of one name would hide one another.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("duplicate_id", "duplicate-id", Error, Reference, "an id is defined twice");

/// An id that is already taken.
pub fn finding(span: Span, first: Span, noun: &str, id: &str) -> Finding {
    Finding::new(&RULE, span, format!("{noun} `{id}` is already defined"), "give one of the two another id")
        .with(first, "first defined here")
}
