//! `reread-without-statement`: when two readers find another place or condition, one of them lost it.

use crate::diag::{Finding, Rule};
use crate::model::Identity;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "reread_without_statement",
    "reread-without-statement",
    Error,
    Provenance,
    "a second reading belongs to no statement"
);

/// A second reading of something the engine does not state.
pub fn finding(span: Span, identity: &Identity, near: Option<&(Span, Identity)>) -> Finding {
    let message = format!("{identity} was read again, and is not stated by the engine");
    let help = match near {
        Some((_, stated)) => {
            format!("the engine states {stated}: did one reader lose a place or a condition?")
        }
        None => "add the statement to the engine, or take this reading out".to_owned(),
    };
    let finding = Finding::new(&RULE, span, message, help);
    match near {
        Some((at, _)) => finding.with(*at, "stated here"),
        None => finding,
    }
}
