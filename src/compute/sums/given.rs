//! What was typed for the inputs of a sum, read into what its formulas work with.
//!
//! Invariant: every number is exact and in the unit that the table names; a unit that measures something else
//! is refused, never taken as a bare number.

use super::{Input, Sort, Sum, SumError};
use crate::compute::formula::{Bound, Names};
use crate::compute::reading::{other_kind, value};
use crate::compute::real::Real;
use crate::compute::{Refusal, reading};
use crate::quantity::{Exact, Kind, Unit, Value, parse_exact};

/// The inputs as read.
pub(super) struct Given {
    pub(super) names: Names,
    /// The unit in which each single quantity was typed.
    pub(super) units: Vec<(&'static str, Unit)>,
    /// The members of each list, as typed.
    pub(super) members: Vec<(&'static str, Vec<String>)>,
}

/// Reads what was typed, by the key of the input.
pub(super) fn read(sum: &Sum, typed: &dyn Fn(&str) -> Option<String>) -> Result<Given, SumError> {
    let mut given = Given { names: Names::new(), units: Vec::new(), members: Vec::new() };
    for (name, points) in sum.tables {
        let exact = |text: &str| parse_exact(text).unwrap_or_default();
        let points = points.iter().map(|(at, reads)| (exact(at), exact(reads)));
        given.names.insert((*name).to_owned(), Bound::Points(points.collect()));
    }
    for input in sum.inputs {
        let text = typed(input.key).map(|text| text.trim().to_owned()).filter(|text| !text.is_empty());
        let text = match (text, input.unless) {
            (Some(text), _) => text,
            (None, Some("")) => {
                given.names.insert(input.key.to_owned(), Bound::Nothing);
                continue;
            }
            (None, Some(unless)) => unless.to_owned(),
            (None, None) => {
                return Err(wrong(input, format!("{} is missing", input.title), &help(input)));
            }
        };
        let bound = given.bound(input, &text)?;
        given.names.insert(input.key.to_owned(), bound);
        if let Sort::Word { words } = input.sort {
            for (place, word) in words.iter().enumerate() {
                given.names.insert((*word).to_owned(), plain(Exact::from_integer(place.into())));
            }
        }
    }
    Ok(given)
}

fn plain(value: Exact) -> Bound {
    Bound::One(Real::exact(value))
}

fn wrong(input: &Input, message: String, help: &str) -> SumError {
    SumError { input: Some(input.key), message, help: help.to_owned() }
}

fn help(input: &Input) -> String {
    format!("write it as `{}`", input.example)
}

/// The members of a list: between semicolons, line ends, and commas that part no decimals.
fn members(text: &str) -> impl Iterator<Item = &str> {
    let is_digit = |letter: Option<char>| letter.is_some_and(|letter| letter.is_ascii_digit());
    let parts = move |at: usize| {
        let before = text.get(..at).and_then(|before| before.chars().next_back());
        let after = text.get(at + 1..).and_then(|after| after.chars().next());
        !(is_digit(before) && is_digit(after))
    };
    let ends = text.char_indices().filter(move |(at, letter)| match letter {
        ';' | '\n' => true,
        ',' => parts(*at),
        _ => false,
    });
    let ends: Vec<_> = ends.map(|(at, _)| at).chain([text.len()]).collect();
    let mut start = 0;
    let members = ends.into_iter().map(move |end| {
        let member = text.get(start..end).unwrap_or_default().trim();
        start = end + 1;
        member
    });
    members.filter(|member| !member.is_empty())
}

impl Given {
    fn bound(&mut self, input: &Input, text: &str) -> Result<Bound, SumError> {
        match input.sort {
            Sort::Quantity { unit } => {
                let (value, typed) = quantity(input, text, unit)?;
                self.units.push((input.key, typed));
                Ok(plain(value))
            }
            Sort::Alike { of } => {
                let (value, typed) = match self.units.iter().find(|(key, _)| *key == of) {
                    Some((_, first)) => alike(input, text, *first)?,
                    None => of_any_kind(input, text)?,
                };
                self.units.push((input.key, typed));
                Ok(plain(value))
            }
            Sort::Quantities { unit } => {
                let all: Vec<_> =
                    members(text).map(|one| quantity(input, one, unit)).collect::<Result<_, _>>()?;
                if let Some((_, typed)) = all.first() {
                    self.units.push((input.key, *typed));
                }
                self.members.push((input.key, members(text).map(str::to_owned).collect()));
                Ok(Bound::Many(all.into_iter().map(|(value, _)| value).collect()))
            }
            Sort::Points { at, unit } => {
                let point = |text: &str| {
                    let (left, right) = text
                        .split_once('=')
                        .ok_or_else(|| wrong(input, format!("`{text}` is no point"), &help(input)))?;
                    Ok((quantity(input, left, at)?.0, quantity(input, right, unit)?.0))
                };
                members(text).map(point).collect::<Result<_, _>>().map(Bound::Points)
            }
            Sort::Number => plain_number(input, text).map(plain),
            Sort::Word { words } => {
                let place = words.iter().position(|word| *word == text);
                place.map(|place| plain(Exact::from_integer(place.into()))).ok_or_else(|| {
                    wrong(
                        input,
                        format!("{} cannot be `{text}`", input.title),
                        &format!("write {}", words.join(", or ")),
                    )
                })
            }
        }
    }
}

/// One quantity in the unit the formulas work in, and the unit it was typed in.
///
/// A unit must be typed: the sheet offers them, and a length taken in the wrong one is a wrong answer.
fn quantity(input: &Input, text: &str, unit: &str) -> Result<(Exact, Unit), SumError> {
    let wanted = Unit::parse(unit).map_err(|error| wrong(input, error.message(unit), &error.help()))?;
    let refused =
        |refusal: Refusal| wrong(input, format!("{}: {}", input.title, refusal.message), &refusal.help);
    let read = reading(text, wanted).map_err(refused)?;
    if read.assumed {
        return Err(wrong(input, format!("{}: `{text}` has no unit", input.title), &help(input)));
    }
    // `5 °F` of difference are nine to five kelvins of it, whatever the zero of the scale.
    if wanted.kind() == Kind::TemperatureDifference && read.unit.kind() == Kind::Temperature {
        return Ok((read.value * read.unit.ratio_to(wanted), read.unit));
    }
    if !read.unit.converts_to(wanted) {
        return Err(refused(other_kind(read.unit, wanted)));
    }
    Ok((read.exact_in(wanted), read.unit))
}

/// One quantity of whatever kind, in its own unit.
fn of_any_kind(input: &Input, text: &str) -> Result<(Exact, Unit), SumError> {
    let refused = |error: crate::quantity::ValueError| wrong(input, error.message(), &error.help());
    let kind = match Value::parse(text) {
        Ok(value) => value.unit(),
        Err(error) => match Unit::parse("mm").map(|any| value(text, any)) {
            // What a thumb mends in a reading is mended here too; a number alone is of no kind.
            Ok(Ok((value, false))) => value.unit(),
            Ok(Ok((_, true))) => {
                return Err(wrong(input, format!("{}: `{text}` has no unit", input.title), &help(input)));
            }
            _ => return Err(refused(error)),
        },
    };
    quantity(input, text, kind.symbol())
}

/// One quantity of the kind of another, in that one's unit, which it may leave out.
fn alike(input: &Input, text: &str, unit: Unit) -> Result<(Exact, Unit), SumError> {
    let refused =
        |refusal: Refusal| wrong(input, format!("{}: {}", input.title, refusal.message), &refusal.help);
    let read = reading(text, unit).map_err(refused)?;
    if !read.unit.converts_to(unit) {
        return Err(refused(other_kind(read.unit, unit)));
    }
    Ok((read.exact_in(unit), read.unit))
}

/// A number without a unit; one written as a ratio to one is taken too.
fn plain_number(input: &Input, text: &str) -> Result<Exact, SumError> {
    let one = Unit::parse(":1").map_err(|error| wrong(input, error.message(":1"), &error.help()))?;
    let read = reading(text, one);
    let read =
        read.map_err(|refusal| wrong(input, format!("{}: {}", input.title, refusal.message), &refusal.help))?;
    Ok(read.exact_in(one))
}
