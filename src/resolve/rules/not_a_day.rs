//! `not-a-day`: a date decides which value is current.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("not_a_day", "not-a-day", Error, Form, "a date is no day of the calendar");

/// A date that no calendar has.
pub fn finding(span: Span, typed: &str) -> Finding {
    Finding::new(
        &RULE,
        span,
        format!("`{typed}` is no day of the calendar"),
        "write year, month, day, as `2026-11-25`",
    )
}
