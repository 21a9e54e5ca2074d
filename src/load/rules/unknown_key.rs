//! `unknown-key`: a misspelt key would be a value that silently does not count.

use crate::diag::nearest;
use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("unknown_key", "unknown-key", Error, Form, "a key is not one that is read");

/// A key that is not read here.
pub fn finding(span: Span, noun: &str, key: &str, known: &[&str]) -> Finding {
    let near = nearest(key, known.iter().copied());
    let help = near.map_or_else(
        || format!("keys of {noun}: `{}`", known.join("`, `")),
        |near| format!("did you mean `{near}`?"),
    );
    Finding::new(&RULE, span, format!("`{key}` is not a key of {noun}"), help)
}
