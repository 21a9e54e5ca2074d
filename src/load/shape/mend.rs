//! What is done about a part that breaks its schema, so that the rest can be read on and nothing false
//! follows from the loss: a statement whose page was cut out would be found again for having none.
//!
//! Where it is plain what was meant, it is read that way; what is broken has its finding already, and a
//! base with a finding of this kind is never emitted. Else the smallest part is cut out that no later
//! rule misses.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::words::key_of;
use crate::load::place::FileKind;
use crate::load::tree::{self, Step};

/// One thing done about a broken part.
#[derive(Clone, Debug, Eq, PartialEq)]
pub(super) enum Mend {
    /// Cut out; the whole file for an empty path.
    Cut(Vec<Step>),
    /// `window = "…"` read as `window = ["…"]`, `[spec]` as `[[spec]]`.
    AsList(Vec<Step>),
    /// `page = 12` read as `page = "12"`.
    AsText(Vec<Step>, String),
}

/// Keys whose number is the same in quotes; a value with a unit is not.
const PLAIN_TEXTS: [&str; 6] = ["page", "row", "column", "footnote", "edition", "years"];

/// True if a number at a path may be read as the text that its key takes.
pub(super) fn is_plain_text(path: &[Step]) -> bool {
    matches!(path.last(), Some(Step::Key(_))) && PLAIN_TEXTS.contains(&key_of(path))
}

/// The smallest part around a broken one that no later rule misses when it is cut out.
pub(super) fn losable(kind: FileKind, path: &[Step], root: &DeTable<'_>) -> Vec<Step> {
    if decides_for_all(kind, path) {
        return Vec::new();
    }
    let mut kept = whole_list(path, root);
    while let Some(at) = kept.iter().rposition(|step| matches!(step, Step::Item(_))) {
        let owner = at.checked_sub(1).and_then(|before| kept.get(before));
        let owner = if let Some(Step::Key(key)) = owner { key.as_str() } else { "" };
        let part = if let Some(Step::Key(key)) = kept.get(at + 1) { Some(key.as_str()) } else { None };
        let goes_alone = match (owner, part) {
            ("applies", _) => {
                kept.truncate(at.saturating_sub(1));
                continue;
            }
            ("spec" | "reread", Some(part)) => ["note", "fastener", "pattern"].contains(&part),
            ("variant", Some(part)) => part == "note",
            ("entry", Some(part)) => !["kind", "input", "axes", "states"].contains(&part),
            ("fitted" | "waive", Some(_)) => false,
            _ => true,
        };
        if !goes_alone {
            kept.truncate(at + 1);
        }
        break;
    }
    kept
}

/// True for what the whole file hangs on: without it too much would be found missing, or to fit.
fn decides_for_all(kind: FileKind, path: &[Step]) -> bool {
    let keys: Vec<_> =
        path.iter().map(|step| if let Step::Key(key) = step { key.as_str() } else { "" }).collect();
    match kind {
        FileKind::Procedure => matches!(keys.as_slice(), ["fits" | "hazards", ..]),
        FileKind::Engine => matches!(keys.as_slice(), ["defaults"] | ["defaults", "source"]),
        _ => false,
    }
}

/// A list of plain values stands or falls whole: with one member less it would say something else.
fn whole_list(path: &[Step], root: &DeTable<'_>) -> Vec<Step> {
    let mut path = path.to_owned();
    let is_table = |path: &[Step]| {
        tree::value_at(root, path).is_some_and(|value| matches!(value.get_ref(), DeValue::Table(_)))
    };
    while matches!(path.last(), Some(Step::Item(_))) && !is_table(&path) {
        path.pop();
    }
    path
}

/// Does what is to be done; false if nothing of the file is left.
pub(super) fn apply(mends: Vec<Mend>, root: &mut DeTable<'_>) -> bool {
    let mut cuts = Vec::new();
    for mend in mends {
        match mend {
            Mend::Cut(path) => cuts.push(path),
            Mend::AsList(path) => change(root, &path, as_list),
            Mend::AsText(path, text) => change(root, &path, |value, _| *value = DeValue::String(text.into())),
        }
    }
    if cuts.iter().any(Vec::is_empty) {
        return false;
    }
    // The last first, so that the place of an item does not move before it is cut.
    cuts.sort();
    cuts.dedup();
    cuts.iter().rev().for_each(|path| tree::cut(root, path));
    true
}

/// Makes a list of a value, with the value as its one member.
pub(super) fn as_list(value: &mut DeValue<'_>, span: Range<usize>) {
    let one = std::mem::replace(value, DeValue::Boolean(false));
    let mut list = DeArray::new();
    list.push(Spanned::new(span, one));
    *value = DeValue::Array(list);
}

/// Changes the value at a path, which its span comes with.
fn change(root: &mut DeTable<'_>, path: &[Step], how: impl FnOnce(&mut DeValue<'_>, Range<usize>)) {
    if let Some(value) = value_at(root, path) {
        let span = value.span();
        how(value.get_mut(), span);
    }
}

/// The table at a path, to be changed.
pub(super) fn table_at<'t, 'i>(root: &'t mut DeTable<'i>, path: &[Step]) -> Option<&'t mut DeTable<'i>> {
    if path.is_empty() {
        return Some(root);
    }
    match value_at(root, path)?.get_mut() {
        DeValue::Table(table) => Some(table),
        _ => None,
    }
}

fn value_at<'t, 'i>(root: &'t mut DeTable<'i>, path: &[Step]) -> Option<&'t mut Spanned<DeValue<'i>>> {
    let (first, rest) = path.split_first()?;
    let Step::Key(key) = first else { return None };
    let mut value = root.get_mut(key.as_str())?;
    for step in rest {
        value = match (step, value.get_mut()) {
            (Step::Key(key), DeValue::Table(table)) => table.get_mut(key.as_str())?,
            (Step::Item(index), DeValue::Array(items)) => items.get_mut(*index)?,
            _ => return None,
        };
    }
    Some(value)
}
