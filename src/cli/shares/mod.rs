//! `baybook shares`: saved job records in, how often each cause was it out, for the lead to write into the guide.
//!
//! All files are counted or none: a count that leaves one out unseen would be taken for the whole.

mod count;

use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};

use super::args::Format;
use super::compare::side;
use super::{Failure, Status, failed, is_json, write_json};
use crate::emit::bundle::Withheld;
use crate::load::disk::{self, Content};
use crate::load::job_record::{self, JobRecord};
use count::{Counted, CountedCause, count};

/// Arguments of `shares`.
#[derive(Args, Debug)]
pub struct SharesArguments {
    /// Job records that a handbook saved, or directories of them
    #[arg(value_name = "RECORD.json|DIR", required = true)]
    pub records: Vec<PathBuf>,
    /// Spec base whose guides they are held against: shares as written, causes never found, ids that moved
    #[arg(long, value_name = "DIR", conflicts_with = "bundle")]
    pub specs: Option<PathBuf>,
    /// A compiled bundle, in place of the spec base
    #[arg(long, value_name = "DIR")]
    pub bundle: Option<PathBuf>,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

/// Reads the records, counts, and writes what was counted.
pub fn run(arguments: &SharesArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let json = is_json(arguments.format);
    let mut guide = None;
    if let Some(path) = arguments.specs.as_ref().or(arguments.bundle.as_ref()) {
        guide = side(path, Withheld::LeftOut, json, out, err)?;
        if guide.is_none() {
            return Ok(Status::Errors);
        }
    }
    let (records, refused) = read(&arguments.records)?;
    if !refused.is_empty() {
        return refuse(&refused, json, out, err);
    }
    let counted = count(&records, guide.as_ref());
    if json {
        let complaints: Vec<_> = counted.iter().map(as_json).collect();
        write_json(out, &json!({ "records": records.len(), "complaints": complaints }))?;
    } else {
        for_people(&counted, records.len(), out)?;
    }
    Ok(Status::Answered)
}

/// A file that is no job record, and why.
type RefusedFile = (PathBuf, String);

fn read(paths: &[PathBuf]) -> Result<(Vec<JobRecord>, Vec<RefusedFile>), Failure> {
    let (mut records, mut refused) = (Vec::new(), Vec::new());
    for path in paths {
        let files = disk::files_in(path, "json")?;
        if files.is_empty() {
            refused.push((path.clone(), "no file in it ends with `.json`".to_owned()));
        }
        for file in files {
            let read = match disk::read_file(&file)?.content {
                Content::Bytes(bytes) => job_record::read(&bytes),
                Content::TooLarge(_) | Content::Link => Err("it is larger than any job record".to_owned()),
            };
            match read {
                Ok(record) => records.push(record),
                Err(because) => refused.push((file, because)),
            }
        }
    }
    Ok((records, refused))
}

fn refuse(
    refused: &[RefusedFile],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let help =
        "a handbook saves a job record on its page of jobs; leave other files out: nothing was counted";
    if json {
        let said =
            |(file, because): &RefusedFile| json!({ "file": file.display().to_string(), "because": because });
        let first = refused.first().map(|(file, because)| format!("{}: {because}", file.display()));
        let mut answer = failed(&first.unwrap_or_default(), help);
        if let Some(answer) = answer.as_object_mut() {
            answer.insert("refused".to_owned(), refused.iter().map(said).collect());
        }
        write_json(out, &answer)?;
    } else {
        for (file, because) in refused {
            writeln!(err, "baybook: {} is no job record: {because}", file.display())?;
        }
        writeln!(err, "help: {help}")?;
    }
    Ok(Status::Errors)
}

fn as_json(one: &Counted) -> Value {
    let cause = |cause: &CountedCause| {
        json!({
            "id": cause.id,
            "title": cause.title,
            "jobs": cause.jobs,
            "share": cause.share(one.proved),
            "written": cause.written,
        })
    };
    json!({
        "id": one.id,
        "title": one.title,
        "in_guide": one.known,
        "jobs": one.proved,
        "not_proved": one.found_only,
        "not_found": one.not_found,
        "causes": one.causes.iter().map(cause).collect::<Vec<_>>(),
    })
}

fn for_people(counted: &[Counted], records: usize, out: &mut dyn Write) -> Result<(), Failure> {
    if counted.is_empty() {
        writeln!(out, "no check of a complaint sheet in {}", many(records, "record"))?;
        return Ok(());
    }
    for one in counted {
        let guide = if one.known { "" } else { " (the guide has no such complaint)" };
        writeln!(out, "{}: {}{guide}", one.id, one.title)?;
        let rest = [(one.found_only, "found and not proved"), (one.not_found, "without a cause")];
        let rest =
            rest.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("; {count} more {what}"));
        writeln!(
            out,
            "  {} with the cause found and proved{}",
            many(one.proved, "job"),
            rest.collect::<String>()
        )?;
        let wide = one.causes.iter().map(|cause| cause.id.chars().count()).max().unwrap_or_default();
        for cause in &one.causes {
            let written = cause.written.as_ref().map(|share| format!("   the guide has share = {share}"));
            let of = format!("{} of {}", cause.jobs, one.proved);
            let line =
                format!("  {:wide$}  {of:>9}  {}{}", cause.id, cause.title, written.unwrap_or_default());
            writeln!(out, "{}", line.trim_end())?;
        }
        writeln!(out)?;
    }
    writeln!(
        out,
        "counted {}; write a number of jobs as the `share` of its cause, for all causes alike",
        many(records, "record")
    )?;
    Ok(())
}

fn many(count: usize, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
