//! The shapes a printed value can have.

use super::super::Number;

/// How a value is printed; every number is in the value's unit, percentages apart.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum Shape {
    /// `20 N·m`
    Single(Number),
    /// `0.20 ± 0.05 mm`, `20 +2/-1 mm`; the minus part is given without its sign.
    Tolerance {
        /// The value aimed at.
        nominal: Number,
        /// How far above it is allowed.
        plus: Number,
        /// How far below it is allowed.
        minus: Number,
    },
    /// `2.45 kΩ ± 10 %`
    PercentTolerance {
        /// The value aimed at.
        nominal: Number,
        /// How far either side is allowed, in per cent of the nominal value.
        percent: Number,
    },
    /// `0.15..0.25 mm`, both ends allowed.
    Range {
        /// The lower end.
        min: Number,
        /// The upper end.
        max: Number,
    },
    /// `min 9.6 V`, the limit allowed.
    Min(Number),
    /// `max 0.10 mm`, the limit allowed.
    Max(Number),
    /// `over 80 °C`, the limit not allowed.
    Over(Number),
    /// `under 35 °C`, the limit not allowed.
    Under(Number),
    /// `+90°`: to be turned further by this much.
    Turn(Number),
}

impl Shape {
    /// Every printed number, in order; an equal plus and minus is printed once.
    #[must_use]
    pub fn numbers(&self) -> Vec<&Number> {
        match self {
            Self::Single(number)
            | Self::Min(number)
            | Self::Max(number)
            | Self::Over(number)
            | Self::Under(number)
            | Self::Turn(number) => vec![number],
            Self::Tolerance { nominal, plus, minus } if plus == minus => vec![nominal, plus],
            Self::Tolerance { nominal, plus, minus } => vec![nominal, plus, minus],
            Self::PercentTolerance { nominal, percent } => vec![nominal, percent],
            Self::Range { min, max } => vec![min, max],
        }
    }

    /// The printed numbers that are in the value's unit: all but a percentage.
    pub(in super::super) fn numbers_in_unit(&self) -> Vec<&Number> {
        match self {
            Self::PercentTolerance { nominal, .. } => vec![nominal],
            _ => self.numbers(),
        }
    }

    /// The same shape with another number at a place of [`Shape::numbers`].
    #[must_use]
    pub(in super::super) fn with_number(&self, place: usize, number: &Number) -> Self {
        let mut shape = self.clone();
        match (&mut shape, place) {
            (
                Self::Single(one)
                | Self::Min(one)
                | Self::Max(one)
                | Self::Over(one)
                | Self::Under(one)
                | Self::Turn(one)
                | Self::Tolerance { nominal: one, .. }
                | Self::PercentTolerance { nominal: one, .. }
                | Self::Range { min: one, .. },
                0,
            )
            | (Self::PercentTolerance { percent: one, .. } | Self::Range { max: one, .. }, 1)
            | (Self::Tolerance { minus: one, .. }, 2) => *one = number.clone(),
            (Self::Tolerance { plus, minus, .. }, 1) => {
                if plus == minus {
                    *minus = number.clone();
                }
                *plus = number.clone();
            }
            _ => {}
        }
        shape
    }

    /// Its number, where it has just one.
    pub(in super::super) const fn lone(&self) -> Option<&Number> {
        match self {
            Self::Single(one) | Self::Min(one) | Self::Max(one) | Self::Over(one) | Self::Under(one) => {
                Some(one)
            }
            _ => None,
        }
    }

    /// The same shape with another number, where it has just one.
    pub(in super::super) fn lone_with(&self, number: &Number) -> Option<Self> {
        self.lone().map(|_| self.with_number(0, number))
    }
}
