//! One part of a value on its way from one unit to another.

use std::ops::Range;

use num_traits::{One, Signed, Zero};

use super::super::exact::{decimal_text, exponent_not_above, terminating_decimals};
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

/// One part compared, before anything is written down.
pub(super) struct Comparison {
    pub(super) name: PartName,
    pub(super) grade: Grade,
    pub(super) printed: Option<String>,
    /// What is due, and the decimals that the secondary prints.
    pub(super) due: Option<(Exact, u32)>,
    pub(super) range: Range<usize>,
}

impl From<Comparison> for Part {
    fn from(found: Comparison) -> Self {
        let Comparison { name, grade, printed, due, range } = found;
        let expected = due.map(|(exact, decimals)| to_enough_digits(&exact, decimals));
        Self { name, grade, printed, expected, range }
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

/// How amounts go from the primary's unit to the secondary's: times a ratio, plus a shift.
pub(super) struct Passage {
    ratio: Exact,
    shift: Exact,
}

impl Passage {
    /// Values, with the offset of their scales.
    pub(super) fn of_values(from: Unit, to: Unit) -> Self {
        let shift = to.from_si(&from.to_si(&Exact::zero()));
        Self { ratio: from.ratio_to(to), shift }
    }

    /// The same for differences of values, which know no offset.
    pub(super) fn of_differences(&self) -> Self {
        Self { ratio: self.ratio.clone(), shift: Exact::zero() }
    }

    /// Percentages, which are the same in any unit.
    pub(super) fn of_percentages() -> Self {
        Self { ratio: Exact::one(), shift: Exact::zero() }
    }

    /// `value` in the secondary's unit.
    pub(super) fn exact(&self, value: &Exact) -> Exact {
        value * &self.ratio + &self.shift
    }

    /// The grade of one number, and the primary in the secondary's unit.
    ///
    /// Intervals that only touch do not overlap: 12 mm is not 1.3 cm.
    pub(super) fn compare(&self, primary: &Amount, secondary: &Amount) -> (Grade, Exact) {
        let expected = self.exact(&primary.exact);
        if round_to(&expected, &secondary.ulp, Rounding::HalfEven) == secondary.exact {
            return (Grade::Strict, expected);
        }
        let reach = (&primary.ulp * &self.ratio + &secondary.ulp) / Exact::from_integer(2.into());
        let loose = (&expected - &secondary.exact).abs() < reach;
        (if loose { Grade::Loose } else { Grade::Conflict }, expected)
    }
}
