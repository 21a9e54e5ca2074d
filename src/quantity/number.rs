//! A number as it was printed: its digits are kept, so that `0.20` is never `0.2`.

use std::fmt;
use std::ops::Range;

use num_traits::Zero;

use super::exact::{self, Exact, exponent_not_above, power_of_ten};
use super::value::{ValueError, ValueProblem};

/// The most digits a number may have, before and after the point together.
pub(super) const MOST_DIGITS: usize = 18;
/// The most digits on either side of a fraction bar.
const MOST_FRACTION_DIGITS: usize = 6;

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

    /// Reads the number that begins at byte `start` of `text`; its range comes with it.
    pub(super) fn scan(text: &str, start: usize) -> Result<(Self, Range<usize>), ValueError> {
        let rest = text.get(start..).unwrap_or_default();
        let (negative, body) = match rest.strip_prefix(['-', '\u{2212}']) {
            Some(body) => (true, body),
            None => (false, rest),
        };
        let from = start + (rest.len() - body.len());
        let length = run_length(body);
        let run = body.get(..length).unwrap_or_default();
        if !run.chars().any(|letter| letter.is_ascii_digit() || vulgar(letter).is_some()) {
            return Err(no_number(text, start));
        }
        let range = start..from + length;
        let number = Self::from_run(run, negative)
            .map_err(|problem| ValueError::new(problem, range.clone()))?;
        Ok((number, range))
    }

    fn from_run(run: &str, negative: bool) -> Result<Self, ValueProblem> {
        let parts = Parts::of(run).ok_or_else(|| malformed(run))?;
        if parts.digits > MOST_DIGITS || parts.is_wide_fraction() {
            return Err(ValueProblem::TooManyDigits { found: run.to_owned() });
        }
        let (text, exact, decimals, ulp) = parts.read().ok_or_else(|| malformed(run))?;
        let negative = negative && !exact.is_zero();
        let sign = if negative { "-" } else { "" };
        let exact = if negative { -exact } else { exact };
        Ok(Self { text: format!("{sign}{text}"), exact, decimals, ulp })
    }
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

/// The pieces of an unsigned number: `2 1/2` is 2, 1 and 2.
struct Parts<'a> {
    whole: &'a str,
    fraction: Option<(String, String)>,
    digits: usize,
}

impl<'a> Parts<'a> {
    fn of(run: &'a str) -> Option<Self> {
        let digits = run.chars().filter(char::is_ascii_digit).count();
        if let Some((at, letter)) = run.char_indices().find(|(_, letter)| vulgar(*letter).is_some())
        {
            let (numerator, denominator) = vulgar(letter)?;
            let after = run.get(at + letter.len_utf8()..)?;
            let fraction = Some((numerator.to_string(), denominator.to_string()));
            return after.is_empty().then(|| Self {
                whole: run.get(..at).unwrap_or_default().trim_end(),
                fraction,
                digits,
            });
        }
        let Some((before, denominator)) = run.split_once(['/', '\u{2044}']) else {
            return Some(Self { whole: run, fraction: None, digits });
        };
        let (whole, numerator) = before.split_once(char::is_whitespace).unwrap_or(("", before));
        let fraction = Some((numerator.trim_start().to_owned(), denominator.to_owned()));
        Some(Self { whole, fraction, digits })
    }

    fn is_wide_fraction(&self) -> bool {
        self.fraction.as_ref().is_some_and(|(numerator, denominator)| {
            numerator.len() > MOST_FRACTION_DIGITS || denominator.len() > MOST_FRACTION_DIGITS
        })
    }

    /// Canonical text, value, decimals and finest digit.
    fn read(&self) -> Option<(String, Exact, u32, Exact)> {
        match &self.fraction {
            None => read_decimal(self.whole),
            Some((numerator, denominator)) => read_fraction(self.whole, numerator, denominator),
        }
    }
}

fn read_decimal(text: &str) -> Option<(String, Exact, u32, Exact)> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    if text.ends_with('.') {
        return None;
    }
    let decimals = u32::try_from(part.len()).ok()?;
    let ulp = power_of_ten(-i32::try_from(decimals).ok()?);
    let exact = Exact::from_integer(exact::integer(&format!("{whole}{part}"))?) * &ulp;
    let zero = if whole.is_empty() { "0" } else { "" };
    Some((format!("{zero}{text}"), exact, decimals, ulp))
}

fn read_fraction(
    whole: &str,
    numerator: &str,
    denominator: &str,
) -> Option<(String, Exact, u32, Exact)> {
    let (above, below) = (exact::integer(numerator)?, exact::integer(denominator)?);
    if below.is_zero() || (!whole.is_empty() && above >= below) {
        return None;
    }
    let part = Exact::new(above, below.clone());
    let value =
        if whole.is_empty() { part } else { Exact::from_integer(exact::integer(whole)?) + part };
    let space = if whole.is_empty() { "" } else { " " };
    let text = format!("{whole}{space}{numerator}/{denominator}");
    let (decimals, ulp) = match exact::terminating_decimals(&value) {
        Some(decimals) => (decimals, power_of_ten(-i32::try_from(decimals).ok()?)),
        None => {
            let ulp = Exact::new(1.into(), below);
            (exponent_not_above(&ulp).unsigned_abs(), ulp)
        }
    };
    Some((text, value, decimals, ulp))
}

/// How many bytes at the start of `body` belong to one number, well formed or not.
fn run_length(body: &str) -> usize {
    let mut end = 0;
    let mut letters = body.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        let after = body.get(at + letter.len_utf8()..).unwrap_or_default();
        let belongs = match letter {
            '0'..='9' => true,
            '.' => !after.starts_with('.') && (end == at),
            ',' | '\'' | '’' | '_' | '/' | '\u{2044}' | 'e' | 'E' => {
                end > 0 && after.starts_with(|next: char| next.is_ascii_digit())
            }
            _ if vulgar(letter).is_some() => true,
            _ if letter.is_whitespace() => {
                let next = after.trim_start();
                if end == 0
                    || !next
                        .starts_with(|next: char| next.is_ascii_digit() || vulgar(next).is_some())
                {
                    break;
                }
                continue;
            }
            _ => false,
        };
        if !belongs {
            break;
        }
        end = at + letter.len_utf8();
    }
    end
}

const fn vulgar(letter: char) -> Option<(u32, u32)> {
    match letter {
        '½' => Some((1, 2)),
        '⅓' => Some((1, 3)),
        '⅔' => Some((2, 3)),
        '¼' => Some((1, 4)),
        '¾' => Some((3, 4)),
        '⅛' => Some((1, 8)),
        '⅜' => Some((3, 8)),
        '⅝' => Some((5, 8)),
        '⅞' => Some((7, 8)),
        _ => None,
    }
}

fn no_number(text: &str, start: usize) -> ValueError {
    let found = text.get(start..).unwrap_or_default().trim();
    let word: String = found.split(char::is_whitespace).next().unwrap_or_default().to_owned();
    let end = start + word.len();
    ValueError::new(ValueProblem::NoNumber { found: word }, start..end)
}

fn malformed(run: &str) -> ValueProblem {
    ValueProblem::Malformed { found: run.to_owned(), offers: offers(run) }
}

/// How a malformed number was probably meant: `0,20` as 0.20, `1,500` as 1500 or 1.500.
fn offers(run: &str) -> Vec<String> {
    let is_gap = |letter: char| matches!(letter, ',' | '\'' | '’' | '_') || letter.is_whitespace();
    let groups: Vec<_> = run.split('.').next().unwrap_or_default().split(is_gap).collect();
    let is_group =
        |group: &&str| group.len() == 3 && group.bytes().all(|byte| byte.is_ascii_digit());
    let grouped = !run.starts_with('0') && groups.len() > 1 && groups.iter().skip(1).all(is_group);
    let joined: String = run.chars().filter(|letter| !is_gap(*letter)).collect();
    let mut tries = Vec::new();
    if grouped {
        tries.push(joined);
    }
    tries.push(run.replace(',', "."));
    tries.push(run.trim_end_matches('.').to_owned());
    tries.retain(|text| text != run && Number::parse(text).is_ok());
    tries.dedup();
    tries
}
