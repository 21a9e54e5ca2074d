//! Printed numbers by kind and size, so that a number typed in any unit meets those it may equal.
//!
//! A bucket holds what, rounded to two figures, begins with one digit at one power of ten, in SI. A number lies in
//! every bucket that its last digit's half step either way reaches, the printed and the typed one alike: two that agree
//! strictly in either direction then share a bucket. A typed number of two figures lies in one, as what rounds to it.

use std::collections::BTreeMap;

use num_traits::{Signed, Zero};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::model::Statement;
use crate::quantity::{Exact, Grade, Unit, Value, exponent_not_above, grade, power_of_ten};

/// Bucket → unit → number → who prints it.
pub type Buckets = BTreeMap<String, BTreeMap<String, BTreeMap<String, Printing>>>;

/// Who prints a number: pairs of a thing and one of its rows.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema, Serialize)]
pub struct Printing {
    /// As the value aimed at.
    pub aimed: Vec<(usize, usize)>,
    /// As a limit.
    pub limits: Vec<(usize, usize)>,
}

/// Unit, number with its printed decimals, whether it is the value aimed at.
pub(super) type PrintedNumber = (&'static str, String, bool);

/// Every nominal value and limit that a statement prints.
pub(super) fn printed(statement: &Statement) -> Vec<PrintedNumber> {
    let mut all = Vec::new();
    for value in statement.form.printed().into_iter().map(|one| &one.value) {
        let unit = value.unit().symbol();
        let nominal = value.nominal().and_then(|_| value.numbers().first().map(|one| one.text().to_owned()));
        let limits = [value.min(), value.max()].into_iter().flatten().map(|limit| limit.text);
        let limits = limits.filter(|text| nominal.as_ref() != Some(text));
        all.extend(limits.map(|text| (unit, text, false)));
        all.extend(nominal.iter().map(|text| (unit, text.clone(), true)));
    }
    all.sort();
    all.dedup();
    all
}

/// Takes the numbers of a row into their buckets.
pub(super) fn take(numbers: &[PrintedNumber], row: (usize, usize), all: &mut Buckets) {
    for (symbol, number, aimed) in numbers {
        let Ok(unit) = Unit::parse(symbol) else { continue };
        let Ok(value) = Value::parse(&unit.after(number)) else { continue };
        for bucket in buckets(&value, Fineness::Digit).into_iter().flatten() {
            let units = all.entry(bucket).or_default();
            let held = units.entry((*symbol).to_owned()).or_default().entry(number.clone()).or_default();
            let rows = if *aimed { &mut held.aimed } else { &mut held.limits };
            rows.push(row);
        }
    }
}

/// How finely numbers are told apart.
#[derive(Clone, Copy)]
pub(super) enum Fineness {
    /// By the first of two figures: `2e-4`.
    Digit,
    /// By both: `23e-4`, where the exponent is still that of the first.
    Two,
}

/// The buckets of a single value; `None` where it may be zero and so may agree with any small number.
pub(super) fn buckets(value: &Value, fineness: Fineness) -> Option<Vec<String>> {
    let [low, high] = ends(value)?;
    between(value.unit().kind().name(), low, &high, fineness)
}

/// The same by the figures that the value has in a unit of its kind, as one may type it without: `26e-2`.
pub(super) fn figures(value: &Value, unit: Unit, fineness: Fineness) -> Option<Vec<String>> {
    let [low, high] = ends(value)?.map(|end| unit.from_si(&end));
    between("", low, &high, fineness)
}

/// What a value may be, in SI: half of its last digit's step either way.
fn ends(value: &Value) -> Option<[Exact; 2]> {
    let exact = value.min()?.exact;
    let half = value.ulp() / Exact::from_integer(2.into());
    Some([&exact - &half, &exact + &half].map(|end| value.unit().to_si(&end)))
}

fn between(kind: &str, low: Exact, high: &Exact, fineness: Fineness) -> Option<Vec<String>> {
    if !low.is_positive() && !high.is_negative() {
        return None;
    }
    let (sign, low, end) = if low.is_positive() {
        // Half a step above is the next number's.
        ("", low, step(high, fineness, |figures| (figures - half()).ceil()))
    } else {
        ("-", high.abs(), step(&low.abs(), fineness, rounded))
    };
    let mut at = step(&low, fineness, rounded);
    let (from, to) = match fineness {
        Fineness::Digit => (1, 9),
        Fineness::Two => (10, 99),
    };
    let mut all = Vec::new();
    while at <= end {
        all.push(format!("{kind}{sign}{}e{}", at.1, at.0));
        at = if at.1 == to { (at.0 + 1, from) } else { (at.0, at.1 + 1) };
    }
    Some(all)
}

fn half() -> Exact {
    Exact::new(1.into(), 2.into())
}

fn rounded(figures: &Exact) -> Exact {
    (figures + half()).floor()
}

/// Power of ten and first digits of a positive number that is rounded to two figures.
fn step(value: &Exact, fineness: Fineness, rounded: impl Fn(&Exact) -> Exact) -> (i32, i32) {
    let exponent = exponent_not_above(value);
    let figures = rounded(&(value / power_of_ten(exponent - 1))).to_integer();
    let (exponent, figures) = match i32::try_from(figures).unwrap_or(99) {
        100.. => (exponent + 1, 10),
        figures => (exponent, figures),
    };
    match fineness {
        Fineness::Digit => (exponent, figures / 10),
        Fineness::Two => (exponent, figures),
    }
}

/// Whether a typed and a printed number agree strictly in either direction.
pub(super) fn agree(typed: &Value, printed: &Value) -> bool {
    let strict = |one, other| grade(one, other) == Some(Grade::Strict);
    strict(typed, printed) || strict(printed, typed)
}

/// True if a number may be zero: it is held against every number of its kind.
pub(super) fn may_be_zero(value: &Value) -> bool {
    value.min().is_some_and(|limit| limit.exact.is_zero()) || buckets(value, Fineness::Digit).is_none()
}
