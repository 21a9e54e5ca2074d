//! `unit-unknown`: a number without a unit that is known says nothing.

use crate::diag::{Finding, Rule};
use crate::quantity::ValueError;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!("unit_unknown", "unit-unknown", Error, Units, "a unit is not known");

/// A unit that is not known.
pub fn finding(span: Span, error: &ValueError, typed: &str) -> Finding {
    Finding::new(&RULE, span, error.message(), error.help_for(typed))
}
