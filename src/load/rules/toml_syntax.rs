//! `toml-syntax`: what cannot be parsed cannot be checked.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("toml_syntax", "toml-syntax", Error, Form, "a file is not TOML");

/// A file that does not parse, with the parser's first complaint.
pub fn finding(span: Span, complaint: &str) -> Finding {
    let complaint = complaint.trim().trim_end_matches('.').lines().collect::<Vec<_>>().join(", ");
    let help = if complaint.contains("duplicate key") {
        "keep one of the two; a second `[[spec]]` begins a new statement"
    } else if complaint.contains("string") || complaint.contains("quote") {
        "values stand in straight quotes on one line: \"0.20 ± 0.05 mm\""
    } else {
        "every line is `key = value`, `[table]`, `[[table]]` or a `#` comment; nothing of this file is read until it parses"
    };
    Finding::new(&RULE, span, format!("this is not TOML: {complaint}"), help)
}
