//! `baybook check`

use std::collections::BTreeSet;
use std::io::Write;

use super::args::{BaseDirectory, CheckArguments, ReportFormat};
use super::compare::side;
use super::{Failure, Status, write_json};
use crate::check::registry;
use crate::diag::{Finding, Severity, github, human, json, narrated, sarif};
use crate::emit::bundle::Withheld;
use crate::load::disk;

/// Checks a base and writes what was found.
pub fn run(arguments: &CheckArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let directory = arguments.base.directory();
    let mut public_before = BTreeSet::new();
    if let Some(path) = &arguments.since {
        let json = arguments.format != ReportFormat::Human;
        let Some(old) = side(path, Withheld::LeftOut, json, out, err)? else { return Ok(Status::Errors) };
        public_before = old.public_ids();
    }
    let found = disk::read_base(&directory)?;
    let examined = crate::examine_since(found, Some(disk::today()), &public_before);
    let wanted = |finding: &&Finding| arguments.notes || finding.severity() != Severity::Note;
    let shown: Vec<Finding> = examined.findings.iter().filter(wanted).cloned().collect();
    let sources = &examined.sources;
    match arguments.format {
        ReportFormat::Json => write_json(out, &json::report(&shown, sources, examined.summary))?,
        ReportFormat::Sarif => write_json(out, &sarif::report(&shown, &registry::rules(), sources))?,
        ReportFormat::Github => {
            writeln!(out, "{}", github::report(&shown, sources, &directory.to_string_lossy()))?;
        }
        ReportFormat::Human => {
            let show = if arguments.narrated { narrated::finding } else { human::finding };
            for finding in &shown {
                writeln!(out, "{}\n", show(finding, sources))?;
            }
            writeln!(out, "{}", human::summary(&shown, examined.summary))?;
        }
    }
    Ok(if examined.checked.is_some() { Status::Answered } else { Status::Errors })
}
