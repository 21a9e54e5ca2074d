//! What the code promises about itself: layers, places of IO, sizes, and what may stand in the tree.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Files that git would commit, by their path from the root.
fn tracked() -> Vec<String> {
    let listed = Command::new("git")
        .args(["ls-files", "--cached", "--others", "--exclude-standard"])
        .current_dir(root())
        .output()
        .expect("git is there");
    assert!(listed.status.success(), "not a git checkout");
    let names = String::from_utf8(listed.stdout).expect("UTF-8");
    names.lines().filter(|name| root().join(name).is_file()).map(ToOwned::to_owned).collect()
}

fn sources() -> Vec<(PathBuf, String)> {
    let all =
        walkdir::WalkDir::new(root().join("src")).sort_by_file_name().into_iter().map(|entry| entry.unwrap());
    let rust = all.filter(|entry| entry.path().extension().is_some_and(|ending| ending == "rs"));
    let read = rust.map(|entry| {
        let relative = entry.path().strip_prefix(root().join("src")).unwrap().to_owned();
        (relative, fs::read_to_string(entry.path()).unwrap())
    });
    read.collect()
}

/// The part of the crate a file belongs to: its first folder, or its own name.
fn layer(path: &Path) -> String {
    let first = path.components().next().unwrap().as_os_str().to_string_lossy();
    first.trim_end_matches(".rs").to_owned()
}

/// The parts that a text names by `crate::`.
fn used(text: &str) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for (at, _) in text.match_indices("crate::") {
        let rest = &text[at + "crate::".len()..];
        match rest.strip_prefix('{') {
            Some(list) => {
                let list = list.split('}').next().unwrap();
                all.extend(list.split(',').map(|one| one.trim().split("::").next().unwrap().to_owned()));
            }
            None => {
                all.insert(
                    rest.split(|c: char| !(c.is_alphanumeric() || c == '_')).next().unwrap().to_owned(),
                );
            }
        }
    }
    all
}

#[test]
fn no_phase_uses_a_later_one() {
    let common = ["source", "diag", "quantity", "model"];
    let allowed = |layer: &str| -> Vec<&str> {
        let own: &[&str] = match layer {
            "quantity" => return vec!["quantity"],
            "source" => return vec!["source"],
            "diag" => return vec!["diag", "source"],
            "model" => return vec!["model", "quantity", "source"],
            "compute" => return vec!["compute", "quantity", "model"],
            "find" => return vec!["find", "quantity", "model"],
            "load" => &["load"],
            "resolve" => &["resolve", "load"],
            "check" => &["check", "resolve", "load"],
            "bundle" => &["bundle", "load"],
            "emit" => &["emit", "bundle", "check", "resolve", "load", "compute", "find"],
            "cli" => &[
                "cli",
                "bundle",
                "emit",
                "check",
                "resolve",
                "load",
                "compute",
                "find",
                "examine",
                "examine_since",
            ],
            "lib" | "main" => return Vec::new(),
            other => panic!("{other} has no place in the layers: give it one here and in DEVELOPERS.md"),
        };
        common.iter().chain(own).copied().collect()
    };
    for (path, text) in sources() {
        let layer = layer(&path);
        if layer == "lib" || layer == "main" {
            continue;
        }
        for name in used(&text) {
            // The macro that declares a rule is exported at the root.
            let fits = name == "rule" || allowed(&layer).contains(&name.as_str());
            assert!(fits, "{} uses {name}, which {layer} may not", path.display());
        }
    }
}

#[test]
fn only_two_modules_touch_the_disk() {
    let allowing: Vec<_> = sources()
        .into_iter()
        .filter(|(_, text)| text.contains("clippy::disallowed_methods"))
        .map(|(path, _)| path.to_string_lossy().into_owned())
        .collect();
    assert_eq!(allowing, ["emit/disk.rs", "load/disk.rs"]);
}

#[test]
fn every_file_says_why_it_exists_and_is_of_a_size_to_read() {
    // Each with its reason.
    let long = ["load/shape.rs: one match over the kinds of break, kept together so that none is missed"];
    for (path, text) in sources() {
        let shown = path.display().to_string();
        assert!(text.starts_with("//!"), "{shown} does not open with why it exists");
        let excused = long.iter().any(|reason| reason.split(": ").next() == Some(&shown));
        assert!(text.lines().count() <= 400 || excused, "{shown} has {} lines", text.lines().count());
    }
}

#[test]
fn browser_files_are_of_a_size_to_read() {
    for name in tracked().iter().filter(|name| name.starts_with("site/") && name.ends_with(".js")) {
        let lines = fs::read_to_string(root().join(name)).unwrap().lines().count();
        assert!(lines < 300, "{name} has {lines} lines");
    }
}

#[test]
fn the_top_level_holds_what_is_expected_there() {
    let expected = [
        ".ci",
        ".gitattributes",
        ".gitignore",
        "CHANGELOG.md",
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "LICENSE-APACHE",
        "LICENSE-MIT",
        "README.md",
        "benches",
        "clippy.toml",
        "fuzz",
        "rustfmt.toml",
        "schemas",
        "site",
        "specs",
        "src",
        "templates",
        "tests",
    ];
    for name in tracked() {
        let first = name.split('/').next().unwrap();
        assert!(expected.contains(&first), "{name} stands where nobody looks for it");
    }
}

#[test]
fn nothing_names_a_machine_or_a_registry() {
    // In parts, so that this file does not name them itself.
    let path = ["/wo", "rk/"].concat();
    let hosts =
        ["registry.npm", "js.org|files.python", "hosted.org|static.crates", ".io|index.crates", ".io"]
            .concat();
    for name in tracked() {
        let Ok(text) = fs::read_to_string(root().join(&name)) else { continue };
        assert!(!text.contains(&path), "{name} holds a path of one machine");
        for host in hosts.split('|') {
            assert!(!text.contains(host), "{name} names the host of a registry");
        }
    }
}
