//! `not-a-choice`: a word outside the list would be read by nobody.

use crate::diag::nearest;
use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("not_a_choice", "not-a-choice", Error, Form, "a word is none of those its key takes");

/// A word that is none of those its key takes.
pub fn finding(span: Span, key: &str, typed: &str, choices: &[&str]) -> Finding {
    let list: Vec<_> = choices.iter().map(|choice| format!("`{choice}`")).collect();
    let near = nearest(typed, choices.iter().copied());
    let list = list.join(", ");
    let help = near.map_or_else(
        || format!("write one of {list}"),
        |near| format!("did you mean `{near}`? it can be {list}"),
    );
    Finding::new(&RULE, span, format!("`{key}` cannot be `{typed}`"), help)
}
