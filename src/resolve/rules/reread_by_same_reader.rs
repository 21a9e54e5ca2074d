//! `reread-by-same-reader`: whoever misread a page reads it the same way again.

use crate::diag::{Finding, Rule};
use crate::model::{EngineId, Statement};
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

/// Many second readings by the first reader: whoever the file names is the cause.
pub fn of_all(span: Span, engine: &EngineId, by: &str, count: usize) -> Finding {
    let message = format!("`{by}` read {count} values of `{engine}` both times");
    let help = "let somebody else read them from the page, without seeing the first readings; if somebody else did, name them";
    Finding::new(&RULE, span, message, help)
}
