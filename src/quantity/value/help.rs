//! How to mend a text that is no value: one sentence for each problem, with an example to copy.

use super::super::UnitError;
use super::super::number::MOST_DIGITS;
use super::cursor::PLUS_MINUS;
use super::{LONGEST, ValueError, ValueProblem};

impl ValueError {
    /// How to write it.
    #[must_use]
    pub fn help(&self) -> String {
        match &self.problem {
            ValueProblem::Empty => "write a number and its unit, such as `0.20 mm`".to_owned(),
            ValueProblem::NoNumber { found } => no_number_help(found),
            ValueProblem::Malformed { found, offers } => malformed_help(found, offers),
            ValueProblem::TooManyDigits { .. } => {
                format!("a number has at most {MOST_DIGITS} digits; write it as the manual prints it")
            }
            ValueProblem::NoUnit { number } => {
                format!("write the unit after the number, such as `{number} mm`")
            }
            ValueProblem::UnknownUnit { near, .. } => UnitError::Unknown { near: *near }.help(),
            ValueProblem::AmbiguousUnit { meanings, .. } => {
                UnitError::Ambiguous { meanings: meanings.clone() }.help()
            }
            ValueProblem::UnitTwice { offer } => {
                let example = ", such as `0.15..0.25 mm`".to_owned();
                let way = offer.as_ref().map_or(example, |offer| format!(": `{offer}`"));
                format!("write the unit once, at the end{way}")
            }
            ValueProblem::RangeReversed { min, max } => {
                format!("write the smaller end first: `{max}..{min}`")
            }
            ValueProblem::NegativeTolerance { .. } => TOLERANCES.to_owned(),
            ValueProblem::PercentTooLarge { .. } => {
                "a tolerance in per cent is below 100; check the digits".to_owned()
            }
            ValueProblem::PercentOfPercent { nominal, tolerance } => {
                format!("write `{nominal} ± {tolerance} %` for percentage points, or the range itself")
            }
            ValueProblem::TooLong { .. } => format!("a value has at most {LONGEST} bytes"),
            ValueProblem::Trailing { offer: Some(offer), .. } => format!("write `{offer}`"),
            ValueProblem::Trailing { offer: None, .. } => {
                "end the value with its unit; write notes elsewhere".to_owned()
            }
        }
    }
}

/// How to write tolerances.
const TOLERANCES: &str = "write `20 ± 2 mm` or `20 +2/-1 mm`; \
    where both limits lie on one side, write the range";

/// What stands where a number is due, and the word that says it.
const BOUNDS: [(&str, &str); 13] = [
    ("≤", "max"),
    ("<=", "max"),
    ("=<", "max"),
    ("≥", "min"),
    (">=", "min"),
    ("=>", "min"),
    ("<", "under"),
    ("below", "under"),
    ("less", "under"),
    (">", "over"),
    ("above", "over"),
    ("more", "over"),
    ("up", "max"),
];

fn no_number_help(found: &str) -> String {
    let word = found.to_lowercase();
    let sign = word.trim_end_matches(|letter: char| letter.is_ascii_digit() || letter == '.');
    if PLUS_MINUS.contains(&sign) {
        return "write the nominal value before the tolerance, such as `0.20 ± 0.05 mm`".to_owned();
    }
    match BOUNDS.iter().find(|(meant, _)| *meant == sign) {
        Some((_, word)) => format!("write `{word}` instead, such as `{word} 0.10 mm`"),
        None => "begin with a number, or with min, max, under or over".to_owned(),
    }
}

fn malformed_help(found: &str, offers: &[String]) -> String {
    match offers {
        [] if found.contains(['e', 'E']) => "write the digits out, without an exponent".to_owned(),
        [] => "write digits with at most one point, or a fraction such as 1/4 or 2 1/2".to_owned(),
        [one] => format!("write `{one}`"),
        [first, rest @ ..] => {
            format!("write `{first}` or `{}`, whichever is meant", rest.join("` or `"))
        }
    }
}
