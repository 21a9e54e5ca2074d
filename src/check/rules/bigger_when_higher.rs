//! `bigger-when-higher`: thin air wants smaller jets and lighter weights; a table that goes the other way has rows swapped.

use std::collections::BTreeMap;

use crate::check::Subject;
use crate::check::table::{Row, tables};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Entry, Selection};
use crate::quantity::{Exact, Kind, Value};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "bigger_when_higher",
    "bigger-when-higher",
    Warning,
    Physics,
    "a jet or a clutch weight gets bigger as altitude rises"
);

/// Every table of jets or weights by altitude (common practice, no source).
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for (statement, entry, selection, rows) in tables(subject) {
        let Some(column) = altitude(entry, selection) else { continue };
        let mut alike: BTreeMap<Vec<&str>, Vec<(Exact, Exact, &Row<'_>)>> = BTreeMap::new();
        for row in &rows {
            let others =
                row.inputs.iter().enumerate().filter(|(at, _)| *at != column).map(|(_, one)| one.as_str());
            let height = row.inputs.get(column).and_then(|cell| height(cell));
            if let (Some(height), Some(size)) = (height, row.number()) {
                alike.entry(others.collect()).or_default().push((height, size, row));
            }
        }
        for (_, mut run) in alike {
            run.sort_by(|one, other| one.0.cmp(&other.0));
            for pair in run.windows(2) {
                let [(_, low, below), (_, high, above)] = pair else { continue };
                if high > low {
                    let (here, there) = (above.inputs.join(", "), below.inputs.join(", "));
                    let message = format!(
                        "`{}` at {here} is bigger than `{}` at {there}: jets and weights get smaller with height (common practice, no source)",
                        above.part, below.part
                    );
                    let help = "look whether two rows of the page were swapped";
                    let finding = Finding::new(&RULE, above.span, message, help)
                        .with(below.span, "the one lower down is here");
                    sink.push(finding.about(statement.span));
                }
            }
        }
    }
}

/// The column of the altitude, in a table of jets or of masses.
fn altitude(entry: &Entry, selection: &Selection) -> Option<usize> {
    let meant = entry.id.as_str().starts_with("jet.") || entry.kind == Some(Kind::Mass);
    selection.by.iter().position(|name| {
        meant && ["altitude", "height", "elevation"].iter().any(|word| name.to_lowercase().contains(word))
    })
}

/// The lower end of a span of heights.
fn height(cell: &str) -> Option<Exact> {
    let value = Value::parse(cell).ok().filter(|value| value.unit().kind() == Kind::Length)?;
    let end = value.min().or_else(|| value.max())?;
    Some(value.unit().to_si(&end.exact))
}
