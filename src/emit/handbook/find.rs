//! The find's index as scripts: each part one file that hands its rows over, loaded when it is asked for.
//!
//! A page opened from a memory stick may load scripts, but read no other file; so each part is one. All
//! lie in one folder whose name holds the hash of the whole.

use super::assets::short_hash;
use crate::emit::{Tree, found};
use crate::find::shards;
use crate::model::Model;

/// The folder of the index, with `/` at its end, and its files.
pub(super) fn index(model: &Model) -> (String, Tree) {
    let parts: Vec<(String, Vec<u8>)> = shards(&found::index(model))
        .into_iter()
        .map(|(name, rows)| {
            let script = format!("baybookFind.take(\"{name}\",{rows});\n");
            (name, script.into_bytes())
        })
        .collect();
    let hash = short_hash(parts.iter().flat_map(|(name, script)| [name.as_bytes(), script.as_slice()]));
    let folder = format!("assets/find-{hash}/");
    let files = parts.into_iter().map(|(name, script)| (format!("{folder}{name}.js"), script)).collect();
    (folder, files)
}
