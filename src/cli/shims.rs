//! `baybook shims`: a job file in, the plan of which shim goes where.

mod job;
mod sheet;

use std::io::Write;

use super::args::ShimsArguments;
use super::{Failure, Status, is_json, refuse, write_json};
use crate::compute::shims;
use crate::diag::Sink;
use crate::load::disk;
use crate::source::Sources;

/// Reads the job, works out the plan, and writes it.
pub fn run(arguments: &ShimsArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let (mut sources, mut sink) = (Sources::default(), Sink::default());
    let found = disk::read_file(&arguments.job)?;
    let json = is_json(arguments.format);
    let read = job::read(found, &mut sources, &mut sink);
    let planned = read.and_then(|read| match shims::plan(&read.job) {
        Ok(plan) => Some((read.job, plan)),
        Err(error) => {
            sink.push(read.places.finding(&error));
            None
        }
    });
    let Some((job, plan)) = planned else {
        return refuse(&sink.into_sorted(&sources), &sources, json, out, err);
    };
    if json {
        let plan = serde_json::to_value(&plan).map_err(|error| Failure::Internal(error.to_string()))?;
        write_json(out, &plan)?;
    } else {
        write!(out, "{}", sheet::sheet(&job, &plan))?;
    }
    Ok(Status::Answered)
}
