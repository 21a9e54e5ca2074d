//! `baybook compile`

use std::io::Write;

use super::args::CompileArguments;
use super::{Failure, Status};

/// Checks a base, then writes handbook and bundle; nothing is written if there is an error.
pub fn run(_arguments: &CompileArguments, _out: &mut dyn Write, _err: &mut dyn Write) -> Result<Status, Failure> {
    Ok(Status::Failed)
}
