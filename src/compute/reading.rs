//! A reading as a gloved thumb types it: `.35`, `0,35`, `0.35mm`, `14 thou`, `56psi`, `1/64 in`.
//!
//! Wider than the grammar of a spec base in three things, each of which has one meaning only: a decimal
//! comma, a number without a unit, which is in the unit of what it is judged against, and a bare `C` or
//! `F` where a temperature is asked for. What could mean two things is refused.

use super::Refusal;
use crate::quantity::{Exact, Kind, Shape, Unit, Value, ValueError, ValueProblem};

/// How often the text is mended and read again: its number, then its unit.
const MENDS: usize = 3;

/// Kinds that a shop takes for one another, each of which says something else.
const ALIKE: [&[Kind]; 4] = [
    &[Kind::Voltage, Kind::AcVoltage, Kind::PeakVoltage],
    &[Kind::Pressure, Kind::AbsolutePressure],
    &[Kind::Current, Kind::ColdCrankingCurrent, Kind::CrankingCurrent, Kind::MarineCrankingCurrent],
    &[Kind::Temperature, Kind::TemperatureDifference],
];

/// One number that a gauge showed.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Reading {
    /// The number, in `unit`.
    pub value: Exact,
    /// Its unit.
    pub unit: Unit,
    /// How it was taken: digits as typed, the unit beside them.
    pub text: String,
    /// True if no unit was typed, so that it was taken in the unit asked for.
    pub assumed: bool,
}

impl Reading {
    /// The number in another unit of its kind.
    pub fn exact_in(&self, unit: Unit) -> Exact {
        unit.from_si(&self.unit.to_si(&self.value))
    }
}

/// Reads one number; without a unit of its own it is taken in `unit`.
///
/// The unit may be of a kind that a shop takes for that of `unit`, such as plain volts for peak volts:
/// that is no error of the reading, but nothing can be judged by it.
///
/// # Errors
/// [`Refusal`] where the text is no single number, or measures something else than `unit` does.
pub fn reading(text: &str, unit: Unit) -> Result<Reading, Refusal> {
    let (value, assumed) = value(text, unit)?;
    let (Shape::Single(number) | Shape::Turn(number)) = value.shape() else {
        return Err(Refusal::new(
            format!("`{value}` is more than one number"),
            "type the one number that the gauge shows",
        ));
    };
    if !value.unit().converts_to(unit) && !alike(value.unit().kind(), unit.kind()) {
        return Err(other_kind(value.unit(), unit));
    }
    Ok(Reading { value: number.exact().clone(), unit: value.unit(), text: value.text(), assumed })
}

/// The text as a value of the grammar, mended where it can mean one thing only; whether `unit` was added.
pub(super) fn value(text: &str, unit: Unit) -> Result<(Value, bool), Refusal> {
    let (mut text, mut assumed) = (text.to_owned(), false);
    for _ in 0..MENDS {
        let error = match Value::parse(&text) {
            Ok(value) => return Ok((value, assumed)),
            Err(error) => error,
        };
        let Some(mended) = mended(&text, &error, unit) else { return Err(refused(&text, error)) };
        assumed |= matches!(error.problem, ValueProblem::NoUnit { .. });
        text = mended;
    }
    Value::parse(&text).map(|value| (value, assumed)).map_err(Refusal::from)
}

/// The text with what is wrong put right; none where it could mean two things, or nothing.
fn mended(text: &str, error: &ValueError, unit: Unit) -> Option<String> {
    // What is wrong ends where the marked part does; a sign before it is marked too, and stays.
    let with = |found: &str, part: &str| {
        let start = error.range.end.checked_sub(found.len())?;
        let (before, after) = (text.get(..start)?, text.get(error.range.end..)?);
        Some(format!("{before}{part}{after}"))
    };
    match &error.problem {
        ValueProblem::NoUnit { .. } => Some(unit.after(text.trim())),
        ValueProblem::Malformed { found, offers } => match offers.as_slice() {
            [one] if found.chars().all(in_number) => with(found, one),
            _ => None,
        },
        ValueProblem::AmbiguousUnit { found, meanings } if unit.kind() == Kind::Temperature => {
            let fits = |write: &&str| Unit::parse(write).is_ok_and(|meant| meant.kind() == unit.kind());
            let mut meant = meanings.iter().map(|(write, _)| *write).filter(fits);
            let only = meant.next()?;
            if meant.next().is_some() { None } else { with(found, only) }
        }
        _ => None,
    }
}

/// Whether a letter can stand in one number, however its decimals are parted.
fn in_number(letter: char) -> bool {
    letter.is_ascii_digit() || matches!(letter, '.' | ',' | '\'' | '’') || letter.is_whitespace()
}

fn refused(text: &str, error: ValueError) -> Refusal {
    if matches!(error.problem, ValueProblem::Empty) {
        return Refusal::new("no reading is typed", "type what the gauge shows, such as `0.35`");
    }
    if text.trim_start().starts_with(['<', '>', '≤', '≥']) {
        return Refusal::new(
            error.message(),
            "type one number; for a leaf that goes or stops, type that leaf",
        );
    }
    error.into()
}

/// Whether a shop takes one kind for the other.
pub(super) fn alike(one: Kind, other: Kind) -> bool {
    ALIKE.iter().any(|kinds| kinds.contains(&one) && kinds.contains(&other))
}

/// What is said of a unit that measures something else.
pub(super) fn other_kind(found: Unit, wanted: Unit) -> Refusal {
    let help = format!("type it in {wanted} or another unit of {}", wanted.kind().title());
    if found.kind() == wanted.kind() {
        return Refusal::new(format!("`{found}` are not `{wanted}`"), help);
    }
    Refusal::new(
        format!("`{found}` is a unit of {}, not of {}", found.kind().title(), wanted.kind().title()),
        help,
    )
}
