//! Two readings of one page that differ: what happened between them, and which is likelier right.

use super::super::{Exact, Grade, Value, grade};
use super::guess::{miswritten, other_shape, other_unit};
use super::odds::Odds;
use super::{Witness, print};

/// How two readings of one printed form differ.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Difference {
    /// What happened, as `digits were swapped`; `None` where nothing simple turns one into the other.
    pub what: Option<String>,
    /// Whether the second reading is the likelier one.
    pub second_is_likelier: bool,
    /// What tells, if anything does.
    pub because: Option<String>,
}

/// How `second` differs from `first`, and which of them the rest speaks for: `beside` are the other printed
/// forms that both readings share, with whether each comes before this form.
#[must_use]
pub fn readings_differ(
    first: &Value,
    second: &Value,
    beside: &[(&Value, bool)],
    witnesses: &[Witness<'_>],
) -> Difference {
    let agreed = |value: &Value| beside.iter().find(|(other, before)| contradicts(value, other, *before));
    let (odds_first, odds_second) = (weight(first, beside, witnesses), weight(second, beside, witnesses));
    // A zero at the end is lost more often than one is made up.
    let second_is_likelier = if ends(first) == ends(second) {
        second.decimals() > first.decimals()
    } else {
        odds_second > odds_first
    };
    let (right, wrong) = if second_is_likelier { (second, first) } else { (first, second) };
    let because = match (agreed(right), agreed(wrong)) {
        (None, Some((other, _))) => Some(format!("{other} beside it agrees with {right}, not with {wrong}")),
        _ => witnesses.iter().find_map(|one| one.because((right, right), (wrong, wrong))),
    };
    Difference { what: happened(right, wrong), second_is_likelier, because }
}

fn contradicts(value: &Value, other: &Value, before: bool) -> bool {
    let grade = if before { grade(other, value) } else { grade(value, other) };
    grade == Some(Grade::Conflict)
}

fn weight(value: &Value, beside: &[(&Value, bool)], witnesses: &[Witness<'_>]) -> Odds {
    let odds = print::weighed_alone(Odds::of(1, 1), value);
    let conflicts = beside.iter().filter(|(other, before)| contradicts(value, other, *before)).count();
    let odds = (0..conflicts).fold(odds, |odds, _| odds.times((1, 1000)));
    witnesses.iter().fold(odds, |odds, one| odds.times(one.weighs(value, value)))
}

/// What turned the right value into the wrong one.
fn happened(right: &Value, wrong: &Value) -> Option<String> {
    let same = |one: &Value| {
        ends(one) == ends(right) && one.shape().numbers().len() == right.shape().numbers().len()
    };
    let all = miswritten(wrong).into_iter().chain(other_unit(wrong)).chain(other_shape(wrong, right));
    let exactly = all.filter(|meant| meant.value == *right || same(&meant.value));
    exactly
        .max_by(|one, other| one.odds.cmp(&other.odds).then_with(|| other.happened.cmp(&one.happened)))
        .map(|one| one.happened)
}

fn ends(value: &Value) -> [Option<Exact>; 2] {
    [value.min(), value.max()].map(|end| end.map(|end| value.unit().to_si(&end.exact)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn value(text: &str) -> Value {
        Value::parse(text).unwrap()
    }

    #[test]
    fn the_other_printed_form_tells_which_reading_is_right() {
        let (low, high, inches) = (value("0.20 mm"), value("0.02 mm"), value("0.008 in"));
        let found = readings_differ(&high, &low, &[(&inches, false)], &[]);
        assert!(found.second_is_likelier);
        assert_eq!(
            found.because.as_deref(),
            Some("0.008 in beside it agrees with 0.20 mm, not with 0.02 mm")
        );
        let span = value("0.03..0.45 mm");
        let found = readings_differ(&low, &high, &[], &[Witness::Plausible(&span)]);
        assert!(!found.second_is_likelier);
    }

    #[test]
    fn what_happened_between_two_readings_is_named() {
        for (right, wrong, span, what) in [
            ("1.2 mm", "12 mm", "1..2 mm", "the decimal point moved"),
            ("0.28 mm", "0.23 mm", "0.25..0.30 mm", "8 was read as 3"),
            ("12 N·m", "12 lbf·ft", "10..15 N·m", "N·m was meant"),
            ("0.42 mm", "0.24 mm", "0.40..0.50 mm", "digits were swapped"),
            ("0.20 mm", "0.2 mm", "0.1..0.3 mm", "a digit is missing"),
        ] {
            let (right, wrong, span) = (value(right), value(wrong), value(span));
            let found = readings_differ(&wrong, &right, &[], &[Witness::Plausible(&span)]);
            assert_eq!(
                (found.second_is_likelier, found.what.as_deref()),
                (true, Some(what)),
                "{right}, {wrong}"
            );
        }
    }
}
