//! `link-not-understood`: a link that leads nowhere leaves the technician without the number.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "link_not_understood",
    "link-not-understood",
    Error,
    Procedure,
    "a link of a procedure points at nothing that is known"
);

/// A link that none of the known kinds of link can be.
pub fn finding(span: Span, target: &str, help: impl Into<String>) -> Finding {
    Finding::new(&RULE, span, format!("the link `{target}` is not understood"), help)
}

/// A link narrowed by a word that its entry does not have.
pub fn narrowed(span: Span, message: String, help: String) -> Finding {
    Finding::new(&RULE, span, message, help)
}
