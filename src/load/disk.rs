//! The one module that reads the spec base from disk.
//!
//! Everything is bounded: how deep it goes, how many files it takes, how large each may be. Links
//! are not followed, so that a base is what its directory holds and nothing else.
#![allow(clippy::disallowed_methods, reason = "this module owns reading from disk")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use walkdir::WalkDir;

use crate::model::Date;

/// Largest file that is read, in bytes.
pub const LARGEST_FILE: u64 = 4 * 1024 * 1024;
/// Most files that are read.
pub const MOST_FILES: usize = 50_000;
/// How many folders deep files are looked for.
pub const DEEPEST: usize = 8;

/// A fault of the machine, not of the spec base.
#[derive(Debug)]
pub struct MachineError {
    /// What was done to which path, as `cannot read specs`.
    pub what: String,
    /// The path.
    pub path: PathBuf,
    /// What the system said.
    pub because: String,
}

impl MachineError {
    /// A fault met while doing `what` to `path`.
    #[allow(
        clippy::needless_pass_by_value,
        reason = "callers hand over an error or a text they are done with"
    )]
    pub fn new(what: &str, path: &Path, because: impl ToString) -> Self {
        Self {
            what: format!("{what} {}", path.display()),
            path: path.to_owned(),
            because: because.to_string(),
        }
    }
}

impl std::fmt::Display for MachineError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.what, self.because)
    }
}

impl std::error::Error for MachineError {}

/// Today, by the clock of the machine, in UTC.
pub fn today() -> Date {
    day_of(SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs()))
}

/// The day that `SOURCE_DATE_EPOCH` names, where it is set: what a reproducible build judges dates at.
///
/// # Errors
///
/// When it is set to something else than seconds since 1970: the build would be of another day than was asked for.
pub fn source_date() -> Result<Option<Date>, MachineError> {
    let name = "SOURCE_DATE_EPOCH";
    let Some(typed) = std::env::var_os(name) else { return Ok(None) };
    let typed = typed.to_string_lossy();
    if typed.trim().is_empty() {
        return Ok(None);
    }
    let seconds = typed.trim().parse().ok().filter(|seconds| *seconds <= LAST_SECOND);
    let because = || format!("`{typed}` is no number of seconds since 1970, of a year up to 9999");
    seconds
        .map(|seconds| Some(day_of(seconds)))
        .ok_or_else(|| MachineError::new("cannot read", Path::new(name), because()))
}

/// The last second of the year 9999.
const LAST_SECOND: u64 = 253_402_300_799;

fn day_of(seconds: u64) -> Date {
    let days = i32::try_from(seconds / 86_400).unwrap_or(i32::MAX);
    let first = Date::constant(1970, 1, 1);
    first.checked_add(jiff::Span::new().try_days(days).unwrap_or_default()).unwrap_or(first)
}

/// What was found at a path.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum Content {
    /// The bytes of a file.
    Bytes(Vec<u8>),
    /// A file over [`LARGEST_FILE`]: its size.
    TooLarge(u64),
    /// A symbolic link, which is not followed.
    Link,
}

/// One thing found in the spec base.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Found {
    /// Path relative to the base, with `/`.
    pub path: String,
    /// What it holds.
    pub content: Content,
}

/// Why the machine cannot read something, in words of people.
fn why(error: &std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "no such file".to_owned(),
        std::io::ErrorKind::PermissionDenied => "this user may not read it".to_owned(),
        _ => error.to_string(),
    }
}

/// Every file of a spec base in order of path; hidden ones are left out.
///
/// # Errors
///
/// When the directory or a file in it cannot be read, or there are more than [`MOST_FILES`].
pub fn read_base(root: &Path) -> Result<Vec<Found>, MachineError> {
    if !root.is_dir() {
        let because =
            if root.is_file() { "it is a file; name the directory it is in" } else { "no such directory" };
        return Err(MachineError::new("cannot read", root, because));
    }
    let visible = |entry: &walkdir::DirEntry| {
        entry.depth() == 0 || !entry.file_name().to_string_lossy().starts_with('.')
    };
    let mut all = Vec::new();
    for entry in WalkDir::new(root).max_depth(DEEPEST).sort_by_file_name().into_iter().filter_entry(visible) {
        let entry = entry.map_err(|error| {
            MachineError::new("cannot read", error.path().unwrap_or(root), error.to_string())
        })?;
        if entry.file_type().is_dir() {
            continue;
        }
        if all.len() == MOST_FILES {
            let because = format!("it holds more than {MOST_FILES} files");
            return Err(MachineError::new("cannot read", root, because));
        }
        all.push(read_one(root, &entry)?);
    }
    all.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(all)
}

/// The text of a file; none if there is no such file.
///
/// # Errors
///
/// When it is there and cannot be read.
pub fn read_text(path: &Path) -> Result<Option<String>, MachineError> {
    match fs::read_to_string(path) {
        Ok(text) => Ok(Some(text)),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(MachineError::new("cannot read", path, error)),
    }
}

/// One file that belongs to no base, under the path it was asked for by.
///
/// # Errors
///
/// When it cannot be read, or is no file.
pub fn read_file(path: &Path) -> Result<Found, MachineError> {
    let fault = |error: String| MachineError::new("cannot read", path, error);
    let facts = fs::metadata(path).map_err(|error| fault(why(&error)))?;
    if !facts.is_file() {
        return Err(fault("not a file".to_owned()));
    }
    let content = if facts.len() > LARGEST_FILE {
        Content::TooLarge(facts.len())
    } else {
        Content::Bytes(fs::read(path).map_err(|error| fault(why(&error)))?)
    };
    Ok(Found { path: path.display().to_string(), content })
}

/// A file by its own path; of a directory, its files of an ending, in order of name.
///
/// # Errors
///
/// When the directory cannot be read, or holds more than [`MOST_FILES`].
pub fn files_in(path: &Path, ending: &str) -> Result<Vec<PathBuf>, MachineError> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let mut all = Vec::new();
    for entry in WalkDir::new(path).min_depth(1).max_depth(1).sort_by_file_name() {
        let entry = entry.map_err(|error| MachineError::new("cannot read", path, error))?;
        if entry.file_type().is_file() && entry.path().extension().is_some_and(|one| one == ending) {
            all.push(entry.into_path());
        }
        if all.len() > MOST_FILES {
            return Err(MachineError::new(
                "cannot read",
                path,
                format!("it holds more than {MOST_FILES} files"),
            ));
        }
    }
    Ok(all)
}

/// Whether a file stands at a path.
pub fn is_file(path: &Path) -> bool {
    path.is_file()
}

/// Largest file of a bundle that is read, in bytes: a database of a large shop, with room.
const LARGEST_OF_A_BUNDLE: u64 = 1024 * 1024 * 1024;

/// The files below a directory that are wanted, by path relative to it with `/`: hidden ones too, links
/// not followed.
///
/// # Errors
///
/// When the directory or a file in it cannot be read, or is beyond what a bundle holds.
pub fn read_tree(
    root: &Path,
    wanted: &dyn Fn(&str) -> bool,
) -> Result<BTreeMap<String, Vec<u8>>, MachineError> {
    let mut all = BTreeMap::new();
    for entry in WalkDir::new(root).max_depth(DEEPEST).sort_by_file_name() {
        let entry = entry.map_err(|error| {
            MachineError::new("cannot read", error.path().unwrap_or(root), error.to_string())
        })?;
        let path = relative(root, entry.path());
        // A folder too deep to look into stands for what is in it.
        let passed = entry.file_type().is_dir() && entry.depth() < DEEPEST;
        if passed || !wanted(&path) {
            continue;
        }
        if !entry.file_type().is_file() {
            // A link is no file of a bundle: it holds nothing.
            all.insert(path, Vec::new());
            continue;
        }
        let fault =
            |because: &dyn ToString| MachineError::new("cannot read", entry.path(), because.to_string());
        let size = entry.metadata().map_err(|error| fault(&error))?.len();
        if all.len() == MOST_FILES || size > LARGEST_OF_A_BUNDLE {
            return Err(fault(&"it is more than a bundle holds"));
        }
        all.insert(path, fs::read(entry.path()).map_err(|error| fault(&error))?);
    }
    Ok(all)
}

/// A path relative to a directory, with `/`.
fn relative(root: &Path, path: &Path) -> String {
    let relative = path.strip_prefix(root).unwrap_or(path);
    relative.iter().map(|part| part.to_string_lossy()).collect::<Vec<_>>().join("/")
}

fn read_one(root: &Path, entry: &walkdir::DirEntry) -> Result<Found, MachineError> {
    let path = relative(root, entry.path());
    if !entry.file_type().is_file() {
        return Ok(Found { path, content: Content::Link });
    }
    let fault = |error: String| MachineError::new("cannot read", entry.path(), error);
    let size = entry.metadata().map_err(|error| fault(error.to_string()))?.len();
    let content = if size > LARGEST_FILE {
        Content::TooLarge(size)
    } else {
        Content::Bytes(fs::read(entry.path()).map_err(|error| fault(error.to_string()))?)
    };
    Ok(Found { path, content })
}
