//! `hazard-not-declared`: whoever opens the sheet must see what can hurt before the first step.

use std::collections::BTreeSet;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{HazardId, Link, Need, Piece, Procedure};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "hazard_not_declared",
    "hazard-not-declared",
    Error,
    Procedure,
    "a procedure inherits a hazard that it does not declare"
);

/// Hazards of linked entries and of gauges needed, against those a procedure declares.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        let mut said: BTreeSet<&HazardId> = procedure.hazards.iter().collect();
        for (hazard, from, span) in inherited(subject, procedure) {
            if said.insert(hazard) {
                let message = format!(
                    "the procedure `{}` has the hazard `{hazard}` from {from}, and does not declare it",
                    procedure.id
                );
                let help = format!(
                    "add `\"{hazard}\"` to `hazards`, and `[](hazard:{hazard})` at the step where it can hurt"
                );
                sink.push(Finding::new(&RULE, span, message, help));
            }
        }
    }
}

/// Every hazard that a procedure carries, whence, and where in its file.
fn inherited<'a>(subject: &'a Subject<'_>, procedure: &'a Procedure) -> Vec<(&'a HazardId, String, Span)> {
    let mut all = Vec::new();
    for piece in &procedure.body {
        let Piece::Link { link, span, .. } = piece else { continue };
        if let Link::Hazard(hazard) = link {
            all.push((hazard, "its own step".to_owned(), *span));
        }
        let entry = link.entry().and_then(|(of, _)| subject.model.entries.get(of));
        all.extend(
            entry
                .into_iter()
                .flat_map(|entry| entry.hazards.iter().map(|one| (one, format!("`{}`", entry.id), *span))),
        );
    }
    for need in &procedure.needs {
        let Need::Gauge(id) = need else { continue };
        let gauge = subject.model.gauges.get(id);
        all.extend(gauge.into_iter().flat_map(|gauge| {
            gauge.hazards.iter().map(|one| (one, format!("the gauge `{id}`"), procedure.span))
        }));
    }
    all
}
