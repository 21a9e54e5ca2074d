//! `direction-seen-from-nowhere`: seen from the other side, the same engine turns the other way.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "direction_seen_from_nowhere",
    "direction-seen-from-nowhere",
    Error,
    Reference,
    "a direction of rotation does not say from where it is seen"
);

/// A direction without the side it is seen from.
pub fn finding(span: Span, way: &str) -> Finding {
    let message = format!("`{way}` does not say from which side it is seen");
    let help = "add `seen_from`, as the manual says it: `seen_from = \"flywheel side\"`";
    Finding::new(&RULE, span, message, help)
}
