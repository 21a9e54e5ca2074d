//! One printed value: `0.20 ± 0.05 mm`, `min 9.6 V`, `1/4 in`.
//!
//! Invariant: a value exists only as read from a text, with its digits; [`Value::text`] writes it
//! one way, and reading that again gives the same value.

mod cursor;
mod ending;
mod error;
mod help;
mod parse;
mod respell;
mod shape;

use std::fmt;
use std::ops::Range;

use num_traits::Signed;

use super::exact::{power_of_ten, text_at_least};
use super::{Exact, Number, Unit};
pub use error::{ValueError, ValueProblem};
pub use respell::mending;
pub use shape::Shape;

/// The longest text taken for a value, in bytes.
pub(super) const LONGEST: usize = 200;

/// A value as one manual prints it, in one unit.
///
/// Two values are equal when they are printed alike, wherever their numbers stood.
#[derive(Clone, Debug)]
pub struct Value {
    shape: Shape,
    unit: Unit,
    number_ranges: Vec<Range<usize>>,
    unit_range: Range<usize>,
}

/// One end of what a value allows.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Limit {
    /// The end itself, in the value's unit.
    pub exact: Exact,
    /// Whether the end itself is allowed: false for `under` and `over`.
    pub inclusive: bool,
    /// The end as decimal text with at least the printed decimals: `0.15` for `0.20 ± 0.05 mm`.
    pub text: String,
}

impl Value {
    /// Reads a value in any accepted spelling.
    ///
    /// # Errors
    /// [`ValueError`] with the first thing that is wrong and its bytes.
    pub fn parse(text: &str) -> Result<Self, ValueError> {
        parse::parse(text)
    }

    /// The value written our one way.
    #[must_use]
    pub fn text(&self) -> String {
        let after = |number: &dyn fmt::Display| self.unit.after(&number.to_string());
        match &self.shape {
            Shape::Single(number) => after(number),
            Shape::Tolerance { nominal, plus, minus } if plus == minus => {
                after(&format!("{nominal} ± {plus}"))
            }
            Shape::Tolerance { nominal, plus, minus } => after(&format!("{nominal} +{plus}/-{minus}")),
            Shape::PercentTolerance { nominal, percent } => {
                format!("{} ± {percent} %", after(nominal))
            }
            Shape::Range { min, max } => after(&format!("{min}..{max}")),
            Shape::Min(number) => format!("min {}", after(number)),
            Shape::Max(number) => format!("max {}", after(number)),
            Shape::Over(number) => format!("over {}", after(number)),
            Shape::Under(number) => format!("under {}", after(number)),
            Shape::Turn(number) => format!("+{}", after(number)),
        }
    }

    /// Its shape and numbers.
    #[must_use]
    pub const fn shape(&self) -> &Shape {
        &self.shape
    }

    /// Its unit.
    #[must_use]
    pub const fn unit(&self) -> Unit {
        self.unit
    }

    /// The least it allows; a single value allows itself alone.
    #[must_use]
    pub fn min(&self) -> Option<Limit> {
        match &self.shape {
            Shape::Single(number) | Shape::Turn(number) | Shape::Min(number) => {
                Some(self.limit(number.exact().clone(), true))
            }
            Shape::Range { min, .. } => Some(self.limit(min.exact().clone(), true)),
            Shape::Tolerance { nominal, minus, .. } => {
                Some(self.limit(nominal.exact() - minus.exact(), true))
            }
            Shape::PercentTolerance { nominal, percent } => {
                Some(self.limit(nominal.exact() - share(nominal, percent), true))
            }
            Shape::Over(number) => Some(self.limit(number.exact().clone(), false)),
            Shape::Max(_) | Shape::Under(_) => None,
        }
    }

    /// The most it allows; a single value allows itself alone.
    #[must_use]
    pub fn max(&self) -> Option<Limit> {
        match &self.shape {
            Shape::Single(number) | Shape::Turn(number) | Shape::Max(number) => {
                Some(self.limit(number.exact().clone(), true))
            }
            Shape::Range { max, .. } => Some(self.limit(max.exact().clone(), true)),
            Shape::Tolerance { nominal, plus, .. } => Some(self.limit(nominal.exact() + plus.exact(), true)),
            Shape::PercentTolerance { nominal, percent } => {
                Some(self.limit(nominal.exact() + share(nominal, percent), true))
            }
            Shape::Under(number) => Some(self.limit(number.exact().clone(), false)),
            Shape::Min(_) | Shape::Over(_) => None,
        }
    }

    /// The value aimed at: of a single value itself, of a tolerance its middle number.
    #[must_use]
    pub const fn nominal(&self) -> Option<&Exact> {
        match &self.shape {
            Shape::Single(number) | Shape::Turn(number) => Some(number.exact()),
            Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => {
                Some(nominal.exact())
            }
            _ => None,
        }
    }

    /// Every printed number, in order.
    #[must_use]
    pub fn numbers(&self) -> Vec<&Number> {
        self.shape.numbers()
    }

    /// One unit of the finest digit printed in the value's unit.
    #[must_use]
    pub fn ulp(&self) -> Exact {
        self.shape
            .numbers_in_unit()
            .into_iter()
            .map(Number::ulp)
            .min()
            .cloned()
            .unwrap_or_else(|| power_of_ten(0))
    }

    /// The most decimals printed in the value's unit.
    #[must_use]
    pub fn decimals(&self) -> u32 {
        self.shape.numbers_in_unit().into_iter().map(Number::decimals).max().unwrap_or_default()
    }

    /// Where each of [`Value::numbers`] stands in the text that was read, in bytes.
    #[must_use]
    pub fn number_ranges(&self) -> &[Range<usize>] {
        &self.number_ranges
    }

    /// Where the unit stands in the text that was read, in bytes.
    #[must_use]
    pub fn unit_range(&self) -> Range<usize> {
        self.unit_range.clone()
    }

    /// The same print with another unit: what would have been meant by it.
    pub(super) fn with_unit(&self, unit: Unit) -> Self {
        Self { unit, ..self.clone() }
    }

    /// The same unit with another shape; `None` where it is none that can be printed, as a range that
    /// runs backwards.
    pub(super) fn with_shape(&self, shape: Shape) -> Option<Self> {
        Self::parse(&Self { shape, ..self.clone() }.text()).ok()
    }

    fn limit(&self, exact: Exact, inclusive: bool) -> Limit {
        let text = text_at_least(&exact, self.shown_decimals());
        Limit { exact, inclusive, text }
    }

    /// Decimals of the printed decimal numbers; a fraction asks for none of its own.
    fn shown_decimals(&self) -> u32 {
        let decimal = |number: &&Number| !number.is_fraction();
        self.shape
            .numbers_in_unit()
            .into_iter()
            .filter(decimal)
            .map(Number::decimals)
            .max()
            .unwrap_or_default()
    }
}

/// `percent` of `nominal`, as a distance.
fn share(nominal: &Number, percent: &Number) -> Exact {
    (nominal.exact() * percent.exact() * power_of_ten(-2)).abs()
}

impl PartialEq for Value {
    fn eq(&self, other: &Self) -> bool {
        self.shape == other.shape && self.unit == other.unit
    }
}

impl Eq for Value {}

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text())
    }
}
