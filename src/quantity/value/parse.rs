//! Reads the text of a value, left to right, into its shape and unit.
//!
//! Invariant: every byte is accounted for, and every error points at bytes of the text.

use std::ops::Range;

use super::super::{Kind, Number, Unit, UnitError};
use super::{LONGEST, Shape, Value, ValueError, ValueProblem};

type Parsed<T> = Result<T, ValueError>;
/// A number and where it stands.
type Placed = (Number, Range<usize>);

/// The signs that join a value and its tolerance, each before any it is the beginning of.
const PLUS_MINUS: [&str; 3] = ["±", "+/-", "+-"];

pub(super) fn parse(text: &str) -> Parsed<Value> {
    if text.len() > LONGEST {
        return fail(ValueProblem::TooLong { bytes: text.len() }, 0..text.len());
    }
    if text.trim().is_empty() {
        return fail(ValueProblem::Empty, 0..text.len());
    }
    let mut cursor = Cursor { text, at: 0 };
    cursor.skip_spaces();
    let bound = cursor.bound();
    let plus = cursor.lone_plus();
    let first = cursor.number()?;
    let (shape, ranges) = match bound {
        Some(bound) => cursor.bounded(bound, first)?,
        None => cursor.shape(first)?,
    };
    let value = cursor.finish(shape, ranges)?;
    Ok(if plus { turned(value) } else { value })
}

fn fail<T>(problem: ValueProblem, range: Range<usize>) -> Parsed<T> {
    Err(ValueError::new(problem, range))
}

/// A plus sign before an angle or turns means "further by"; elsewhere it says nothing.
fn turned(mut value: Value) -> Value {
    if let (Shape::Single(number), Kind::Angle | Kind::Turns) = (&value.shape, value.unit.kind()) {
        value.shape = Shape::Turn(number.clone());
    }
    value
}

#[derive(Clone, Copy)]
enum Bound {
    Min,
    Max,
    Over,
    Under,
}

impl Bound {
    fn of(word: &str) -> Option<Self> {
        match word.to_lowercase().as_str() {
            "min" => Some(Self::Min),
            "max" => Some(Self::Max),
            "over" => Some(Self::Over),
            "under" => Some(Self::Under),
            _ => None,
        }
    }
}

/// What stands between the first number and the next.
enum Joint {
    Range,
    PlusMinus,
    Plus,
    Minus,
    /// A dash that may as well be a minus sign.
    Doubtful,
}

struct Cursor<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Cursor<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn skip_spaces(&mut self) {
        self.at += self.rest().len() - self.rest().trim_start().len();
    }

    fn eat(&mut self, word: &str) -> bool {
        let found = self.rest().starts_with(word);
        if found {
            self.at += word.len();
        }
        found
    }

    /// `min`, `max`, `over`, `under`, in any case, with or without a full stop.
    fn bound(&mut self) -> Option<Bound> {
        let rest = self.rest();
        let length = rest.find(|letter: char| !letter.is_alphabetic()).unwrap_or(rest.len());
        let bound = Bound::of(rest.get(..length)?)?;
        self.at += length;
        if self.rest().starts_with(". ") {
            self.at += 1;
        }
        self.skip_spaces();
        Some(bound)
    }

    /// A plus sign that is not the beginning of `+/-`.
    fn lone_plus(&mut self) -> bool {
        let is_joint = PLUS_MINUS.iter().any(|sign| self.rest().starts_with(sign));
        let found = !is_joint && self.eat("+");
        if found {
            self.skip_spaces();
        }
        found
    }

    fn number(&mut self) -> Parsed<Placed> {
        self.skip_spaces();
        let (number, range) = Number::scan(self.text, self.at)?;
        self.at = range.end;
        Ok((number, range))
    }

    fn has_minus(&self) -> bool {
        self.rest().trim_start().starts_with(['-', '\u{2212}'])
    }

    fn bounded(
        &mut self,
        bound: Bound,
        (number, range): Placed,
    ) -> Parsed<(Shape, Vec<Range<usize>>)> {
        let start = self.at;
        if self.joint().is_some() {
            let found = self.text.get(start..).unwrap_or_default().trim().to_owned();
            return fail(ValueProblem::Trailing { found, offer: None }, start..self.text.len());
        }
        let shape = match bound {
            Bound::Min => Shape::Min(number),
            Bound::Max => Shape::Max(number),
            Bound::Over => Shape::Over(number),
            Bound::Under => Shape::Under(number),
        };
        Ok((shape, vec![range]))
    }

    fn shape(&mut self, first: Placed) -> Parsed<(Shape, Vec<Range<usize>>)> {
        match self.joint() {
            None => Ok((Shape::Single(first.0), vec![first.1])),
            Some(Joint::Range) => self.range(first),
            Some(Joint::PlusMinus) => self.plus_minus(first),
            Some(Joint::Plus) => self.uneven(first, true),
            Some(Joint::Minus) => self.uneven(first, false),
            Some(Joint::Doubtful) => self.doubtful(first),
        }
    }

    /// What joins a further number to the first; the cursor is left behind it.
    fn joint(&mut self) -> Option<Joint> {
        let before = self.at;
        self.skip_spaces();
        let spaced = self.at > before;
        if let Some(joint) = self.range_sign(spaced) {
            return Some(joint);
        }
        if PLUS_MINUS.iter().any(|sign| self.eat(sign)) {
            return Some(Joint::PlusMinus);
        }
        if self.eat("+") {
            return Some(Joint::Plus);
        }
        if self.eat("-") || self.eat("\u{2212}") {
            return Some(Joint::Minus);
        }
        None
    }

    fn range_sign(&mut self, spaced: bool) -> Option<Joint> {
        if self.eat("..") || self.eat("…") {
            return Some(Joint::Range);
        }
        let begins_number = |rest: &str| {
            rest.trim_start().starts_with(|next: char| {
                next.is_ascii_digit() || matches!(next, '.' | '-' | '\u{2212}' | '+')
            })
        };
        let rest = self.rest();
        if rest.strip_prefix("to").is_some_and(begins_number) {
            self.at += 2;
            return Some(Joint::Range);
        }
        let after = rest.strip_prefix('–')?;
        self.at += '–'.len_utf8();
        let even = spaced == after.starts_with(char::is_whitespace);
        Some(if even && begins_number(after) { Joint::Range } else { Joint::Doubtful })
    }

    fn range(&mut self, first: Placed) -> Parsed<(Shape, Vec<Range<usize>>)> {
        if self.rest().starts_with("..")
            || (self.text.get(..self.at).is_some_and(|done| done.ends_with(".."))
                && self.rest().starts_with('.'))
        {
            let dots = self.rest().len() - self.rest().trim_start_matches('.').len();
            let range = self.at.saturating_sub(2)..self.at + dots;
            let found = self.text.get(range.clone()).unwrap_or_default().to_owned();
            return fail(ValueProblem::NoNumber { found }, range);
        }
        self.skip_spaces();
        self.lone_plus();
        let (max, max_range) = self.number()?;
        let (min, min_range) = first;
        if min.exact() > max.exact() {
            let problem = ValueProblem::RangeReversed {
                min: min.text().to_owned(),
                max: max.text().to_owned(),
            };
            return fail(problem, min_range.start..max_range.end);
        }
        Ok((Shape::Range { min, max }, vec![min_range, max_range]))
    }

    fn plus_minus(&mut self, first: Placed) -> Parsed<(Shape, Vec<Range<usize>>)> {
        let (tolerance, range) = self.tolerance()?;
        let shape =
            Shape::Tolerance { nominal: first.0, plus: tolerance.clone(), minus: tolerance };
        Ok((shape, vec![first.1, range]))
    }

    /// A number that must not have a sign of its own.
    fn tolerance(&mut self) -> Parsed<Placed> {
        self.skip_spaces();
        let signed = self.has_minus() || self.rest().starts_with('+');
        let start = self.at;
        if self.rest().starts_with('+') {
            self.eat("+");
        }
        let (number, range) = self.number()?;
        if signed {
            let found = self.text.get(start..range.end).unwrap_or_default().to_owned();
            return fail(ValueProblem::NegativeTolerance { found }, start..range.end);
        }
        Ok((number, range))
    }

    /// `20 +2/-1` and `20 -1/+2`; the first sign is behind the cursor.
    fn uneven(&mut self, nominal: Placed, plus_first: bool) -> Parsed<(Shape, Vec<Range<usize>>)> {
        let first = self.tolerance()?;
        self.skip_spaces();
        self.eat("/");
        self.skip_spaces();
        let other_sign =
            if plus_first { self.eat("-") || self.eat("\u{2212}") } else { self.eat("+") };
        if !other_sign {
            return fail(
                one_sided(self, &nominal, &first, plus_first),
                nominal.1.start..first.1.end,
            );
        }
        let second = self.tolerance()?;
        let ranges = vec![nominal.1, first.1, second.1];
        let (plus, minus) = if plus_first { (first.0, second.0) } else { (second.0, first.0) };
        let ranges = if plus == minus {
            ranges.into_iter().take(2).collect()
        } else {
            in_order(ranges, plus_first)
        };
        Ok((Shape::Tolerance { nominal: nominal.0, plus, minus }, ranges))
    }

    /// A dash with a space on one side only, which could be a minus sign.
    fn doubtful(&mut self, first: Placed) -> Parsed<(Shape, Vec<Range<usize>>)> {
        let second = self.number()?;
        fail(one_sided(self, &first, &second, false), first.1.start..second.1.end)
    }

    /// Reads the unit, and the percentage that may follow it.
    fn finish(&mut self, shape: Shape, mut ranges: Vec<Range<usize>>) -> Parsed<Value> {
        self.skip_spaces();
        let joint =
            PLUS_MINUS.iter().filter_map(|sign| Some((self.rest().find(sign)?, sign.len()))).min();
        let start = self.at;
        let end = joint.map_or(self.text.len(), |(offset, _)| start + offset);
        let unit_range = trimmed(self.text, start..end);
        let unit = self.unit(&shape, &ranges, unit_range.clone())?;
        let shape = match joint {
            None => shape,
            Some((_, length)) => {
                self.at = end + length;
                let (shape, range) = self.percent(shape, unit, end)?;
                ranges.push(range);
                shape
            }
        };
        Ok(Value { shape, unit, number_ranges: ranges, unit_range })
    }

    /// `10 %` after the `±` of `2.45 kΩ ± 10 %`.
    fn percent(&mut self, shape: Shape, unit: Unit, joint: usize) -> Parsed<(Shape, Range<usize>)> {
        let Shape::Single(nominal) = shape else {
            let found = self.text.get(joint..).unwrap_or_default().trim().to_owned();
            return fail(ValueProblem::Trailing { found, offer: None }, joint..self.text.len());
        };
        let (percent, range) = self.tolerance()?;
        let rest = trimmed(self.text, self.at..self.text.len());
        if self.text.get(rest.clone()) != Some("%") {
            let offer = format!("{nominal} ± {}", unit.after(percent.text()));
            return fail(ValueProblem::UnitTwice { offer: Some(offer) }, joint..self.text.len());
        }
        if unit.symbol() == "%" {
            let problem = ValueProblem::PercentOfPercent {
                nominal: nominal.text().to_owned(),
                tolerance: percent.text().to_owned(),
            };
            return fail(problem, joint..rest.end);
        }
        if percent.exact() >= &super::power_of_ten(2) {
            return fail(ValueProblem::PercentTooLarge { found: percent.text().to_owned() }, range);
        }
        Ok((Shape::PercentTolerance { nominal, percent }, range))
    }

    fn unit(&self, shape: &Shape, ranges: &[Range<usize>], range: Range<usize>) -> Parsed<Unit> {
        let found = self.text.get(range.clone()).unwrap_or_default();
        let numbers =
            ranges.first().map_or(0, |first| first.start)..ranges.last().map_or(0, |last| last.end);
        if found.is_empty() {
            let number = self.text.get(numbers.clone()).unwrap_or_default().to_owned();
            return fail(ValueProblem::NoUnit { number }, numbers);
        }
        if let Some(second) = found.strip_prefix(':') {
            return ratio(shape, second.trim(), numbers.start..range.end, self.text);
        }
        let error = match Unit::parse(found) {
            Ok(unit) => return Ok(unit),
            Err(error) => error,
        };
        let found = found.to_owned();
        match error {
            UnitError::Ambiguous { meanings } => {
                fail(ValueProblem::AmbiguousUnit { found, meanings }, range)
            }
            UnitError::Unknown { near } => {
                Err(self.after_unit(shape, &range).unwrap_or_else(|| {
                    ValueError::new(ValueProblem::UnknownUnit { found, near }, range)
                }))
            }
        }
    }

    /// Whether the text of `range` is a unit with something after it: then that is the error.
    fn after_unit(&self, shape: &Shape, range: &Range<usize>) -> Option<ValueError> {
        let found = self.text.get(range.clone())?;
        let (unit, length) = found.char_indices().rev().find_map(|(at, letter)| {
            let head = found.get(..at)?.trim_end();
            let parted = !letter.is_alphanumeric() || head.len() < at;
            if !parted || head.is_empty() || head.ends_with('.') {
                return None;
            }
            Some((Unit::parse(head).ok()?, head.len()))
        })?;
        let rest = trimmed(self.text, range.start + length..range.end);
        let found = self.text.get(rest.clone())?.to_owned();
        let again = found.starts_with("..") || found.starts_with('–') || found.starts_with("to ");
        if again {
            return Some(ValueError::new(ValueProblem::UnitTwice { offer: None }, rest));
        }
        let offer = match (shape, Bound::of(found.trim_end_matches('.'))) {
            (Shape::Single(number), Some(_)) => Some(format!(
                "{} {}",
                found.trim_end_matches('.').to_lowercase(),
                unit.after(number.text())
            )),
            _ => None,
        };
        Some(ValueError::new(ValueProblem::Trailing { found, offer }, rest))
    }
}

/// `9.5:1`; a ratio the other way round is not turned silently.
fn ratio(shape: &Shape, second: &str, range: Range<usize>, text: &str) -> Parsed<Unit> {
    if let ("1", Ok(unit)) = (second, Unit::parse(":1")) {
        return Ok(unit);
    }
    let turned = match shape {
        Shape::Single(number) if number.text() == "1" && Number::parse(second).is_ok() => {
            vec![format!("{second}:1")]
        }
        _ => Vec::new(),
    };
    let found = text.get(range.clone()).unwrap_or_default().trim().to_owned();
    fail(ValueProblem::Malformed { found, offers: turned }, range)
}

/// A tolerance with one sign only, or two numbers with a dash between them.
fn one_sided(cursor: &Cursor<'_>, first: &Placed, second: &Placed, plus: bool) -> ValueProblem {
    let found = cursor.text.get(first.1.start..second.1.end).unwrap_or_default().to_owned();
    let (low, high) = (first.0.text(), second.0.text());
    let offer = if plus {
        format!("{low} +{high}/-0")
    } else if first.0.exact() <= second.0.exact() {
        format!("{low}..{high}")
    } else {
        format!("{low} +0/-{high}")
    };
    ValueProblem::Malformed { found, offers: vec![offer] }
}

fn in_order(mut ranges: Vec<Range<usize>>, plus_first: bool) -> Vec<Range<usize>> {
    if !plus_first && ranges.len() > 2 {
        ranges.swap(1, 2);
    }
    ranges
}

/// `range` of `text` without the spaces at its ends.
fn trimmed(text: &str, range: Range<usize>) -> Range<usize> {
    let part = text.get(range.clone()).unwrap_or_default();
    let start = range.start + (part.len() - part.trim_start().len());
    start..start + part.trim().len()
}
