//! `limits-far-apart`: a window whose ends are ten times apart has a decimal point in the wrong place at one of them.

use super::dual_units_disagree::contradict;
use crate::check::{Subject, witnesses};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Printed, Statement};
use crate::quantity::{Exact, Shape, Value, Witness, likely_slip_alone};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "limits_far_apart",
    "limits-far-apart",
    Warning,
    Physics,
    "one limit of a value is many times the other"
);

/// So many times apart is far for limits with unlike decimals, as `0.020..0.35 mm`.
const UNLIKE: i64 = 10;
/// The same for whole numbers, in which a point can slip without a trace.
const WHOLE: i64 = 20;
/// The same for limits with like decimals: only two places, or two slips, leave them so.
const ALIKE: i64 = 50;

/// Every range above zero; one that is implausible by itself is found elsewhere.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        for (place, forms) in statement.form.alternatives().into_iter().enumerate() {
            let Some(first) = forms.first().filter(|one| are_far_apart(&one.value)) else { continue };
            if !contradict(forms) && !witnesses::implausible(subject, statement, &first.value) {
                let known = witnesses::of(subject, statement, place);
                sink.push(finding(statement, first, &known).about(statement.span));
            }
        }
    }
}

/// A range of which both ends are above zero and far apart: more so where both are printed to the same decimal, since a point
/// that slips in one of them takes a decimal with it, and `0.05..0.60 mm` is an ordinary end float.
fn are_far_apart(value: &Value) -> bool {
    let Shape::Range { min, max } = value.shape() else { return false };
    let times = match (min.decimals(), max.decimals()) {
        (0, 0) => WHOLE,
        (one, other) if one == other => ALIKE,
        _ => UNLIKE,
    };
    min.exact() > &Exact::default() && *max.exact() >= min.exact() * Exact::from_integer(times.into())
}

fn finding(statement: &Statement, printed: &Printed, known: &[Witness<'_>]) -> Finding {
    let message = format!("the limits of {}, `{}`, are far apart", statement.identity, printed.value.text());
    let fits = |meant: &Value| !are_far_apart(meant);
    let help = likely_slip_alone(&printed.value, known, fits).map_or_else(
        || "look at the page again: the decimal point of either limit".to_owned(),
        |slip| {
            format!(
                "look at the page again: probably {}; write `{}` if the page says so",
                slip.what, slip.offer
            )
        },
    );
    Finding::new(&RULE, printed.span, message, help)
}
