//! Types of the bundle for other languages, made from its schemas, so that they cannot drift apart.
//!
//! A schema is read into [`Shape`]s; each language writes them its own way. Units and kinds are closed sets
//! of words, so that a program that mistypes one does not compile.

mod python;
mod typescript;

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use super::own_schemas;
use crate::emit::Tree;
use crate::quantity::{Kind, Unit};

/// What a value can be.
#[derive(Clone, Debug, Eq, PartialEq)]
enum Shape {
    Text,
    /// An exact number as text.
    Exact,
    /// One word alone.
    Word(String),
    /// The symbol of a unit.
    Unit,
    /// The name of a kind of quantity.
    Kind,
    Whole,
    Truth,
    Nothing,
    Anything,
    Named(String),
    List(Box<Shape>),
    /// A list of just so many.
    Tuple(Box<Shape>, usize),
    /// Any key, one shape.
    Table(Box<Shape>),
    /// Kinds of quantity as keys, all of them or some.
    ByKind(Box<Shape>, All),
    Either(Vec<Shape>),
}

/// Whether every kind is a key.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
enum All {
    Yes,
    No,
}

/// A kind of quantity with its units.
struct KindOf {
    name: &'static str,
    units: Vec<&'static str>,
}

/// A key of a record.
#[derive(Clone, Debug)]
struct Field {
    name: String,
    shape: Shape,
    required: bool,
    says: String,
}

/// A record: an object with known keys; or a set of words with a name.
#[derive(Clone, Debug)]
struct Record {
    says: String,
    fields: Vec<Field>,
    words: Option<Shape>,
}

/// `types/baybook.d.ts` and `types/baybook.py`.
pub fn types() -> Tree {
    let records = records();
    let kinds: Vec<KindOf> = Kind::all().iter().map(|kind| kind_of(*kind)).collect();
    Tree::from([
        ("types/baybook.d.ts".to_owned(), typescript::written(&records, &kinds).into_bytes()),
        ("types/baybook.py".to_owned(), python::written(&records, &kinds).into_bytes()),
    ])
}

fn kind_of(kind: Kind) -> KindOf {
    let mut units: Vec<&str> = Unit::all().filter(|unit| unit.kind() == kind).map(Unit::symbol).collect();
    units.sort_unstable();
    KindOf { name: kind.name(), units }
}

/// Every record of every schema, by name.
fn records() -> BTreeMap<String, Record> {
    let mut records = BTreeMap::new();
    for (file, schema) in own_schemas() {
        let Some(root) = schema.as_object() else { continue };
        records.insert(root_name(file), record(&root_name(file), root));
        for (name, one) in root.get("$defs").and_then(Value::as_object).into_iter().flatten() {
            if let Some(one) = one.as_object() {
                records.insert(name.clone(), record(name, one));
            }
        }
    }
    records
}

/// The type of the whole of a file: `engine` is an `Engine`, `bundle` a `Head`.
fn root_name(file: &str) -> String {
    let name = if file == "bundle" { "head" } else { file };
    let (first, rest) = name.split_at(name.chars().next().map_or(0, char::len_utf8));
    format!("{}{rest}", first.to_uppercase())
}

fn record(name: &str, schema: &Map<String, Value>) -> Record {
    let required: Vec<&str> = schema
        .get("required")
        .and_then(Value::as_array)
        .into_iter()
        .flatten()
        .filter_map(Value::as_str)
        .collect();
    let properties = schema.get("properties").and_then(Value::as_object).into_iter().flatten();
    let fields = properties.map(|(key, value)| Field {
        name: key.clone(),
        shape: closed(name, key, shape(value)),
        required: required.contains(&key.as_str()),
        says: text(value, "description"),
    });
    Record {
        says: schema.get("description").and_then(Value::as_str).unwrap_or_default().to_owned(),
        fields: fields.collect(),
        words: schema.get("properties").is_none().then(|| shape(&Value::Object(schema.clone()))),
    }
}

/// The shape of a key whose words are a closed set that the schema leaves open.
fn closed(record: &str, key: &str, shape: Shape) -> Shape {
    match (record, key) {
        ("Quantity", "unit") | ("UnitFacts", "symbol") => Shape::Unit,
        ("Entry", "kind" | "input") | ("State", "kind") => Shape::Either(vec![Shape::Kind, Shape::Nothing]),
        ("Gauge" | "UnitFacts", "kind") => Shape::Kind,
        ("Head", "units") => Shape::ByKind(Box::new(Shape::Unit), All::No),
        ("Head", "si") => Shape::ByKind(Box::new(Shape::Text), All::Yes),
        _ => shape,
    }
}

fn text(value: &Value, key: &str) -> String {
    value.get(key).and_then(Value::as_str).unwrap_or_default().to_owned()
}

fn shape(schema: &Value) -> Shape {
    if let Some(reference) = schema.get("$ref").and_then(Value::as_str) {
        return Shape::Named(reference.rsplit('/').next().unwrap_or_default().to_owned());
    }
    if let Some(word) = schema.get("const").and_then(Value::as_str) {
        return Shape::Word(word.to_owned());
    }
    if let Some(words) = schema.get("enum").and_then(Value::as_array) {
        let word = |word: &Value| word.as_str().map_or(Shape::Nothing, |word| Shape::Word(word.to_owned()));
        return either(words.iter().map(word).collect());
    }
    for key in ["anyOf", "oneOf"] {
        if let Some(options) = schema.get(key).and_then(Value::as_array) {
            return either(options.iter().map(shape).collect());
        }
    }
    match schema.get("type") {
        Some(Value::String(one)) => of_type(one, schema),
        Some(Value::Array(several)) => {
            either(several.iter().filter_map(Value::as_str).map(|one| of_type(one, schema)).collect())
        }
        _ => Shape::Anything,
    }
}

fn either(options: Vec<Shape>) -> Shape {
    match options.as_slice() {
        [one] => one.clone(),
        _ => Shape::Either(options),
    }
}

fn of_type(name: &str, schema: &Value) -> Shape {
    match name {
        "string" if schema.get("pattern").is_some() => Shape::Exact,
        "string" => Shape::Text,
        "integer" => Shape::Whole,
        "boolean" => Shape::Truth,
        "null" => Shape::Nothing,
        "array" => {
            let of = Box::new(schema.get("items").map_or(Shape::Anything, shape));
            let bound =
                |key: &str| schema.get(key).and_then(Value::as_u64).and_then(|one| usize::try_from(one).ok());
            match (bound("minItems"), bound("maxItems")) {
                (Some(least), Some(most)) if least == most => Shape::Tuple(of, most),
                _ => Shape::List(of),
            }
        }
        "object" => Shape::Table(Box::new(schema.get("additionalProperties").map_or(Shape::Anything, shape))),
        _ => Shape::Anything,
    }
}
