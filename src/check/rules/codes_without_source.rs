//! `codes-without-source`: what a code means is as much a value read from a manual as a torque is.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "codes_without_source",
    "codes-without-source",
    Warning,
    Provenance,
    "a set of fault codes names no source"
);

/// Every set of fault codes.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if subject.damaged.contains(&FileKind::Codes) {
        return;
    }
    for set in subject.model.codes.values() {
        if set.source.is_none() && !set.source_unknown {
            let message = format!("the fault codes `{}` name no source", set.id);
            let help = "add `source`, the manual or bulletin that lists the codes, and its `page`";
            sink.push(Finding::new(&RULE, set.span, message, help));
        }
    }
}
