//! Reads the text of a value, left to right, into its shape and unit.
//!
//! Invariant: every byte is accounted for, and every error points at bytes of the text.

use std::ops::Range;

use super::super::{Kind, Number};
use super::cursor::{Bound, Cursor, Joint, Parsed, Placed, fail};
use super::{LONGEST, Shape, Value, ValueProblem};

/// A shape, and where its numbers stand.
pub(super) type Draft = (Shape, Vec<Range<usize>>);

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
    let draft = match bound {
        Some(bound) => cursor.bounded(bound, first)?,
        None => cursor.joined(first)?,
    };
    let value = cursor.finish(draft)?;
    Ok(if plus { turned(value) } else { value })
}

/// A plus sign before an angle or turns means "further by"; elsewhere it says nothing.
fn turned(mut value: Value) -> Value {
    if let (Shape::Single(number), Kind::Angle | Kind::Turns) = (&value.shape, value.unit.kind()) {
        value.shape = Shape::Turn(number.clone());
    }
    value
}

impl Cursor<'_> {
    /// A limit on one side: nothing may be joined to its number.
    fn bounded(&mut self, bound: Bound, (number, range): Placed) -> Parsed<Draft> {
        let start = self.at;
        if self.joint().is_some() {
            let found = self.tail(start);
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

    fn joined(&mut self, first: Placed) -> Parsed<Draft> {
        match self.joint() {
            None => Ok((Shape::Single(first.0), vec![first.1])),
            Some(Joint::Range) => self.range(first),
            Some(Joint::PlusMinus) => self.plus_minus(first),
            Some(Joint::Plus) => self.uneven(first, true),
            Some(Joint::Minus) => self.uneven(first, false),
            Some(Joint::Doubtful) => {
                let second = self.number()?;
                self.one_sided(&first, &second, false)
            }
        }
    }

    fn range(&mut self, (min, min_range): Placed) -> Parsed<Draft> {
        // Of `0.15...25` nobody can say whether the second end is 25 or .25.
        let dots = self.at.checked_sub(2).filter(|start| self.tail(*start).starts_with("..."));
        if let Some(start) = dots {
            return fail(ValueProblem::NoNumber { found: "...".to_owned() }, start..self.at + 1);
        }
        self.skip_spaces();
        self.lone_plus();
        let (max, max_range) = self.number()?;
        if min.exact() > max.exact() {
            let (min, max) = (min.text().to_owned(), max.text().to_owned());
            return fail(ValueProblem::RangeReversed { min, max }, min_range.start..max_range.end);
        }
        Ok((Shape::Range { min, max }, vec![min_range, max_range]))
    }

    fn plus_minus(&mut self, (nominal, range): Placed) -> Parsed<Draft> {
        let (plus, tolerance) = self.tolerance()?;
        Ok((Shape::Tolerance { nominal, minus: plus.clone(), plus }, vec![range, tolerance]))
    }

    /// `20 +2/-1` and `20 -1/+2`; the first sign is behind the cursor.
    fn uneven(&mut self, nominal: Placed, plus_first: bool) -> Parsed<Draft> {
        let first = self.tolerance()?;
        self.skip_spaces();
        let slash = self.eat("/");
        self.skip_spaces();
        let other_sign = if plus_first { self.eat_minus() } else { self.eat("+") };
        if !other_sign && slash {
            self.tolerance()?; // Two of one sign: named as such.
        }
        if !other_sign {
            return self.one_sided(&nominal, &first, plus_first);
        }
        let second = self.tolerance()?;
        let (plus, minus) = if plus_first { (first, second) } else { (second, first) };
        let mut ranges = vec![nominal.1, plus.1];
        if plus.0 != minus.0 {
            ranges.push(minus.1);
        }
        Ok((Shape::Tolerance { nominal: nominal.0, plus: plus.0, minus: minus.0 }, ranges))
    }

    /// A tolerance with one sign only, or two numbers with a dash between them.
    fn one_sided(&self, first: &Placed, second: &Placed, plus: bool) -> Parsed<Draft> {
        let range = first.1.start..second.1.end;
        let found = self.text.get(range.clone()).unwrap_or_default().to_owned();
        let (low, high) = (&first.0, &second.0);
        let mixed = format!("{low} {high}");
        let glued = self.text.get(first.1.end..second.1.start) == Some("-");
        let offer = match (plus, low.exact() <= high.exact()) {
            // `1-1/2` as the inch trade writes one and a half.
            (false, false) if glued && high.is_fraction() && Number::parse(&mixed).is_ok() => mixed,
            (true, _) => format!("{low} +{high}/-0"),
            (false, true) => format!("{low}..{high}"),
            (false, false) => format!("{low} +0/-{high}"),
        };
        fail(ValueProblem::Malformed { found, offers: vec![offer] }, range)
    }
}
