//! `value-not-understood`: a value that is guessed at is worse than none.

use crate::diag::{Finding, Rule};
use crate::quantity::{Slip, ValueError, ValueProblem};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "value_not_understood",
    "value-not-understood",
    Error,
    Units,
    "a value is not written as a value"
);

/// A value that does not read as one; the span is at what is wrong in it, or at the quote that ends it where
/// something is missing there. `slip` is what `typed` was probably meant as.
pub fn finding(span: Span, error: &ValueError, typed: &str, slip: Option<Slip>) -> Finding {
    let help = slip.map_or_else(
        || error.help_for(typed),
        |slip| format!("probably {}; write `{}` if the page says so", slip.what, slip.offer),
    );
    let at_the_end = match &error.problem {
        ValueProblem::Empty => true,
        ValueProblem::NoNumber { found } => found.is_empty(),
        _ => false,
    };
    let quote = usize::from(at_the_end && span.start == span.end);
    let span = Span { end: span.end.saturating_add(quote), ..span };
    Finding::new(&RULE, span, error.message(), help)
}
