//! `span-reversed`: a span that runs backwards fits no machine.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("span_reversed", "span-reversed", Error, Reference, "years or serial numbers run backwards");

/// A span of years or serial numbers whose end comes before its start.
pub fn finding(span: Span, what: &str, typed: &str) -> Finding {
    Finding::new(&RULE, span, format!("{what} `{typed}` run backwards"), "write the first, then the last")
}
