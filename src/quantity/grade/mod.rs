//! How well two printed forms of one value agree.
//!
//! *Strict*: the primary, converted and rounded half to even to the secondary's digits, equals it.
//! *Loose*: only the half-digit intervals overlap. *Conflict*: neither. The way back from the
//! secondary is no test: 18 lbf·ft is 24 N·m, though 25 N·m (18 lbf·ft) is rightly stated.

mod part;

use std::mem::discriminant;
use std::ops::Range;

use super::{Limit, Number, Shape, Value};
use part::{Amount, Comparison, Passage};
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
    compared(primary, secondary)?.into_iter().map(|part| part.grade).max()
}

/// The part that agrees worst, unless all agree strictly.
#[must_use]
pub fn disagreement(primary: &Value, secondary: &Value) -> Option<Part> {
    let parts = compared(primary, secondary)?;
    let worst = parts.iter().map(|part| part.grade).max()?;
    parts.into_iter().find(|part| part.grade == worst && worst != Grade::Strict).map(Part::from)
}

/// Every part compared; `None` where neither converts into the other.
///
/// Two values of one shape are compared number by number, others limit by limit.
#[must_use]
pub fn parts(primary: &Value, secondary: &Value) -> Option<Vec<Part>> {
    Some(compared(primary, secondary)?.into_iter().map(Part::from).collect())
}

fn compared(primary: &Value, secondary: &Value) -> Option<Vec<Comparison>> {
    if !primary.unit().converts_to(secondary.unit()) {
        return None;
    }
    if discriminant(primary.shape()) == discriminant(secondary.shape()) {
        return Some(by_number(primary, secondary));
    }
    let sides = [(PartName::Minimum, Value::min as Side), (PartName::Maximum, Value::max)];
    let part = |(name, side)| by_limit(name, primary, secondary, side);
    Some(sides.into_iter().filter_map(part).collect())
}

/// One side of what a value allows.
type Side = fn(&Value) -> Option<Limit>;

/// The parts of two values of one shape.
fn by_number(primary: &Value, secondary: &Value) -> Vec<Comparison> {
    let values = Passage::of_values(primary.unit(), secondary.unit());
    let pairs = named(primary.shape()).into_iter().zip(named(secondary.shape()));
    pairs
        .map(|((name, number, _), (_, printed, place))| {
            let (wanted, stated) = (number.into(), printed.into());
            let (grade, due) = match name {
                PartName::Plus | PartName::Minus => values.of_differences().compare(&wanted, &stated),
                PartName::Percent => Passage::of_percentages().compare(&wanted, &stated),
                _ => values.compare(&wanted, &stated),
            };
            let range = secondary.number_ranges().get(place).cloned().unwrap_or_default();
            let due = Some((due, printed.decimals()));
            Comparison { name, grade, printed: Some(printed.text().to_owned()), due, range }
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
            vec![(PartName::Nominal, nominal, 0), (PartName::Plus, plus, 1), (PartName::Minus, minus, place)]
        }
        Shape::PercentTolerance { nominal, percent } => {
            vec![(PartName::Nominal, nominal, 0), (PartName::Percent, percent, 1)]
        }
    }
}

/// One limit of two values of different shapes; `None` where neither has it.
fn by_limit(name: PartName, primary: &Value, secondary: &Value, side: Side) -> Option<Comparison> {
    let passage = Passage::of_values(primary.unit(), secondary.unit());
    let (wanted, printed) = (side(primary), side(secondary));
    let grade = match (&wanted, &printed) {
        (None, None) => return None,
        (Some(wanted), Some(printed)) => {
            let amounts = (Amount::of_limit(primary, wanted), Amount::of_limit(secondary, printed));
            let grade = passage.compare(&amounts.0, &amounts.1).0;
            // `under 35 °C` and `max 95 °F` differ in the limit itself alone.
            if wanted.inclusive == printed.inclusive { grade } else { grade.max(Grade::Loose) }
        }
        _ => Grade::Conflict,
    };
    let due = wanted.map(|limit| (passage.exact(&limit.exact), secondary.decimals()));
    let range = limit_range(name, secondary);
    Some(Comparison { name, grade, printed: printed.map(|limit| limit.text), due, range })
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
