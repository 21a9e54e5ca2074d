//! `unknown-place`: a value for a place that nothing asks for is never found.

use crate::check::Subject;
use crate::diag::nearest;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Entry;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "unknown_place",
    "unknown-place",
    Error,
    Reference,
    "a statement names a place its entry does not have"
);

/// Every word of `where`, against the axes of the entry.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        for (axis, place) in &statement.identity.place {
            let Some((axis_span, place_span)) = statement.words_at(axis) else { continue };
            let found = match entry.axes.get(axis) {
                None => Some(no_axis(entry, axis, axis_span)),
                Some(places) if !places.contains(place) => {
                    Some(no_place(entry, axis, place, places, place_span))
                }
                Some(_) => None,
            };
            if let Some(finding) = found {
                sink.push(finding.with(entry.span, "the entry is defined here").about(statement.span));
            }
        }
    }
}

fn no_axis(entry: &Entry, axis: &str, span: Span) -> Finding {
    let known: Vec<_> = entry.axes.keys().map(String::as_str).collect();
    let help = match (nearest(axis, known.iter().copied()), known.is_empty()) {
        (Some(near), _) => format!("did you mean `{near}`?"),
        (None, true) => {
            "it has no axes: leave `where` out, or give the entry axes in the catalogue".to_owned()
        }
        (None, false) => format!("its axes are `{}`", known.join("`, `")),
    };
    Finding::new(&RULE, span, format!("`{}` is not told apart by `{axis}`", entry.id), help)
}

fn no_place(entry: &Entry, axis: &str, place: &str, places: &[String], span: Span) -> Finding {
    let known = places.iter().map(String::as_str);
    let help = nearest(place, known).map_or_else(
        || format!("it has `{}`", places.join("`, `")),
        |near| format!("did you mean `{near}`?"),
    );
    Finding::new(&RULE, span, format!("`{}` has no {axis} `{place}`", entry.id), help)
}
