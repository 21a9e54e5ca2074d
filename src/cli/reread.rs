//! `baybook reread`: asks a second reader for each value from the cited page, and never shows the first.
//!
//! What is answered goes to a rereads file of this reader; the engine's own file is never touched.

mod answers;
mod fastening;
mod questions;

use std::io::{BufRead, Write};

use super::args::{BaseDirectory, RereadArguments};
use super::{Failure, Status, base_of};
use crate::emit::disk;
use crate::load;
use crate::model::{Confirmation, Engine, Model, Statement};
use answers::Answers;

/// Asks for every value of an engine that is not confirmed, and writes the answers.
pub fn run(
    arguments: &RereadArguments,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Result<Status, Failure> {
    let directory = &arguments.specs;
    let Some(checked) = base_of(directory, false, out, err)? else { return Ok(Status::Errors) };
    let model = checked.model();
    let Some(engine) = model.engines.get(arguments.engine.as_str()) else {
        return Err(super::no_engine(&arguments.engine, model));
    };
    let asked = open(engine, &arguments.by);
    if asked.is_empty() {
        writeln!(
            out,
            "every value of {} that `{}` did not read first is confirmed",
            engine.title, arguments.by
        )?;
        return Ok(Status::Answered);
    }
    let mut answers = Answers::new(engine, &arguments.by, load::disk::today());
    writeln!(
        out,
        "{} values of {} to read again. Open the manual; an empty line at \"value\" skips one,",
        asked.len(),
        engine.title
    )?;
    writeln!(out, "the end of input (Ctrl-D) stops and keeps what was answered.")?;
    for (number, statement) in asked.iter().enumerate() {
        let position = format!("{} of {}", number + 1, asked.len());
        match questions::ask(model, statement, &position, input, out)? {
            questions::Answer::Given(answer) => answers.add(statement, &answer),
            questions::Answer::Skipped => {}
            questions::Answer::Ended => break,
        }
    }
    if answers.is_empty() {
        writeln!(out, "nothing was answered, nothing was written")?;
        return Ok(Status::Answered);
    }
    let path = directory.directory().join(answers.path());
    let before = load::disk::read_text(&path)?;
    disk::replace_file(&path, &answers.text(before.as_deref()))?;
    writeln!(
        out,
        "wrote {} readings to {}; run `baybook check` to compare them",
        answers.len(),
        path.display()
    )?;
    Ok(Status::Answered)
}

/// The statements that want a second reading by somebody: in order of source and page.
fn open<'a>(engine: &'a Engine, by: &str) -> Vec<&'a Statement> {
    let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
    let unconfirmed = |one: &&Statement| {
        one.confirmation == Confirmation::ReadOnce && one.has_value() && !one.provenance.is_read_by(by)
    };
    let all = engine.statements.iter().chain(varied).map(AsRef::as_ref);
    let mut open: Vec<&Statement> = all.filter(unconfirmed).collect();
    open.sort_by_key(|one| (one.provenance.source.clone(), one.provenance.page.clone()));
    open
}

/// The title of a source, for a question.
fn source_title(model: &Model, statement: &Statement) -> String {
    let source = statement.provenance.source.as_ref();
    let title = source.and_then(|id| model.sources.get(id)).map(|one| one.title.clone());
    title.unwrap_or_else(|| "no source".to_owned())
}
