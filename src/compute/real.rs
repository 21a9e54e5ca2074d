//! Functions whose values are no fractions, worked out in whole numbers to 40 decimals and kept to 24, so that
//! this machine, another, and the browser (`site/compute/real.js`, the same steps) give the same digits.
//!
//! Invariant: no floating point; a value that is a fraction, such as the cosine of 60°, comes out as it.

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{One, Pow, Signed, Zero};

use crate::quantity::{Exact, Rounding, parse_exact, power_of_ten, round_to};

/// Decimals worked with.
const WORKED: u32 = 40;
/// Decimals kept.
const KEPT: i32 = 24;
/// How far the exponential function is taken either side of 0.
const FURTHEST: u32 = 200;
/// Halvings that find an angle to all the decimals worked with.
const HALVINGS: usize = 145;

/// A number, and whether it was rounded on the way.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Real {
    /// The number.
    pub value: Exact,
    /// True if it is not the very number, but right to 24 decimals or more.
    pub rough: bool,
}

impl Real {
    /// A number that was not rounded.
    pub const fn exact(value: Exact) -> Self {
        Self { value, rough: false }
    }

    fn rough(value: &Exact) -> Self {
        Self { value: round_to(value, &power_of_ten(-KEPT), Rounding::HalfEven), rough: true }
    }
}

fn one() -> BigInt {
    Pow::pow(BigInt::from(10), WORKED)
}

/// `value` in units of the last decimal worked with, rounded down.
fn fixed(value: &Exact) -> BigInt {
    (value.numer() * one()).div_floor(value.denom())
}

fn from_fixed(value: BigInt) -> Exact {
    Exact::new(value, one())
}

/// π, rounded at its 51st decimal.
pub fn pi() -> Real {
    let digits = parse_exact("3.141592653589793238462643383279502884197169399375106").unwrap_or_default();
    Real { value: digits, rough: true }
}

/// The square root; none below zero.
pub fn sqrt(of: &Exact) -> Option<Real> {
    if of.is_negative() {
        return None;
    }
    let (above, below) = (of.numer().sqrt(), of.denom().sqrt());
    if &above * &above == *of.numer() && &below * &below == *of.denom() {
        return Some(Real::exact(Exact::new(above, below)));
    }
    let squared = (of.numer() * one() * one()).div_floor(of.denom());
    Some(Real::rough(&from_fixed(squared.sqrt())))
}

/// The natural logarithm; none at or below zero.
pub fn ln(of: &Exact) -> Option<Real> {
    if !of.is_positive() {
        return None;
    }
    if of.is_one() {
        return Some(Real::exact(Exact::zero()));
    }
    let (mut rest, mut doublings) = (of.clone(), 0);
    let two = Exact::from_integer(2.into());
    while rest >= two {
        rest /= &two;
        doublings += 1;
    }
    while rest < Exact::one() {
        rest *= &two;
        doublings -= 1;
    }
    Some(Real::rough(&from_fixed(ln_fixed(&fixed(&rest)) + ln_2() * doublings)))
}

fn ln_2() -> BigInt {
    ln_fixed(&(one() * 2))
}

/// ln m = 2·artanh((m − 1)/(m + 1)), m between 1 and 2.
fn ln_fixed(of: &BigInt) -> BigInt {
    let unit = one();
    let ratio = (of - &unit) * &unit / (of + &unit);
    let (mut term, mut sum, mut place) = (ratio.clone(), BigInt::zero(), 1);
    while !term.is_zero() {
        sum += &term / place;
        term = &term * &ratio / &unit * &ratio / &unit;
        place += 2;
    }
    sum * 2
}

/// The exponential function; none further than 200 from zero.
pub fn exp(of: &Exact) -> Option<Real> {
    if of.is_zero() {
        return Some(Real::exact(Exact::one()));
    }
    if of.abs() > Exact::from_integer(FURTHEST.into()) {
        return None;
    }
    let unit = one();
    let (doublings, rest) = fixed(of).div_mod_floor(&ln_2());
    let (mut term, mut sum, mut place) = (unit.clone(), BigInt::zero(), 1);
    while !term.is_zero() {
        sum += &term;
        term = &term * &rest / &unit / place;
        place += 1;
    }
    let power = Pow::pow(Exact::from_integer(2.into()), doublings);
    Some(Real::rough(&(from_fixed(sum) * power)))
}

/// `base` to the power `exponent`; none for a base at or below zero, unless the exponent is a whole number.
pub fn power(base: &Exact, exponent: &Exact) -> Option<Real> {
    if exponent.is_integer() && exponent.abs() <= Exact::from_integer(64.into()) {
        let raised = !(base.is_zero() && exponent.is_negative());
        return raised.then(|| Real::exact(Pow::pow(base.clone(), exponent.to_integer())));
    }
    exp(&(ln(base)?.value * exponent))
}

/// The cosine of an angle in degrees.
pub fn cos(degrees: &Exact) -> Real {
    let whole = Exact::from_integer(360.into());
    let angle = degrees - (degrees / &whole).floor() * &whole;
    for (known, cosine) in KNOWN {
        if angle == Exact::from_integer(known.into()) {
            return Real::exact(Exact::new(cosine.into(), 2.into()));
        }
    }
    Real::rough(&from_fixed(cos_fixed(&fixed(&angle))))
}

/// Twice the cosine, at the angles where it is a fraction (Niven's theorem).
const KNOWN: [(i32, i32); 8] =
    [(0, 2), (60, 1), (90, 0), (120, -1), (180, -2), (240, -1), (270, 0), (300, 1)];

/// The sine of an angle in degrees.
pub fn sin(degrees: &Exact) -> Real {
    cos(&(degrees - Exact::from_integer(90.into())))
}

/// The cosine of degrees, both in units of the last decimal worked with, by its power series.
fn cos_fixed(degrees: &BigInt) -> BigInt {
    let unit = one();
    let angle = degrees * fixed(&pi().value) / (&unit * 180);
    let square = &angle * &angle / &unit;
    let (mut term, mut sum, mut place) = (unit.clone(), BigInt::zero(), 1);
    while !term.is_zero() {
        sum += &term;
        let next: BigInt = &term * &square / &unit;
        term = -next / (place * (place + 1));
        place += 2;
    }
    sum
}

/// The angle in degrees, 0 to 180, of which `cosine` is the cosine; none beyond 1 either side.
pub fn acos(cosine: &Exact) -> Option<Real> {
    if cosine.abs() > Exact::one() {
        return None;
    }
    let known =
        KNOWN.iter().find(|(angle, twice)| *angle <= 180 && *cosine == Exact::new((*twice).into(), 2.into()));
    if let Some((angle, _)) = known {
        return Some(Real::exact(Exact::from_integer((*angle).into())));
    }
    let wanted = fixed(cosine);
    let (mut low, mut high) = (BigInt::zero(), one() * 180);
    for _ in 0..HALVINGS {
        let middle = (&low + &high) / 2;
        if cos_fixed(&middle) > wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(Real::rough(&from_fixed(low)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::decimal_text;

    fn number(text: &str) -> Exact {
        parse_exact(text).unwrap()
    }

    fn text(real: Option<Real>) -> String {
        decimal_text(&real.unwrap().value, 20)
    }

    /// Values of Abramowitz and Stegun, Handbook of Mathematical Functions, tables 1.1 and 4.2 to 4.10
    /// (values from memory, and by Python's `decimal` and `mpmath` in `tests/outside/sums`).
    #[test]
    fn functions_are_right_to_twenty_decimals() {
        assert_eq!(text(sqrt(&number("2"))), "1.41421356237309504880");
        assert_eq!(text(ln(&number("10"))), "2.30258509299404568402");
        assert_eq!(text(ln(&number("0.5"))), "-0.69314718055994530942");
        assert_eq!(text(exp(&number("1"))), "2.71828182845904523536");
        assert_eq!(text(exp(&number("-1"))), "0.36787944117144232160");
        assert_eq!(text(Some(cos(&number("45")))), "0.70710678118654752440");
        assert_eq!(text(Some(sin(&number("10")))), "0.17364817766693034885");
        assert_eq!(text(acos(&number("0.8"))), "36.86989764584402129686");
        assert_eq!(text(power(&number("2"), &number("0.5"))), "1.41421356237309504880");
    }

    #[test]
    fn a_fraction_comes_out_as_it_is() {
        assert_eq!(cos(&number("-300")), Real::exact(number("0.5")));
        assert_eq!(sin(&number("450")), Real::exact(number("1")));
        assert_eq!(sqrt(&number("4/9")), Some(Real::exact(number("2/3"))));
        assert_eq!(power(&number("1/2"), &number("-3")), Some(Real::exact(number("8"))));
        assert_eq!(acos(&number("-0.5")), Some(Real::exact(number("120"))));
    }

    #[test]
    fn what_has_no_value_has_none() {
        for none in [
            sqrt(&number("-1")),
            ln(&number("0")),
            exp(&number("201")),
            acos(&number("1.01")),
            power(&number("0"), &number("-1")),
            power(&number("-2"), &number("0.5")),
        ] {
            assert_eq!(none, None);
        }
    }
}
