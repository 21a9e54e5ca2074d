//! `statement-twice`: which of two values of one thing holds would be left open.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("statement_twice", "statement-twice", Error, Reference, "one statement is made twice");

/// A second statement of the same entry, place and condition.
pub fn finding(span: Span, first: Span, identity: &str) -> Finding {
    Finding::new(
        &RULE,
        span,
        format!("{identity} is stated twice"),
        "keep one; if they hold for different places or states, say so with `where` or `when`",
    )
    .with(first, "first stated here")
}
