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
    Finding::new(&RULE, span, format!("{noun} needs `{key}`, and {} has none", this_one(noun)), help)
}

/// A file, or front matter, with nothing in it.
pub fn all(span: Span, noun: &str, keys: &[&str]) -> Finding {
    let keys = keys.join("`, `");
    let message = format!("{noun} needs `{keys}`, and {} is empty", this_one(noun));
    Finding::new(
        &RULE,
        span,
        message,
        format!("add `{keys}`, or take the file out of the base until there is something to say"),
    )
}

/// How to go on about what was just named.
fn this_one(noun: &str) -> &str {
    if noun.starts_with("a ") || noun.starts_with("an ") { "this one" } else { "it" }
}
