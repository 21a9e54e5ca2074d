//! `unit-ambiguous`: a pound can be a force or a mass, a gallon American or British.

use crate::diag::{Finding, Rule};
use crate::quantity::ValueError;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("unit_ambiguous", "unit-ambiguous", Error, Units, "a unit could mean two things");

/// A unit that could mean two things; the help names both.
pub fn finding(span: Span, error: &ValueError, typed: &str) -> Finding {
    Finding::new(&RULE, span, error.message(), error.help_for(typed))
}
