//! `table-out-of-step`: sizes are made in equal steps, and follow their marks; one that does not is a slipped digit.

use std::collections::BTreeMap;

use crate::check::Subject;
use crate::check::table::{Row, tables};
use crate::diag::{Finding, Rule, Sink};
use crate::model::Statement;
use crate::quantity::{Exact, Kind, Value, exact_text};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "table_out_of_step",
    "table-out-of-step",
    Warning,
    Physics,
    "a table of sizes has a size out of step or out of order"
);

/// Every table of lengths with four sizes or more.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for (statement, entry, _, rows) in tables(subject) {
        if entry.kind != Some(Kind::Length) {
            continue;
        }
        let sizes: Vec<(Exact, Value, &Row<'_>)> =
            rows.iter().filter_map(|row| Some((row.number()?, row.value()?, row))).collect();
        if sizes.len() == rows.len() && sizes.len() >= 4 {
            let found = out_of_step(&sizes).or_else(|| out_of_order(&sizes));
            found.into_iter().for_each(|finding| sink.push(at(finding, statement)));
        }
    }
}

fn at(finding: Finding, statement: &Statement) -> Finding {
    finding.about(statement.span)
}

type Size<'a> = (Exact, Value, &'a Row<'a>);

/// A size that is no whole number of the usual steps from its neighbours. Sizes rounded from a finer step may be one unit
/// of the last digit apart more or less.
fn out_of_step(sizes: &[Size<'_>]) -> Option<Finding> {
    let mut sorted: Vec<&Size<'_>> = sizes.iter().collect();
    sorted.sort_by(|one, other| one.0.cmp(&other.0));
    sorted.dedup_by(|one, other| one.0 == other.0);
    let steps: Vec<Exact> =
        sorted.windows(2).filter_map(|pair| Some(&pair.get(1)?.0 - &pair.first()?.0)).collect();
    let ulp = sorted.iter().map(|(_, value, _)| value.unit().factor() * value.ulp()).min()?;
    if steps.iter().max()? - steps.iter().min()? <= ulp {
        return None;
    }
    let usual = commonest(&steps)?;
    let broken: Vec<bool> = steps.iter().map(|step| !(step / &usual).is_integer()).collect();
    let first = broken.iter().position(|one| *one)?;
    // The odd size has a broken step on either side; the first and the last size have one side only.
    let both = (0..sorted.len()).find(|at| {
        let before = at.checked_sub(1).and_then(|at| broken.get(at)).copied().unwrap_or(true);
        before && broken.get(*at).copied().unwrap_or(true)
    });
    let (_, value, row) = sorted.get(both.unwrap_or(first))?;
    let step = value.unit().after(&exact_text(&(usual / value.unit().factor())));
    let message = format!("`{}` is out of step: the sizes of this table are {step} apart", row.part);
    Some(Finding::new(&RULE, row.span, message, "look at this row of the page again"))
}

fn commonest(steps: &[Exact]) -> Option<Exact> {
    let mut counts: BTreeMap<&Exact, usize> = BTreeMap::new();
    steps.iter().for_each(|step| *counts.entry(step).or_default() += 1);
    let most = counts.values().max().copied()?;
    counts.into_iter().find(|(_, count)| *count == most).map(|(step, _)| step.clone())
}

/// A row whose size goes the other way than the rows before it that differ in one mark alone.
fn out_of_order(sizes: &[Size<'_>]) -> Option<Finding> {
    let inputs = sizes.first()?.2.inputs.len();
    for input in 0..inputs {
        let mut runs: BTreeMap<Vec<&str>, Vec<&Size<'_>>> = BTreeMap::new();
        for size in sizes {
            let others =
                size.2.inputs.iter().enumerate().filter(|(at, _)| *at != input).map(|(_, one)| one.as_str());
            runs.entry(others.collect()).or_default().push(size);
        }
        let rises =
            |pair: &&[&Size<'_>]| pair.first().zip(pair.get(1)).is_some_and(|(one, other)| other.0 > one.0);
        let falls =
            |pair: &&[&Size<'_>]| pair.first().zip(pair.get(1)).is_some_and(|(one, other)| other.0 < one.0);
        let count = |way: &dyn Fn(&&[&Size<'_>]) -> bool| {
            runs.values().flat_map(|run| run.windows(2)).filter(|pair| way(pair)).count()
        };
        let (up, down) = (count(&rises), count(&falls));
        let odd: &dyn Fn(&&[&Size<'_>]) -> bool = if up > 2 * down {
            &falls
        } else if down > 2 * up {
            &rises
        } else {
            continue;
        };
        if let Some(pair) = runs.values().flat_map(|run| run.windows(2)).find(|pair| odd(pair)) {
            let (before, after) = (pair.first()?, pair.get(1)?);
            let message = format!("`{}` is out of order: it comes after `{}`", after.2.part, before.2.part);
            let finding =
                Finding::new(&RULE, after.2.span, message, "look whether two rows of the page were swapped");
            return Some(finding.with(before.2.span, "the size before it"));
        }
    }
    None
}
