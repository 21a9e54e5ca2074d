//! What paths and types are called in findings.

use jsonschema::JsonType;
use serde_json::Value;

use crate::load::place::FileKind;
use crate::load::tree::Step;

/// The key that a path ends in, items aside.
pub(super) fn key_of(path: &[Step]) -> &str {
    let keys = path.iter().rev().filter_map(|step| match step {
        Step::Key(key) => Some(key.as_str()),
        Step::Item(_) => None,
    });
    keys.into_iter().next().unwrap_or("file")
}

/// What the table at a path is, in words.
pub(super) fn noun(kind: FileKind, path: &[Step]) -> &'static str {
    match (path.is_empty(), key_of(path)) {
        (true, _) => match kind {
            FileKind::Base => "`base.toml`",
            FileKind::Procedure => "the front matter",
            FileKind::Engine => "an engine file",
            FileKind::Catalogue => "a catalogue file",
            FileKind::Machines => "a machines file",
            FileKind::Codes => "a file of codes",
            FileKind::Complaint => "a complaint",
            FileKind::Rereads => "a file of rereads",
            FileKind::Hazards => "`hazards.toml`",
            FileKind::Sources => "`sources.toml`",
            FileKind::Gauges => "`gauges.toml`",
            FileKind::Ids => "`ids.toml`",
            FileKind::Relations => "a file of relations",
            FileKind::Shims => "a job of shims",
        },
        (_, "spec") => "a statement",
        (_, "reread") => "a reread",
        (_, "variant") => "a variant",
        (_, "applies") => "an `applies` table",
        (_, "waive") => "a waiver",
        (_, "on") => "`on` of a waiver",
        (_, "entry") => "an entry",
        (_, "source") => "a source",
        (_, "hazard") => "a hazard",
        (_, "gauge") => "a gauge",
        (_, "machine") => "a machine",
        (_, "fitted") => "a `fitted` table",
        (_, "serial") => "a serial span",
        (_, "layout") => "the layout",
        (_, "fastener") => "a fastener",
        (_, "fits") => "`fits`",
        (_, "defaults") => "`defaults`",
        (_, "misprint") => "a misprint",
        (_, "causes") => "a cause",
        (_, "checks") => "a check",
        (_, "access") => "an access step",
        (_, "code") => "a code",
        (_, "retired") => "a retired id",
        (_, "relation") => "a relation",
        (_, "off") => "an `off` table",
        (_, "valves") => "a valve",
        (_, "stock") => "a size in stock",
        _ => "this table",
    }
}

pub(super) const fn type_word(one: JsonType) -> &'static str {
    match one {
        JsonType::Array => "a list",
        JsonType::Boolean => "true or false",
        JsonType::Integer => "a whole number",
        JsonType::Null => "nothing",
        JsonType::Number => "a number",
        JsonType::Object => "a table",
        JsonType::String => "a text",
    }
}

pub(super) const fn json_word(value: &Value) -> &'static str {
    match value {
        Value::Null => "nothing",
        Value::Bool(_) => "true or false",
        Value::Number(_) => "a number",
        Value::String(_) => "a text",
        Value::Array(_) => "a list",
        Value::Object(_) => "a table",
    }
}
