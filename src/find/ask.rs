//! What was typed: words, quantities, years and serial numbers.

use super::words::words;
use crate::quantity::Value;

/// The most that is read of what was typed.
const LONGEST: usize = 200;
/// The most words that are looked up.
const MOST: usize = 12;

/// What was typed.
#[derive(Debug, Default)]
pub(super) struct Asked {
    /// Words, as they are compared.
    pub(super) words: Vec<String>,
    /// Numbers with a unit.
    pub(super) quantities: Vec<Value>,
    /// Numbers without one, as `0.26`; each that is whole is a word too.
    pub(super) bare: Vec<String>,
    /// Model years, and whether written in full.
    pub(super) years: Vec<(u16, bool)>,
    /// What may be a serial number: letters and digits only.
    pub(super) serials: Vec<String>,
    /// Each piece as it was typed, and what it alone asks.
    pub(super) pieces: Vec<(String, Asked)>,
}

impl Asked {
    /// Takes in one more piece.
    fn take(&mut self, text: String, piece: Self) {
        self.words.extend(piece.words.iter().cloned());
        self.quantities.extend(piece.quantities.iter().cloned());
        self.bare.extend(piece.bare.iter().cloned());
        self.years.extend(&piece.years);
        self.serials.extend(piece.serials.iter().cloned());
        self.pieces.push((text, piece));
    }
}

/// Reads what was typed.
pub(super) fn ask(text: &str) -> Asked {
    let text: String = text.chars().take(LONGEST).collect();
    let pieces: Vec<&str> = text.split_ascii_whitespace().collect();
    let mut asked = Asked::default();
    let mut rest = pieces.as_slice();
    while let Some(first) = rest.first() {
        let mut piece = Asked::default();
        let taken = match quantity(rest) {
            Some((value, taken)) => {
                piece.quantities.push(value);
                taken
            }
            None => {
                alone(first, &mut piece);
                1
            }
        };
        let (read, others) = rest.split_at(taken.min(rest.len()));
        asked.take(read.join(" "), piece);
        rest = others;
    }
    asked.words.truncate(MOST);
    asked
}

/// One piece that is no quantity.
fn alone(piece: &str, asked: &mut Asked) {
    let number = decimal(piece);
    let is_number = |text: &str| Value::parse(&format!("{text} mm")).is_ok();
    if begins_a_number(piece) && is_number(&number) {
        if let Some(year) = year_of(piece) {
            asked.years.push(year);
        }
        if number.contains(['.', '/']) {
            asked.bare.push(number);
            return;
        }
        asked.bare.push(number);
    }
    let folded = words(piece);
    let joined = folded.concat();
    if joined.bytes().any(|byte| byte.is_ascii_digit())
        && joined.bytes().any(|byte| byte.is_ascii_alphabetic())
    {
        asked.serials.push(joined);
    }
    asked.words.extend(folded);
}

/// A number with its unit at the head of the pieces, and how many they are; the longest that is one.
fn quantity(pieces: &[&str]) -> Option<(Value, usize)> {
    let first = pieces.first().filter(|first| begins_a_number(first))?;
    for taken in [3, 2] {
        if let Some(unit) = pieces.get(1..taken) {
            let text = format!("{} {}", decimal(first), unit.join("-"));
            if let Some(value) = single(&text) {
                return Some((value, taken));
            }
        }
    }
    single(&decimal(first)).map(|value| (value, 1))
}

/// One number in a unit.
fn single(text: &str) -> Option<Value> {
    Value::parse(text).ok().filter(|value| value.numbers().len() == 1)
}

fn begins_a_number(piece: &str) -> bool {
    let piece = piece.strip_prefix(['-', '+']).unwrap_or(piece);
    piece.strip_prefix('.').unwrap_or(piece).starts_with(|c: char| c.is_ascii_digit())
}

/// A decimal comma as a point.
fn decimal(piece: &str) -> String {
    piece.replace(',', ".")
}

/// A model year: four digits, or two of this century.
pub(super) fn year_of(piece: &str) -> Option<(u16, bool)> {
    let number: u16 = piece.parse().ok()?;
    match (piece.len(), number) {
        (4, 1950..=2099) => Some((number, true)),
        (2, 0..=69) => Some((2000 + number, false)),
        (2, _) => Some((1900 + number, false)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(text: &str) -> (Vec<String>, Vec<String>) {
        let asked = ask(text);
        (asked.words, asked.quantities.iter().map(Value::text).collect())
    }

    #[test]
    fn quantities_are_read_in_any_spelling() {
        for (text, value) in [
            ("58psi", "58 psi"),
            ("0,2 mm", "0.2 mm"),
            ("94 ft lb flywheel", "94 lbf·ft"),
            (".008 in", "0.008 in"),
            ("8 thou", "8 thou"),
        ] {
            assert_eq!(texts(text).1, [value], "{text}");
        }
    }

    #[test]
    fn a_whole_number_is_a_word_and_a_bare_number() {
        let asked = ask("lash tarn 887 22");
        assert_eq!(asked.words, ["lash", "tarn", "887", "22"]);
        assert_eq!(asked.bare, ["887", "22"]);
        assert_eq!(asked.years, [(2022, false)]);
    }
}
