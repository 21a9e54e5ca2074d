//! `hazard-not-declared`: whoever opens the sheet must see what can hurt before the first step.

use std::collections::BTreeSet;

use crate::check::Subject;
use crate::check::left_out::misnames;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{HazardId, Link, Model, Need, Piece, Procedure};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "hazard_not_declared",
    "hazard-not-declared",
    Error,
    Procedure,
    "a procedure inherits a hazard that it does not declare"
);

/// Hazards of linked entries, of the gauges that readings are taken with and of those needed, against those a
/// procedure declares.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        // A hazard that is misspelt is declared, and not under its name.
        if misnames(procedure.span.file, sink) {
            continue;
        }
        let mut said: BTreeSet<&HazardId> = procedure.hazards.iter().collect();
        for Inherited { hazard, from, span } in inherited(subject.model, procedure) {
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

/// A hazard that a procedure carries, whence, and where in its file.
struct Inherited<'m> {
    hazard: &'m HazardId,
    from: String,
    span: Span,
}

/// Every hazard of a procedure: those of its links in their order, then those of what it needs.
fn inherited<'m>(model: &'m Model, procedure: &'m Procedure) -> Vec<Inherited<'m>> {
    let links = procedure.body.iter().filter_map(|piece| match piece {
        Piece::Link { link, span, .. } => Some((link, *span)),
        Piece::Markup { .. } => None,
    });
    let needed = procedure.needs.iter().filter_map(|need| match need {
        Need::Gauge(id) => model.gauges.get(id),
        Need::Words(_) => None,
    });
    let of_links = links.flat_map(|(link, span)| of_link(model, link, span));
    let of_needs =
        needed.flat_map(|gauge| each(&gauge.hazards, format!("the gauge `{}`", gauge.id), procedure.span));
    of_links.chain(of_needs).collect()
}

/// A caution brings itself, a link to an entry the entry's hazards, a reading those of its usual gauge too: the sheet
/// offers that gauge for it.
fn of_link<'m>(model: &'m Model, link: &'m Link, span: Span) -> Vec<Inherited<'m>> {
    if let Link::Hazard(hazard) = link {
        return vec![Inherited { hazard, from: "its own step".to_owned(), span }];
    }
    let Some(entry) = link.entry().and_then(|(of, _)| model.entries.get(of)) else { return Vec::new() };
    let gauge = entry.gauge.as_ref().filter(|_| matches!(link, Link::Reading { .. }));
    let gauge = gauge.and_then(|id| model.gauges.get(id));
    let of_gauge = gauge.map(|gauge| {
        each(&gauge.hazards, format!("the gauge `{}` that `{}` is read with", gauge.id, entry.id), span)
    });
    each(&entry.hazards, format!("`{}`", entry.id), span).chain(of_gauge.into_iter().flatten()).collect()
}

fn each(hazards: &[HazardId], from: String, span: Span) -> impl Iterator<Item = Inherited<'_>> {
    hazards.iter().map(move |hazard| Inherited { hazard, from: from.clone(), span })
}
