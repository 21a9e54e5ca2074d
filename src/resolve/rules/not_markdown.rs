//! `not-markdown`: nothing from a file may run or be fetched; a procedure is words, lists and links.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("not_markdown", "not-markdown", Error, Procedure, "a procedure holds HTML or an image");

/// Raw HTML or an image in a procedure.
pub fn finding(span: Span, what: &str) -> Finding {
    Finding::new(
        &RULE,
        span,
        format!("a procedure does not show {what}"),
        "say it in words, with Markdown alone",
    )
}
