//! What would settle a close call: a truer gauge, or a further leaf.

use num_traits::{Signed as _, Zero as _};

use super::Measured;
use super::answer::Verdict;
use super::span::{Bounds, Span};
use crate::quantity::{Exact, Limit, Rounding, Unit, exact_text, power_of_ten, round_to};

/// The most decimals of a distance that is shown as it is.
const MOST_DECIMALS: i32 = 6;

/// What would settle a close call, as a sentence's beginning.
pub(super) fn settle(bounds: &Bounds, seen: &Measured, unit: Unit) -> String {
    match seen {
        Measured::Reading(reading) => truer_gauge(bounds, reading.exact_in(unit), unit),
        Measured::Between(goes, stops) => {
            let span = Span::between(goes.exact_in(unit), stops.exact_in(unit));
            let crossed = [
                bounds.min.as_ref().filter(|_| bounds.crosses_min(&span)),
                bounds.max.as_ref().filter(|_| bounds.crosses_max(&span)),
            ];
            let limits: Vec<_> = crossed.into_iter().flatten().map(|limit| unit.after(&limit.text)).collect();
            let limits = limits.join(" or ");
            format!("try the leaves between {} and {}: the limit is {limits}", goes.text, stops.text)
        }
        Measured::Goes(_) => "try thicker leaves until one stops".to_owned(),
        Measured::Stops(_) => "try thinner leaves until one goes".to_owned(),
    }
}

/// How true a gauge would have to be.
fn truer_gauge(bounds: &Bounds, value: Exact, unit: Unit) -> String {
    let distance = |limit: &Option<Limit>| limit.as_ref().map(|limit| (&value - &limit.exact).abs());
    let least = distance(&bounds.min).into_iter().chain(distance(&bounds.max)).min().unwrap_or_default();
    if least.is_zero() {
        return "measure again: the reading lies on the limit itself".to_owned();
    }
    let shown = unit.after(&shown(&least));
    match bounds.verdict(&Span::at(value)) {
        Verdict::InSpec => format!("measure again with a gauge true to {shown} or better"),
        _ => format!("measure again with a gauge true to better than {shown}"),
    }
}

/// A distance with digits to be read, never above the real one.
fn shown(distance: &Exact) -> String {
    if round_to(distance, &power_of_ten(-MOST_DECIMALS), Rounding::Down) == *distance {
        return exact_text(distance);
    }
    let mut step = power_of_ten(0);
    while step.clone() * power_of_ten(1) > *distance {
        step /= power_of_ten(1);
    }
    exact_text(&round_to(distance, &step, Rounding::Down))
}
