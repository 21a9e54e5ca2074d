//! `baybook preview`: checks and compiles again after every change of the base.
//!
//! What was written stays as it is while the base has errors. The base is read whole and compared, about
//! once a second: no system's way of watching files works on every shop's network drive.

use std::io::Write;
use std::time::Duration;

use super::args::{BaseDirectory, PreviewArguments};
use super::compile::refuse_in_base;
use super::{Failure, Status};
use crate::diag::{Severity, human};
use crate::emit::{self, disk};
use crate::load::disk::{Found, read_base, source_date};

/// How long a change may go unseen.
const PAUSE: Duration = Duration::from_millis(700);

/// How often in a row the base may be unreadable.
const MOST_MISSED: u32 = 5;

/// Compiles whenever the base differs from what was compiled last.
pub fn run(
    arguments: &PreviewArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let root = arguments.base.directory();
    refuse_in_base(&arguments.out, &root)?;
    let mut last: Option<Vec<Found>> = None;
    let (mut runs, mut missed) = (0, 0);
    loop {
        let found = match read_base(&root) {
            Ok(found) => found,
            // An editor may take a file away for a moment while it saves.
            Err(_) if last.is_some() && missed < MOST_MISSED => {
                missed += 1;
                std::thread::sleep(PAUSE);
                continue;
            }
            Err(error) => return Err(error.into()),
        };
        missed = 0;
        if last.as_ref() == Some(&found) {
            std::thread::sleep(PAUSE);
            continue;
        }
        last = Some(found.clone());
        let status = compile_once(found, arguments, out, err)?;
        runs += 1;
        if arguments.runs == Some(runs) {
            return Ok(status);
        }
    }
}

fn compile_once(
    found: Vec<Found>,
    arguments: &PreviewArguments,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let examined = crate::examine(found, source_date()?);
    let mut shown = examined.findings;
    shown.retain(|finding| finding.severity() != Severity::Note);
    for finding in &shown {
        writeln!(err, "{}\n", human::finding(finding, &examined.sources))?;
    }
    let summary = human::summary(&shown, examined.summary);
    let Some(checked) = examined.checked else {
        writeln!(err, "{summary}; {} stays as it was", arguments.out.display())?;
        return Ok(Status::Errors);
    };
    let tree = emit::compile(&checked).map_err(|error| Failure::Internal(error.to_string()))?;
    disk::write(&tree, &arguments.out)?;
    let home = arguments.out.join("index.html");
    writeln!(out, "{summary}; reload {}, then go on; Ctrl-C stops", home.display())?;
    Ok(Status::Answered)
}
