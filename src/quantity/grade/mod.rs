//! How well two printed forms of one value agree.
//!
//! *Strict*: the primary, converted and rounded half to even to the secondary's digits, equals it.
//! *Loose*: only the half-digit intervals overlap. *Conflict*: neither. The way back from the
//! secondary is no test: 18 lbf·ft is 24 N·m, though 25 N·m (18 lbf·ft) is rightly stated.

mod part;

use std::mem::discriminant;
use std::ops::Range;

use super::exact::{decimal_text, exponent_not_above, terminating_decimals};
use super::{Exact, Limit, Number, Shape, Value};
use num_traits::Signed;
use part::{Amount, Passage};
pub use part::{Part, PartName};

/// How two printed forms agree; the greater is the worse.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum Grade {
    /// Rounded to the secondary's digits the primary is the secondary.
    Strict,
    /// Both may be roundings of one value.
    Loose,
    /// They cannot be the same value.
    Conflict,
}

/// How `secondary` agrees with `primary`; `None` where neither converts into the other.
#[must_use]
pub fn grade(primary: &Value, secondary: &Value) -> Option<Grade> {
    parts(primary, secondary)?.into_iter().map(|part| part.grade).max()
}

/// The part that agrees worst, unless all agree strictly.
#[must_use]
pub fn disagreement(primary: &Value, secondary: &Value) -> Option<Part> {
    let parts = parts(primary, secondary)?;
    let worst = parts.iter().map(|part| part.grade).max()?;
    parts.into_iter().find(|part| part.grade == worst && worst != Grade::Strict)
}

/// Every part compared; `None` where neither converts into the other.
///
/// Two values of one shape are compared number by number, others limit by limit.
#[must_use]
pub fn parts(primary: &Value, secondary: &Value) -> Option<Vec<Part>> {
    let (from, to) = (primary.unit(), secondary.unit());
    if !from.converts_to(to) {
        return None;
    }
    if discriminant(primary.shape()) == discriminant(secondary.shape()) {
        return Some(by_number(primary, secondary));
    }
    let sides = [(PartName::Minimum, Value::min as Side), (PartName::Maximum, Value::max)];
    Some(
        sides
            .into_iter()
            .filter_map(|(name, side)| limit_part(name, primary, secondary, side))
            .collect(),
    )
}

/// One side of what a value allows.
type Side = fn(&Value) -> Option<Limit>;

/// The parts of two values of one shape.
fn by_number(primary: &Value, secondary: &Value) -> Vec<Part> {
    let pairs = named(primary.shape()).into_iter().zip(named(secondary.shape()));
    pairs
        .map(|((name, number, _), (_, printed, place))| {
            let range = secondary.number_ranges().get(place).cloned().unwrap_or_default();
            let passage = Passage::of(name, primary.unit(), secondary.unit());
            let (grade, expected) = passage.compare(&number.into(), &printed.into());
            let expected = Some(to_enough_digits(&expected, printed.decimals()));
            Part { name, grade, printed: Some(printed.text().to_owned()), expected, range }
        })
        .collect()
}

/// The numbers of a shape, what each is, and its place among the printed ones.
fn named(shape: &Shape) -> Vec<(PartName, &Number, usize)> {
    match shape {
        Shape::Single(number) | Shape::Turn(number) => vec![(PartName::Value, number, 0)],
        Shape::Min(number) | Shape::Over(number) => vec![(PartName::Minimum, number, 0)],
        Shape::Max(number) | Shape::Under(number) => vec![(PartName::Maximum, number, 0)],
        Shape::Range { min, max } => vec![(PartName::Minimum, min, 0), (PartName::Maximum, max, 1)],
        Shape::Tolerance { nominal, plus, minus } => {
            let place = if plus == minus { 1 } else { 2 };
            vec![
                (PartName::Nominal, nominal, 0),
                (PartName::Plus, plus, 1),
                (PartName::Minus, minus, place),
            ]
        }
        Shape::PercentTolerance { nominal, percent } => {
            vec![(PartName::Nominal, nominal, 0), (PartName::Percent, percent, 1)]
        }
    }
}

/// One limit of two values of different shapes; `None` where neither has it.
fn limit_part(name: PartName, primary: &Value, secondary: &Value, side: Side) -> Option<Part> {
    let passage = Passage::of(name, primary.unit(), secondary.unit());
    let wanted = side(primary).map(|limit| (Amount::of_limit(primary, &limit), limit.inclusive));
    let printed = side(secondary);
    let grade = match (&wanted, &printed) {
        (None, None) => return None,
        (Some((wanted, inclusive)), Some(limit)) => {
            let grade = passage.compare(wanted, &Amount::of_limit(secondary, limit)).0;
            // `under 35 °C` and `max 95 °F` differ in the limit itself alone.
            if *inclusive == limit.inclusive { grade } else { grade.max(Grade::Loose) }
        }
        _ => Grade::Conflict,
    };
    let expected = wanted
        .map(|(amount, _)| to_enough_digits(&passage.exact(&amount.exact), secondary.decimals()));
    let range = limit_range(name, secondary);
    Some(Part { name, grade, printed: printed.map(|limit| limit.text), expected, range })
}

/// Where a limit of `value` stands: the number itself, or all that it is worked out from.
fn limit_range(name: PartName, value: &Value) -> Range<usize> {
    let ranges = value.number_ranges();
    match (value.shape(), name, ranges) {
        (Shape::Range { .. }, PartName::Minimum, [min, ..]) => min.clone(),
        (Shape::Range { .. }, _, [.., max]) => max.clone(),
        _ => {
            let start = ranges.iter().map(|range| range.start).min().unwrap_or_default();
            start..ranges.iter().map(|range| range.end).max().unwrap_or_default()
        }
    }
}

/// `value` to three decimals more than `decimals` and at least four figures, or exactly if shorter.
fn to_enough_digits(value: &Exact, decimals: u32) -> String {
    let lead = exponent_not_above(&value.abs());
    let figures = u32::try_from(3 - lead).unwrap_or_default();
    let wanted = (decimals + 3).max(figures);
    let needed = terminating_decimals(value).unwrap_or(wanted);
    decimal_text(value, wanted.min(needed))
}
