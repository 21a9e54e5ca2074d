//! `baybook lookup`: words in, the lines that answer out, best first.

use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};

use super::args::{BaseDirectory, Format};
use super::{Failure, Status, base_of, is_json, write_json};
use crate::find::{Found, Index, search};

/// Arguments of `lookup`.
#[derive(Args, Debug)]
pub struct LookupArguments {
    /// What to look up: machine, year, serial number, what it is, a number with its unit; in any order
    #[arg(value_name = "WORDS", required = true)]
    pub words: Vec<String>,
    /// Directory of the spec base [default: specs]
    #[arg(long, value_name = "DIR")]
    pub specs: Option<PathBuf>,
    /// The build looked at last, preferred where none is named
    #[arg(long, value_name = "BUILD")]
    pub last: Option<String>,
    /// How many lines at most
    #[arg(long, value_name = "NUMBER", default_value_t = 20)]
    pub limit: usize,
    /// How the answer is written
    #[arg(long, value_enum, default_value_t)]
    pub format: Format,
}

impl BaseDirectory for LookupArguments {
    fn directory(&self) -> PathBuf {
        self.specs.clone().unwrap_or_else(|| PathBuf::from("specs"))
    }
}

/// Looks up and writes what answers.
pub fn run(arguments: &LookupArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let json = is_json(arguments.format);
    let Some(checked) = base_of(arguments, json, out, err)? else { return Ok(Status::Errors) };
    let index = Index::of(checked.model());
    let words = arguments.words.join(" ");
    let found = search(&index, &words, arguments.last.as_deref(), arguments.limit);
    if json {
        let results: Vec<Value> = found.iter().map(as_json).collect();
        write_json(out, &json!({ "results": results }))?;
    } else if found.is_empty() {
        writeln!(out, "nothing fits `{words}`; name what it is, or a machine, or a number with its unit")?;
    } else {
        for one in &found {
            writeln!(out, "{}", line(one))?;
        }
    }
    Ok(Status::Answered)
}

fn as_json(one: &Found) -> Value {
    json!({
        "kind": one.kind,
        "build": one.build,
        "of": one.of,
        "where": one.place,
        "when": one.when,
        "title": one.title,
        "text": one.text,
        "unconfirmed": one.open,
        "score": one.score,
    })
}

/// `Exhaust valve lash, cylinder front: 0.23 ± 0.02 mm (…)  [Tarnhawk 887 2019–2024 · ox-887]`
fn line(one: &Found) -> String {
    let words: Vec<_> =
        one.place.iter().chain(&one.when).map(|(name, word)| format!(", {name} {word}")).collect();
    let mark = if one.open { " (unconfirmed)" } else { "" };
    let of_build = one.for_machine.as_ref().map(|build| format!("  [{build}]")).unwrap_or_default();
    let text = if one.text.is_empty() { String::new() } else { format!(": {}", one.text) };
    format!("{}{}{text}{mark}{of_build}", one.title, words.concat())
}
