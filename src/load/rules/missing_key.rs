//! `missing-key`: what is required is required because something depends on it.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("missing_key", "missing-key", Error, Form, "a key that must be there is missing");

/// A key that must be there and is not.
pub fn finding(span: Span, noun: &str, key: &str, about: Option<&str>) -> Finding {
    let help = about.map_or_else(
        || format!("add `{key}`"),
        |about| format!("add `{key} = …` ({})", crate::load::rules::sentence(about)),
    );
    Finding::new(&RULE, span, format!("{noun} needs `{key}`, and this one has none"), help)
}
