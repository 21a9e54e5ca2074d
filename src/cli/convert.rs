//! `baybook convert`

use std::io::Write;

use serde_json::{Value as Json, json};

use super::args::ConvertArguments;
use super::{Failure, Status, is_json, write_json};
use crate::quantity::{ConvertError, Exact, Unit, Value, convert, exact_text};

/// Converts a value and writes it.
pub fn run(arguments: &ConvertArguments, out: &mut dyn Write) -> Result<Status, Failure> {
    let value = Value::parse(&arguments.value)
        .map_err(|error| Failure::Input(error.message(), error.help_for(&arguments.value)))?;
    let unit = Unit::parse(&arguments.unit)
        .map_err(|error| Failure::Input(error.message(&arguments.unit), error.help()))?;
    let converted = convert(&value, unit).map_err(refused)?;
    if is_json(arguments.format) {
        let exact = |end: &Option<Exact>| end.as_ref().map(exact_text);
        let answer: Json = json!({
            "text": converted.text,
            "min": converted.min,
            "max": converted.max,
            "unit": converted.unit.symbol(),
            "exact": { "min": exact(&converted.exact_min), "max": exact(&converted.exact_max) },
        });
        write_json(out, &answer)?;
    } else {
        writeln!(out, "{}", converted.text)?;
    }
    Ok(Status::Answered)
}

fn refused(error: ConvertError) -> Failure {
    match error {
        ConvertError::OtherKind { from, to } => Failure::Input(
            format!("`{}` does not convert into `{}`", from.symbol(), to.symbol()),
            format!(
                "{} is a unit of {}, {} is a unit of {}",
                from.symbol(),
                from.kind().title(),
                to.symbol(),
                to.kind().title()
            ),
        ),
        ConvertError::TooNarrow { value, to } => Failure::Input(
            format!("no rounded value in `{}` lies within `{value}`", to.symbol()),
            "judge in the unit it is printed in".to_owned(),
        ),
    }
}
