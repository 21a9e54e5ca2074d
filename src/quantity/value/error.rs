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
            ValueProblem::NoNumber { found } if found.is_empty() => {
                "a number is missing".to_owned()
            }
            ValueProblem::NoNumber { found } => format!("\"{found}\" stands where a number is due"),
            ValueProblem::Malformed { found, .. } => format!("\"{found}\" is not a number"),
            ValueProblem::TooManyDigits { found } => format!("\"{found}\" has too many digits"),
            ValueProblem::NoUnit { number } => format!("\"{number}\" has no unit"),
            ValueProblem::UnknownUnit { found, near } => {
                UnitError::Unknown { near: *near }.message(found)
            }
            ValueProblem::AmbiguousUnit { found, meanings } => {
                UnitError::Ambiguous { meanings: meanings.clone() }.message(found)
            }
            ValueProblem::UnitTwice { .. } => "the unit stands more than once".to_owned(),
            ValueProblem::RangeReversed { min, max } => {
                format!("the range runs backwards: \"{min}\" is above \"{max}\"")
            }
            ValueProblem::NegativeTolerance { found } => {
                format!("\"{found}\" is a tolerance of the wrong sign")
            }
            ValueProblem::PercentTooLarge { found } => {
                format!("a tolerance of \"{found}\" per cent is the whole value or more")
            }
            ValueProblem::PercentOfPercent { nominal, tolerance } => {
                format!(
                    "\"{nominal} % ± {tolerance} %\" could mean percentage points or a part of {nominal} %"
                )
            }
            ValueProblem::TooLong { bytes } => format!("the value is {bytes} bytes long"),
            ValueProblem::Trailing { found, .. } => format!("\"{found}\" stands after the value"),
        }
    }

    /// How to write it.
    #[must_use]
    pub fn help(&self) -> String {
        match &self.problem {
            ValueProblem::Empty => "write a number and its unit, such as \"0.20 mm\"".to_owned(),
            ValueProblem::NoNumber { found } => no_number_help(found),
            ValueProblem::Malformed { found, offers } => malformed_help(found, offers),
            ValueProblem::TooManyDigits { .. } => {
                format!("a number has at most {} digits; write it as the manual prints it", super::super::number::MOST_DIGITS)
            }
            ValueProblem::NoUnit { number } => format!("write the unit after the number, such as \"{number} mm\""),
            ValueProblem::UnknownUnit { near, .. } => UnitError::Unknown { near: *near }.help(),
            ValueProblem::AmbiguousUnit { meanings, .. } => UnitError::Ambiguous { meanings: meanings.clone() }.help(),
            ValueProblem::UnitTwice { offer: Some(offer) } => format!("write the unit once, at the end: \"{offer}\""),
            ValueProblem::UnitTwice { offer: None } => "write the unit once, at the end, such as \"0.15..0.25 mm\"".to_owned(),
            ValueProblem::RangeReversed { min, max } => format!("write the smaller end first: \"{max}..{min}\""),
            ValueProblem::NegativeTolerance { .. } => {
                "write \"20 ± 2 mm\" or \"20 +2/-1 mm\"; where both limits lie on one side, write the range".to_owned()
            }
            ValueProblem::PercentTooLarge { .. } => "a tolerance in per cent is below 100; check the digits".to_owned(),
            ValueProblem::PercentOfPercent { nominal, tolerance } => {
                format!("write \"{nominal} ± {tolerance} %\" for percentage points, or the range itself")
            }
            ValueProblem::TooLong { .. } => format!("a value has at most {} bytes", super::LONGEST),
            ValueProblem::Trailing { offer: Some(offer), .. } => format!("write \"{offer}\""),
            ValueProblem::Trailing { offer: None, .. } => "end the value with its unit; write notes elsewhere".to_owned(),
        }
    }
}

fn no_number_help(found: &str) -> String {
    let word = match found
        .to_lowercase()
        .trim_end_matches(|letter: char| letter.is_ascii_digit() || letter == '.')
    {
        "≤" | "<=" | "=<" => "max",
        "≥" | ">=" | "=>" => "min",
        "<" | "below" | "less" => "under",
        ">" | "above" | "more" => "over",
        "±" | "+/-" | "+-" => {
            return "write the nominal value before the tolerance, such as \"0.20 ± 0.05 mm\""
                .to_owned();
        }
        _ => return "begin with a number, or with min, max, under or over".to_owned(),
    };
    format!("write \"{word}\" instead, such as \"{word} 0.10 mm\"")
}

fn malformed_help(found: &str, offers: &[String]) -> String {
    match offers {
        [] if found.contains(['e', 'E']) => "write the digits out, without an exponent".to_owned(),
        [] => "write digits with at most one point, or a fraction such as 1/4 or 2 1/2".to_owned(),
        [one] => format!("write \"{one}\""),
        [first, rest @ ..] => {
            format!("write \"{first}\" or \"{}\", whichever is meant", rest.join("\" or \""))
        }
    }
}

impl fmt::Display for ValueError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message())
    }
}

impl std::error::Error for ValueError {}
