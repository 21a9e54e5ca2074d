//! `types/baybook.d.ts`: interfaces for TypeScript under `--strict`.

use std::collections::BTreeMap;

use super::{Record, Shape};

/// The whole file.
pub fn written(records: &BTreeMap<String, Record>, kinds: &[&str], units: &[&str]) -> String {
    let union = |words: &[&str]| words.iter().map(|word| format!("\n  | {word:?}")).collect::<String>();
    let mut text = String::from("// Types of a Baybook bundle, made from its schemas.\n\n");
    text.push_str("/** An exact number: a terminating decimal or a fraction n/d. Never parse it as a float to judge by. */\n");
    text.push_str("export type ExactText = string;\n\n");
    text.push_str(&format!("/** A kind of quantity. */\nexport type Kind ={};\n\n", union(kinds)));
    text.push_str(&format!("/** A unit as written in the bundle. */\nexport type Unit ={};\n", union(units)));
    for (name, record) in records {
        if let Some(words) = &record.words {
            text.push_str(&format!("\n/** {} */\nexport type {name} = {};\n", record.says, typed(words)));
            continue;
        }
        text.push_str(&format!("\n/** {} */\nexport interface {name} {{\n", record.says));
        for field in &record.fields {
            let may_lack = if field.required { "" } else { "?" };
            let shape = typed(&field.shape);
            text.push_str(&format!(
                "  /** {} */\n  {}{may_lack}: {shape};\n",
                field.says.replace('\n', " "),
                field.name
            ));
        }
        text.push_str("}\n");
    }
    text
}

fn typed(shape: &Shape) -> String {
    match shape {
        Shape::Text => "string".to_owned(),
        Shape::Exact => "ExactText".to_owned(),
        Shape::Word(word) => format!("{word:?}"),
        Shape::Unit => "Unit".to_owned(),
        Shape::Kind => "Kind".to_owned(),
        Shape::Whole => "number".to_owned(),
        Shape::Truth => "boolean".to_owned(),
        Shape::Nothing => "null".to_owned(),
        Shape::Anything => "unknown".to_owned(),
        Shape::Named(name) => name.clone(),
        Shape::List(of) => format!("Array<{}>", typed(of)),
        Shape::Tuple(of, count) => format!("[{}]", vec![typed(of); *count].join(", ")),
        Shape::Table(of) => format!("Record<string, {}>", typed(of)),
        Shape::Either(options) => options.iter().map(typed).collect::<Vec<_>>().join(" | "),
    }
}
