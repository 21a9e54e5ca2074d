//! `reread-by-same-reader`: whoever misread a page reads it the same way again.

use crate::diag::{Finding, Rule};
use crate::model::Statement;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "reread_by_same_reader",
    "reread-by-same-reader",
    Warning,
    Provenance,
    "both readings of a value are by one person"
);

/// A second reading by the first reader.
pub fn finding(span: Span, first: &Statement, by: &str) -> Finding {
    let message = format!("{} was read both times by `{by}`", first.identity);
    let help = "let somebody else read it from the page, without seeing the first reading";
    Finding::new(&RULE, span, message, help).with(first.span, "first read here").about(first.span)
}
