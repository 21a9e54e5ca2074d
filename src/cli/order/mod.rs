//! `baybook order`: a complaint in, its checks in the order that finds the cause soonest out.

mod args;
mod cautions;
mod source;
mod words;

use std::io::Write;
use std::path::{Path, PathBuf};

pub use args::OrderArguments;

use super::args::BaseDirectory;
use super::bundle::Bundle;
use super::{Failure, Status, base_of, is_json, refuse, unknown, write_json};
use crate::compute::order::{Findings, order};
use crate::diag::Sink;
use crate::load::place::FileKind;
use crate::load::{self, disk};
use crate::source::Sources;
use source::Asked;

impl BaseDirectory for OrderArguments {
    fn directory(&self) -> PathBuf {
        self.specs.clone().unwrap_or_else(|| PathBuf::from("specs"))
    }
}

/// Orders the checks and writes them.
pub fn run(arguments: &OrderArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let json = is_json(arguments.format);
    let Some(asked) = asked(arguments, json, out, err)? else { return Ok(Status::Errors) };
    let findings = findings(arguments, &asked)?;
    let found = order(&asked.job, &findings)?;
    if json {
        let answer = serde_json::to_value(&found).map_err(|error| Failure::Internal(error.to_string()))?;
        write_json(out, &answer)?;
    } else {
        write!(out, "{}", words::told(&asked, &found, &findings))?;
    }
    Ok(Status::Answered)
}

/// The complaint; none if its base or file has errors, which have been written.
fn asked(
    arguments: &OrderArguments,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Option<Asked>, Failure> {
    let (name, build) = (arguments.complaint.as_str(), arguments.build.as_deref());
    let path = Path::new(name);
    if path.extension().is_some_and(|ending| ending == "toml") {
        return of_file(path, arguments, json, out, err);
    }
    if let Some(directory) = &arguments.bundle {
        return source::of_bundle(&Bundle::open(directory)?, name, build).map(Some);
    }
    let Some(checked) = base_of(arguments, json, out, err)? else { return Ok(None) };
    source::of_base(checked.model(), name, build).map(Some)
}

fn of_file(
    path: &Path,
    arguments: &OrderArguments,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Option<Asked>, Failure> {
    if arguments.build.is_some() {
        let help = "name a complaint of the base, or leave `--build` out".to_owned();
        return Err(Failure::Usage("a file of its own belongs to no build".to_owned(), help));
    }
    let (mut sources, mut sink) = (Sources::default(), Sink::default());
    let found = disk::read_file(path)?;
    let decoded = load::load_alone(FileKind::Complaint, found, &mut sources, &mut sink);
    match decoded.filter(|decoded| decoded.whole) {
        Some(decoded) => source::of_file(&decoded.data).map(Some),
        None => refuse(&sink.into_sorted(&sources), &sources, json, out, err).map(|_| None),
    }
}

/// The results so far; each is of a check of the complaint, and no check has two.
fn findings(arguments: &OrderArguments, asked: &Asked) -> Result<Findings, Failure> {
    let mut findings = Findings::new();
    for (check, outcome) in &arguments.results {
        let known = asked.checks.iter().map(|(id, _)| id.as_str());
        if !known.clone().any(|id| id == check) {
            return Err(unknown("check", check, known));
        }
        if findings.insert(check.clone(), *outcome).is_some_and(|before| before != *outcome) {
            let help = "a check either showed or cleared; after a second try, give the result that holds";
            return Err(Failure::Usage(format!("`{check}` has two results"), help.to_owned()));
        }
    }
    Ok(findings)
}
