//! `baybook import`: a table that a spreadsheet wrote as CSV, as statements of an engine file.
//!
//! A table gives all of its rows or none: one cell that is not understood, and nothing is written. No number
//! is changed; what the page says is for a person to hold against it, and for `check` to prove.

use std::io::Write;

use clap::Args;
use serde_json::{Value, json};

use super::args::{BaseDirectory, Format, SpecsArgument};
use super::{Failure, Status, failed, is_json, no_engine, write_json};
use crate::diag::{Severity, human};
use crate::emit::disk;
use crate::load::disk::{Content, Found, read_base, read_file, source_date};
use crate::load::import::{Fault, statements};

/// Arguments of `import`.
#[derive(Args, Debug)]
pub struct ImportArguments {
    /// The table: CSV in UTF-8 with a head, as `of`, `where.cylinder`, `when.engine`, `window`, `page`, `row`
    #[arg(value_name = "TABLE.csv")]
    pub table: std::path::PathBuf,
    /// Add the statements to this engine's file, if the base then has no errors; else they are printed
    #[arg(long, value_name = "ENGINE")]
    pub into: Option<String>,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
    /// Which base.
    #[command(flatten)]
    pub specs: SpecsArgument,
}

/// Reads a table, and prints its statements or adds them to an engine.
pub fn run(arguments: &ImportArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let json = is_json(arguments.format);
    let shown = arguments.table.display().to_string();
    let text = match read_file(&arguments.table)?.content {
        Content::Bytes(bytes) => String::from_utf8(bytes).ok(),
        Content::TooLarge(_) | Content::Link => None,
    };
    let Some(text) = text else {
        let help = "save the sheet again as CSV in UTF-8".to_owned();
        return Err(Failure::Input(format!("{shown} is no text in UTF-8, or too large"), help));
    };
    let (toml, count) = match statements(&text) {
        Ok(read) => read,
        Err(faults) => return refused(&shown, &faults, json, out, err),
    };
    if let Some(engine) = &arguments.into {
        return add(arguments, engine, &toml, count, out, err);
    }
    if json {
        write_json(out, &json!({ "statements": count, "toml": toml }))?;
    } else {
        write!(out, "{}", toml.trim_start_matches('\n'))?;
    }
    Ok(Status::Answered)
}

/// Says what is wrong, each with its line and column.
fn refused(
    shown: &str,
    faults: &[Fault],
    json: bool,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    if json {
        let first = faults.first();
        let message = first.map_or("the table is not understood", |one| one.message.as_str());
        let mut answer = failed(message, first.map_or("", |one| one.help.as_str()));
        let fault = |one: &Fault| json!({ "line": one.line, "column": one.column, "message": one.message, "help": one.help });
        if let Some(answer) = answer.as_object_mut() {
            answer.insert("faults".to_owned(), faults.iter().map(fault).collect::<Value>());
        }
        write_json(out, &answer)?;
        return Ok(Status::Errors);
    }
    for one in faults {
        let column = one.column.as_ref().map(|name| format!(", column `{name}`")).unwrap_or_default();
        writeln!(err, "{shown}:{}{column}: {}\n  help: {}", one.line, one.message, one.help)?;
    }
    writeln!(err, "baybook: nothing was written")?;
    Ok(Status::Errors)
}

/// Adds the statements to an engine's file, if the base then has no errors.
fn add(
    arguments: &ImportArguments,
    engine: &str,
    toml: &str,
    count: usize,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let root = arguments.specs.directory();
    let files = read_base(&root)?;
    let Some((path, text)) = file_of(&files, engine) else {
        let examined = crate::examine(files, source_date()?);
        return Err(match &examined.checked {
            Some(checked) => no_engine(engine, checked.model()),
            None => Failure::Input(
                format!("the base has errors, and no file of an engine `{engine}` that can be read"),
                "mend them first; `baybook check` says where".to_owned(),
            ),
        });
    };
    let longer = format!("{}\n{toml}", text.trim_end_matches('\n'));
    let with = |one: Found| {
        let ours = one.path == path;
        Found { content: if ours { Content::Bytes(longer.clone().into_bytes()) } else { one.content }, ..one }
    };
    let examined = crate::examine(files.into_iter().map(with).collect(), source_date()?);
    if examined.checked.is_none() {
        let errors = examined.findings.iter().filter(|one| one.severity() == Severity::Error);
        for finding in errors {
            writeln!(err, "{}\n", human::finding(finding, &examined.sources))?;
        }
        let message = format!("with these statements in {path} the base has errors; nothing was written");
        return Err(Failure::Input(message, "the lines are those the file would have".to_owned()));
    }
    disk::replace_file(&root.join(&path), &longer)?;
    if is_json(arguments.format) {
        write_json(out, &json!({ "statements": count, "file": path }))?;
    } else {
        writeln!(out, "added {count} statements to {path}; `baybook check` says what is to be looked at")?;
    }
    Ok(Status::Answered)
}

/// The file of an engine: its path in the base and its text.
fn file_of(files: &[Found], engine: &str) -> Option<(String, String)> {
    let name = format!("/{engine}.toml");
    let file = files.iter().find(|one| one.path.starts_with("engines/") && one.path.ends_with(&name))?;
    match &file.content {
        Content::Bytes(bytes) => Some((file.path.clone(), String::from_utf8(bytes.clone()).ok()?)),
        Content::TooLarge(_) | Content::Link => None,
    }
}
