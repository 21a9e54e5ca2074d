//! Printed numbers by kind and size, so that a number typed in any unit meets those it may equal.
//!
//! A bucket holds what begins with one digit at one power of ten, in SI. A number lies in every
//! bucket that its last digit's half step either way reaches, the printed and the typed one alike: two
//! that agree strictly in either direction then share a bucket.

use std::collections::BTreeMap;

use num_traits::{Signed, Zero};

use crate::model::Statement;
use crate::quantity::{Exact, Grade, Value, exponent_not_above, grade, power_of_ten};

/// Bucket → unit → number → build and thing of each statement that prints it.
pub type Buckets = BTreeMap<String, BTreeMap<String, BTreeMap<String, Vec<(usize, usize)>>>>;

/// Takes the numbers of statements into their buckets.
#[derive(Default)]
pub(super) struct Collector(Buckets);

impl Collector {
    /// Every nominal value and limit that a statement prints.
    pub(super) fn take(&mut self, statement: &Statement, build: usize, thing: usize) {
        for printed in statement.form.printed() {
            let unit = printed.value.unit();
            for number in numbers(&printed.value) {
                let Ok(value) = Value::parse(&unit.after(&number)) else { continue };
                for bucket in buckets(&value).into_iter().flatten() {
                    let units = self.0.entry(bucket).or_default();
                    let held = units.entry(unit.symbol().to_owned()).or_default();
                    let pairs = held.entry(number.clone()).or_default();
                    if pairs.last() != Some(&(build, thing)) {
                        pairs.push((build, thing));
                    }
                }
            }
        }
    }

    pub(super) fn into_buckets(self) -> Buckets {
        self.0
    }
}

/// The nominal value and the limits, each with its printed decimals.
fn numbers(value: &Value) -> Vec<String> {
    let mut all: Vec<String> =
        [value.min(), value.max()].into_iter().flatten().map(|limit| limit.text).collect();
    if value.nominal().is_some() {
        all.extend(value.numbers().first().map(|number| number.text().to_owned()));
    }
    all.sort();
    all.dedup();
    all
}

/// The buckets of a single value; `None` where it may be zero and so may agree with any small number.
pub(super) fn buckets(value: &Value) -> Option<Vec<String>> {
    let unit = value.unit();
    let exact = value.min()?.exact;
    let half = value.ulp() / Exact::from_integer(2.into());
    let kind = unit.kind().name();
    let [low, high] = [&exact - &half, &exact + &half].map(|end| unit.to_si(&end));
    if !low.is_positive() && !high.is_negative() {
        return None;
    }
    let (sign, low, high) = if low.is_positive() { ("", low, high) } else { ("-", high.abs(), low.abs()) };
    let last = step(&high);
    let mut at = step(&low);
    let mut all = Vec::new();
    while at <= last {
        all.push(format!("{kind}{sign}{}e{}", at.1, at.0));
        at = if at.1 == 9 { (at.0 + 1, 1) } else { (at.0, at.1 + 1) };
    }
    Some(all)
}

/// Power of ten and first digit of a positive number.
fn step(value: &Exact) -> (i32, i32) {
    let exponent = exponent_not_above(value);
    let first = (value / power_of_ten(exponent)).to_integer();
    (exponent, i32::try_from(first).unwrap_or(9))
}

/// Whether a typed and a printed number agree strictly in either direction.
pub(super) fn agree(typed: &Value, printed: &Value) -> bool {
    let strict = |one, other| grade(one, other) == Some(Grade::Strict);
    strict(typed, printed) || strict(printed, typed)
}

/// True if a number may be zero: it is held against every number of its kind.
pub(super) fn may_be_zero(value: &Value) -> bool {
    value.min().is_some_and(|limit| limit.exact.is_zero()) || buckets(value).is_none()
}
