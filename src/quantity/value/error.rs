//! What can be wrong with the text of a value, said so that it can be mended.

use std::fmt;
use std::ops::Range;

use super::super::{Unit, UnitError};

/// A text that is no value: what is wrong, and which bytes of it are.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct ValueError {
    /// What is wrong.
    pub problem: ValueProblem,
    /// The bytes of the text that are wrong.
    pub range: Range<usize>,
}

/// The ways a text can fail to be a value; each holds the user's own words.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum ValueProblem {
    /// Nothing but spaces.
    Empty,
    /// No number where one is due.
    NoNumber {
        /// What stands there.
        found: String,
    },
    /// Something like a number, but none.
    Malformed {
        /// The number as typed.
        found: String,
        /// What may have been meant.
        offers: Vec<String>,
    },
    /// A number of more digits than any gauge has.
    TooManyDigits {
        /// The number as typed.
        found: String,
    },
    /// A number without a unit.
    NoUnit {
        /// The number.
        number: String,
    },
    /// A unit that is not in the table.
    UnknownUnit {
        /// The unit as typed.
        found: String,
        /// The unit that may have been meant.
        near: Option<Unit>,
    },
    /// A unit that could mean two things.
    AmbiguousUnit {
        /// The unit as typed.
        found: String,
        /// How to write each of them, and what it is.
        meanings: Vec<(&'static str, &'static str)>,
    },
    /// The unit stands behind both numbers.
    UnitTwice {
        /// How to write it.
        offer: Option<String>,
    },
    /// The first end of a range is above the second.
    RangeReversed {
        /// The first end.
        min: String,
        /// The second end.
        max: String,
    },
    /// A tolerance below zero, or two of the same sign.
    NegativeTolerance {
        /// The tolerance as typed.
        found: String,
    },
    /// A tolerance of the whole value or more.
    PercentTooLarge {
        /// The percentage as typed.
        found: String,
    },
    /// A percentage with a tolerance in per cent: of the value, or percentage points?
    PercentOfPercent {
        /// The nominal value.
        nominal: String,
        /// The tolerance.
        tolerance: String,
    },
    /// More bytes than a value may have.
    TooLong {
        /// How many there are.
        bytes: usize,
    },
    /// Something after the value.
    Trailing {
        /// What stands there.
        found: String,
        /// How the whole may have been meant.
        offer: Option<String>,
    },
}

impl ValueError {
    pub(in super::super) const fn new(problem: ValueProblem, range: Range<usize>) -> Self {
        Self { problem, range }
    }

    /// What is wrong: lower case, no full stop, in the user's own words.
    #[must_use]
    pub fn message(&self) -> String {
        match &self.problem {
            ValueProblem::Empty => "the value is empty".to_owned(),
            ValueProblem::NoNumber { found } if found.is_empty() => "a number is missing".to_owned(),
            ValueProblem::NoNumber { found } => format!("`{found}` stands where a number is due"),
            ValueProblem::Malformed { found, .. } => format!("`{found}` is not a number"),
            ValueProblem::TooManyDigits { found } => format!("`{found}` has too many digits"),
            ValueProblem::NoUnit { number } => format!("`{number}` has no unit"),
            ValueProblem::UnknownUnit { found, near } => UnitError::Unknown { near: *near }.message(found),
            ValueProblem::AmbiguousUnit { found, meanings } => {
                UnitError::Ambiguous { meanings: meanings.clone() }.message(found)
            }
            ValueProblem::UnitTwice { .. } => "the unit stands more than once".to_owned(),
            ValueProblem::RangeReversed { min, max } => {
                format!("the range runs backwards: `{min}` is above `{max}`")
            }
            ValueProblem::NegativeTolerance { found } => {
                format!("`{found}` is a tolerance of the wrong sign")
            }
            ValueProblem::PercentTooLarge { found } => {
                format!("a tolerance of `{found}` per cent is the whole value or more")
            }
            ValueProblem::PercentOfPercent { nominal, tolerance } => {
                format!("`{nominal} % ± {tolerance} %` could mean percentage points or a part of {nominal} %")
            }
            ValueProblem::TooLong { bytes } => format!("the value is {bytes} bytes long"),
            ValueProblem::Trailing { found, .. } => format!("`{found}` stands after the value"),
        }
    }
}

impl fmt::Display for ValueError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message())
    }
}

impl std::error::Error for ValueError {}
