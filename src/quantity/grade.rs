//! How well two printed forms of one value agree.
//!
//! *Strict*: the primary, converted and rounded half to even to the secondary's digits, equals it.
//! *Loose*: only the half-digit intervals overlap. *Conflict*: neither. The way back from the
//! secondary is no test: 18 lbf·ft is 24 N·m, though 25 N·m (18 lbf·ft) is rightly stated.

use std::ops::Range;

use num_traits::Signed;

use super::exact::{decimal_text, exponent_not_above, power_of_ten, terminating_decimals};
use super::{Exact, Limit, Number, Rounding, Shape, Unit, Value, round_to};

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

/// Which part of a value a number is.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum PartName {
    /// The one number of a single value or a turn.
    Value,
    /// The middle number of a tolerance.
    Nominal,
    /// How far above the nominal value.
    Plus,
    /// How far below it.
    Minus,
    /// The tolerance in per cent.
    Percent,
    /// The lower limit.
    Minimum,
    /// The upper limit.
    Maximum,
}

/// One part of two forms, compared.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Part {
    /// Which part it is.
    pub name: PartName,
    /// How it agrees.
    pub grade: Grade,
    /// What the secondary says, `None` where it has no such limit.
    pub printed: Option<String>,
    /// What it should say, to more digits than it prints; `None` where it should have no such limit.
    pub expected: Option<String>,
    /// Where the secondary says it, in the bytes it was read from.
    pub range: Range<usize>,
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
    if !primary.unit().converts_to(secondary.unit()) {
        return None;
    }
    Some(by_number(primary, secondary).unwrap_or_else(|| by_limit(primary, secondary)))
}

/// A number with the digits it is known to.
struct Amount {
    exact: Exact,
    ulp: Exact,
    decimals: u32,
}

impl From<&Number> for Amount {
    fn from(number: &Number) -> Self {
        Self {
            exact: number.exact().clone(),
            ulp: number.ulp().clone(),
            decimals: number.decimals(),
        }
    }
}

/// How an amount goes from the primary's unit to the secondary's.
#[derive(Clone, Copy)]
enum Passage {
    /// As a value, with the offset of its scale.
    Value(Unit, Unit),
    /// As a difference, without it.
    Difference(Unit, Unit),
    /// As it is: percentages.
    Same,
}

impl Passage {
    fn exact(self, value: &Exact) -> Exact {
        match self {
            Self::Value(from, to) => to.from_si(&from.to_si(value)),
            Self::Difference(..) | Self::Same => self.distance(value),
        }
    }

    fn distance(self, value: &Exact) -> Exact {
        match self {
            Self::Value(from, to) | Self::Difference(from, to) => {
                value * from.factor() / to.factor()
            }
            Self::Same => value.clone(),
        }
    }

    /// The grade of one number, and the primary in the secondary's unit.
    fn compare(self, primary: &Amount, secondary: &Amount) -> (Grade, Exact) {
        let expected = self.exact(&primary.exact);
        let two = power_of_ten(0) + power_of_ten(0);
        let reach = (self.distance(&primary.ulp) + &secondary.ulp) / two;
        let grade = if round_to(&expected, &secondary.ulp, Rounding::HalfEven) == secondary.exact {
            Grade::Strict
        } else if (&expected - &secondary.exact).abs() < reach {
            Grade::Loose
        } else {
            Grade::Conflict
        };
        (grade, expected)
    }
}

/// The parts of two values of one shape; `None` where the shapes differ.
fn by_number(primary: &Value, secondary: &Value) -> Option<Vec<Part>> {
    let value = Passage::Value(primary.unit(), secondary.unit());
    let difference = Passage::Difference(primary.unit(), secondary.unit());
    let rows: Vec<(PartName, Passage, &Number, &Number, usize)> =
        match (primary.shape(), secondary.shape()) {
            (Shape::Single(a), Shape::Single(b)) | (Shape::Turn(a), Shape::Turn(b)) => {
                vec![(PartName::Value, value, a, b, 0)]
            }
            (Shape::Min(a), Shape::Min(b)) | (Shape::Over(a), Shape::Over(b)) => {
                vec![(PartName::Minimum, value, a, b, 0)]
            }
            (Shape::Max(a), Shape::Max(b)) | (Shape::Under(a), Shape::Under(b)) => {
                vec![(PartName::Maximum, value, a, b, 0)]
            }
            (Shape::Range { min: a, max: b }, Shape::Range { min: c, max: d }) => {
                vec![(PartName::Minimum, value, a, c, 0), (PartName::Maximum, value, b, d, 1)]
            }
            (
                Shape::Tolerance { nominal: a, plus: b, minus: c },
                Shape::Tolerance { nominal: d, plus: e, minus: f },
            ) => vec![
                (PartName::Nominal, value, a, d, 0),
                (PartName::Plus, difference, b, e, 1),
                (PartName::Minus, difference, c, f, if e == f { 1 } else { 2 }),
            ],
            (
                Shape::PercentTolerance { nominal: a, percent: b },
                Shape::PercentTolerance { nominal: c, percent: d },
            ) => vec![
                (PartName::Nominal, value, a, c, 0),
                (PartName::Percent, Passage::Same, b, d, 1),
            ],
            _ => return None,
        };
    let part = |(name, passage, a, b, place): (PartName, Passage, &Number, &Number, usize)| {
        let range = secondary.number_ranges().get(place).cloned().unwrap_or_default();
        part_of(name, passage, &a.into(), &b.into(), b.text().to_owned(), range)
    };
    Some(rows.into_iter().map(part).collect())
}

/// The limits of two values of different shapes.
fn by_limit(primary: &Value, secondary: &Value) -> Vec<Part> {
    [
        limit_part(PartName::Minimum, primary, secondary, Value::min),
        limit_part(PartName::Maximum, primary, secondary, Value::max),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn limit_part(
    name: PartName,
    primary: &Value,
    secondary: &Value,
    of: fn(&Value) -> Option<Limit>,
) -> Option<Part> {
    let passage = Passage::Value(primary.unit(), secondary.unit());
    let range = limit_range(name, secondary);
    let amount = |value: &Value, limit: &Limit| Amount {
        exact: limit.exact.clone(),
        ulp: value.ulp(),
        decimals: value.decimals(),
    };
    match (of(primary), of(secondary)) {
        (None, None) => None,
        (Some(a), Some(b)) => {
            let mut part =
                part_of(name, passage, &amount(primary, &a), &amount(secondary, &b), b.text, range);
            if a.inclusive != b.inclusive {
                part.grade = part.grade.max(Grade::Loose);
            }
            Some(part)
        }
        (Some(a), None) => {
            let expected = Some(to_enough_digits(&passage.exact(&a.exact), secondary.decimals()));
            Some(Part { name, grade: Grade::Conflict, printed: None, expected, range })
        }
        (None, Some(b)) => Some(Part {
            name,
            grade: Grade::Conflict,
            printed: Some(b.text),
            expected: None,
            range,
        }),
    }
}

/// Where a limit of `value` stands: the number itself, or all that it is worked out from.
fn limit_range(name: PartName, value: &Value) -> Range<usize> {
    let ranges = value.number_ranges();
    let first = ranges.first().cloned().unwrap_or_default();
    let last = ranges.last().cloned().unwrap_or_default();
    match (value.shape(), name) {
        (Shape::Range { .. }, PartName::Minimum) => first,
        (Shape::Range { .. }, _) => last,
        _ => first.start..last.end,
    }
}

fn part_of(
    name: PartName,
    passage: Passage,
    primary: &Amount,
    secondary: &Amount,
    printed: String,
    range: Range<usize>,
) -> Part {
    let (grade, expected) = passage.compare(primary, secondary);
    let expected = Some(to_enough_digits(&expected, secondary.decimals));
    Part { name, grade, printed: Some(printed), expected, range }
}

/// `value` to three decimals more than `decimals` and at least four figures, or exactly if shorter.
fn to_enough_digits(value: &Exact, decimals: u32) -> String {
    let lead = exponent_not_above(&value.abs());
    let figures = u32::try_from(3 - lead).unwrap_or_default();
    let wanted = (decimals + 3).max(figures);
    let needed = terminating_decimals(value).unwrap_or(wanted);
    decimal_text(value, wanted.min(needed))
}

impl PartName {
    /// The word for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Value => "value",
            Self::Nominal => "nominal value",
            Self::Plus => "plus tolerance",
            Self::Minus => "minus tolerance",
            Self::Percent => "tolerance in per cent",
            Self::Minimum => "minimum",
            Self::Maximum => "maximum",
        }
    }
}
