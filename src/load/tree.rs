//! The spanned TOML tree: turned into JSON for the schema, searched for spans, and pruned.
//!
//! A part that breaks its schema is cut out and the rest is read on, so that one mistake hides no
//! other. Dates become strings here, which is what they are in JSON.

use std::ops::Range;

use serde_json::{Map, Number, Value};
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

/// One step of a path into a tree.
#[derive(Clone, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum Step {
    /// The value of a key.
    Key(String),
    /// An item of an array.
    Item(usize),
}

/// Turns every date and time into the string it was typed as.
pub fn dates_to_text(table: &mut DeTable<'_>) {
    for (_, value) in table.iter_mut() {
        date_to_text(value.get_mut());
    }
}

fn date_to_text(value: &mut DeValue<'_>) {
    match value {
        DeValue::Datetime(date) => *value = DeValue::String(date.to_string().into()),
        DeValue::Array(items) => items.iter_mut().for_each(|item| date_to_text(item.get_mut())),
        DeValue::Table(table) => dates_to_text(table),
        _ => {}
    }
}

/// The tree as JSON. A number that JSON cannot hold (`inf`, `nan`, past 64 bits) becomes null, and its
/// path goes to `unusable`.
pub fn to_json(table: &DeTable<'_>, unusable: &mut Vec<Vec<Step>>) -> Value {
    table_json(table, &mut Vec::new(), unusable)
}

fn table_json(table: &DeTable<'_>, path: &mut Vec<Step>, unusable: &mut Vec<Vec<Step>>) -> Value {
    let mut object = Map::new();
    for (key, value) in table {
        path.push(Step::Key(key.get_ref().to_string()));
        object.insert(key.get_ref().to_string(), value_json(value.get_ref(), path, unusable));
        path.pop();
    }
    Value::Object(object)
}

fn value_json(value: &DeValue<'_>, path: &mut Vec<Step>, unusable: &mut Vec<Vec<Step>>) -> Value {
    match value {
        DeValue::String(text) => Value::String(text.to_string()),
        DeValue::Boolean(yes) => Value::Bool(*yes),
        DeValue::Datetime(date) => Value::String(date.to_string()),
        DeValue::Table(table) => table_json(table, path, unusable),
        DeValue::Array(items) => {
            let mut array = Vec::with_capacity(items.len());
            for (index, item) in items.iter().enumerate() {
                path.push(Step::Item(index));
                array.push(value_json(item.get_ref(), path, unusable));
                path.pop();
            }
            Value::Array(array)
        }
        DeValue::Integer(number) => {
            let parsed = i64::from_str_radix(number.as_str(), number.radix()).ok();
            parsed.map_or_else(|| refuse(path, unusable), Value::from)
        }
        DeValue::Float(number) => {
            let parsed = number.as_str().parse().ok().and_then(Number::from_f64);
            parsed.map_or_else(|| refuse(path, unusable), Value::Number)
        }
    }
}

fn refuse(path: &[Step], unusable: &mut Vec<Vec<Step>>) -> Value {
    unusable.push(path.to_owned());
    Value::Null
}

/// The value at a path.
pub fn value_at<'t, 'i>(table: &'t DeTable<'i>, path: &[Step]) -> Option<&'t Spanned<DeValue<'i>>> {
    let (first, rest) = path.split_first()?;
    let Step::Key(key) = first else { return None };
    let mut value = table.get(key.as_str())?;
    for step in rest {
        value = match (step, value.get_ref()) {
            (Step::Key(key), DeValue::Table(table)) => table.get(key.as_str())?,
            (Step::Item(index), DeValue::Array(items)) => items.get(*index)?,
            _ => return None,
        };
    }
    Some(value)
}

/// The table at a path; the root for an empty one.
pub fn table_at<'t, 'i>(root: &'t DeTable<'i>, path: &[Step]) -> Option<&'t DeTable<'i>> {
    if path.is_empty() {
        return Some(root);
    }
    match value_at(root, path)?.get_ref() {
        DeValue::Table(table) => Some(table),
        _ => None,
    }
}

/// The bytes of the value at a path.
pub fn value_range(root: &DeTable<'_>, path: &[Step]) -> Option<Range<usize>> {
    value_at(root, path).map(Spanned::span)
}

/// The bytes of a key of the table at a path.
pub fn key_range(root: &DeTable<'_>, path: &[Step], key: &str) -> Option<Range<usize>> {
    table_at(root, path)?.get_key_value(key).map(|(key, _)| key.span())
}

/// Gives a key of the table at a path another name; false if that name is taken.
pub fn rename(root: &mut DeTable<'_>, path: &[Step], key: &str, name: &str) -> bool {
    let Some(table) = table_at_mut(root, path).filter(|table| !table.contains_key(name)) else {
        return false;
    };
    let Some((old, value)) = table.remove_entry(key) else { return false };
    table.insert(Spanned::new(old.span(), name.to_owned().into()), value);
    true
}

fn table_at_mut<'t, 'i>(root: &'t mut DeTable<'i>, path: &[Step]) -> Option<&'t mut DeTable<'i>> {
    let mut table = root;
    let mut steps = path.iter();
    while let Some(step) = steps.next() {
        let Step::Key(key) = step else { return None };
        let mut value = table.get_mut(key.as_str())?.get_mut();
        while let DeValue::Array(items) = value {
            let Some(Step::Item(index)) = steps.next() else { return None };
            value = items.get_mut(*index)?.get_mut();
        }
        let DeValue::Table(inner) = value else { return None };
        table = inner;
    }
    Some(table)
}

/// Cuts the value at a path out of the tree.
pub fn cut(root: &mut DeTable<'_>, path: &[Step]) {
    let Some((Step::Key(key), rest)) = path.split_first() else { return };
    if rest.is_empty() {
        root.remove(key.as_str());
    } else if let Some(value) = root.get_mut(key.as_str()) {
        cut_value(value.get_mut(), rest);
    }
}

fn cut_value(value: &mut DeValue<'_>, path: &[Step]) {
    match (value, path.split_first()) {
        (DeValue::Table(table), Some((Step::Key(_), _))) => cut(table, path),
        (DeValue::Array(items), Some((Step::Item(index), rest))) => {
            if rest.is_empty() {
                let kept = items.iter().enumerate().filter(|(at, _)| at != index);
                let mut array = DeArray::new();
                kept.for_each(|(_, item)| array.push(item.clone()));
                *items = array;
            } else if let Some(item) = items.get_mut(*index) {
                cut_value(item.get_mut(), rest);
            }
        }
        _ => {}
    }
}
