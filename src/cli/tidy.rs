//! `baybook tidy`: every value spelt one way, without a change of any digit.

use std::io::Write;

use serde_json::{Value, json};

use super::args::{BaseDirectory, TidyArguments};
use super::{Failure, Status, is_json, write_json};
use crate::emit::disk;
use crate::load::disk::{Content, Found, read_base};
use crate::load::tidy::{Respelling, respellings, tidied};

/// One file that has something to respell.
struct Untidy {
    path: String,
    text: String,
    respellings: Vec<Respelling>,
}

/// Respells the values of a base; with `--look`, only says which.
pub fn run(arguments: &TidyArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let root = arguments.base.directory();
    let files: Vec<_> = read_base(&root)?.into_iter().filter(is_toml).collect();
    if files.is_empty() {
        let help = "name the directory of the spec base, as in `baybook tidy specs`";
        return Err(Failure::Input(format!("{} holds no TOML file", root.display()), help.to_owned()));
    }
    let (untidy, unread) = sorted_out(files);
    if !arguments.look {
        for file in &untidy {
            disk::replace_file(&root.join(&file.path), &tidied(&file.text, &file.respellings))?;
        }
    }
    if is_json(arguments.format) {
        write_json(out, &as_json(&untidy, &unread))?;
    } else {
        for_people(&untidy, arguments.look, out)?;
        for path in &unread {
            writeln!(err, "baybook: {path} is left as it is: it cannot be read; `baybook check` says why")?;
        }
    }
    let undone = arguments.look && !untidy.is_empty();
    Ok(if unread.is_empty() && !undone { Status::Answered } else { Status::Errors })
}

fn is_toml(file: &Found) -> bool {
    file.path.ends_with(".toml")
}

/// Files with something to respell, and the paths of those that cannot be read.
fn sorted_out(files: Vec<Found>) -> (Vec<Untidy>, Vec<String>) {
    let (mut untidy, mut unread) = (Vec::new(), Vec::new());
    for Found { path, content } in files {
        let text = match content {
            Content::Bytes(bytes) => String::from_utf8(bytes).ok(),
            Content::TooLarge(_) | Content::Link => None,
        };
        match text.and_then(|text| respellings(&text).map(|found| (text, found))) {
            Some((_, found)) if found.is_empty() => {}
            Some((text, respellings)) => untidy.push(Untidy { path, text, respellings }),
            None => unread.push(path),
        }
    }
    (untidy, unread)
}

fn for_people(untidy: &[Untidy], look: bool, out: &mut dyn Write) -> Result<(), Failure> {
    for file in untidy {
        for one in &file.respellings {
            let line = file.line(one);
            writeln!(out, "{}:{line}: `{}` is `{}`", file.path, one.before, one.after)?;
        }
    }
    let count: usize = untidy.iter().map(|file| file.respellings.len()).sum();
    let outcome = match (count, look) {
        (0, _) => "every value is written one way".to_owned(),
        (_, true) => format!("{count} to respell; nothing was written"),
        (_, false) => format!("{count} respelt; no digit changed"),
    };
    Ok(writeln!(out, "{outcome}")?)
}

fn as_json(untidy: &[Untidy], unread: &[String]) -> Value {
    let respelt: Vec<_> = untidy
        .iter()
        .flat_map(|file| file.respellings.iter().map(move |one| (file, one)))
        .map(|(file, one)| {
            json!({ "file": file.path, "line": file.line(one), "before": one.before, "after": one.after })
        })
        .collect();
    json!({ "respelt": respelt, "unread": unread })
}

impl Untidy {
    /// The line of a respelling, counted from 1.
    fn line(&self, one: &Respelling) -> usize {
        self.text.get(..one.range.start).unwrap_or_default().matches('\n').count() + 1
    }
}
