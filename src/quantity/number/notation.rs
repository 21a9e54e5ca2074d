//! How a number is written: decimals, fractions, and what is mistaken for them.

use num_traits::Zero;

use super::super::exact::{Exact, exponent_not_above, integer, power_of_ten, terminating_decimals};
use super::Number;

/// The most digits on either side of a fraction bar.
const MOST_FRACTION_DIGITS: usize = 6;

/// Fractions of one character, with numerator and denominator.
const VULGAR: [(char, &str, &str); 9] = [
    ('½', "1", "2"),
    ('⅓', "1", "3"),
    ('⅔', "2", "3"),
    ('¼', "1", "4"),
    ('¾', "3", "4"),
    ('⅛', "1", "8"),
    ('⅜', "3", "8"),
    ('⅝', "5", "8"),
    ('⅞', "7", "8"),
];

fn vulgar(letter: char) -> Option<(&'static str, &'static str)> {
    VULGAR.iter().find(|(sign, ..)| *sign == letter).map(|&(_, above, below)| (above, below))
}

/// A digit, or a fraction of one character.
pub(super) fn is_figure(letter: char) -> bool {
    letter.is_ascii_digit() || vulgar(letter).is_some()
}

/// What parts groups of digits in some countries, and decimals in others.
fn is_gap(letter: char) -> bool {
    matches!(letter, ',' | '\'' | '’' | '_') || letter.is_whitespace()
}

/// As much of the start of `body` as was meant to be one number, well formed or not.
pub(super) fn run(body: &str) -> &str {
    let mut end = 0;
    for (at, letter) in body.char_indices() {
        let after = body.get(at + letter.len_utf8()..).unwrap_or_default();
        if letter.is_whitespace() && end > 0 && after.trim_start().starts_with(is_figure) {
            continue; // Taken in with the figure after it.
        }
        let belongs = is_figure(letter)
            || (letter == '.' && end == at && !after.starts_with('.'))
            || (is_inner(letter) && end > 0 && after.starts_with(|next: char| next.is_ascii_digit()));
        if !belongs {
            break;
        }
        end = at + letter.len_utf8();
    }
    body.get(..end).unwrap_or_default()
}

/// What belongs to a number only between two digits.
fn is_inner(letter: char) -> bool {
    matches!(letter, '/' | '\u{2044}' | 'e' | 'E') || is_gap(letter)
}

/// The pieces of an unsigned number: `2 1/2` is 2, 1 and 2.
pub(super) struct Parts<'a> {
    whole: &'a str,
    fraction: Option<(&'a str, &'a str)>,
}

impl<'a> Parts<'a> {
    pub(super) fn of(run: &'a str) -> Self {
        let last = run.char_indices().next_back();
        if let Some((at, fraction)) = last.and_then(|(at, sign)| Some((at, vulgar(sign)?))) {
            return Self { whole: run.get(..at).unwrap_or_default().trim_end(), fraction: Some(fraction) };
        }
        let Some((before, below)) = run.split_once(['/', '\u{2044}']) else {
            return Self { whole: run, fraction: None };
        };
        let (whole, above) = before.split_once(char::is_whitespace).unwrap_or(("", before));
        Self { whole, fraction: Some((above.trim_start(), below)) }
    }

    pub(super) fn is_wide_fraction(&self) -> bool {
        let wide = |digits: &str| digits.len() > MOST_FRACTION_DIGITS;
        self.fraction.is_some_and(|(above, below)| wide(above) || wide(below))
    }

    pub(super) fn read(&self) -> Option<Number> {
        match self.fraction {
            None => decimal(self.whole),
            Some((above, below)) => fraction(self.whole, above, below),
        }
    }
}

fn decimal(text: &str) -> Option<Number> {
    if text.ends_with('.') {
        return None;
    }
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let decimals = u32::try_from(part.len()).ok()?;
    let ulp = step(decimals)?;
    let exact = Exact::from_integer(integer(&format!("{whole}{part}"))?) * &ulp;
    let zero = if whole.is_empty() { "0" } else { "" };
    Some(Number { text: format!("{zero}{text}"), exact, decimals, ulp })
}

/// A proper fraction after a whole number, or any fraction alone.
fn fraction(whole: &str, numerator: &str, denominator: &str) -> Option<Number> {
    let (above, below) = (integer(numerator)?, integer(denominator)?);
    if below.is_zero() || (!whole.is_empty() && above >= below) {
        return None;
    }
    let part = Exact::new(above, below.clone());
    let (text, exact) = if whole.is_empty() {
        (format!("{numerator}/{denominator}"), part)
    } else {
        (format!("{whole} {numerator}/{denominator}"), Exact::from_integer(integer(whole)?) + part)
    };
    let (decimals, ulp) = if let Some(decimals) = terminating_decimals(&exact) {
        (decimals, step(decimals)?)
    } else {
        let ulp = Exact::new(1.into(), below);
        (exponent_not_above(&ulp).unsigned_abs(), ulp)
    };
    Some(Number { text, exact, decimals, ulp })
}

fn step(decimals: u32) -> Option<Exact> {
    Some(power_of_ten(-i32::try_from(decimals).ok()?))
}

/// How a malformed number was probably meant: `0,20` as 0.20, `1,500` as 1500 or 1.500.
pub(super) fn offers(run: &str) -> Vec<String> {
    let groups: Vec<_> = run.split('.').next().unwrap_or_default().split(is_gap).collect();
    let is_group = |group: &&str| group.len() == 3 && integer(group).is_some();
    let grouped = !run.starts_with('0') && groups.len() > 1 && groups.iter().skip(1).all(is_group);
    let mut tries = Vec::new();
    if grouped {
        tries.push(run.chars().filter(|letter| !is_gap(*letter)).collect());
    }
    tries.push(run.replace(',', "."));
    tries.push(run.trim_end_matches('.').to_owned());
    tries.retain(|text| text != run && Number::parse(text).is_ok());
    tries.dedup();
    tries
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_ends_where_something_else_begins() {
        for (text, number) in [
            ("0.15..0.25", "0.15"),
            ("20 +2/-1", "20"),
            ("1/4/-1/8", "1/4"),
            ("2 1/2 turns", "2 1/2"),
            ("2 ½turns", "2 ½"),
            ("1500/min", "1500"),
            ("5 e", "5"),
            ("5 mm 6", "5"),
            ("1,5", "1,5"),
            ("1, 5", "1"),
            (".5", ".5"),
            ("..5", ""),
            ("mm", ""),
        ] {
            assert_eq!(run(text), number, "{text}");
        }
    }

    #[test]
    fn decimals_of_a_fraction_are_those_of_its_expansion() {
        let known = |text: &str| {
            let number = Number::parse(text).unwrap();
            (number.decimals(), super::super::super::exact_text(number.ulp()))
        };
        assert_eq!(known("1/4"), (2, "0.01".to_owned()));
        assert_eq!(known("2 1/2"), (1, "0.1".to_owned()));
        assert_eq!(known("1/64"), (6, "0.000001".to_owned()));
        assert_eq!(known("1/3"), (1, "1/3".to_owned()));
        assert_eq!(known("1/12"), (2, "1/12".to_owned()));
        assert_eq!(known("0.20"), (2, "0.01".to_owned()));
    }
}
