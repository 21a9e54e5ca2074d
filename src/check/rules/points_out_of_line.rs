//! `points-out-of-line`: one point of a table that leaps out between its neighbours is a slip of its point or unit.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Point, Printed, Statement};
use crate::quantity::{Exact, Value, likely_slip_alone};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("points_out_of_line", "points-out-of-line", Warning, Physics, "a point of a table leaps out of line with its neighbours");

/// So many times beyond both neighbours, on the same side of them, no curve of a sensor or of timing goes.
const LEAP: i64 = 3;

/// Every table of points: its inputs rise or fall throughout, and no reading leaps out.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Points(points) = &statement.form else { continue };
        if let Some(finding) = turned_back(statement, points).or_else(|| leaping(statement, points)) {
            sink.push(finding.about(statement.span));
        }
    }
}

/// An input that is not beyond the one before it, in the direction of most of the table.
fn turned_back(statement: &Statement, points: &[Point]) -> Option<Finding> {
    let at: Vec<Exact> = points.iter().map(|point| middle(&point.at.value)).collect::<Option<_>>()?;
    let steps = || at.iter().zip(at.iter().skip(1));
    let rising = steps().filter(|(one, next)| next > one).count();
    let falling = steps().filter(|(one, next)| next < one).count();
    let onward = |one: &Exact, next: &Exact| if rising >= falling { next > one } else { next < one };
    let place = steps().position(|(one, next)| !onward(one, next))?;
    // Of two that do not follow each other the odd one out is that without which the rest is in order.
    let without = |left_out: usize| {
        let rest: Vec<_> = at.iter().enumerate().filter(|(at, _)| *at != left_out).map(|(_, one)| one).collect();
        rest.iter().zip(rest.iter().skip(1)).all(|(one, next)| onward(one, next))
    };
    let odd = [place + 1, place].into_iter().find(|left_out| without(*left_out)).unwrap_or(place + 1);
    let before = odd.checked_sub(1).and_then(|at| points.get(at)).map(|point| &point.at);
    let after = points.get(odd + 1).map(|point| &point.at);
    let fits = |meant: &Value| {
        let meant = middle(meant);
        let beyond = |one: Option<&Printed>, before: bool| {
            let other = one.and_then(|one| middle(&one.value));
            other.zip(meant.clone()).is_none_or(|(other, meant)| if before { onward(&other, &meant) } else { onward(&meant, &other) })
        };
        beyond(before, true) && beyond(after, false)
    };
    let printed = &points.get(odd)?.at;
    let message = format!("the table of {} does not go on from point to point at `{}`", statement.identity, printed.value.text());
    Some(finding(printed, message, &fits))
}

/// A reading far beyond both of its neighbours, on the same side; at an end, beyond its one neighbour against
/// the way the rest goes.
fn leaping(statement: &Statement, points: &[Point]) -> Option<Finding> {
    let reads: Vec<Exact> = points.iter().map(|point| middle(&point.reads.value)).collect::<Option<_>>()?;
    if points.len() < 3 || reads.iter().any(|one| *one <= Exact::from_integer(0.into())) {
        return None;
    }
    let odd = (0..reads.len()).find(|place| leaps(&reads, *place))?;
    let printed = &points.get(odd)?.reads;
    let message =
        format!("`{}` leaps out of the table of {}: its neighbours lie on one side, far away", printed.value.text(), statement.identity);
    let fits = |meant: &Value| {
        let Some(meant) = middle(meant) else { return false };
        let mut all = reads.clone();
        if let Some(place) = all.get_mut(odd) {
            *place = meant;
        }
        (0..all.len()).all(|place| !leaps(&all, place)) && in_order(&all) >= in_order(&reads)
    };
    Some(finding(printed, message, &fits))
}

/// How many steps of a table go the way that most of them go.
fn in_order(all: &[Exact]) -> usize {
    let rising = all.iter().zip(all.iter().skip(1)).filter(|(one, next)| next > one).count();
    rising.max(all.len().saturating_sub(1) - rising)
}

fn leaps(all: &[Exact], place: usize) -> bool {
    let far = Exact::from_integer(LEAP.into());
    let (Some(own), before, after) = (all.get(place), place.checked_sub(1).and_then(|at| all.get(at)), all.get(place + 1)) else {
        return false;
    };
    let above = |other: &Exact| *own > other * &far;
    let below = |other: &Exact| own * &far < *other;
    match (before, after) {
        (Some(before), Some(after)) => (above(before) && above(after)) || (below(before) && below(after)),
        (Some(neighbour), None) | (None, Some(neighbour)) => {
            let rest: Vec<_> = all.iter().enumerate().filter(|(at, _)| *at != place).map(|(_, one)| one).collect();
            if rest.len() < 3 {
                return false; // Two points have no way to go.
            }
            let pairs = || rest.iter().zip(rest.iter().skip(1));
            let rising = pairs().all(|(one, next)| next > one);
            let falling = pairs().all(|(one, next)| next < one);
            // At the end of a rising table a leap goes down, at its beginning up; a falling one the other way round.
            let wrong_way_down = (rising && before.is_some()) || (falling && before.is_none());
            let wrong_way_up = (falling && before.is_some()) || (rising && before.is_none());
            (wrong_way_down && below(neighbour)) || (wrong_way_up && above(neighbour))
        }
        (None, None) => false,
    }
}

/// The middle of a value in SI.
fn middle(value: &Value) -> Option<Exact> {
    let si = |end: Option<crate::quantity::Limit>| end.map(|end| value.unit().to_si(&end.exact));
    let (min, max) = (si(value.min())?, si(value.max())?);
    Some((min + max) / Exact::from_integer(2.into()))
}

fn finding(printed: &Printed, message: String, fits: &dyn Fn(&Value) -> bool) -> Finding {
    let help = likely_slip_alone(&printed.value, &[], fits).map_or_else(
        || "look at the page again: the row, the decimal point, the unit".to_owned(),
        |slip| format!("look at the page again: probably {}; write `{}` if the page says so", slip.what, slip.offer),
    );
    Finding::new(&RULE, printed.span, message, help)
}
