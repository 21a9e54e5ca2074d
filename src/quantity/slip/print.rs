//! How likely a manual is to print two forms just so: the habits of printed numbers.
//!
//! Common practice, no source: the maker's own numbers are short and round, numbers of one form have as many
//! decimals as each other, and the two forms are about as fine as each other.

use super::super::exact::power_of_ten;
use super::super::{Exact, Number, Shape, Value};
use super::odds::Odds;

/// Each further digit makes a number so many times less likely than another with a digit less: there are ten
/// times as many of them, and they are rarer.
const LONGER: u64 = 15;
/// So many digits any number has.
const SHORT: usize = 2;

/// `odds`, less what is odd about printing these two forms.
pub(super) fn weighed(odds: Odds, primary: &Value, secondary: &Value) -> Odds {
    let odds = as_fine(evenly(weighed_alone(odds, primary), secondary), primary, secondary);
    // A further form in the same unit says nothing new.
    if primary.unit() == secondary.unit() { odds.times((1, 10)) } else { odds }
}

/// `odds`, less what is odd about printing this one form.
pub(super) fn weighed_alone(odds: Odds, value: &Value) -> Odds {
    value
        .shape()
        .numbers()
        .into_iter()
        .fold(evenly(odds, value), |odds, one| shortly(odds.times(roundness(one)), one))
}

/// One form by itself: `0.20 ± 0.050 mm`, `345..345 kPa` and `0.02..0.35 mm` are odd.
fn evenly(odds: Odds, value: &Value) -> Odds {
    let mut decimals: Vec<u32> = value.shape().numbers_in_unit().iter().map(|one| one.decimals()).collect();
    decimals.sort_unstable();
    decimals.dedup();
    let odds = if decimals.len() > 1 { odds.times((1, 20)) } else { odds };
    let Shape::Range { min, max } = value.shape() else { return odds };
    let wider_than = |times: &Exact| *max.exact() > min.exact() * times;
    if min.exact() == max.exact() {
        odds.times((1, 50))
    } else if wider_than(&power_of_ten(1)) {
        odds.times((1, 30))
    } else if wider_than(&Exact::from_integer(4.into())) {
        odds.times((1, 6))
    } else {
        odds
    }
}

/// Of two numbers that would do, the shorter.
fn shortly(odds: Odds, number: &Number) -> Odds {
    let digits =
        number.text().trim_start_matches(['-', '0', '.']).chars().filter(char::is_ascii_digit).count();
    (SHORT..digits).fold(odds, |odds, _| odds.times((1, LONGER)))
}

/// Makers choose round numbers; what is converted falls as it falls.
fn roundness(number: &Number) -> (u64, u64) {
    match number.text().chars().last() {
        Some('0') => (20, 10),
        Some('5') => (16, 10),
        Some('2' | '4' | '6' | '8') => (10, 10),
        _ => (6, 10),
    }
}

/// The finest digits of two forms of one value weigh about the same; the further form is rather finer than
/// coarser.
fn as_fine(odds: Odds, primary: &Value, secondary: &Value) -> Odds {
    let coarser = secondary.ulp() * secondary.unit().ratio_to(primary.unit()) / primary.ulp();
    let within = |above: i64, below: i64| {
        coarser <= Exact::from_integer(above.into()) && coarser >= Exact::from_integer(below.into()).recip()
    };
    odds.times(match () {
        () if within(4, 4) => (1, 1),
        () if within(1, 12) => (3, 5),
        () if within(6, 1) => (1, 2),
        () if within(12, 1) => (1, 6),
        () => (1, 40),
    })
}
