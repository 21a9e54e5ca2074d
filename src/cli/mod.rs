//! The command line: arguments in, exit status out.
//!
//! 0: answered. 1: the base, the file or the reading has errors. 2: the call or the machine failed;
//! with `--format json`, standard output then holds `{"error": {"message": …}}`.

mod args;
mod bundle;
mod check;
mod compare;
mod compile;
mod convert;
mod coverage;
mod draft;
mod editor;
mod explain;
mod import;
mod judge;
mod lookup;
mod order;
mod preview;
mod reread;
mod shares;
mod shims;
mod sums;
mod tidy;
mod verify;

use std::io::Write;
use std::path::Path;

use clap::Parser;
use serde_json::{Value, json};

use crate::check::Checked;
use crate::diag::{Finding, Severity, human, nearest};
use crate::load::disk::{self, MachineError};
use crate::model::{EngineId, Model};
use crate::source::Sources;
use args::{Arguments, BaseDirectory, Command, Format};

/// Exit status of a run.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Status {
    /// Answered.
    Answered = 0,
    /// The base, the file or the reading has errors.
    Errors = 1,
    /// The call or the machine failed.
    Failed = 2,
}

/// Why a command gave no answer.
#[derive(Debug)]
pub enum Failure {
    /// What was given has errors: message and help.
    Input(String, String),
    /// The call is wrong: message and help.
    Usage(String, String),
    /// The machine failed.
    Machine(MachineError),
    /// A part of this program failed: a defect, never the fault of the base.
    Internal(String),
    /// Nobody reads the output any more.
    OutputClosed,
}

impl From<MachineError> for Failure {
    fn from(error: MachineError) -> Self {
        Self::Machine(error)
    }
}

impl From<std::io::Error> for Failure {
    fn from(_: std::io::Error) -> Self {
        Self::OutputClosed
    }
}

/// Runs the command line given by the system.
pub fn run(arguments: impl IntoIterator<Item = std::ffi::OsString>) -> Status {
    let arguments: Vec<_> = arguments.into_iter().collect();
    let json = asks_for_json(&arguments);
    let (mut out, mut err) = (anstream::stdout(), anstream::stderr());
    match Arguments::try_parse_from(&arguments) {
        Ok(parsed) => match dispatch(parsed.command, &mut out, &mut err) {
            Ok(status) => status,
            Err(failure) => report(failure, json, &mut out, &mut err),
        },
        Err(error) if !error.use_stderr() => {
            _ = write!(out, "{}", error.render().ansi());
            Status::Answered
        }
        Err(error) if json => {
            let message = error.to_string();
            let said = message.lines().map(str::trim).take_while(|line| !line.is_empty());
            let said = said.collect::<Vec<_>>().join(" ");
            _ = writeln!(out, "{}", failed(said.trim_start_matches("error: "), "see `baybook --help`"));
            Status::Failed
        }
        Err(error) => {
            _ = write!(err, "{}", error.render().ansi());
            Status::Failed
        }
    }
}

fn dispatch(command: Command, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    match command {
        Command::Check(arguments) => check::run(&arguments, out, err),
        Command::Compare(arguments) => compare::run(&arguments, out, err),
        Command::Compile(arguments) => compile::run(&arguments, out, err),
        Command::Coverage(arguments) => coverage::run(&arguments, out, err),
        Command::Reread(arguments) => reread::run(&arguments, &mut std::io::stdin().lock(), out, err),
        Command::Draft(arguments) => draft::run(&arguments, out, err),
        Command::Editor(arguments) => editor::run(&arguments, out, err),
        Command::Preview(arguments) => preview::run(&arguments, out, err),
        Command::Tidy(arguments) => tidy::run(&arguments, out, err),
        Command::Import(arguments) => import::run(&arguments, out, err),
        Command::Verify(arguments) => verify::run(&arguments, out),
        Command::Convert(arguments) => convert::run(&arguments, out),
        Command::Torque(call) => sums::run(&call, out, err),
        Command::Screw(call) => sums::run(&call, out, err),
        Command::Sensor(call) => sums::run(&call, out, err),
        Command::Battery(call) => sums::run(&call, out, err),
        Command::Compression(call) => sums::run(&call, out, err),
        Command::Sums(call) => sums::run(&call, out, err),
        Command::Shares(arguments) => shares::run(&arguments, out, err),
        Command::Shims(arguments) => shims::run(&arguments, out, err),
        Command::Order(arguments) => order::run(&arguments, out, err),
        Command::Judge(arguments) => judge::run(&arguments, out, err),
        Command::Lookup(arguments) => lookup::run(&arguments, out, err),
        Command::Explain(arguments) => explain::run(&arguments, out),
    }
}

fn report(failure: Failure, json: bool, out: &mut dyn Write, err: &mut dyn Write) -> Status {
    let (message, help, status) = match failure {
        Failure::OutputClosed => return Status::Failed,
        Failure::Input(message, help) => (message, help, Status::Errors),
        Failure::Usage(message, help) => (message, help, Status::Failed),
        Failure::Machine(error) => (error.to_string(), String::new(), Status::Failed),
        Failure::Internal(message) => {
            (message, "this is a defect of baybook; nothing was written".to_owned(), Status::Failed)
        }
    };
    if json {
        _ = writeln!(out, "{}", failed(&message, &help));
    } else {
        _ = writeln!(err, "baybook: {message}");
        if !help.is_empty() {
            _ = writeln!(err, "help: {help}");
        }
    }
    status
}

fn failed(message: &str, help: &str) -> Value {
    if help.is_empty() {
        json!({ "error": { "message": message } })
    } else {
        json!({ "error": { "message": message, "help": help } })
    }
}

/// True if the call asks for JSON, read before it is known to be a right one.
fn asks_for_json(arguments: &[std::ffi::OsString]) -> bool {
    let words: Vec<_> = arguments.iter().map(|one| one.to_string_lossy()).collect();
    words.iter().any(|word| word == "--format=json")
        || words
            .windows(2)
            .any(|pair| matches!(pair, [flag, format] if flag == "--format" && format == "json"))
}

/// Writes what is wrong with a file that belongs to no base.
fn refuse(
    findings: &[Finding],
    sources: &Sources,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    if json {
        let first = findings.first();
        let message = first.map_or("the file is not understood", |one| one.message.as_str());
        let help = first.map_or("", |one| one.help.as_str());
        let mut answer = failed(message, help);
        if let Some(answer) = answer.as_object_mut() {
            answer.insert("findings".to_owned(), crate::diag::json::list(findings, sources));
        }
        write_json(out, &answer)?;
    } else {
        for finding in findings {
            writeln!(err, "{}\n", human::finding(finding, sources))?;
        }
    }
    Ok(Status::Errors)
}

/// The proved base of a command that needs one; without, its findings have been written.
fn base_of(
    base: &dyn BaseDirectory,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Option<Checked>, Failure> {
    base_at(&base.directory(), json, out, err)
}

/// The proved base in a directory; without, its findings have been written.
fn base_at(
    directory: &Path,
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Option<Checked>, Failure> {
    let examined = crate::examine(disk::read_base(directory)?, disk::source_date()?);
    if examined.checked.is_none() {
        let errors: Vec<_> =
            examined.findings.into_iter().filter(|one| one.severity() == Severity::Error).collect();
        if json {
            write_json(out, &crate::diag::json::report(&errors, &examined.sources, examined.summary))?;
        } else {
            for finding in &errors {
                writeln!(err, "{}\n", human::finding(finding, &examined.sources))?;
            }
            writeln!(err, "{}", human::summary(&errors, examined.summary))?;
        }
    }
    Ok(examined.checked)
}

/// An engine that the base does not have.
fn no_engine(id: &str, model: &Model) -> Failure {
    let ids = || model.engines.keys().map(EngineId::as_str);
    let help = nearest(id, ids()).map_or_else(
        || format!("engines are {}", ids().collect::<Vec<_>>().join(", ")),
        |near| format!("did you mean `{near}`?"),
    );
    Failure::Usage(format!("there is no engine `{id}`"), help)
}

/// An id that is not there, with the one that was perhaps meant.
fn unknown<'a>(what: &str, id: &str, known: impl Iterator<Item = &'a str> + Clone) -> Failure {
    let help = nearest(id, known.clone())
        .map_or_else(|| format!("it has {}", listed(known)), |near| format!("did you mean `{near}`?"));
    Failure::Usage(format!("there is no {what} `{id}`"), help)
}

/// A few names, and how many more there are.
fn listed<'a>(names: impl Iterator<Item = &'a str> + Clone) -> String {
    const SHOWN: usize = 8;
    let more = names.clone().count().saturating_sub(SHOWN);
    let shown: Vec<_> = names.take(SHOWN).collect();
    match (shown.is_empty(), more) {
        (true, _) => "none".to_owned(),
        (_, 0) => shown.join(", "),
        _ => format!("{} and {more} more", shown.join(", ")),
    }
}

/// Writes JSON, one value, with a line end.
fn write_json(out: &mut dyn Write, value: &Value) -> Result<(), Failure> {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    Ok(writeln!(out, "{text}")?)
}

/// Whether a format is JSON.
const fn is_json(format: Format) -> bool {
    matches!(format, Format::Json)
}
