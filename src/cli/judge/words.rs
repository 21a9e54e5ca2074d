//! The verdict for people: what, by how much, against what, and what would settle it.

use num_traits::Signed as _;

use crate::compute::judge::{Against, Beyond, Judged, Measured, Side, Verdict};
use crate::model::StopSide;
use crate::quantity::{Exact, Rounding, exact_text, power_of_ten, round_to};

/// The most decimals of a number that is shown as it is.
const MOST_DECIMALS: i32 = 6;

/// Whether a machine so measured must not be run: out of its limits on that side. The fit of new parts says nothing of
/// that: a part that is in use may lie outside it.
pub(super) fn must_stop(judged: &Judged, side: StopSide) -> bool {
    let out = judged.answer.verdict == Verdict::OutOfSpec && judged.answer.against != Against::New;
    out && match (side, judged.beyond) {
        (StopSide::Either, _) => true,
        (StopSide::Below, beyond) => beyond == Some(Side::Below),
        (StopSide::Above, beyond) => beyond == Some(Side::Above),
    }
}

/// One line or more; `scope` is the place and state that the limits are stated for.
pub(super) fn told(judged: &Judged, scope: &[String], must_stop: bool) -> String {
    let answer = &judged.answer;
    let because = answer.because.as_deref();
    let mut lines = vec![match (answer.verdict, because) {
        (Verdict::CannotJudge, Some(because)) => format!("cannot judge: {because}"),
        (verdict, _) => format!("{}{}", verdict.word(), how_far(judged)),
    }];
    if must_stop {
        lines.push("DO NOT RUN the machine until this is put right".to_owned());
    }
    let scope = if scope.is_empty() { String::new() } else { format!(" ({})", scope.join(", ")) };
    lines.push(format!("  {} against {}{scope}", seen(&judged.seen), limits(judged)));
    if answer.verdict != Verdict::CannotJudge {
        lines.extend(because.map(|because| format!("  {because}")));
    }
    if answer.verdict == Verdict::TooClose && answer.as_read != Verdict::TooClose {
        lines.push(format!("  as read: {}", answer.as_read.word()));
    }
    lines.extend(answer.settle.iter().map(|settle| format!("  {settle}")));
    lines.join("\n") + "\n"
}

/// `: loose by 0.004 in`, `: perhaps tight`, `, 0.12 mm from the wear limit`.
fn how_far(judged: &Judged) -> String {
    let answer = &judged.answer;
    match (&answer.direction, &answer.by, &answer.left) {
        (Some(direction), Some(by), _) => format!(": {direction} by {}", distance(by)),
        (Some(direction), None, _) => format!(": perhaps {direction}"),
        _ if on_the_limit(judged) => ", on the limit".to_owned(),
        (None, None, Some(left)) => format!(", {} from the wear limit", distance(left)),
        _ => String::new(),
    }
}

/// True for a reading in spec that is a limit itself, to the last digit.
fn on_the_limit(judged: &Judged) -> bool {
    let Measured::Reading(reading) = &judged.seen else { return false };
    let value = reading.exact_in(judged.limit.unit());
    let ends = [judged.limit.min(), judged.limit.max()];
    judged.answer.verdict == Verdict::InSpec && ends.into_iter().flatten().any(|limit| limit.exact == value)
}

fn limits(judged: &Judged) -> String {
    let which = match judged.answer.against {
        Against::Window => "the window",
        Against::New => "the fit of new parts,",
        Against::WearLimit => "the wear limit,",
    };
    format!("{which} {}", judged.limit)
}

/// A number whose unit was not typed says in which it was taken.
fn seen(measured: &Measured) -> String {
    let one = |reading: &crate::compute::Reading| {
        let taken = if reading.assumed { format!(" (taken in {})", reading.unit) } else { String::new() };
        format!("{}{taken}", reading.text)
    };
    match measured {
        Measured::Reading(reading) => one(reading),
        Measured::Between(goes, stops) => format!("{} goes and {} stops,", one(goes), one(stops)),
        Measured::Goes(goes) => format!("{} goes,", one(goes)),
        Measured::Stops(stops) => format!("{} stops,", one(stops)),
    }
}

fn distance(by: &Beyond) -> String {
    match (&by.min, &by.max) {
        (Some(min), Some(max)) if min == max => by.unit.after(&plain(min)),
        (Some(min), Some(max)) => by.unit.after(&format!("{}..{}", plain(min), plain(max))),
        (Some(min), None) => format!("{} or more", by.unit.after(&plain(min))),
        (None, Some(max)) => format!("{} or less", by.unit.after(&plain(max))),
        (None, None) => "an unknown amount".to_owned(),
    }
}

/// A number to be read: whole, or to four significant digits.
fn plain(exact: &Exact) -> String {
    if round_to(exact, &power_of_ten(-MOST_DECIMALS), Rounding::Down) == *exact {
        return exact_text(exact);
    }
    let mut step = power_of_ten(0);
    while step.clone() * power_of_ten(3) > exact.abs() {
        step /= power_of_ten(1);
    }
    exact_text(&round_to(exact, &step, Rounding::HalfEven))
}
