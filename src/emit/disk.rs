//! The one module that writes to disk: a whole tree, or nothing.
//!
//! The tree is written beside the old one and then takes its place: by one exchanging rename where the
//! system has it, else by two renames with a journal. After a kill at any moment either a whole tree
//! stands at the output, or the journal does, and the next run puts the tree back. It guards against a
//! killed process, not against a power cut: nothing is flushed to the medium.
#![allow(clippy::disallowed_methods, reason = "this module owns writing to disk")]

use std::ffi::OsString;
use std::fs::{self, File};
use std::path::{Component, Path, PathBuf};

use rustix::fs::{CWD, FlockOperation, RenameFlags, flock, renameat_with};

use walkdir::WalkDir;

use super::Tree;
use super::handbook::SINGLE_BEGINS;
use super::listed::{is_litter, listed};
use crate::load::disk::MachineError;

/// Every tree that Baybook wrote holds this file; no other directory is ever replaced.
const OURS: &str = "bundle/bundle.json";

/// Writes a tree in the place of the one at `out`.
///
/// # Errors
///
/// When something else than a tree of ours stands at `out`, or a file in it that is not, or the disk refuses;
/// the old tree then stands as it was.
pub fn write(tree: &Tree, out: &Path) -> Result<(), MachineError> {
    let places = Places::around(out)?;
    let _lock = places.lock()?;
    places.recover()?;
    places.refuse_foreign(tree)?;
    if let Err(error) = places.write_staging(tree) {
        // The fault of the write is what is said, whether or not its leavings could be cleared.
        _ = places.clear(&places.staging);
        return Err(error);
    }
    places.swap(renameat2)
}

/// Writes one build as one file.
///
/// # Errors
///
/// When something else than such a file stands there, or the disk refuses; it then stands as it was.
pub fn write_single(path: &Path, page: &str) -> Result<(), MachineError> {
    let fault = |because: &dyn ToString| MachineError::new("cannot write", path, because.to_string());
    if path.is_dir() {
        return Err(fault(&"it is a directory; name a file with --out"));
    }
    if path.exists() {
        let old = fs::read(path).map_err(|error| fault(&error))?;
        if !old.is_empty() && !old.starts_with(SINGLE_BEGINS.as_bytes()) {
            return Err(fault(&"Baybook did not write the file that is there; name a new one with --out"));
        }
    }
    replace_file(path, page)
}

/// True if an output would lie in a directory, or be that directory itself, by whatever links and dots it is named.
pub fn lies_in(out: &Path, directory: &Path) -> bool {
    let real =
        |path: &Path| std::path::absolute(path).map_or_else(|_| path.to_owned(), |path| resolved(&path));
    real(out).starts_with(real(directory))
}

/// A path without links and dots; what is not there yet is taken as it is named.
fn resolved(path: &Path) -> PathBuf {
    if let Ok(real) = fs::canonicalize(path) {
        return real;
    }
    let Some(parent) = path.parent() else { return path.to_owned() };
    let parent = resolved(parent);
    match path.components().next_back() {
        Some(Component::Normal(name)) => parent.join(name),
        Some(Component::ParentDir) => parent.parent().unwrap_or(&parent).to_owned(),
        _ => parent,
    }
}

/// Writes one file in a single step: the old one stands until the new one is whole.
///
/// # Errors
///
/// When the disk refuses; the old file then stands as it was.
pub fn replace_file(path: &Path, text: &str) -> Result<(), MachineError> {
    let fault = |error: std::io::Error| MachineError::new("cannot write", path, error);
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent).map_err(fault)?;
    }
    let mut hidden = OsString::from(".");
    hidden.push(path.file_name().unwrap_or_default());
    hidden.push(".baybook-new");
    let staging = path.with_file_name(hidden);
    fs::write(&staging, text).and_then(|()| fs::rename(&staging, path)).map_err(|error| {
        // The fault of the write is what is said, whether or not its leavings could be cleared.
        _ = fs::remove_file(&staging);
        fault(error)
    })
}

/// The output and its siblings.
struct Places {
    out: PathBuf,
    /// The new tree while it is written; the old one once the two are exchanged.
    staging: PathBuf,
    /// The old tree between the two renames of the second way.
    old: PathBuf,
    /// Stands while the two renames are under way.
    journal: PathBuf,
    /// The directory they all stand in.
    parent: PathBuf,
}

/// Exchanges two paths in one step, if the system can.
type Exchange = fn(&Path, &Path) -> rustix::io::Result<()>;

fn renameat2(one: &Path, other: &Path) -> rustix::io::Result<()> {
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE)
}

impl Places {
    fn around(out: &Path) -> Result<Self, MachineError> {
        let fault = |because: String| MachineError::new("cannot write", out, because);
        // A link at the output stands for the directory it points to.
        let out = if out.is_symlink() {
            fs::canonicalize(out).map_err(|e| fault(e.to_string()))?
        } else {
            out.to_owned()
        };
        let name = out.file_name().ok_or_else(|| fault("it has no name of its own".into()))?.to_owned();
        let parent = out.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        fs::create_dir_all(parent).map_err(|error| fault(error.to_string()))?;
        let sibling = |ending: &str| {
            let mut hidden = OsString::from(".");
            hidden.push(&name);
            hidden.push(ending);
            parent.join(hidden)
        };
        Ok(Self {
            staging: sibling(".baybook-new"),
            old: sibling(".baybook-old"),
            journal: sibling(".baybook-journal"),
            parent: parent.to_owned(),
            out,
        })
    }

    fn fault(&self, error: impl ToString) -> MachineError {
        MachineError::new("cannot write", &self.out, error)
    }

    /// Lets one run at a time write beside the output; the system frees the lock of a killed one.
    fn lock(&self) -> Result<File, MachineError> {
        let beside = File::open(&self.parent).map_err(|error| self.fault(error))?;
        flock(&beside, FlockOperation::LockExclusive).map_err(|error| self.fault(error))?;
        Ok(beside)
    }

    /// Puts right what a killed run left.
    fn recover(&self) -> Result<(), MachineError> {
        if self.journal.exists() {
            if !self.out.exists() && self.old.exists() {
                fs::rename(&self.old, &self.out).map_err(|error| self.fault(error))?;
            }
            fs::remove_file(&self.journal).map_err(|error| self.fault(error))?;
        }
        self.clear(&self.staging)?;
        self.clear(&self.old)
    }

    fn clear(&self, path: &Path) -> Result<(), MachineError> {
        if path.exists() { fs::remove_dir_all(path).map_err(|error| self.fault(error)) } else { Ok(()) }
    }

    fn refuse_foreign(&self, tree: &Tree) -> Result<(), MachineError> {
        let Ok(mut entries) = fs::read_dir(&self.out) else {
            return if self.out.exists() { Err(self.fault("it is not a directory")) } else { Ok(()) };
        };
        if entries.next().is_none() {
            return Ok(());
        }
        if !self.out.join(OURS).is_file() {
            let because =
                "it holds files that Baybook did not write; name an empty or a new directory with --out";
            return Err(self.fault(because));
        }
        let ours = listed(&|path| fs::read_to_string(self.out.join(path)).ok());
        for entry in WalkDir::new(&self.out).sort_by_file_name() {
            let entry = entry.map_err(|error| self.fault(error))?;
            let path = entry.path().strip_prefix(&self.out).unwrap_or(entry.path());
            let path = path.iter().map(|part| part.to_string_lossy()).collect::<Vec<_>>().join("/");
            let known = tree.contains_key(&path) || ours.contains(&path) || is_litter(&path);
            if !entry.file_type().is_dir() && !known {
                let because = format!("it holds `{path}`, which Baybook did not write; move that file away");
                return Err(self.fault(because));
            }
        }
        Ok(())
    }

    fn write_staging(&self, tree: &Tree) -> Result<(), MachineError> {
        for (path, bytes) in tree {
            let to = self.staging.join(path);
            let from = self.out.join(path);
            if let Some(parent) = to.parent() {
                fs::create_dir_all(parent).map_err(|error| self.fault(error))?;
            }
            let same = fs::read(&from).is_ok_and(|old| old == *bytes);
            if !(same && fs::hard_link(&from, &to).is_ok()) {
                fs::write(&to, bytes).map_err(|error| MachineError::new("cannot write", &to, error))?;
            }
        }
        Ok(())
    }

    fn swap(&self, exchange: Exchange) -> Result<(), MachineError> {
        if !self.out.exists() {
            return fs::rename(&self.staging, &self.out).map_err(|error| self.fault(error));
        }
        if exchange(&self.staging, &self.out).is_err() {
            File::create(&self.journal).map_err(|error| self.fault(error))?;
            fs::rename(&self.out, &self.old).map_err(|error| self.fault(error))?;
            if let Err(error) = fs::rename(&self.staging, &self.out) {
                self.recover()?;
                return Err(self.fault(error));
            }
            fs::remove_file(&self.journal).map_err(|error| self.fault(error))?;
        }
        self.clear(&self.staging)?;
        self.clear(&self.old)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tree(text: &str) -> Tree {
        Tree::from([(OURS.to_owned(), text.into()), ("index.html".to_owned(), b"same".to_vec())])
    }

    /// A tree that lists its handbook, as those of the handbook do.
    fn listing(mut tree: Tree) -> Tree {
        let files: Vec<_> = tree.keys().map(|path| (path, "hash")).collect();
        let list = serde_json::json!(files).to_string();
        tree.insert("files.json".into(), list.into_bytes());
        tree.insert("offline.js".into(), b"globalThis.baybookRelease={\"list\":\"files.json\"};\n".to_vec());
        tree
    }

    fn shown(out: &Path) -> String {
        fs::read_to_string(out.join(OURS)).expect("a whole tree stands there")
    }

    fn never(_: &Path, _: &Path) -> rustix::io::Result<()> {
        Err(rustix::io::Errno::NOSYS)
    }

    fn leftovers(dir: &Path) -> Vec<String> {
        let names = fs::read_dir(dir).expect("it exists").map(|one| one.expect("readable").file_name());
        let mut names: Vec<_> = names.map(|name| name.to_string_lossy().into_owned()).collect();
        names.retain(|name| name.contains("baybook"));
        names
    }

    #[test]
    fn both_ways_of_swapping_leave_the_new_tree_and_nothing_else() {
        for exchange in [renameat2 as Exchange, never] {
            let dir = tempfile::tempdir().expect("a directory");
            let out = dir.path().join("public");
            write(&tree("one"), &out).expect("written");
            let places = Places::around(&out).expect("a place");
            places.write_staging(&tree("two")).expect("staged");
            places.swap(exchange).expect("swapped");
            assert_eq!(shown(&out), "two");
            assert!(leftovers(dir.path()).is_empty());
        }
    }

    #[test]
    fn a_kill_at_any_moment_leaves_a_whole_tree_or_one_that_the_next_run_restores() {
        let killed_after: [fn(&Places); 4] = [
            |_| {},
            |places| _ = File::create(&places.journal).expect("journalled"),
            |places| {
                File::create(&places.journal).expect("journalled");
                fs::rename(&places.out, &places.old).expect("moved away");
            },
            |places| {
                File::create(&places.journal).expect("journalled");
                fs::rename(&places.out, &places.old).expect("moved away");
                fs::rename(&places.staging, &places.out).expect("moved in");
            },
        ];
        for kill in killed_after {
            let dir = tempfile::tempdir().expect("a directory");
            let out = dir.path().join("public");
            write(&tree("one"), &out).expect("written");
            let places = Places::around(&out).expect("a place");
            places.write_staging(&tree("two")).expect("staged");
            kill(&places);
            places.recover().expect("recovered");
            assert!(["one", "two"].contains(&shown(&out).as_str()));
            write(&tree("three"), &out).expect("written");
            assert_eq!(shown(&out), "three");
            assert!(leftovers(dir.path()).is_empty());
        }
    }

    #[test]
    fn files_that_are_not_ours_are_never_replaced() {
        let dir = tempfile::tempdir().expect("a directory");
        fs::write(dir.path().join("letter.txt"), "keep").expect("written");
        let error = write(&tree("one"), dir.path()).expect_err("refused");
        assert!(error.to_string().contains("did not write"), "{error}");
        assert_eq!(fs::read_to_string(dir.path().join("letter.txt")).expect("still there"), "keep");
    }

    #[test]
    fn unchanged_files_are_linked_and_stale_ones_go() {
        let dir = tempfile::tempdir().expect("a directory");
        let out = dir.path().join("public");
        let mut first = tree("one");
        first.insert("gone.html".into(), b"stale".to_vec());
        write(&listing(first), &out).expect("written");
        write(&tree("two"), &out).expect("written");
        assert!(!out.join("gone.html").exists());
        assert_eq!(fs::read(out.join("index.html")).expect("there"), b"same");
    }

    #[test]
    fn a_file_of_somebody_else_in_our_tree_stops_the_next_and_is_named() {
        let dir = tempfile::tempdir().expect("a directory");
        let out = dir.path().join("public");
        write(&listing(tree("one")), &out).expect("written");
        fs::create_dir_all(out.join("notes")).expect("made");
        fs::write(out.join("notes/own.txt"), "keep").expect("written");
        let error = write(&listing(tree("two")), &out).expect_err("refused");
        assert!(error.to_string().contains("`notes/own.txt`"), "{error}");
        assert_eq!((shown(&out).as_str(), leftovers(dir.path())), ("one", Vec::new()));
        fs::remove_file(out.join("notes/own.txt")).expect("moved away");
        write(&listing(tree("two")), &out).expect("written");
        assert_eq!(shown(&out), "two");
    }

    #[test]
    fn a_write_that_fails_leaves_the_old_tree_and_nothing_beside_it() {
        let dir = tempfile::tempdir().expect("a directory");
        let out = dir.path().join("public");
        write(&tree("one"), &out).expect("written");
        let mut beyond = tree("two");
        beyond.insert(format!("{}.html", "x".repeat(300)), b"no name is so long".to_vec());
        write(&beyond, &out).expect_err("no file system has it");
        assert_eq!((shown(&out).as_str(), leftovers(dir.path())), ("one", Vec::new()));
        replace_file(&out, "a directory is there").expect_err("no file takes its place");
        assert_eq!((shown(&out).as_str(), leftovers(dir.path())), ("one", Vec::new()));
    }

    #[test]
    fn an_output_is_told_to_lie_in_a_directory_however_it_is_named() {
        let dir = tempfile::tempdir().expect("a directory");
        let base = dir.path().join("specs");
        fs::create_dir_all(base.join("engines")).expect("made");
        std::os::unix::fs::symlink(&base, dir.path().join("link")).expect("linked");
        let inside = ["specs", "specs/public", "specs/a/b", "link/public", "other/../specs/public"];
        let outside = [
            "public",
            "specs-public",
            "specs/../public",
            "specs/engines/../../public",
            "specs/no/../../public",
        ];
        assert!(inside.iter().all(|one| lies_in(&dir.path().join(one), &base)));
        assert!(outside.iter().all(|one| !lies_in(&dir.path().join(one), &base)));
    }
}
