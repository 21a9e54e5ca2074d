//! Exact numbers: how a rational is rounded and written.
//!
//! Nothing stored or shown goes through floating point, so the same input gives the same digits on
//! every machine and in the browser.

use num_bigint::BigInt;
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::{One, Pow, Signed, Zero};

/// An exact number.
pub type Exact = BigRational;

/// Which way a number is rounded to a step.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Rounding {
    /// To the nearer multiple; half-way to the even one (ASME A112.18.1/CSA B125.1 Annex A).
    HalfEven,
    /// Towards +∞: how a minimum is rounded, so that the shown limit stays inside the real one.
    Up,
    /// Towards −∞: how a maximum is rounded, for the same reason.
    Down,
}

/// Ten to the power `exponent`.
#[must_use]
pub fn power_of_ten(exponent: i32) -> Exact {
    let power: BigInt = Pow::pow(BigInt::from(10), exponent.unsigned_abs());
    if exponent < 0 { Exact::new(BigInt::one(), power) } else { Exact::from_integer(power) }
}

/// The largest exponent whose power of ten is not above `value`; 0 unless `value` is positive.
pub fn exponent_not_above(value: &Exact) -> i32 {
    if !value.is_positive() {
        return 0;
    }
    let mut exponent = 0;
    let mut power = Exact::one();
    let ten = power_of_ten(1);
    while &power > value {
        power /= &ten;
        exponent -= 1;
    }
    while &power * &ten <= *value {
        power *= &ten;
        exponent += 1;
    }
    exponent
}

/// `value` rounded to a multiple of `step`, in one step. A `step` of zero leaves it as it is.
#[must_use]
pub fn round_to(value: &Exact, step: &Exact, rounding: Rounding) -> Exact {
    if step.is_zero() {
        return value.clone();
    }
    let steps = value / step;
    let whole = match rounding {
        Rounding::Up => steps.ceil(),
        Rounding::Down => steps.floor(),
        Rounding::HalfEven => half_even(&steps),
    };
    whole * step
}

fn half_even(value: &Exact) -> Exact {
    let below = value.floor();
    let above = &below + Exact::one();
    let (to_below, to_above) = (value - &below, &above - value);
    if to_below < to_above || (to_below == to_above && below.numer().is_even()) { below } else { above }
}

/// `value` rounded half to even and written with exactly `decimals` decimals.
#[must_use]
pub fn decimal_text(value: &Exact, decimals: u32) -> String {
    let scale = Exact::from_integer(Pow::pow(BigInt::from(10), decimals));
    let scaled = half_even(&(value * scale)).to_integer();
    let sign = if scaled.is_negative() { "-" } else { "" };
    let width = usize::try_from(decimals).unwrap_or(usize::MAX).saturating_add(1);
    let digits = scaled.abs().to_string();
    let padded = format!("{}{digits}", "0".repeat(width.saturating_sub(digits.len())));
    let (whole, part) = padded.split_at((padded.len() + 1).saturating_sub(width));
    if part.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{part}") }
}

/// How many decimals write `value` exactly; `None` where no number of them does.
pub(super) fn terminating_decimals(value: &Exact) -> Option<u32> {
    let mut rest = value.denom().clone();
    let twos = divide_out(&mut rest, 2);
    let fives = divide_out(&mut rest, 5);
    rest.is_one().then_some(twos.max(fives))
}

fn divide_out(rest: &mut BigInt, factor: u32) -> u32 {
    let factor = BigInt::from(factor);
    let mut count = 0;
    while !rest.is_zero() {
        let (quotient, remainder) = rest.div_rem(&factor);
        if !remainder.is_zero() {
            break;
        }
        *rest = quotient;
        count += 1;
    }
    count
}

/// `value` as a terminating decimal with no needless zeros, else as a fraction `n/d`.
///
/// This is the form of every computed number in JSON; Python's `Fraction()` reads both.
#[must_use]
pub fn exact_text(value: &Exact) -> String {
    match terminating_decimals(value) {
        Some(decimals) => decimal_text(value, decimals),
        None => format!("{}/{}", value.numer(), value.denom()),
    }
}

/// The longest text taken for an exact number, in bytes.
const LONGEST: usize = 400;

/// Reads what [`exact_text`] writes; `None` for anything else, or beyond 400 bytes.
#[must_use]
pub fn parse_exact(text: &str) -> Option<Exact> {
    let short = Some(text).filter(|text| text.len() <= LONGEST)?;
    match short.strip_prefix('-') {
        Some(rest) => unsigned(rest).map(|value| -value),
        None => unsigned(short),
    }
}

fn unsigned(text: &str) -> Option<Exact> {
    if let Some((numerator, denominator)) = text.split_once('/') {
        let denominator = integer(denominator).filter(|number| !number.is_zero())?;
        return Some(Exact::new(integer(numerator)?, denominator));
    }
    let Some((whole, part)) = text.split_once('.') else {
        return integer(text).map(Exact::from_integer);
    };
    let (whole, part_value) = (integer(whole)?, integer(part)?);
    let scale: BigInt = Pow::pow(BigInt::from(10), part.len());
    Some(Exact::new(whole * &scale + part_value, scale))
}

/// A whole number written in ASCII digits alone.
pub(super) fn integer(text: &str) -> Option<BigInt> {
    let digits = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    digits.then(|| text.parse().ok()).flatten()
}

/// `value` written exactly, with at least `decimals` decimals; as a fraction where none suffice.
pub(super) fn text_at_least(value: &Exact, decimals: u32) -> String {
    match terminating_decimals(value) {
        Some(needed) => decimal_text(value, needed.max(decimals)),
        None => exact_text(value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact(text: &str) -> Exact {
        parse_exact(text).unwrap_or_else(|| panic!("{text}"))
    }

    #[test]
    fn exact_numbers_are_written_as_python_reads_them() {
        for (text, written) in [
            ("0.250", "0.25"),
            ("100", "100"),
            ("2/4", "0.5"),
            ("-1/3", "-1/3"),
            ("-0", "0"),
            ("7/64", "0.109375"),
        ] {
            assert_eq!(exact_text(&exact(text)), written);
        }
        for text in ["", "-", ".5", "5.", "1.2.3", "1/0", "1/-2", "--1", "1e3", "+1", "1/2/3", " 1"] {
            assert_eq!(parse_exact(text), None, "{text:?}");
        }
        assert_eq!(parse_exact(&"1".repeat(401)), None);
    }

    #[test]
    fn the_step_is_the_largest_power_of_ten_not_above() {
        for (text, exponent) in [
            ("1", 0),
            ("9.99", 0),
            ("10", 1),
            ("0.1", -1),
            ("0.0999", -2),
            ("1234.5", 3),
            ("0", 0),
            ("-5", 0),
        ] {
            assert_eq!(exponent_not_above(&exact(text)), exponent, "{text}");
        }
    }

    #[test]
    fn a_limit_keeps_its_decimals_or_gains_what_it_needs() {
        assert_eq!(text_at_least(&exact("0.2"), 2), "0.20");
        assert_eq!(text_at_least(&exact("2.205"), 2), "2.205");
        assert_eq!(text_at_least(&exact("1/3"), 2), "1/3");
        assert_eq!(decimal_text(&exact("-0.05"), 2), "-0.05");
        assert_eq!(round_to(&exact("5"), &Exact::zero(), Rounding::Up), exact("5"));
    }
}
