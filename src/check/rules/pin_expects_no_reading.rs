//! `pin-expects-no-reading`: what is expected at a cavity is read with a meter, and no meter shows this.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Statement};
use crate::quantity::{Kind, Value, ValueError, ValueProblem};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "pin_expects_no_reading",
    "pin-expects-no-reading",
    Error,
    Units,
    "what is expected at a cavity is no electrical reading"
);

/// What a meter shows.
const ELECTRICAL: [Kind; 10] = [
    Kind::Voltage,
    Kind::AcVoltage,
    Kind::PeakVoltage,
    Kind::Current,
    Kind::Resistance,
    Kind::Capacitance,
    Kind::Charge,
    Kind::Frequency,
    Kind::Percent,
    Kind::Time,
];

/// Every expectation that is a number with a unit; words, as `nothing`, stay words.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Pins(pins) = &statement.form else { continue };
        for pin in pins {
            for (state, typed) in &pin.expect {
                let Some((what, help)) = wrong(typed) else { continue };
                let message = format!("cavity `{}`, {state}: {what}", pin.cavity);
                sink.push(at(statement, message, help));
            }
        }
    }
}

fn at(statement: &Statement, message: String, help: String) -> Finding {
    Finding::new(&RULE, statement.span, message, help).about(statement.span)
}

/// Why a text is no reading, and how to mend it; none for a reading and for words.
fn wrong(typed: &str) -> Option<(String, String)> {
    match Value::parse(typed) {
        Ok(value) if ELECTRICAL.contains(&value.unit().kind()) => None,
        Ok(value) => {
            let (unit, kind) = (value.unit().symbol(), value.unit().kind().title());
            let help = "write what a meter shows, or words without a unit".to_owned();
            Some((format!("`{unit}` is a unit of {kind}, which no meter shows"), help))
        }
        Err(error) => is_a_slip(&error).then(|| (error.message(), error.help())),
    }
}

/// The longest that a unit of a meter is written, in letters.
const LONGEST_UNIT: usize = 3;

/// True for a number whose unit was mistyped or could mean two things; other texts, as `5 pulses`, are words.
fn is_a_slip(error: &ValueError) -> bool {
    match &error.problem {
        ValueProblem::AmbiguousUnit { .. } | ValueProblem::UnknownUnit { near: Some(_), .. } => true,
        ValueProblem::UnknownUnit { found, near: None } => found.chars().count() <= LONGEST_UNIT,
        _ => false,
    }
}
