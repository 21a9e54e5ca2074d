//! `reread-from-elsewhere`: the same number in another row may be another part; the value stays unconfirmed.

use crate::diag::{Finding, Rule};
use crate::model::Statement;
use crate::resolve::reread::Elsewhere;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "reread_from_elsewhere",
    "reread-from-elsewhere",
    Warning,
    Provenance,
    "the second reading comes from another place of the manual"
);

/// A second reading that names another page, row, column or footnote.
pub fn finding(span: Span, first: &Statement, elsewhere: &[Elsewhere]) -> Finding {
    let part = |(what, mine, theirs): &Elsewhere| match (mine, theirs) {
        (Some(mine), Some(theirs)) => format!("{what} `{theirs}` and not `{mine}`"),
        (None, Some(theirs)) => format!("{what} `{theirs}`, where the first reading names no {what}"),
        (Some(mine), None) => format!("no {what}, where the first reading names `{mine}`"),
        (None, None) => (*what).to_owned(),
    };
    let parts: Vec<_> = elsewhere.iter().map(part).collect();
    let message = format!("{} was read again from {}", first.identity, parts.join(", "));
    let help = "look at the page together: which row and column is it? the value counts as read once until both agree";
    Finding::new(&RULE, span, message, help).with(first.span, "first read here").about(first.span)
}
