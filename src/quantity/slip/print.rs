//! How likely a manual is to print two forms just so: the habits of printed numbers.
//!
//! Common practice, no source: numbers of one form have as many decimals as each other, the two
//! forms are about as fine as each other, and the maker's own numbers are round.

use num_traits::One;

use super::super::exact::power_of_ten;
use super::super::{Exact, Number, Shape, Value};
use super::odds::Odds;

/// How many times finer one form may be than the other before it is odd.
const AS_FINE: u32 = 6;

/// `odds`, less what is odd about printing these two forms.
pub(super) fn weighed(odds: Odds, primary: &Value, secondary: &Value) -> Odds {
    let odds = as_fine(evenly(weighed_alone(odds, primary), secondary), primary, secondary);
    // A further form in the same unit says nothing new.
    if primary.unit() == secondary.unit() { odds.times((1, 10)) } else { odds }
}

/// `odds`, less what is odd about printing this one form.
pub(super) fn weighed_alone(odds: Odds, value: &Value) -> Odds {
    value.shape().numbers().into_iter().fold(evenly(odds, value), |odds, one| odds.times(roundness(one)))
}

/// One form by itself: `0.20 ± 0.050 mm` and `345..345 kPa` are odd, and so is `13.0 N·m`.
fn evenly(odds: Odds, value: &Value) -> Odds {
    let numbers = value.shape().numbers_in_unit();
    let mut decimals: Vec<u32> = numbers.iter().map(|one| one.decimals()).collect();
    decimals.sort_unstable();
    decimals.dedup();
    let odds = if decimals.len() > 1 { odds.times((1, 20)) } else { odds };
    match (value.shape(), numbers.as_slice()) {
        (Shape::Range { min, max }, _) if min.exact() == max.exact() => odds.times((1, 50)),
        // The upper limit is seldom several times the lower.
        (Shape::Range { min, max }, _) if *max.exact() > min.exact() * power_of_ten(1) => odds.times((1, 30)),
        (Shape::Range { min, max }, _) if *max.exact() > min.exact() * Exact::from_integer(4.into()) => {
            odds.times((1, 6))
        }
        (_, [only]) if only.decimals() > 0 && only.text().ends_with('0') => odds.times((1, 3)),
        _ => odds,
    }
}

/// Makers choose round numbers; what is converted falls as it falls.
fn roundness(number: &Number) -> (u64, u64) {
    match number.text().chars().last() {
        Some('0') => (20, 10),
        Some('5') => (12, 10),
        Some('2' | '4' | '6' | '8') => (9, 10),
        _ => (7, 10),
    }
}

/// The finest digits of two forms of one value weigh about the same.
fn as_fine(odds: Odds, primary: &Value, secondary: &Value) -> Odds {
    let ratio = primary.ulp() * primary.unit().ratio_to(secondary.unit()) / secondary.ulp();
    let times = if ratio < Exact::one() { ratio.recip() } else { ratio };
    let Ok(times) = u64::try_from(times.to_integer()) else { return odds.times((1, u64::MAX)) };
    if times <= u64::from(AS_FINE) { odds } else { odds.times((u64::from(AS_FINE), times)) }
}
