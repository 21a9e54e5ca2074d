//! What was typed: words, quantities, years and serial numbers.

use super::words::words;
use crate::quantity::{Unit, Value, ValueProblem};

/// The most that is read of what was typed.
const LONGEST: usize = 200;
/// The most words that are looked up.
const MOST: usize = 12;
/// Digits of a number that is no machine, year or size: what stands before it may be the head of a serial number.
const LONG_NUMBER: usize = 5;

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
    /// Why a piece is not taken as anything, if so: it is like a number, or names two units.
    pub(super) refused: Option<String>,
    /// Each piece as it was typed, and what it alone asks.
    pub(super) pieces: Vec<(String, Asked)>,
}

impl Asked {
    /// A serial number that was typed in two pieces: `th22 500` is `th22-500` too.
    fn join_serials(&mut self) {
        for at in 1..self.pieces.len() {
            let Some([(_, head), (digits, _)]) = self.pieces.get(at - 1..=at) else { continue };
            let is_number = digits.bytes().all(|byte| byte.is_ascii_digit());
            let [word] = head.words.as_slice() else { continue };
            if is_number && (!head.serials.is_empty() || digits.len() >= LONG_NUMBER) {
                let joined = format!("{word}{digits}");
                for (_, piece) in self.pieces.iter_mut().skip(at - 1).take(2) {
                    piece.serials.push(joined.clone());
                }
                self.serials.push(joined);
            }
        }
    }

    /// Takes in one more piece; `of`, `the` or a dash asks nothing, and is none.
    fn take(&mut self, text: String, piece: Self) {
        let asks = !piece.quantities.is_empty() || !piece.bare.is_empty() || piece.refused.is_some();
        if !asks && piece.words.is_empty() {
            return;
        }
        self.words.extend(piece.words.iter().cloned());
        self.quantities.extend(piece.quantities.iter().cloned());
        self.bare.extend(piece.bare.iter().cloned());
        self.years.extend(&piece.years);
        self.serials.extend(piece.serials.iter().cloned());
        self.pieces.push((text, piece));
    }
}

/// Reads what was typed; `in` after a number is inches or, where `in_words`, the intake.
pub(super) fn ask(text: &str, in_words: bool) -> Asked {
    let text: String = text.chars().take(LONGEST).collect();
    let pieces: Vec<&str> = text.split_ascii_whitespace().collect();
    let mut asked = Asked::default();
    let mut rest = pieces.as_slice();
    while let Some(first) = rest.first() {
        let mut piece = Asked::default();
        let taken = if let Some((value, taken)) = quantity(rest, in_words) {
            piece.quantities.push(value);
            taken
        } else if let Some((why, taken)) = refused(rest) {
            piece.refused = Some(why);
            taken
        } else {
            alone(first, &mut piece);
            1
        };
        let (read, others) = rest.split_at(taken.min(rest.len()));
        asked.take(read.join(" "), piece);
        rest = others;
    }
    asked.words.truncate(MOST);
    asked.join_serials();
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
fn quantity(pieces: &[&str], in_words: bool) -> Option<(Value, usize)> {
    let first = pieces.first().filter(|first| begins_a_number(first))?;
    for taken in [3, 2] {
        if let Some(unit) = pieces.get(1..taken).filter(|unit| !in_words || **unit != ["in"]) {
            let text = format!("{} {}", decimal(first), unit_after(unit));
            if let Some(value) = single(&text) {
                return Some((value, taken));
            }
        }
    }
    single(&decimal(first)).map(|value| (value, 1))
}

/// What stands after a number: words of one unit, or the fraction of a mixed number and its unit.
fn unit_after(pieces: &[&str]) -> String {
    match pieces {
        [fraction, unit] if fraction.contains('/') && begins_a_number(fraction) => {
            format!("{fraction} {unit}")
        }
        _ => pieces.join("-"),
    }
}

/// Why the head of the pieces is like a quantity and is none, and how many they are.
fn refused(pieces: &[&str]) -> Option<(String, usize)> {
    let first = pieces.first().filter(|first| begins_a_number(first))?;
    for taken in [3, 2, 1] {
        let Some(unit) = pieces.get(1..taken) else { continue };
        let Err(error) = Value::parse(format!("{} {}", decimal(first), unit.join("-")).trim_end()) else {
            continue;
        };
        if matches!(error.problem, ValueProblem::AmbiguousUnit { .. }) {
            return Some((format!("{}; {}", error.message(), error.help()), taken));
        }
    }
    let ends = |c: char| !(c.is_ascii_digit() || ['.', ',', '/'].contains(&c));
    let (number, glued) = first.split_at(first.find(ends).unwrap_or(first.len()));
    let number = number.trim_end_matches(['.', ',']);
    let is_unit = |text: &str| Unit::parse(text).is_ok();
    let like_one = number.contains(['.', ',', '/']) && (glued.is_empty() || is_unit(glued));
    if !like_one || Value::parse(&format!("{} mm", decimal(number))).is_ok() {
        return None;
    }
    let with_unit = |taken: &usize| pieces.get(1..*taken).is_some_and(|unit| is_unit(&unit.join("-")));
    let taken = [3, 2].into_iter().find(with_unit).filter(|_| glued.is_empty()).unwrap_or(1);
    Some((format!("`{number}` is no number"), taken))
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
        let asked = ask(text, false);
        (asked.words, asked.quantities.iter().map(Value::text).collect())
    }

    #[test]
    fn quantities_are_read_in_any_spelling() {
        for (text, value) in [
            ("58psi", "58 psi"),
            ("0,2 mm", "0.2 mm"),
            ("94 ft lb flywheel", "94 lbf·ft"),
            (".008 in", "0.008 in"),
            ("1 1/2 turns", "1 1/2 turns"),
            ("8 thou", "8 thou"),
        ] {
            assert_eq!(texts(text).1, [value], "{text}");
        }
    }

    #[test]
    fn what_is_like_a_quantity_is_no_word() {
        for (text, whole) in
            [("1/0 in lash", "1/0 in"), ("1.2.3mm", "1.2.3mm"), ("22 lb plug", "22 lb"), ("1/0", "1/0")]
        {
            let asked = ask(text, false);
            let (piece, alone) = &asked.pieces[0];
            assert_eq!((piece.as_str(), alone.refused.is_some()), (whole, true), "{text}");
        }
        for text in ["1-2", "887.", "22", "th22-455", "17"] {
            assert!(ask(text, false).pieces[0].1.refused.is_none(), "{text}");
        }
    }

    #[test]
    fn a_whole_number_is_a_word_and_a_bare_number() {
        let asked = ask("lash tarn 887 22", false);
        assert_eq!(asked.words, ["lash", "tarn", "887", "22"]);
        assert_eq!(asked.bare, ["887", "22"]);
        assert_eq!(asked.years, [(2022, false)]);
    }
}
