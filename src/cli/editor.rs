//! `baybook editor`: the schemas that an editor completes and checks the files of a base with.
//!
//! Each file names its schema in its first line, `#:schema ../schemas/….json`. The schemas written here
//! know the ids of this base too, so that an editor offers them: entries, sources, machines, engines.
//! A schema that nobody of ours wrote is never replaced.

use std::io::Write;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use super::args::{BaseDirectory, EditorArguments};
use super::{Failure, Status, base_of};
use crate::emit::disk;
use crate::load::{self, place::FileKind, schema};
use crate::model::{EngineId, EntryId, GaugeId, HazardId, MachineId, Model, SourceId};

/// Writes one schema for each kind of file.
pub fn run(arguments: &EditorArguments, out: &mut dyn Write, err: &mut dyn Write) -> Result<Status, Failure> {
    let Some(checked) = base_of(&arguments.base, false, out, err)? else { return Ok(Status::Errors) };
    let directory = arguments.out.clone().unwrap_or_else(|| beside(&arguments.base.directory()));
    let ids = Ids::of(checked.model());
    let mut written = 0;
    for kind in FileKind::ALL {
        let path = directory.join(format!("{}.schema.json", kind.schema_name()));
        if let Some(there) = load::disk::read_text(&path)?
            && !is_ours(&there, kind)
        {
            let help = "give another directory with `--out`".to_owned();
            return Err(Failure::Usage(format!("{} is no schema of ours", path.display()), help));
        }
        let mut schema = schema::of(kind);
        ids.offer(&mut schema);
        let text = serde_json::to_string_pretty(&schema).unwrap_or_default();
        disk::replace_file(&path, &format!("{text}\n"))?;
        written += 1;
    }
    writeln!(out, "wrote {written} schemas to {}, with the ids of this base", directory.display())?;
    writeln!(
        out,
        "an editor with TOML and JSON Schema follows the `#:schema` line at the head of each file; run this again after adding ids"
    )?;
    Ok(Status::Answered)
}

/// Whether a schema that is there is of this kind of file.
fn is_ours(text: &str, kind: FileKind) -> bool {
    let title = |schema: &Value| schema.get("title").cloned();
    serde_json::from_str(text).is_ok_and(|there: Value| title(&there) == title(&schema::of(kind)))
}

/// The directory that the `#:schema` lines of a base point to.
fn beside(base: &Path) -> PathBuf {
    base.join("..").join("schemas")
}

/// What may stand under a key that names something of the base.
struct Ids {
    by_key: Vec<(&'static str, Vec<String>)>,
}

impl Ids {
    fn of(model: &Model) -> Self {
        let sources = ids(model.sources.keys().map(SourceId::as_str));
        Self {
            by_key: vec![
                ("of", ids(model.entries.keys().map(EntryId::as_str))),
                ("source", sources.clone()),
                ("supersedes", sources),
                ("machine", ids(model.machines.keys().map(MachineId::as_str))),
                ("engine", ids(model.engines.keys().map(EngineId::as_str))),
                ("hazards", ids(model.hazards.keys().map(HazardId::as_str))),
                ("gauge", ids(model.gauges.keys().map(GaugeId::as_str))),
            ],
        }
    }

    /// Puts the ids in the place of the pattern that ids have, wherever a key names one.
    fn offer(&self, schema: &mut Value) {
        match schema {
            Value::Object(object) => {
                for (key, inner) in object.iter_mut() {
                    if let Some((_, ids)) = self.by_key.iter().find(|(name, _)| name == key) {
                        offered(inner, ids);
                    }
                    self.offer(inner);
                }
            }
            Value::Array(items) => items.iter_mut().for_each(|item| self.offer(item)),
            _ => {}
        }
    }
}

fn ids<'a>(all: impl Iterator<Item = &'a str>) -> Vec<String> {
    all.map(ToOwned::to_owned).collect()
}

/// One key's schema, or that of its items: `enum` instead of `pattern`.
fn offered(schema: &mut Value, ids: &[String]) {
    let Some(object) = schema.as_object_mut() else { return };
    if let Some(items) = object.get_mut("items") {
        offered(items, ids);
    } else if object.contains_key("pattern") && !ids.is_empty() {
        object.remove("pattern");
        object.remove("examples");
        object.insert("enum".to_owned(), json!(ids));
    }
}
