//! `baybook draft`: the file of a new engine, with every entry to be read still open.
//!
//! It holds no value: each statement says `absent = "not-read"`, which the coverage sheet counts as open,
//! until somebody reads the page. An engine file that is there is never touched.

use std::fmt::Write as _;
use std::io::Write;

use super::args::{BaseDirectory, DraftArguments};
use super::{Failure, Status, base_of};
use crate::emit::disk;
use crate::load;
use crate::model::{Engine, Entry, Identity, Model, Words};

/// Writes the file of a new engine.
pub fn run(arguments: &DraftArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let Some(checked) = base_of(&arguments.specs, false, out, err)? else { return Ok(Status::Errors) };
    let model = checked.model();
    let like = arguments.like.as_deref();
    let like = like.map(|id| model.engines.get(id).ok_or_else(|| super::no_engine(id, model))).transpose()?;
    if model.engines.contains_key(arguments.engine.as_str()) {
        let help = "give the new engine another id, or go on in its file".to_owned();
        return Err(Failure::Usage(format!("the base has an engine `{}`", arguments.engine), help));
    }
    let path = format!("engines/{}/{}.toml", arguments.maker, arguments.engine);
    let file = arguments.specs.directory().join(&path);
    if load::disk::read_text(&file)?.is_some() {
        let help = "move it away first; nothing was written".to_owned();
        return Err(Failure::Usage(format!("{} is there", file.display()), help));
    }
    let identities = like.map_or_else(|| of_catalogue(model), of_engine);
    disk::replace_file(&file, &text(arguments, model, &identities))?;
    writeln!(out, "wrote {}: {} statements, none read yet", file.display(), identities.len())?;
    writeln!(
        out,
        "next: a machine in machines/*.toml with `engine = \"{}\"`, then one page after another; `baybook coverage` says what is open",
        arguments.engine
    )?;
    Ok(Status::Answered)
}

/// One open statement for each entry of the catalogue, everywhere.
fn of_catalogue(model: &Model) -> Vec<Identity> {
    let everywhere =
        |entry: &Entry| Identity { of: entry.id.clone(), place: Words::new(), when: Words::new() };
    model.entries.values().map(everywhere).collect()
}

/// What another engine states, at the same places and in the same states.
fn of_engine(engine: &Engine) -> Vec<Identity> {
    engine.statements.iter().map(|one| one.identity.clone()).collect()
}

fn text(arguments: &DraftArguments, model: &Model, identities: &[Identity]) -> String {
    let quoted = |text: &str| toml::Value::from(text).to_string();
    let mut text = format!(
        "#:schema ../../../schemas/engine.schema.json\n# A draft: nothing is read yet. Put a form in the place of `absent`, with page, row and column.\n\n\
         id = {}\nmaker = {}\ntitle = {}\n\n# [layout]\n# cycle = \"four-stroke\"\n# fuel = \"petrol\"\n# cylinders = 1\n\n[defaults]\n# source = \"\"\n# read_by = \"\"\n",
        quoted(&arguments.engine),
        quoted(&arguments.maker),
        quoted(&arguments.title),
    );
    for group in &model.groups {
        let of_group: Vec<_> = identities.iter().filter(|one| group.entries.contains(&one.of)).collect();
        if !of_group.is_empty() {
            _ = writeln!(text, "\n# {}", group.title);
        }
        for identity in of_group {
            let entry = model.entries.get(&identity.of);
            _ = write!(
                text,
                "\n{}[[spec]]\nof = {}\n",
                entry.map(takes).unwrap_or_default(),
                quoted(identity.of.as_str())
            );
            text.push_str(&words("where", &identity.place));
            text.push_str(&words("when", &identity.when));
            text.push_str("absent = \"not-read\"\n");
        }
    }
    text
}

/// A comment with what the catalogue takes: `# Exhaust valve lash, length: window; where cylinder`.
fn takes(entry: &Entry) -> String {
    let forms: Vec<_> = entry.forms.iter().map(|form| form.key()).collect();
    let mut line = format!("# {}", entry.title);
    if let Some(kind) = entry.kind {
        _ = write!(line, ", {}", kind.title());
    }
    _ = write!(line, ": {}", forms.join(", "));
    for (axis, values) in &entry.axes {
        _ = write!(line, "; where {axis} = {}", values.join(", "));
    }
    if !entry.states.is_empty() {
        let states: Vec<_> = entry.states.keys().map(String::as_str).collect();
        _ = write!(line, "; when {}", states.join(", "));
    }
    line.push('\n');
    line
}

fn words(key: &str, words: &Words) -> String {
    if words.is_empty() {
        return String::new();
    }
    let pairs: Vec<_> =
        words.iter().map(|(name, word)| format!("{name} = {}", toml::Value::from(word.as_str()))).collect();
    format!("{key} = {{ {} }}\n", pairs.join(", "))
}
