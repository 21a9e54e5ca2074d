//! What is written from a proved spec base: the handbook and the bundle.
//!
//! Emitters return a map of path → bytes and touch no disk; `disk` is the one place that writes.

pub mod bundle;
pub mod coverage;
pub mod disk;
pub mod drawing;
pub mod found;
pub mod handbook;
mod listed;
mod wrenches;

pub use wrenches::torque_wrenches;

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use crate::check::{Checked, registry};
use bundle::Bundle;
use handbook::Facts;

/// Files to write, by path relative to the output, with `/`.
pub type Tree = BTreeMap<String, Vec<u8>>;

/// Everything that is written from a proved spec base.
///
/// # Errors
///
/// When a template or a serialiser refuses a value: a defect of this program, not of the base.
pub fn compile(checked: &Checked) -> Result<Tree, EmitError> {
    compile_since(checked, None)
}

/// The same, with what changed since an older bundle.
///
/// # Errors
///
/// When a template or a serialiser refuses a value: a defect of this program, not of the base.
pub fn compile_since(checked: &Checked, old: Option<&crate::bundle::Bundle>) -> Result<Tree, EmitError> {
    let Bundle { mut tree, content_hash, build_hashes, changes } =
        bundle::bundle_since(checked.model(), old).map_err(|error| EmitError(error.to_string()))?;
    let rules = registry::rules();
    let facts = Facts {
        checked,
        rules: &rules,
        content_hash: &content_hash,
        build_hashes: &build_hashes,
        changes: changes.as_ref(),
    };
    let handbook = handbook::handbook(&facts).map_err(|error| EmitError(error.to_string()))?;
    put(&mut tree, handbook).map_err(|path| EmitError(format!("two files want one place: {path}")))?;
    Ok(tree)
}

/// Puts files into a tree. The path of one that another, different file stands at already is the error: nothing that
/// was made is ever lost without a word.
pub(crate) fn put(tree: &mut Tree, files: impl IntoIterator<Item = (String, Vec<u8>)>) -> Result<(), String> {
    for (path, bytes) in files {
        match tree.entry(path) {
            Entry::Vacant(place) => _ = place.insert(bytes),
            Entry::Occupied(there) if *there.get() == bytes => {}
            Entry::Occupied(there) => return Err(there.key().clone()),
        }
    }
    Ok(())
}

/// A part of the output could not be made.
#[derive(Debug)]
pub struct EmitError(String);

impl std::fmt::Display for EmitError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for EmitError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_file_takes_the_place_of_another() {
        let mut tree = Tree::new();
        let file = |bytes: &str| [("card.html".to_owned(), bytes.as_bytes().to_vec())];
        assert_eq!(put(&mut tree, file("card")), Ok(()));
        assert_eq!(put(&mut tree, file("card")), Ok(()), "the same once more");
        assert_eq!(put(&mut tree, file("procedure")), Err("card.html".to_owned()));
        assert_eq!(tree.get("card.html").map(Vec::as_slice), Some(&b"card"[..]));
    }
}
