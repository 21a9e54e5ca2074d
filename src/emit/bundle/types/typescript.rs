//! `types/baybook.d.ts`: interfaces for TypeScript under `--strict`.

use std::collections::BTreeMap;

use super::{All, KindOf, Record, Shape};

/// The whole file.
pub fn written(records: &BTreeMap<String, Record>, kinds: &[KindOf]) -> String {
    let mut text = String::from("// Types of a Baybook bundle, made from its schemas.\n\n");
    text.push_str("/** An exact number: a terminating decimal or a fraction n/d. Never parse it as a float to judge by. */\n");
    text.push_str("export type ExactText = string;\n\n");
    text.push_str(
        "/** The units of each kind of quantity, as written in the bundle. */\nexport interface UnitsOf {\n",
    );
    for KindOf { name, units } in kinds {
        let units: Vec<_> = units.iter().map(|unit| format!("{unit:?}")).collect();
        text.push_str(&format!("  {name:?}: {};\n", units.join(" | ")));
    }
    text.push_str("}\n\n/** A kind of quantity. */\nexport type Kind = keyof UnitsOf;\n\n");
    text.push_str(
        "/** A unit as written in the bundle: of any kind, or of one. */\nexport type Unit<K extends Kind = Kind> = UnitsOf[K];\n",
    );
    for (name, record) in records {
        if let Some(words) = &record.words {
            text.push_str(&format!("\n/** {} */\nexport type {name} = {};\n", record.says, typed(words)));
            continue;
        }
        let of_kind = OF_KIND.iter().find(|(of, _)| of == name);
        let kind = if of_kind.is_some() { "<K extends Kind = Kind>" } else { "" };
        text.push_str(&format!("\n/** {} */\nexport interface {name}{kind} {{\n", record.says));
        for field in &record.fields {
            let may_lack = if field.required { "" } else { "?" };
            let carries = of_kind.is_some_and(|(_, fields)| fields.contains(&field.name.as_str()));
            let shape = if carries { with_kind(&field.shape) } else { typed(&field.shape) };
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

/// The records of one kind of quantity, and their keys that are of it: `Quantity<"length">` is never in psi.
const OF_KIND: &[(&str, &[&str])] = &[
    ("Quantity", &["unit"]),
    ("Printed", &["min", "max", "nominal"]),
    ("Range", &["min", "max", "printed"]),
    ("Spec", &["window", "set_to", "new", "wear_limit", "setting"]),
];

/// A shape whose records and units are of the kind K.
fn with_kind(shape: &Shape) -> String {
    match shape {
        Shape::Named(name) => format!("{name}<K>"),
        Shape::Unit => "Unit<K>".to_owned(),
        Shape::List(of) => format!("Array<{}>", with_kind(of)),
        Shape::Either(options) => options.iter().map(with_kind).collect::<Vec<_>>().join(" | "),
        other => typed(other),
    }
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
        Shape::ByKind(of, All::Yes) => format!("Record<Kind, {}>", typed(of)),
        Shape::ByKind(of, All::No) => format!("Partial<Record<Kind, {}>>", typed(of)),
        Shape::Either(options) => options.iter().map(typed).collect::<Vec<_>>().join(" | "),
    }
}
