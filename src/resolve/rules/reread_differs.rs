//! `reread-differs`: one of the two readers misread the page; nobody else can tell which.

use crate::diag::{Finding, Rule};
use crate::model::Statement;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "reread_differs",
    "reread-differs",
    Error,
    Provenance,
    "the second reading of a value differs from the first"
);

/// A second reading whose value is another.
pub fn finding(
    (here, there): (Span, Span),
    first: &Statement,
    key: &str,
    mine: &str,
    theirs: &str,
) -> Finding {
    let message = format!("`{key}` of {} was read as `{theirs}` here, and first as `{mine}`", first.identity);
    let help = "look at the page together, and correct the reading that is wrong";
    Finding::new(&RULE, here, message, help).with(there, "first read here").about(first.span)
}
