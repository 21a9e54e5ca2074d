//! A sum worked out: its answers in the units that were typed, rounded once for people, and what to say.

use num_traits::{One, Signed, Zero};
use serde::ser::{Serialize, SerializeStruct, Serializer};

use super::given::{self, Given};
use super::{Answer, Sum};
use crate::compute::formula::{self, Bound, NoValue};
use crate::compute::real::Real;
use crate::quantity::{
    Exact, Kind, Rounding, Unit, decimal_text, exact_text, exponent_not_above, power_of_ten, round_to,
};

/// Decimals of a number in JSON that is no fraction.
const DECIMALS: u32 = 12;

/// What came out of a sum.
#[derive(Clone, Debug, Eq, PartialEq, serde::Serialize)]
pub struct Outcome {
    /// The answers, in order.
    pub results: Vec<Found>,
    /// What to say of them.
    pub notes: Vec<String>,
}

/// One answer.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Found {
    /// Its name.
    pub key: &'static str,
    /// What it is.
    pub title: &'static str,
    /// The member of a list that it is the answer of, as typed.
    pub of: Option<String>,
    /// The number, in `unit`.
    pub value: Real,
    /// Its unit; none for a plain number.
    pub unit: Option<Unit>,
    /// The number and its unit, rounded for people.
    pub text: String,
    /// What it means.
    pub word: Option<&'static str>,
}

/// Why a sum has no answer.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct SumError {
    /// The input it hangs on, where it is one.
    pub input: Option<&'static str>,
    /// What is wrong; no full stop.
    pub message: String,
    /// What to do.
    pub help: String,
}

/// Works out a sum from what was typed, by the key of each input.
///
/// # Errors
/// [`SumError`] where an input is missing or not understood, or the sum has no answer for it.
pub fn work(sum: &Sum, typed: &dyn Fn(&str) -> Option<String>) -> Result<Outcome, SumError> {
    let mut given = given::read(sum, typed)?;
    for (name, text) in sum.steps {
        let real = value(text, &given)?;
        given.names.insert((*name).to_owned(), Bound::One(real));
    }
    for (condition, message) in sum.must {
        if !holds(condition, &given)? {
            let help = sum.inputs.iter().map(|input| format!("{} {}", input.key, input.example));
            let help = format!("as an example: {}", help.collect::<Vec<_>>().join(", "));
            return Err(SumError { input: None, message: (*message).to_owned(), help });
        }
    }
    let mut results = Vec::new();
    for answer in sum.answers {
        if answer.when.is_none_or(|when| holds(when, &given) == Ok(true)) {
            of_answer(answer, &mut given, &mut results)?;
        }
    }
    let mut notes = Vec::new();
    for (condition, note) in sum.notes {
        if holds(condition, &given)? {
            notes.push((*note).to_owned());
        }
    }
    Ok(Outcome { results, notes })
}

fn of_answer(answer: &Answer, given: &mut Given, results: &mut Vec<Found>) -> Result<(), SumError> {
    let Some(list) = answer.each else {
        results.push(one(answer, None, given)?);
        return Ok(());
    };
    let Some(Bound::Many(all)) = given.names.get(list).cloned() else { return Ok(()) };
    let members = given.members.iter().find(|(key, _)| *key == list);
    let members = members.map(|(_, members)| members.clone()).unwrap_or_default();
    for (value, member) in all.into_iter().zip(members) {
        given.names.insert("one".to_owned(), Bound::One(Real::exact(value)));
        results.push(one(answer, Some(member), given)?);
    }
    Ok(())
}

fn one(answer: &Answer, of: Option<String>, given: &Given) -> Result<Found, SumError> {
    let mut real = value(answer.formula, given)?;
    let own = if answer.unit.is_empty() { None } else { Unit::parse(answer.unit).ok() };
    let like = answer.like.and_then(|like| given.units.iter().find(|(key, _)| *key == like));
    let unit = like.zip(own).and_then(|((_, typed), own)| own_unit(own, *typed));
    if let (Some(own), Some(unit)) = (own, unit) {
        real.value = unit.from_si(&own.to_si(&real.value));
    }
    let unit = unit.or(own);
    let number = shown(&real.value, answer.digits);
    let text = unit.map_or_else(|| number.clone(), |unit| unit.after(&number));
    let mut word = None;
    for (condition, says) in answer.words {
        if word.is_none() && holds(condition, given)? {
            word = Some(*says);
        }
    }
    Ok(Found { key: answer.key, title: answer.title, of, value: real, unit, text, word })
}

/// The unit of an answer in `own` for one who types in `typed`: of a difference of temperatures, that of the same size.
fn own_unit(own: Unit, typed: Unit) -> Option<Unit> {
    if own.kind() == Kind::TemperatureDifference && typed.kind() == Kind::Temperature {
        return Unit::of(own.kind()).find(|unit| unit.ratio_to(typed).is_one());
    }
    own.converts_to(typed).then_some(typed)
}

/// A number with so many digits, half to even; a whole number keeps all of its own.
fn shown(value: &Exact, digits: u32) -> String {
    if value.is_zero() {
        return "0".to_owned();
    }
    let first = exponent_not_above(&value.abs());
    let step = (first + 1 - i32::try_from(digits).unwrap_or_default()).min(0);
    let rounded = round_to(value, &power_of_ten(step), Rounding::HalfEven);
    decimal_text(&rounded, step.unsigned_abs())
}

fn value(text: &str, given: &Given) -> Result<Real, SumError> {
    let formula = formula::parse(text).and_then(|formula| formula::value(&formula, &given.names));
    formula.map_err(|error| SumError {
        input: None,
        message: error.to_string(),
        help: help(&error).to_owned(),
    })
}

const fn help(error: &NoValue) -> &'static str {
    match error {
        NoValue::Defect(_) => "this is a defect of baybook",
        NoValue::Beyond => "measure at a point that the manual gives, or between two of them",
        NoValue::BadPoints => {
            "write two points or more, each input once, with values that only rise or only fall"
        }
        NoValue::DividedByZero | NoValue::Undefined(_) => "look at the inputs again",
    }
}

fn holds(condition: &str, given: &Given) -> Result<bool, SumError> {
    value(condition, given).map(|real| !real.value.is_zero())
}

impl Found {
    /// The number for other programs: exact, or to twelve decimals where it is no fraction.
    pub fn number(&self) -> String {
        if !self.value.rough {
            return exact_text(&self.value.value);
        }
        let step = power_of_ten(-i32::try_from(DECIMALS).unwrap_or_default());
        exact_text(&round_to(&self.value.value, &step, Rounding::HalfEven))
    }
}

impl Serialize for Found {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut object = serializer.serialize_struct("Result", 7)?;
        object.serialize_field("key", self.key)?;
        object.serialize_field("title", self.title)?;
        object.serialize_field("of", &self.of)?;
        object.serialize_field("value", &self.number())?;
        object.serialize_field("unit", &self.unit.map(Unit::symbol))?;
        object.serialize_field("text", &self.text)?;
        object.serialize_field("word", &self.word)?;
        object.end()
    }
}
