//! A number as it was printed: its digits are kept, so that `0.20` is never `0.2`.

mod notation;

use std::fmt;
use std::ops::Range;

use num_traits::Zero;

use super::exact::Exact;
use super::value::{ValueError, ValueProblem};
use notation::Parts;

/// The most digits a number may have, before and after the point together.
pub(super) const MOST_DIGITS: usize = 18;

/// One printed number: `0.20`, `-40`, `1/4`, `2 1/2`.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Number {
    text: String,
    exact: Exact,
    decimals: u32,
    ulp: Exact,
}

impl Number {
    /// Reads one number, with nothing before or after it but spaces.
    ///
    /// # Errors
    /// [`ValueError`] where the text is no number, is malformed or has too many digits.
    pub fn parse(text: &str) -> Result<Self, ValueError> {
        let start = text.len() - text.trim_start().len();
        let (number, range) = Self::scan(text, start)?;
        let rest = text.get(range.end..).unwrap_or_default();
        if rest.trim().is_empty() {
            return Ok(number);
        }
        let problem = ValueProblem::Trailing { found: rest.trim().to_owned(), offer: None };
        Err(ValueError::new(problem, range.end..text.len()))
    }

    /// Its exact value.
    #[must_use]
    pub const fn exact(&self) -> &Exact {
        &self.exact
    }

    /// Its digits as printed, with a leading zero and a plain minus sign.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// How many decimals it was printed with.
    ///
    /// A fraction counts as its decimal expansion (1/4 is 0.25: two decimals); one that does not
    /// terminate counts the decimals that tell two neighbours of its denominator apart (1/3: one).
    #[must_use]
    pub const fn decimals(&self) -> u32 {
        self.decimals
    }

    /// One unit of its finest printed digit: 0.01 for `0.20` and for `1/4`, 1/3 for `1/3`.
    #[must_use]
    pub const fn ulp(&self) -> &Exact {
        &self.ulp
    }

    /// Whether it was printed as a fraction.
    #[must_use]
    pub fn is_fraction(&self) -> bool {
        self.text.contains('/')
    }

    /// Reads the number that begins at byte `start` of `text`; its range comes with it.
    pub(super) fn scan(text: &str, start: usize) -> Result<(Self, Range<usize>), ValueError> {
        let rest = text.get(start..).unwrap_or_default();
        let body = rest.strip_prefix(['-', '\u{2212}']).unwrap_or(rest);
        let run = notation::run(body);
        if !run.contains(notation::is_figure) {
            return Err(no_number(rest, start));
        }
        let range = start..start + (rest.len() - body.len()) + run.len();
        match Self::from_run(run, body.len() < rest.len()) {
            Ok(number) => Ok((number, range)),
            Err(problem) => Err(ValueError::new(problem, range)),
        }
    }

    fn from_run(run: &str, negative: bool) -> Result<Self, ValueProblem> {
        if run.bytes().filter(u8::is_ascii_digit).count() > MOST_DIGITS {
            return Err(ValueProblem::TooManyDigits { found: run.to_owned() });
        }
        let parts = Parts::of(run);
        if parts.is_wide_fraction() {
            return Err(ValueProblem::TooManyDigits { found: run.to_owned() });
        }
        let number = parts.read().ok_or_else(|| ValueProblem::Malformed {
            found: run.to_owned(),
            offers: notation::offers(run),
        })?;
        Ok(if negative && !number.exact.is_zero() { number.negated() } else { number })
    }

    fn negated(self) -> Self {
        Self { text: format!("-{}", self.text), exact: -self.exact, ..self }
    }
}

fn no_number(rest: &str, start: usize) -> ValueError {
    let word = rest.split(char::is_whitespace).next().unwrap_or_default();
    ValueError::new(ValueProblem::NoNumber { found: word.to_owned() }, start..start + word.len())
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}
