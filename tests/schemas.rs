//! The schemas that editors and other programs use are the ones the compiler holds files against.
//!
//! `BLESS=1 cargo test --test schemas` writes `schemas/` anew after a change of the file format.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use baybook::load::place::FileKind;
use baybook::load::schema;
use serde_json::Value;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("schemas")
}

fn file_name(kind: FileKind) -> String {
    format!("{}.schema.json", kind.schema_name())
}

/// A part of a schema, and where it stands in it.
struct Part<'a> {
    at: String,
    schema: &'a Value,
    /// True for the value of a key, false for an item, a definition or the whole.
    of_key: bool,
}

/// Every schema inside a schema, itself among them.
fn parts<'a>(schema: &'a Value, at: &str, of_key: bool, all: &mut Vec<Part<'a>>) {
    all.push(Part { at: at.to_owned(), schema, of_key });
    for (keyword, of_key) in [("properties", true), ("$defs", false)] {
        for (name, part) in schema.get(keyword).and_then(Value::as_object).into_iter().flatten() {
            parts(part, &format!("{at}/{keyword}/{name}"), of_key, all);
        }
    }
    for keyword in ["items", "additionalProperties"] {
        if let Some(part) = schema.get(keyword).filter(|part| part.is_object()) {
            parts(part, &format!("{at}/{keyword}"), false, all);
        }
    }
}

fn parts_of(kind: FileKind, root: &Value) -> Vec<Part<'_>> {
    let mut all = Vec::new();
    parts(root, kind.schema_name(), false, &mut all);
    all
}

#[test]
fn the_committed_schemas_are_the_generated_ones() {
    let bless = std::env::var_os("BLESS").is_some();
    for kind in FileKind::ALL {
        let path = folder().join(file_name(kind));
        let generated = serde_json::to_string_pretty(&schema::of(kind)).unwrap() + "\n";
        if bless {
            fs::write(&path, &generated).unwrap();
        }
        let committed = fs::read_to_string(&path).unwrap_or_default();
        assert!(committed == generated, "{} is not what the types say: run with BLESS=1", path.display());
    }
}

#[test]
fn every_schema_file_belongs_to_a_kind() {
    let known: BTreeSet<_> = FileKind::ALL.into_iter().map(file_name).collect();
    let found: BTreeSet<_> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap())
        .filter(|entry| entry.file_type().unwrap().is_file())
        .map(|entry| entry.file_name().into_string().unwrap())
        .collect();
    assert_eq!(found, known);
}

/// JSON Schema 2020-12, by its own meta-schema.
#[test]
fn every_schema_is_one() {
    for kind in FileKind::ALL {
        let root = schema::of(kind);
        assert_eq!(root["$schema"], "https://json-schema.org/draft/2020-12/schema");
        if let Err(error) = jsonschema::draft202012::meta::validate(&root) {
            panic!("{}: {error}", kind.schema_name());
        }
        assert!(schema::validator(kind).is_some(), "{}", kind.schema_name());
    }
}

#[test]
fn every_key_is_described() {
    for kind in FileKind::ALL {
        let root = schema::of(kind);
        for part in parts_of(kind, &root) {
            let described = part.schema["description"].as_str().is_some_and(|text| text.len() > 3);
            assert!(described || !part.of_key, "{} has no description", part.at);
        }
    }
}

#[test]
fn every_table_has_a_title_and_a_description() {
    for kind in FileKind::ALL {
        let root = schema::of(kind);
        let definitions = root.get("$defs").and_then(Value::as_object).into_iter().flatten();
        for (name, table) in std::iter::once((&kind.schema_name().to_owned(), &root)).chain(definitions) {
            assert!(table["title"].is_string(), "{}: {name} has no title", kind.schema_name());
            assert!(table["description"].is_string(), "{}: {name} has no description", kind.schema_name());
        }
    }
}

/// A key whose value is not one of a few words, true or false, or a table shows what one looks like.
#[test]
fn every_free_value_has_an_example() {
    let mut without = Vec::new();
    for kind in FileKind::ALL {
        let root = schema::of(kind);
        for part in parts_of(kind, &root).iter().filter(|part| part.of_key) {
            let has = |schema: &Value, keyword: &str| schema.get(keyword).is_some();
            let of_items = part
                .schema
                .get("items")
                .is_some_and(|items| has(items, "$ref") || has(items, "enum") || has(items, "examples"));
            let plain =
                ["$ref", "enum"].iter().any(|one| has(part.schema, one)) || part.schema["type"] == "boolean";
            if !plain && !of_items && !has(part.schema, "examples") {
                without.push(part.at.clone());
            }
        }
    }
    assert!(without.is_empty(), "no example of\n{}", without.join("\n"));
}

#[test]
fn every_example_holds() {
    let mut count = 0;
    for kind in FileKind::ALL {
        let root = schema::of(kind);
        for part in parts_of(kind, &root) {
            let mut alone = part.schema.clone();
            if let Some(definitions) = root.get("$defs") {
                alone["$defs"] = definitions.clone();
            }
            let validator = jsonschema::draft202012::new(&alone).unwrap();
            for example in part.schema.get("examples").and_then(Value::as_array).into_iter().flatten() {
                count += 1;
                assert!(validator.is_valid(example), "{}: {example} does not hold", part.at);
            }
        }
    }
    assert!(count > 100, "only {count} examples");
}

/// What editors trip over: null where a key may be left out, a choice of constants, a Rust width.
#[test]
fn no_schema_shows_what_only_the_compiler_knows() {
    for kind in FileKind::ALL {
        let root = schema::of(kind);
        for part in parts_of(kind, &root) {
            let schema = part.schema;
            assert!(schema.get("anyOf").is_none(), "{}: anyOf", part.at);
            assert!(schema.get("format").is_none(), "{}: format", part.at);
            let types = schema["type"].as_array().cloned().unwrap_or_default();
            assert!(!types.contains(&"null".into()), "{}: null", part.at);
            let constants =
                schema["oneOf"].as_array().into_iter().flatten().any(|one| one.get("const").is_some());
            assert!(!constants, "{}: a choice of constants", part.at);
            if schema["type"] == "integer" {
                assert!(
                    schema.get("minimum").is_some() && schema.get("maximum").is_some(),
                    "{}: no bounds",
                    part.at
                );
            }
        }
    }
}
