//! Whether a bundle is whole and as it was written: every file there, none more, no byte changed.
//!
//! Two independent hashes are held against the files: the list in `SHA256SUMS`, and the content hash in
//! `bundle.json`. Where they disagree, the one that fits the files tells which file was changed.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde::Serialize;

use super::hash::{self, HEAD, SIGNATURE, SUMS, content_hash, sha256};
use super::sign::{self, Signature};
use super::{Bundle, Recall};
use crate::load::disk::{self, MachineError};

/// What was found out about a bundle.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Verified {
    /// True if there is no problem.
    pub whole: bool,
    /// Its release; null where it cannot be read.
    pub release: Option<String>,
    /// Hash of its content as it is.
    pub content_hash: String,
    /// How many files it has.
    pub files: usize,
    /// What is wrong, by file.
    pub problems: Vec<Problem>,
    /// Whether it is signed, and by the key that was given.
    pub signature: Signature,
    /// The public key that it says it is signed by; null if it names none.
    pub signed_by: Option<String>,
    /// Values that earlier releases stated and that are known to be wrong.
    pub recall: Vec<Recall>,
}

/// Something that is wrong with a file.
#[derive(Clone, Debug, Eq, Ord, PartialEq, PartialOrd, Serialize)]
pub struct Problem {
    /// The file, relative to the bundle.
    pub file: String,
    /// What is wrong.
    pub message: String,
}

/// Verifies the bundle at a path, with the public key it should be signed by, if any.
///
/// # Errors
///
/// When the machine cannot read the files.
pub fn verify(path: &Path, key: Option<&str>) -> Result<Verified, MachineError> {
    let marked = |root: &PathBuf| disk::is_file(&root.join(HEAD)) || disk::is_file(&root.join(SUMS));
    let root = [path.to_owned(), path.join("bundle")].into_iter().find(marked).ok_or_else(|| {
        MachineError::new(
            "cannot read",
            path,
            format!("no bundle is there: it has neither {HEAD} nor {SUMS}"),
        )
    })?;
    Ok(verify_files(&disk::read_tree(&root, &|_| true)?, key))
}

/// Verifies the files of a bundle, by their path in it.
pub fn verify_files(files: &BTreeMap<String, Vec<u8>>, key: Option<&str>) -> Verified {
    let content = content_hash(files);
    let mut problems = against_sums(files, &content);
    let bundle = Bundle::from_files(files);
    match &bundle {
        Ok(bundle) if bundle.head.content_hash != content && problems.is_empty() => {
            problems.push(problem(HEAD, "its content hash is not that of the files"));
        }
        // A broken file is a problem of its own only where its hash says nothing.
        Err(error) if problems.is_empty() => problems.push(problem(HEAD, &error.to_string())),
        _ => {}
    }
    let signed_by = bundle.as_ref().ok().and_then(|bundle| bundle.head.signed_by.clone());
    let signature = sign::check(files.get(SUMS), files.get(SIGNATURE), key, signed_by.as_deref());
    if let Some(message) = signature.problem() {
        problems.push(problem(SIGNATURE, message));
    }
    problems.sort();
    problems.dedup();
    Verified {
        whole: problems.is_empty(),
        release: bundle.as_ref().ok().map(|bundle| bundle.head.release.clone()),
        content_hash: content,
        files: files.len(),
        problems,
        signature,
        signed_by,
        recall: bundle.map(|bundle| bundle.ids.recall).unwrap_or_default(),
    }
}

fn problem(file: &str, message: &str) -> Problem {
    Problem { file: file.to_owned(), message: message.to_owned() }
}

/// The files held against the list of their hashes.
fn against_sums(files: &BTreeMap<String, Vec<u8>>, content: &str) -> Vec<Problem> {
    let Some(sums) = files.get(SUMS) else { return vec![problem(SUMS, "it is missing")] };
    let listed = match listed(sums) {
        Ok(listed) => listed,
        Err(problem) => return vec![problem],
    };
    let mut problems = Vec::new();
    for (path, hash) in &listed {
        match files.get(path) {
            None => problems.push(problem(path, "it is missing")),
            Some(bytes) if sha256(bytes) != *hash => {
                problems.push(problem(path, "it is not as it was written: its hash differs"));
            }
            Some(_) => {}
        }
    }
    for path in files.keys().filter(|path| ![SUMS, SIGNATURE].contains(&path.as_str())) {
        if !listed.contains_key(path) {
            problems.push(problem(path, "it does not belong here: SHA256SUMS does not list it"));
        }
    }
    if !problems.is_empty() && stated_hash(files).as_deref() == Some(content) {
        // All other files are those that bundle.json was written for.
        let message = if problems.iter().any(|one| one.file == HEAD) {
            problems.retain(|one| one.file == HEAD);
            "it does not go with bundle.json: one of the two is not as it was written"
        } else {
            problems.clear();
            "it is not as it was written: the files are those of bundle.json"
        };
        problems.push(problem(SUMS, message));
    }
    problems
}

/// The content hash that `bundle.json` states.
fn stated_hash(files: &BTreeMap<String, Vec<u8>>) -> Option<String> {
    let head: serde_json::Value = serde_json::from_slice(files.get(HEAD)?).ok()?;
    Some(head.get("content_hash")?.as_str()?.to_owned())
}

/// The hash of every file that the list names.
fn listed(sums: &[u8]) -> Result<BTreeMap<String, String>, Problem> {
    let broken = |at: usize| problem(SUMS, &format!("line {at} is not a hash, two spaces and a path"));
    let text = std::str::from_utf8(sums).map_err(|_| problem(SUMS, "it is not a text"))?;
    let mut listed = BTreeMap::new();
    for (at, line) in text.lines().enumerate() {
        let (hash, path) = line.split_once("  ").ok_or_else(|| broken(at + 1))?;
        let digits = |c: char| c.is_ascii_digit() || ('a'..='f').contains(&c);
        if hash.len() != 64 || !hash.chars().all(digits) || path.is_empty() {
            return Err(broken(at + 1));
        }
        if listed.insert(path.to_owned(), hash.to_owned()).is_some() {
            return Err(problem(SUMS, &format!("line {} names {path} a second time", at + 1)));
        }
    }
    if text.is_empty() || !text.ends_with('\n') {
        return Err(problem(SUMS, "it does not end with a whole line"));
    }
    if hash::list(&listed) != text {
        return Err(problem(
            SUMS,
            "it is not as it was written: its lines are not in order, or end otherwise",
        ));
    }
    Ok(listed)
}
