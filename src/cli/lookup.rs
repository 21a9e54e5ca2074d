//! `baybook lookup`: words in, the lines that answer out, best first.

use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::{Value, json};

use super::args::{BaseDirectory, Format};
use super::bundle::Bundle;
use super::{Failure, Status, base_of, is_json, write_json};
use crate::emit::found;
use crate::find::{Answer, Found, Index, search};

/// Arguments of `lookup`.
#[derive(Args, Debug)]
pub struct LookupArguments {
    /// What to look up: machine, year, serial number, what it is, a number with its unit; in any order
    #[arg(value_name = "WORDS", required = true)]
    pub words: Vec<String>,
    /// Directory of the spec base [default: specs]
    #[arg(long, value_name = "DIR", conflicts_with = "bundle")]
    pub specs: Option<PathBuf>,
    /// Directory of a bundle, or of the handbook it lies in, in place of the spec base
    #[arg(long, value_name = "DIR")]
    pub bundle: Option<PathBuf>,
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
    let index = match &arguments.bundle {
        Some(directory) => bundled(directory)?,
        None => {
            let Some(checked) = base_of(arguments, json, out, err)? else { return Ok(Status::Errors) };
            found::index(checked.model())
        }
    };
    let words = arguments.words.join(" ");
    let Answer { lines, left_out, notes } =
        search(&index, &words, arguments.last.as_deref(), arguments.limit);
    if json {
        let results: Vec<Value> = lines.iter().map(as_json).collect();
        write_json(out, &json!({ "results": results, "left_out": left_out, "notes": notes }))?;
    } else {
        if lines.is_empty() {
            writeln!(
                out,
                "nothing fits `{words}`; name what it is, or a machine, or a number with its unit"
            )?;
        } else if !left_out.is_empty() {
            let left_out: Vec<_> = left_out.iter().map(|one| format!("`{one}`")).collect();
            writeln!(out, "nothing fits {}; below is what fits the rest", left_out.join(", "))?;
        }
        for note in &notes {
            writeln!(out, "  {note}")?;
        }
        for one in &lines {
            writeln!(out, "{}", line(one))?;
        }
    }
    Ok(Status::Answered)
}

/// The index that a bundle holds.
fn bundled(directory: &Path) -> Result<Index, Failure> {
    let json = Bundle::open(directory)?.read("find.json")?;
    serde_json::from_value(json).map_err(|error| {
        Failure::Input(
            format!("`find.json` of the bundle is not understood: {error}"),
            "compile it again".to_owned(),
        )
    })
}

fn as_json(one: &Found) -> Value {
    json!({
        "kind": one.kind,
        "build": one.build,
        "builds": one.builds,
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
    let more = match one.builds {
        0 | 1 => String::new(),
        2 => " and 1 more build".to_owned(),
        builds => format!(" and {} more builds", builds - 1),
    };
    let of_build = one.for_machine.as_ref().map(|build| format!("  [{build}{more}]")).unwrap_or_default();
    let text = if one.text.is_empty() { String::new() } else { format!(": {}", one.text) };
    format!("{}{}{text}{mark}{of_build}", one.title, words.concat())
}
