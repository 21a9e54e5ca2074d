//! `baybook judge`: a reading in, the verdict out.

mod args;
mod base;
mod choose;
mod facts;
mod shelf;
mod words;

use std::io::Write;
use std::path::PathBuf;

pub use args::JudgeArguments;

use super::args::BaseDirectory;
use super::bundle::Bundle;
use super::{Failure, Status, base_of, is_json, write_json};
use crate::compute::Refusal;
use crate::compute::judge::{Accuracy, Limits, Question, Seen, State, judge};
use crate::model::StopSide;
use crate::quantity::Value;
use args::Fitting;
use facts::Shelf;

impl From<Refusal> for Failure {
    fn from(refusal: Refusal) -> Self {
        Self::Input(refusal.message, refusal.help)
    }
}

impl BaseDirectory for JudgeArguments {
    fn directory(&self) -> PathBuf {
        self.specs.clone().unwrap_or_else(|| PathBuf::from("specs"))
    }
}

/// Judges a reading and writes the verdict.
pub fn run(arguments: &JudgeArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let json = is_json(arguments.format);
    let bare = arguments.build.is_none() && arguments.gauge.is_none();
    let case = match &arguments.bundle {
        _ if bare => question(arguments, None)?,
        Some(directory) => question(arguments, Some(&Bundle::open(directory)?))?,
        None => {
            let Some(checked) = base_of(arguments, json, out, err)? else { return Ok(Status::Errors) };
            question(arguments, Some(checked.model()))?
        }
    };
    let judged = judge(&case.question)?;
    if json {
        let answer =
            serde_json::to_value(&judged.answer).map_err(|error| Failure::Internal(error.to_string()))?;
        write_json(out, &answer)?;
    } else {
        let must_stop = case.stop.is_some_and(|side| words::must_stop(&judged, side));
        write!(out, "{}", words::told(&judged, &case.scope, must_stop))?;
    }
    Ok(Status::Answered)
}

/// A question, and what is told of it to people beside the verdict.
struct Case {
    question: Question,
    /// The place and state that the limits are stated for.
    scope: Vec<String>,
    /// Beyond which limit the machine must not be run.
    stop: Option<StopSide>,
}

/// The question that the arguments ask.
fn question(arguments: &JudgeArguments, shelf: Option<&dyn Shelf>) -> Result<Case, Failure> {
    let gauge = arguments.gauge.as_ref().zip(shelf).map(|(id, shelf)| shelf.gauge(id)).transpose()?;
    let seen = seen(arguments)?;
    let (mut stop, mut scope) = (None, Vec::new());
    let mut question = match (&arguments.build, &arguments.of, shelf) {
        (Some(build), Some(of), Some(shelf)) => {
            let facts = shelf.facts(build, of)?;
            let [place, when] =
                [&arguments.place, &arguments.when].map(|pairs| pairs.iter().cloned().collect());
            let chosen = choose::choose(&facts, &place, &when)?;
            (stop, scope) = (facts.stop, chosen.scope);
            Question {
                limits: chosen.limits,
                below: facts.below,
                above: facts.above,
                fitting_new: false,
                needs_state: chosen.needs_state,
                state: chosen.state,
                gauge: None,
                accuracy: None,
                seen,
            }
        }
        _ => typed(arguments, seen)?,
    };
    question.gauge = gauge;
    question.fitting_new = arguments.fitting == Fitting::New;
    let unit = question.limits.unit();
    question.accuracy = match (&arguments.accuracy, unit) {
        (Some(text), Some(unit)) => Some(Accuracy::read(text, unit)?),
        _ => None,
    };
    Ok(Case { question, scope, stop })
}

/// Limits as typed, which hold in whatever state there was.
fn typed(arguments: &JudgeArguments, seen: Seen) -> Result<Question, Failure> {
    let values = |texts: &[String]| -> Result<Vec<Value>, Failure> {
        texts.iter().map(|text| Value::parse(text).map_err(|error| Refusal::from(error).into())).collect()
    };
    let limits = if arguments.window.is_empty() {
        Limits::Fit { new: values(&arguments.new)?, wear_limit: values(&arguments.wear_limit)? }
    } else {
        Limits::Window(values(&arguments.window)?)
    };
    if limits.unit().is_none() {
        return Err(Failure::Usage(
            "there is nothing to judge against".to_owned(),
            "give `--window`, `--new` or `--wear-limit`, or `--build` and `--of`".to_owned(),
        ));
    }
    let [below, above] = ["low", "high"].map(str::to_owned);
    Ok(Question {
        limits,
        below,
        above,
        fitting_new: false,
        needs_state: Vec::new(),
        state: State::Met,
        gauge: None,
        accuracy: None,
        seen,
    })
}

fn seen(arguments: &JudgeArguments) -> Result<Seen, Failure> {
    match (&arguments.reading, &arguments.goes, &arguments.stops) {
        (Some(reading), ..) => Ok(Seen::Reading(reading.clone())),
        (None, None, None) => Err(Failure::Usage(
            "no reading is given".to_owned(),
            "type what the gauge shows, or `--goes` and `--stops` for the leaves of a feeler gauge"
                .to_owned(),
        )),
        (None, goes, stops) => Ok(Seen::Leaves { goes: goes.clone(), stops: stops.clone() }),
    }
}
