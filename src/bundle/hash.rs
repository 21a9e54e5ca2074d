//! Hashes of a bundle's files: of each, and of all together.

use std::collections::BTreeMap;
use std::fmt::Write;

use sha2::{Digest, Sha256};

/// The file that lists the hash of every other.
pub const SUMS: &str = "SHA256SUMS";
/// The signature of [`SUMS`], where the bundle is signed.
pub const SIGNATURE: &str = "SHA256SUMS.minisig";
/// The file that says what the bundle is; it holds the content hash, which therefore leaves it out.
pub const HEAD: &str = "bundle.json";

/// SHA-256 in lower-case hexadecimal digits.
pub fn sha256(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

/// One hash over paths and contents in order of path, of all files but [`HEAD`], [`SUMS`] and [`SIGNATURE`].
pub fn content_hash(files: &BTreeMap<String, Vec<u8>>) -> String {
    let mut hasher = Sha256::new();
    for (path, bytes) in files.iter().filter(|(path, _)| ![HEAD, SUMS, SIGNATURE].contains(&path.as_str())) {
        hasher.update(format!("{}  {path}\n", sha256(bytes)));
    }
    hex(&hasher.finalize())
}

/// The text of [`SUMS`] for some files, as `sha256sum` writes and checks it.
pub fn sums(files: &BTreeMap<String, Vec<u8>>) -> String {
    list(&files.iter().map(|(path, bytes)| (path.clone(), sha256(bytes))).collect())
}

/// The text of [`SUMS`] for the hashes of files, by path.
pub fn list(hashes: &BTreeMap<String, String>) -> String {
    hashes.iter().map(|(path, hash)| format!("{hash}  {path}\n")).collect()
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
        _ = write!(text, "{byte:02x}");
        text
    })
}
