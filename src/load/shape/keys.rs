//! Keys that are not read where they stand: misspelt, or below a heading whose line is missing.
//!
//! Each such mistake gives its finding once, and is read on as it must be meant, so that it hides nothing
//! and nothing is found to be missing for it.

use jsonschema::ValidationError;
use jsonschema::error::ValidationErrorKind;
use serde_json::Value;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::words::noun;
use super::{Shape, Soundness, follow, mend, steps};
use crate::diag::{Sink, nearest};
use crate::load::rules::unknown_key;
use crate::load::schema;
use crate::load::tree::{self, Step};
use crate::source::Span;

/// A table that a schema knows: the keys that lead to it, whether there may be several, and its own keys.
struct Home {
    path: Vec<String>,
    several: bool,
    keys: Vec<String>,
}

impl Home {
    /// Its heading, as `[[machine.fitted]]`.
    fn heading(&self) -> String {
        let path = self.path.join(".");
        if self.several { format!("[[{path}]]") } else { format!("[{path}]") }
    }
}

impl Shape<'_> {
    /// Mends the keys of every table.
    pub(super) fn mend_keys(&self, root: &mut DeTable<'_>, sink: &mut Sink) -> Soundness {
        let Some(validator) = schema::validator(self.kind) else { return Soundness::Whole };
        let json = tree::to_json(root, &mut Vec::new());
        if validator.is_valid(&json) {
            return Soundness::Whole;
        }
        let errors: Vec<_> = validator.iter_errors(&json).collect();
        let mut soundness = Soundness::Whole;
        for error in &errors {
            let ValidationErrorKind::AdditionalProperties { unexpected } = error.kind() else { continue };
            let path = steps(error);
            let missing = missing(&errors, &path);
            if self.move_home(unexpected, &path, root, sink)
                || self.rename(unexpected, &missing, &path, root, sink)
            {
                soundness = Soundness::Pruned;
            }
        }
        soundness
    }

    /// Keys near to one that is known, and not there, become that one; false if there are none.
    fn rename(
        &self,
        unexpected: &[String],
        missing: &[&str],
        path: &[Step],
        root: &mut DeTable<'_>,
        sink: &mut Sink,
    ) -> bool {
        let known = self.known_keys(path);
        let known: Vec<_> = known.iter().map(String::as_str).collect();
        let mut renamed = false;
        for key in unexpected {
            let Some(table) = tree::table_at(root, path) else { continue };
            let free = known.iter().copied().filter(|known| !table.contains_key(*known));
            let Some(near) = nearest(key, free).or_else(|| nearest_short(key, missing)) else { continue };
            let Some(range) = tree::key_range(root, path, key) else { continue };
            if tree::rename(root, path, key, near) {
                sink.push(unknown_key::finding(
                    Span::new(self.file, range),
                    noun(self.kind, path),
                    key,
                    Some(near),
                    &known,
                ));
                renamed = true;
            }
        }
        renamed
    }

    /// Several keys that all belong to one other table are moved there; false if they do not.
    fn move_home(
        &self,
        unexpected: &[String],
        path: &[Step],
        root: &mut DeTable<'_>,
        sink: &mut Sink,
    ) -> bool {
        let (Some(home), Some(table)) = (self.home(unexpected, path), mend::table_at(root, path)) else {
            return false;
        };
        let mut strays: Vec<_> =
            unexpected.iter().filter_map(|key| table.remove_entry(key.as_str())).collect();
        strays.sort_by_key(|(key, _)| key.span().start);
        let Some(range) = strays.first().map(|(key, _)| key.span()) else { return false };
        let keys: Vec<_> = strays.iter().map(|(key, _)| key.get_ref().to_string()).collect();
        let span = Span::new(self.file, range.clone());
        sink.push(unknown_key::strayed(span, noun(self.kind, path), &keys, &home.heading()));
        let stray = Spanned::new(range, DeValue::Table(strays.into_iter().collect()));
        let parent = if home.path.len() == 1 {
            Some(root)
        } else {
            mend::table_at(root, path).filter(|_| is_child(&home, path))
        };
        if let (Some(parent), Some(name)) = (parent, home.path.last()) {
            put(parent, name, home.several, stray);
        }
        true
    }

    /// The one table that several unread keys must belong to: one inside theirs before any other.
    fn home(&self, unexpected: &[String], path: &[Step]) -> Option<Home> {
        if unexpected.len() < 2 {
            return None;
        }
        let root = self.schema();
        let mut homes = Vec::new();
        homes_in(root, root, &mut Vec::new(), &mut homes);
        homes.retain(|home| unexpected.iter().all(|key| home.keys.contains(key)));
        homes.into_iter().min_by_key(|home| (!is_child(home, path), home.path.len()))
    }
}

impl Shape<'_> {
    /// The heading of the one table that has a key; none if several have it.
    pub(super) fn heading_of(&self, key: &str) -> Option<String> {
        let root = self.schema();
        let mut homes = Vec::new();
        homes_in(root, root, &mut Vec::new(), &mut homes);
        homes.retain(|home| home.keys.iter().any(|known| known == key));
        match homes.as_slice() {
            [home] => Some(home.heading()),
            _ => None,
        }
    }
}

/// Keys that a table must have and has not.
fn missing<'e>(errors: &'e [ValidationError<'_>], path: &[Step]) -> Vec<&'e str> {
    let of_table = errors.iter().filter(|error| steps(error) == path);
    let keys = of_table.filter_map(|error| match error.kind() {
        ValidationErrorKind::Required { property } => property.as_str(),
        _ => None,
    });
    keys.collect()
}

/// The short key, one slip away, that a table must have and has not.
fn nearest_short<'k>(typed: &str, missing: &[&'k str]) -> Option<&'k str> {
    let near = |key: &&&str| key.len() <= 3 && strsim::osa_distance(typed, key) <= 1;
    let mut all = missing.iter().filter(near);
    all.next().filter(|_| all.next().is_none()).copied()
}

fn is_child(home: &Home, path: &[Step]) -> bool {
    let keys: Vec<_> =
        path.iter().filter_map(|step| if let Step::Key(key) = step { Some(key) } else { None }).collect();
    home.path.split_last().is_some_and(|(_, parent)| parent.iter().collect::<Vec<_>>() == keys)
}

/// Every table inside a schema.
fn homes_in(root: &Value, schema: &Value, path: &mut Vec<String>, homes: &mut Vec<Home>) {
    let properties = schema.get("properties").and_then(Value::as_object);
    for (name, property) in properties.into_iter().flatten() {
        let property = follow(root, property);
        let items = property.get("items").map(|items| follow(root, items));
        let table = items.unwrap_or(property);
        let Some(keys) = table.get("properties").and_then(Value::as_object) else { continue };
        path.push(name.clone());
        homes.push(Home {
            path: path.clone(),
            several: items.is_some(),
            keys: keys.keys().cloned().collect(),
        });
        homes_in(root, table, path, homes);
        path.pop();
    }
}

/// Puts a table into another, under a name: at the end of its list, or in a place that is free.
fn put<'i>(parent: &mut DeTable<'i>, name: &str, several: bool, table: Spanned<DeValue<'i>>) {
    let range = table.span();
    match (parent.get_mut(name).map(Spanned::get_mut), table.into_inner()) {
        (Some(DeValue::Array(items)), table) => items.push(Spanned::new(range, table)),
        // `[[variant.spec]]` without a `[[variant]]` before it made a table of its own, of which these are keys.
        (Some(DeValue::Table(there)), DeValue::Table(strays)) => {
            for (key, value) in strays {
                if !there.contains_key(key.get_ref().as_ref()) {
                    there.insert(key, value);
                }
            }
            if several && let Some(value) = parent.get_mut(name) {
                mend::as_list(value.get_mut(), range);
            }
        }
        (Some(_), _) => {}
        (None, table) => {
            let mut value = table;
            if several {
                mend::as_list(&mut value, range.clone());
            }
            parent.insert(Spanned::new(range.clone(), name.to_owned().into()), Spanned::new(range, value));
        }
    }
}
