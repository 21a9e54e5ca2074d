//! What a tree of ours says that it holds: the list of the handbook, which its worker names, and the list of the
//! bundle. A file that neither names was put there by somebody else.

use std::collections::BTreeSet;

use serde_json::Value;

use super::handbook::WORKER;
use crate::bundle::hash::{SIGNATURE, SUMS};

/// What systems leave in any folder that somebody looks into: nobody's work, and gone with the old tree.
const LITTER: [&str; 3] = [".DS_Store", "Thumbs.db", "desktop.ini"];

/// The paths of an earlier tree, as it lists them itself; `read` gives the text of one of its files.
pub(super) fn listed(read: &dyn Fn(&str) -> Option<String>) -> BTreeSet<String> {
    let sums = format!("bundle/{SUMS}");
    let mut paths = BTreeSet::from([WORKER.to_owned(), sums.clone(), format!("bundle/{SIGNATURE}")]);
    let bundle = read(&sums).unwrap_or_default();
    paths.extend(bundle.lines().filter_map(|line| Some(format!("bundle/{}", line.split_once("  ")?.1))));
    let list = read(WORKER).and_then(|worker| list_of(&worker));
    let files = list.as_ref().and_then(|path| read(path)).and_then(|text| serde_json::from_str(&text).ok());
    let files: Vec<(String, Value)> = files.unwrap_or_default();
    paths.extend(files.into_iter().map(|(path, _)| path));
    paths.extend(list);
    paths
}

/// Where the list of the handbook stands, by the first line of its worker.
fn list_of(worker: &str) -> Option<String> {
    let facts = worker.lines().next()?.split_once('=')?.1.trim_end_matches(';');
    let facts: Value = serde_json::from_str(facts).ok()?;
    facts.get("list")?.as_str().map(ToOwned::to_owned)
}

/// True for a file that nobody made, whatever folder it is in.
pub(super) fn is_litter(path: &str) -> bool {
    path.rsplit('/').next().is_some_and(|name| LITTER.contains(&name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_lists_and_what_holds_them_are_known() {
        let read = |path: &str| {
            let text = match path {
                "offline.js" => "globalThis.baybookRelease={\"list\":\"assets/files-1.json\"};\nrest()",
                "assets/files-1.json" => "[[\"index.html\",\"hash\"]]",
                "bundle/SHA256SUMS" => "00  bundle.json\n00  engines/a b.json\n",
                _ => return None,
            };
            Some(text.to_owned())
        };
        let paths: Vec<_> = listed(&read).into_iter().collect();
        let wanted = [
            "assets/files-1.json",
            "bundle/SHA256SUMS",
            "bundle/SHA256SUMS.minisig",
            "bundle/bundle.json",
            "bundle/engines/a b.json",
            "index.html",
            "offline.js",
        ];
        assert_eq!(paths, wanted);
        assert_eq!(listed(&|_| None).len(), 3);
        assert!(is_litter("builds/.DS_Store") && !is_litter("own.txt"));
    }
}
