//! A place in the text of a value, moved on by what is read.

use std::ops::Range;

use super::super::Number;
use super::{ValueError, ValueProblem};

pub(super) type Parsed<T> = Result<T, ValueError>;
/// A number and where it stands.
pub(super) type Placed = (Number, Range<usize>);

/// The signs that join a value and its tolerance, each before any it is the beginning of.
pub(super) const PLUS_MINUS: [&str; 3] = ["±", "+/-", "+-"];

pub(super) const fn fail<T>(problem: ValueProblem, range: Range<usize>) -> Parsed<T> {
    Err(ValueError::new(problem, range))
}

/// `range` of `text` without the spaces at its ends.
pub(super) fn trimmed(text: &str, range: Range<usize>) -> Range<usize> {
    let part = text.get(range.clone()).unwrap_or_default();
    let start = range.start + (part.len() - part.trim_start().len());
    start..start + part.trim().len()
}

/// The words for a limit on one side.
#[derive(Clone, Copy)]
pub(super) enum Bound {
    Min,
    Max,
    Over,
    Under,
}

impl Bound {
    pub(super) fn of(word: &str) -> Option<Self> {
        match word.to_lowercase().as_str() {
            "min" => Some(Self::Min),
            "max" => Some(Self::Max),
            "over" => Some(Self::Over),
            "under" => Some(Self::Under),
            _ => None,
        }
    }
}

/// What joins a further number to the first.
pub(super) enum Joint {
    Range,
    PlusMinus,
    Plus,
    Minus,
    /// A dash with a space on one side alone, which may as well be a minus sign.
    Doubtful,
}

pub(super) struct Cursor<'a> {
    pub(super) text: &'a str,
    pub(super) at: usize,
}

impl<'a> Cursor<'a> {
    pub(super) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    /// The text from byte `start` to the end, without the spaces around it.
    pub(super) fn tail(&self, start: usize) -> String {
        self.text.get(start..).unwrap_or_default().trim().to_owned()
    }

    pub(super) fn skip_spaces(&mut self) {
        self.at += self.rest().len() - self.rest().trim_start().len();
    }

    pub(super) fn eat(&mut self, word: &str) -> bool {
        let found = self.rest().starts_with(word);
        if found {
            self.at += word.len();
        }
        found
    }

    pub(super) fn eat_minus(&mut self) -> bool {
        self.eat("-") || self.eat("\u{2212}")
    }

    /// `min`, `max`, `over`, `under`, in any case, with or without a full stop.
    pub(super) fn bound(&mut self) -> Option<Bound> {
        let rest = self.rest();
        let length = rest.find(|letter: char| !letter.is_alphabetic()).unwrap_or(rest.len());
        let bound = Bound::of(rest.get(..length)?)?;
        self.at += length;
        if self.rest().strip_prefix('.').is_some_and(|after| after.starts_with(char::is_whitespace)) {
            self.at += 1;
        }
        self.skip_spaces();
        Some(bound)
    }

    /// A plus sign that is not the beginning of `+/-`.
    pub(super) fn lone_plus(&mut self) -> bool {
        let is_joint = PLUS_MINUS.iter().any(|sign| self.rest().starts_with(sign));
        let found = !is_joint && self.eat("+");
        if found {
            self.skip_spaces();
        }
        found
    }

    pub(super) fn number(&mut self) -> Parsed<Placed> {
        self.skip_spaces();
        let (number, range) = Number::scan(self.text, self.at)?;
        self.at = range.end;
        Ok((number, range))
    }

    /// A number that must not have a sign of its own.
    pub(super) fn tolerance(&mut self) -> Parsed<Placed> {
        self.skip_spaces();
        let start = self.at;
        let plus = self.eat("+");
        let (number, range) = self.number()?;
        let found = self.text.get(start..range.end).unwrap_or_default();
        if plus || found.starts_with(['-', '\u{2212}']) {
            let problem = ValueProblem::NegativeTolerance { found: found.to_owned() };
            return fail(problem, start..range.end);
        }
        Ok((number, range))
    }

    /// What joins a further number to the first; the cursor is left behind it.
    pub(super) fn joint(&mut self) -> Option<Joint> {
        let before = self.at;
        self.skip_spaces();
        let spaced = self.at > before;
        if PLUS_MINUS.iter().any(|sign| self.eat(sign)) {
            return Some(Joint::PlusMinus);
        }
        if self.eat("+") {
            return Some(Joint::Plus);
        }
        if self.eat_minus() {
            return Some(Joint::Minus);
        }
        self.range_sign(spaced)
    }

    fn range_sign(&mut self, spaced: bool) -> Option<Joint> {
        if self.eat("..") || self.eat("…") {
            return Some(Joint::Range);
        }
        if self.rest().strip_prefix("to").is_some_and(begins_number) {
            self.at += "to".len();
            return Some(Joint::Range);
        }
        let after = self.rest().strip_prefix('–')?;
        self.at += '–'.len_utf8();
        let even = spaced == after.starts_with(char::is_whitespace);
        Some(if even && begins_number(after) { Joint::Range } else { Joint::Doubtful })
    }
}

fn begins_number(text: &str) -> bool {
    text.trim_start()
        .starts_with(|next: char| next.is_ascii_digit() || matches!(next, '.' | '-' | '\u{2212}' | '+'))
}
