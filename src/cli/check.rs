//! `baybook check`

use std::io::Write;

use super::args::{BaseDirectory, CheckArguments};
use super::{Failure, Status, is_json, write_json};
use crate::diag::{Finding, Severity, human, json};
use crate::load::disk;

/// Checks a base and writes what was found.
pub fn run(arguments: &CheckArguments, out: &mut dyn Write) -> Result<Status, Failure> {
    let found = disk::read_base(&arguments.base.directory())?;
    let examined = crate::examine(found, Some(disk::today()));
    let shown: Vec<Finding> = examined
        .findings
        .iter()
        .filter(|finding| arguments.notes || finding.severity() != Severity::Note)
        .cloned()
        .collect();
    if is_json(arguments.format) {
        write_json(out, &json::report(&shown, &examined.sources, examined.summary))?;
    } else {
        for finding in &shown {
            writeln!(out, "{}\n", human::finding(finding, &examined.sources))?;
        }
        writeln!(out, "{}", human::summary(&shown, examined.summary))?;
    }
    Ok(if examined.checked.is_some() { Status::Answered } else { Status::Errors })
}
