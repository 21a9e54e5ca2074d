//! What was typed for the inputs of a sum, read into what its formulas work with.
//!
//! Invariant: every number is exact and in the unit that the table names; a unit that measures something else
//! is refused, never taken as a bare number.

use super::{Input, Sort, Sum, SumError};
use crate::compute::formula::{Bound, Names};
use crate::compute::real::Real;
use crate::quantity::{Exact, Number, Shape, Unit, Value, parse_exact};

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

/// The members of a list: between commas, semicolons or line ends.
fn members(text: &str) -> impl Iterator<Item = &str> {
    text.split([',', ';', '\n']).map(str::trim).filter(|member| !member.is_empty())
}

impl Given {
    fn bound(&mut self, input: &Input, text: &str) -> Result<Bound, SumError> {
        match input.sort {
            Sort::Quantity { unit } => {
                let (value, typed) = quantity(input, text, unit)?;
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
            Sort::Number => Number::parse(text)
                .map(|number| plain(number.exact().clone()))
                .map_err(|error| wrong(input, error.message(), &help(input))),
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
fn quantity(input: &Input, text: &str, unit: &str) -> Result<(Exact, Unit), SumError> {
    let wanted = Unit::parse(unit).map_err(|error| wrong(input, error.message(unit), &error.help()))?;
    let value = Value::parse(text)
        .map_err(|error| wrong(input, format!("{}: {}", input.title, error.message()), &error.help()))?;
    let typed = value.unit();
    let (Shape::Single(number) | Shape::Turn(number)) = value.shape() else {
        return Err(wrong(
            input,
            format!("{} is one value, and `{text}` is none", input.title),
            &help(input),
        ));
    };
    if !typed.converts_to(wanted) {
        let message = format!(
            "{} is a {}, and {} is a unit of {}",
            input.title,
            wanted.kind().title(),
            typed.symbol(),
            typed.kind().title()
        );
        return Err(wrong(input, message, &help(input)));
    }
    Ok((wanted.from_si(&typed.to_si(number.exact())), typed))
}
