//! `unknown-kind`: a kind decides which units fit.

use crate::diag::nearest;
use crate::diag::{Finding, Rule};
use crate::quantity::Kind;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("unknown_kind", "unknown-kind", Error, Units, "a kind of quantity is not known");

/// A kind of quantity that is not known.
pub fn finding(span: Span, typed: &str) -> Finding {
    let names: Vec<_> = Kind::all().iter().map(|kind| kind.name()).collect();
    let help = nearest(typed, names.iter().copied())
        .map_or_else(|| format!("kinds are {}", names.join(", ")), |near| format!("did you mean `{near}`?"));
    Finding::new(&RULE, span, format!("`{typed}` is not a kind of quantity"), help)
}
