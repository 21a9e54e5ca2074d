//! `unknown-key`: a misspelt key would be a value that silently does not count.

use crate::diag::{Finding, Rule};
use crate::load::place::FileKind;
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

/// A waiver for a value in `base.toml`, or one for a text in the file of an engine.
pub fn misplaced_waiver(span: Span, kind: FileKind, keys: &[&str], known: &[&str]) -> Finding {
    let where_it_belongs = if kind == FileKind::Base {
        "in `base.toml`: a waiver for a value stands in the file of its engine"
    } else {
        "in the file of an engine: a waiver for a text stands in `base.toml`"
    };
    let message = format!("{} {where_it_belongs}", named(keys));
    let help = format!("move the waiver there; here `on` has `{}`", known.join("`, `"));
    Finding::new(&RULE, span, message, help)
}

/// `` `file` and `text` are not keys ``.
fn named(keys: &[&str]) -> String {
    match keys {
        [one] => format!("`{one}` is not a key of `on`"),
        [others @ .., last] => format!("`{}` and `{last}` are not keys of `on`", others.join("`, `")),
        [] => String::new(),
    }
}

/// A key that stands in one table and is read in another alone.
pub fn misplaced(span: Span, noun: &str, key: &str, heading: &str) -> Finding {
    let message = format!("`{key}` is not a key of {noun}");
    Finding::new(&RULE, span, message, format!("it is read under `{heading}`: move it there"))
}
