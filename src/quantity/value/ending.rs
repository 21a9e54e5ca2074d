//! The end of a value: its unit, the percentage that may follow it, and whatever should not.

use std::ops::Range;

use super::super::exact::power_of_ten;
use super::super::{Number, Unit, UnitError};
use super::cursor::{Bound, Cursor, PLUS_MINUS, Parsed, fail, trimmed};
use super::parse::Draft;
use super::{Shape, Value, ValueError, ValueProblem};

impl Cursor<'_> {
    /// Reads the unit, and the percentage that may follow it.
    pub(super) fn finish(&mut self, (shape, mut ranges): Draft) -> Parsed<Value> {
        self.skip_spaces();
        let rest = self.rest();
        let joint = PLUS_MINUS.iter().filter_map(|sign| Some((rest.find(sign)?, sign.len()))).min();
        let end = joint.map_or(self.text.len(), |(offset, _)| self.at + offset);
        let unit_range = trimmed(self.text, self.at..end);
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

    /// `10 %` after the `±` of `2.45 kΩ ± 10 %`, which begins at byte `joint`.
    fn percent(&mut self, shape: Shape, unit: Unit, joint: usize) -> Parsed<(Shape, Range<usize>)> {
        let Shape::Single(nominal) = shape else {
            let found = self.tail(joint);
            return fail(ValueProblem::Trailing { found, offer: None }, joint..self.text.len());
        };
        let (percent, range) = self.tolerance()?;
        if self.tail(self.at) != "%" {
            let offer = Some(format!("{nominal} ± {}", unit.after(percent.text())));
            return fail(ValueProblem::UnitTwice { offer }, joint..self.text.len());
        }
        if unit.symbol() == "%" {
            let (nominal, tolerance) = (nominal.text().to_owned(), percent.text().to_owned());
            let problem = ValueProblem::PercentOfPercent { nominal, tolerance };
            return fail(problem, joint..self.text.len());
        }
        if percent.exact() >= &power_of_ten(2) {
            return fail(ValueProblem::PercentTooLarge { found: percent.text().to_owned() }, range);
        }
        Ok((Shape::PercentTolerance { nominal, percent }, range))
    }

    fn unit(&self, shape: &Shape, ranges: &[Range<usize>], range: Range<usize>) -> Parsed<Unit> {
        let found = self.text.get(range.clone()).unwrap_or_default();
        let start = ranges.iter().map(|number| number.start).min().unwrap_or_default();
        let end = ranges.iter().map(|number| number.end).max().unwrap_or_default();
        if found.is_empty() {
            let number = self.text.get(start..end).unwrap_or_default().to_owned();
            return fail(ValueProblem::NoUnit { number }, start..end);
        }
        if let Some(second) = found.strip_prefix(':') {
            return self.ratio(shape, second.trim(), start..range.end);
        }
        let (found, error) = match Unit::parse(found) {
            Ok(unit) => return Ok(unit),
            Err(error) => (found.to_owned(), error),
        };
        match error {
            UnitError::Ambiguous { meanings } => fail(ValueProblem::AmbiguousUnit { found, meanings }, range),
            UnitError::Unknown { near } => Err(self
                .after_unit(shape, &range)
                .unwrap_or_else(|| ValueError::new(ValueProblem::UnknownUnit { found, near }, range))),
        }
    }

    /// `9.5:1`, whose `second` number must be 1: a ratio the other way round is not turned silently.
    fn ratio(&self, shape: &Shape, second: &str, range: Range<usize>) -> Parsed<Unit> {
        if let ("1", Ok(unit)) = (second, Unit::parse(":1")) {
            return Ok(unit);
        }
        let offers = match shape {
            Shape::Single(number) if number.text() == "1" && Number::parse(second).is_ok() => {
                vec![format!("{second}:1")]
            }
            _ => Vec::new(),
        };
        let found = self.text.get(range.clone()).unwrap_or_default().to_owned();
        fail(ValueProblem::Malformed { found, offers }, range)
    }

    /// Whether the text of `range` is a unit with something after it: then that is the error.
    fn after_unit(&self, shape: &Shape, range: &Range<usize>) -> Option<ValueError> {
        let (unit, length) = leading_unit(self.text.get(range.clone())?)?;
        let rest = trimmed(self.text, range.start + length..range.end);
        let found = self.text.get(rest.clone())?.to_owned();
        if ["..", "…", "–", "to "].iter().any(|joint| found.starts_with(joint)) {
            return Some(ValueError::new(ValueProblem::UnitTwice { offer: None }, rest));
        }
        let word = found.trim_end_matches('.').to_lowercase();
        let offer = match (shape, Bound::of(&word)) {
            (Shape::Single(number), Some(_)) => Some(format!("{word} {}", unit.after(number.text()))),
            _ => None,
        };
        Some(ValueError::new(ValueProblem::Trailing { found, offer }, rest))
    }
}

/// The longest unit that `text` begins with, apart from what follows, and its length in bytes.
fn leading_unit(text: &str) -> Option<(Unit, usize)> {
    text.char_indices().rev().find_map(|(at, letter)| {
        let head = text.get(..at)?.trim_end();
        let apart = !letter.is_alphanumeric() || head.len() < at;
        let whole = apart && !head.is_empty() && !head.ends_with('.');
        let unit = whole.then(|| Unit::known(head)).flatten()?;
        Some((unit, head.len()))
    })
}
