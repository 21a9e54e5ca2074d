//! `unknown-key`: a misspelt key would be a value that silently does not count.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("unknown_key", "unknown-key", Error, Form, "a key is not one that is read");

/// A key that is not read here, with the one that is probably meant.
pub fn finding(span: Span, noun: &str, key: &str, near: Option<&str>, known: &[&str]) -> Finding {
    let help = near.map_or_else(
        || format!("keys of {noun}: `{}`", known.join("`, `")),
        |near| format!("did you mean `{near}`?"),
    );
    Finding::new(&RULE, span, format!("`{key}` is not a key of {noun}"), help)
}

/// Keys that stand in one table and belong to another, whose heading is probably missing.
pub fn strayed(span: Span, noun: &str, keys: &[String], heading: &str) -> Finding {
    let keys = keys.join("`, `");
    let message = format!("`{keys}` stand in {noun}, and belong under `{heading}`");
    Finding::new(&RULE, span, message, format!("is the line `{heading}` missing before them?"))
}
