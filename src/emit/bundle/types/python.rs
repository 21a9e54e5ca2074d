//! `types/baybook.py`: typed dictionaries for Python 3.11 and later, of its standard library alone.

use std::collections::BTreeMap;

use super::{KindOf, Record, Shape};

/// Words of the language that a key may be, and then cannot be an attribute.
const RESERVED: [&str; 12] =
    ["and", "as", "class", "def", "for", "from", "if", "in", "is", "not", "or", "with"];

/// The whole file.
pub fn written(records: &BTreeMap<String, Record>, kinds: &[KindOf]) -> String {
    let mut units: Vec<&str> = kinds.iter().flat_map(|kind| kind.units.iter().copied()).collect();
    units.sort_unstable();
    let names: Vec<&str> = kinds.iter().map(|kind| kind.name).collect();
    let literal = |words: &[&str]| words.iter().map(|word| format!("    {word:?},\n")).collect::<String>();
    let mut text = String::from("\"\"\"Types of a Baybook bundle, made from its schemas.\"\"\"\n\n");
    text.push_str(
        "from __future__ import annotations\n\nfrom typing import Any, Literal, NotRequired, TypedDict\n\n",
    );
    text.push_str(
        "# An exact number: a terminating decimal or a fraction n/d, as fractions.Fraction reads it.\n",
    );
    text.push_str("ExactText = str\n\n");
    text.push_str(&format!("# A kind of quantity.\nKind = Literal[\n{}]\n\n", literal(&names)));
    text.push_str(&format!("# A unit as written in the bundle.\nUnit = Literal[\n{}]\n", literal(&units)));
    text.push_str("\n# The units of one kind.\n");
    for KindOf { name, units } in kinds {
        let words: Vec<_> = units.iter().map(|unit| format!("{unit:?}")).collect();
        text.push_str(&format!("{} = Literal[{}]\n", unit_name(name), words.join(", ")));
    }
    for (name, record) in records {
        text.push_str("\n\n");
        text.push_str(&if let Some(words) = &record.words {
            format!("# {}\n{name} = {}\n", record.says, typed(words))
        } else if record.fields.iter().any(|field| RESERVED.contains(&field.name.as_str())) {
            called(name, record)
        } else {
            class(name, record)
        });
    }
    text
}

/// `peak-voltage` as `PeakVoltageUnit`.
fn unit_name(kind: &str) -> String {
    let capital = |word: &str| {
        let (first, rest) = word.split_at(word.chars().next().map_or(0, char::len_utf8));
        format!("{}{rest}", first.to_uppercase())
    };
    format!("{}Unit", kind.split('-').map(capital).collect::<String>())
}

fn class(name: &str, record: &Record) -> String {
    let mut text = format!("class {name}(TypedDict):\n    \"\"\"{}\"\"\"\n", record.says);
    for field in &record.fields {
        let shape = typed(&field.shape);
        let shape = if field.required { shape } else { format!("NotRequired[{shape}]") };
        text.push_str(&format!("\n    # {}\n    {}: {shape}\n", field.says.replace('\n', " "), field.name));
    }
    text
}

/// A record with a key that is a word of the language.
fn called(name: &str, record: &Record) -> String {
    let mut text = format!("# {}\n{name} = TypedDict(\n    {name:?},\n    {{\n", record.says);
    for field in &record.fields {
        let shape = typed(&field.shape);
        let shape = if field.required { shape } else { format!("NotRequired[{shape}]") };
        text.push_str(&format!(
            "        # {}\n        {:?}: {shape:?},\n",
            field.says.replace('\n', " "),
            field.name
        ));
    }
    text.push_str("    },\n)\n");
    text
}

fn typed(shape: &Shape) -> String {
    match shape {
        Shape::Text => "str".to_owned(),
        Shape::Exact => "ExactText".to_owned(),
        Shape::Word(word) => format!("Literal[{word:?}]"),
        Shape::Unit => "Unit".to_owned(),
        Shape::Kind => "Kind".to_owned(),
        Shape::Whole => "int".to_owned(),
        Shape::Truth => "bool".to_owned(),
        Shape::Nothing => "None".to_owned(),
        Shape::Anything => "Any".to_owned(),
        Shape::Named(name) => name.clone(),
        Shape::List(of) | Shape::Tuple(of, _) => format!("list[{}]", typed(of)),
        Shape::Table(of) => format!("dict[str, {}]", typed(of)),
        Shape::ByKind(of, _) => format!("dict[Kind, {}]", typed(of)),
        Shape::Either(options) => options.iter().map(typed).collect::<Vec<_>>().join(" | "),
    }
}
