//! One part of a value on its way from one unit to another.

use std::ops::Range;

use num_traits::Signed;

use super::super::{Exact, Limit, Number, Rounding, Unit, Value, round_to};
use super::Grade;

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

/// A number with the digit it is known to.
pub(super) struct Amount {
    pub(super) exact: Exact,
    ulp: Exact,
}

impl Amount {
    /// A limit is known to the finest digit printed in its value.
    pub(super) fn of_limit(value: &Value, limit: &Limit) -> Self {
        Self { exact: limit.exact.clone(), ulp: value.ulp() }
    }
}

impl From<&Number> for Amount {
    fn from(number: &Number) -> Self {
        Self { exact: number.exact().clone(), ulp: number.ulp().clone() }
    }
}

/// How an amount goes from the primary's unit to the secondary's.
#[derive(Clone, Copy)]
pub(super) enum Passage {
    /// As a value, with the offset of its scale.
    Value(Unit, Unit),
    /// As a difference, without it.
    Difference(Unit, Unit),
    /// As it is: percentages.
    Same,
}

impl Passage {
    pub(super) const fn of(name: PartName, from: Unit, to: Unit) -> Self {
        match name {
            PartName::Value | PartName::Nominal | PartName::Minimum | PartName::Maximum => {
                Self::Value(from, to)
            }
            PartName::Plus | PartName::Minus => Self::Difference(from, to),
            PartName::Percent => Self::Same,
        }
    }

    /// `value` in the secondary's unit.
    pub(super) fn exact(self, value: &Exact) -> Exact {
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
    ///
    /// Intervals that only touch do not overlap: 12 mm is not 1.3 cm.
    pub(super) fn compare(self, primary: &Amount, secondary: &Amount) -> (Grade, Exact) {
        let expected = self.exact(&primary.exact);
        let reach = (self.distance(&primary.ulp) + &secondary.ulp) / Exact::from_integer(2.into());
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
