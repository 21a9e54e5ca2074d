//! `access-in-a-circle`: nothing in the circle could ever be opened.

use std::collections::BTreeSet;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Access;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "access_in_a_circle",
    "access-in-a-circle",
    Error,
    Complaint,
    "an access step needs itself, by way of others"
);

/// Every access step of every complaint: following what it needs must not lead back to it.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for complaint in subject.model.complaints.values() {
        for step in &complaint.access {
            if let Some(way) = way_back(&complaint.access, step) {
                let way: Vec<_> = way.iter().map(|id| format!("`{id}`")).collect();
                let message = format!(
                    "the access step `{}` needs itself: it needs {}",
                    step.id,
                    way.join(", which needs ")
                );
                sink.push(Finding::new(&RULE, step.span, message, "take one `needs` of the circle out"));
                break;
            }
        }
    }
}

/// The ids on the way from a step back to itself, those behind it and then its own.
fn way_back(all: &[Access], start: &Access) -> Option<Vec<String>> {
    let mut ways = vec![vec![start]];
    let mut seen = BTreeSet::new();
    while let Some(way) = ways.pop() {
        let last = way.last()?;
        for next in all.iter().filter(|step| last.needs.contains(&step.id)) {
            if next.id == start.id {
                return Some(way.iter().skip(1).chain([&start]).map(|step| step.id.clone()).collect());
            }
            if seen.insert(&next.id) {
                ways.push(way.iter().copied().chain([next]).collect());
            }
        }
    }
    None
}
