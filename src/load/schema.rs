//! JSON Schema of every kind of file, made from the types in [`super::format`].
//!
//! The files in `schemas/` are these, written down; a test holds the two together. A schema says what
//! an editor can show and any validator can hold: no null where a key may simply be left out, no
//! Rust-only number widths, every set of words as an `enum`, keywords in the order a person reads.

use std::sync::LazyLock;

use jsonschema::Validator;
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value};

use super::format;
use super::place::FileKind;

/// The schema of a kind of file.
pub fn of(kind: FileKind) -> Value {
    match kind {
        FileKind::Base => input::<format::BaseFile>(),
        FileKind::Relations => input::<format::RelationsFile>(),
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
        FileKind::Shims => input::<format::ShimsFile>(),
    }
}

/// The compiled schema of a kind of file; none only if the schema itself were broken, which a test
/// rules out.
pub fn validator(kind: FileKind) -> Option<&'static Validator> {
    static ALL: LazyLock<Vec<Option<Validator>>> = LazyLock::new(|| {
        FileKind::ALL.iter().map(|kind| jsonschema::draft202012::new(&of(*kind)).ok()).collect()
    });
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
    name_definitions(&mut value);
    plain(&mut value);
    value
}

/// Gives every definition without a title its name in words: `VariantReach` is "Variant reach".
fn name_definitions(root: &mut Value) {
    let Some(definitions) = root.get_mut("$defs").and_then(Value::as_object_mut) else { return };
    for (name, schema) in definitions {
        if let Some(schema) = schema.as_object_mut() {
            schema.entry("title").or_insert_with(|| in_words(name).into());
        }
    }
}

fn in_words(name: &str) -> String {
    let mut words = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !words.is_empty() {
            words.push(' ');
            words.extend(letter.to_lowercase());
        } else {
            words.push(letter);
        }
    }
    words
}

/// Takes out of a schema, and of every schema inside it, what only Rust needs to know.
fn plain(schema: &mut Value) {
    let Value::Object(object) = schema else { return };
    without_null(object);
    words_as_enum(object);
    bound_of_width(object);
    object.retain(|keyword, value| keyword != "default" || says_something(value));
    for (keyword, value) in object.iter_mut() {
        match (keyword.as_str(), value) {
            ("properties" | "$defs", Value::Object(named)) => named.values_mut().for_each(plain),
            ("anyOf" | "oneOf", Value::Array(options)) => options.iter_mut().for_each(plain),
            ("items" | "additionalProperties", one) => plain(one),
            _ => {}
        }
    }
    in_reading_order(object);
}

/// A key that may be left out is not one that may be null: TOML has no null.
fn without_null(object: &mut Map<String, Value>) {
    if let Some(Value::Array(types)) = object.get_mut("type") {
        types.retain(|one| one != "null");
        if let [only] = types.as_slice() {
            let only = only.clone();
            object.insert("type".into(), only);
        }
    }
    if let Some(Value::Array(words)) = object.get_mut("enum") {
        words.retain(|word| !word.is_null());
    }
    if let Some(Value::Array(options)) = object.get_mut("anyOf") {
        options.retain(|one| one.get("type") != Some(&"null".into()));
        if let [Value::Object(only)] = options.as_slice() {
            let only = only.clone();
            object.remove("anyOf");
            for (keyword, value) in only {
                object.entry(keyword).or_insert(value);
            }
        }
    }
}

/// A choice of described words becomes an `enum`, for which validators and editors have one plain
/// message; what the words mean goes into the description, a line for each.
fn words_as_enum(object: &mut Map<String, Value>) {
    let Some(Value::Array(options)) = object.get("oneOf") else { return };
    let Some(words) = options.iter().map(|one| one.get("const").cloned()).collect::<Option<Vec<_>>>() else {
        return;
    };
    let mut description = object.get("description").and_then(Value::as_str).unwrap_or_default().to_owned();
    for (word, option) in words.iter().zip(options) {
        if let (Some(word), Some(means)) = (word.as_str(), option.get("description").and_then(Value::as_str))
        {
            let gap = if description.is_empty() { "" } else { "\n" };
            description = format!("{description}{gap}`{word}`: {means}");
        }
    }
    object.remove("oneOf");
    object.insert("type".into(), "string".into());
    object.insert("enum".into(), words.into());
    object.insert("description".into(), description.into());
}

/// `format: uint32` is no format that JSON Schema knows; its bound is.
fn bound_of_width(object: &mut Map<String, Value>) {
    if object.get("type").is_some_and(|one| one == "integer")
        && object.get("format").is_some_and(|one| one == "uint32")
    {
        object.entry("maximum").or_insert(u32::MAX.into());
    }
    if object.get("type").is_some_and(|one| one == "integer" || one == "number") {
        object.remove("format");
    }
}

/// An empty default only repeats that a key may be left out.
fn says_something(default: &Value) -> bool {
    match default {
        Value::Null => false,
        Value::Bool(_) | Value::Number(_) => true,
        Value::String(text) => !text.is_empty(),
        Value::Array(items) => !items.is_empty(),
        Value::Object(keys) => !keys.is_empty(),
    }
}

/// The order a person reads a schema in: what it is, what it takes, what is in it.
fn in_reading_order(object: &mut Map<String, Value>) {
    const FIRST: [&str; 8] =
        ["$schema", "title", "description", "examples", "$ref", "type", "enum", "default"];
    const LAST: [&str; 7] =
        ["required", "anyOf", "oneOf", "properties", "additionalProperties", "items", "$defs"];
    let rank = |keyword: &str| {
        let first = FIRST.iter().position(|one| *one == keyword);
        let last = LAST.iter().position(|one| *one == keyword).map(|at| FIRST.len() + 1 + at);
        first.or(last).unwrap_or(FIRST.len())
    };
    let mut keywords: Vec<_> = std::mem::take(object).into_iter().collect();
    keywords.sort_by_key(|(keyword, _)| rank(keyword));
    object.extend(keywords);
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn a_choice_of_words_is_an_enum_that_says_what_they_mean() {
        let mut schema = json!({
            "description": "Hand of the thread.",
            "oneOf": [
                { "type": "string", "const": "right", "description": "Tightens clockwise." },
                { "type": "string", "const": "left", "description": "Tightens counter-clockwise." }
            ]
        });
        plain(&mut schema);
        assert_eq!(schema["enum"], json!(["right", "left"]));
        assert_eq!(schema["type"], "string");
        let description = schema["description"].as_str().expect("it had one");
        assert_eq!(description.lines().next(), Some("Hand of the thread."));
        assert!(description.contains("`left`: Tightens counter-clockwise."));
    }

    #[test]
    fn a_choice_of_forms_stays_a_choice() {
        let mut schema = json!({ "oneOf": [{ "required": ["a"] }, { "required": ["b"] }] });
        let before = schema.clone();
        plain(&mut schema);
        assert_eq!(schema, before);
    }

    #[test]
    fn a_property_may_be_called_like_a_keyword() {
        let mut schema = json!({ "properties": { "default": { "type": "string" }, "format": { "type": ["integer", "null"], "format": "uint32" } } });
        plain(&mut schema);
        assert_eq!(schema["properties"]["default"], json!({ "type": "string" }));
        assert_eq!(schema["properties"]["format"], json!({ "type": "integer", "maximum": 4_294_967_295u32 }));
    }
}
