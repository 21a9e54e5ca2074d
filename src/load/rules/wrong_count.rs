//! `wrong-count`: a point has two members; a third would be lost.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("wrong_count", "wrong-count", Error, Form, "a list has too many or too few members");

/// A list with too many or too few members.
pub fn finding(span: Span, key: &str, wanted: &str) -> Finding {
    Finding::new(&RULE, span, format!("`{key}` must have {wanted}"), format!("make it {wanted}, or take the key out"))
}
