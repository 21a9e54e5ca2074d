//! JSON Schema of every kind of file, made from the types in [`super::format`].
//!
//! The files in `schemas/` are these, written down; a test holds the two together.

use std::sync::LazyLock;

use jsonschema::Validator;
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde_json::Value;

use super::format;
use super::place::FileKind;

/// The schema of a kind of file.
pub fn of(kind: FileKind) -> Value {
    match kind {
        FileKind::Base => input::<format::BaseFile>(),
        FileKind::Catalogue => input::<format::CatalogueFile>(),
        FileKind::Hazards => input::<format::HazardsFile>(),
        FileKind::Sources => input::<format::SourcesFile>(),
        FileKind::Gauges => input::<format::GaugesFile>(),
        FileKind::Machines => input::<format::MachinesFile>(),
        FileKind::Engine => input::<format::EngineFile>(),
        FileKind::Codes => input::<format::CodesFile>(),
        FileKind::Procedure => input::<format::ProcedureHead>(),
        FileKind::Complaint => input::<format::ComplaintFile>(),
        FileKind::Rereads => input::<format::RereadsFile>(),
        FileKind::Ids => input::<format::IdsFile>(),
    }
}

/// The compiled schema of a kind of file; none only if the schema itself were broken, which a test
/// rules out.
pub fn validator(kind: FileKind) -> Option<&'static Validator> {
    static ALL: LazyLock<Vec<Option<Validator>>> =
        LazyLock::new(|| FileKind::ALL.iter().map(|kind| jsonschema::draft202012::new(&of(*kind)).ok()).collect());
    let index = FileKind::ALL.iter().position(|one| *one == kind)?;
    ALL.get(index)?.as_ref()
}

/// The JSON Schema 2020-12 of a type that is written, with null where it may stand.
pub fn output<T: JsonSchema>() -> Value {
    let generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let mut value = generator.into_root_schema_for::<T>().to_value();
    without_widths(&mut value);
    value
}

/// Takes out the widths of integers, which other programs need not know.
fn without_widths(value: &mut Value) {
    match value {
        Value::Object(object) => {
            if object.get("format").is_some_and(Value::is_string) {
                object.remove("format");
            }
            object.values_mut().for_each(without_widths);
        }
        Value::Array(items) => items.iter_mut().for_each(without_widths),
        _ => {}
    }
}

/// The JSON Schema 2020-12 of a type that is read, plain enough for any editor and validator.
fn input<T: JsonSchema>() -> Value {
    let generator = SchemaSettings::draft2020_12().into_generator();
    let mut value = generator.into_root_schema_for::<T>().to_value();
    plain(&mut value);
    value
}

/// Takes out what Rust knows and other programs need not: null for a key that may be left out,
/// widths of integers, defaults that say nothing.
fn plain(value: &mut Value) {
    match value {
        Value::Object(object) => {
            for keyword in ["format", "default"] {
                if !object.contains_key("properties") && object.get(keyword).is_some_and(|one| !one.is_object() || keyword == "default") {
                    object.remove(keyword);
                }
            }
            if let Some(Value::Array(types)) = object.get_mut("type") {
                types.retain(|one| one != "null");
                if let [only] = types.as_slice() {
                    let only = only.clone();
                    object.insert("type".into(), only);
                }
            }
            if let Some(Value::Array(options)) = object.get_mut("enum") {
                options.retain(|one| !one.is_null());
            }
            if let Some(Value::Array(options)) = object.get_mut("anyOf") {
                options.retain(|one| one.get("type") != Some(&"null".into()));
                if let [Value::Object(only)] = options.as_slice() {
                    let only = only.clone();
                    object.remove("anyOf");
                    for (key, value) in only {
                        object.entry(key).or_insert(value);
                    }
                }
            }
            object.values_mut().for_each(plain);
        }
        Value::Array(items) => items.iter_mut().for_each(plain),
        _ => {}
    }
}
