//! Files that the schemas accept or refuse, one break each: Baybook's own verdict.
//!
//! `tests/outside/schemas` holds them by kind, under `accept` and `refuse`; Python's `jsonschema` and npm's `ajv`
//! give theirs on the same files, so that an editor, another program and Baybook agree on what a file may be.

use std::fs;
use std::path::{Path, PathBuf};

use baybook::diag::{Finding, Sink};
use baybook::load::disk::{Content, Found};
use baybook::load::format::ShimsFile;
use baybook::load::place::FileKind;
use baybook::source::Sources;

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/outside/schemas")
}

/// What loading one file alone finds, but that the base has no `base.toml`.
fn findings(kind: FileKind, bytes: Vec<u8>) -> Vec<Finding> {
    let mut sink = Sink::default();
    let Some(path) = kind.pattern().map(|pattern| pattern.replace('*', "x")) else {
        let found = Found { path: "x.toml".to_owned(), content: Content::Bytes(bytes) };
        let mut sources = Sources::default();
        baybook::load::load_alone::<ShimsFile>(kind, found, &mut sources, &mut sink);
        return sink.into_sorted(&sources);
    };
    let loaded = baybook::load::load(vec![Found { path, content: Content::Bytes(bytes) }], &mut sink);
    let all = sink.into_sorted(&loaded.sources);
    all.into_iter().filter(|finding| finding.rule.name != "no-base-file").collect()
}

fn files(kind: FileKind, verdict: &str) -> Vec<PathBuf> {
    let folder = corpus().join(kind.schema_name()).join(verdict);
    let mut all: Vec<_> = fs::read_dir(&folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .map(|entry| entry.unwrap().path())
        .collect();
    all.sort();
    all
}

#[test]
fn what_a_schema_accepts_gives_no_finding() {
    for kind in FileKind::ALL {
        for path in files(kind, "accept") {
            let found = findings(kind, fs::read(&path).unwrap());
            assert!(found.is_empty(), "{}: {}", path.display(), found[0].message);
        }
    }
}

#[test]
fn what_a_schema_refuses_gives_one_finding_in_our_words() {
    let mut count = 0;
    for kind in FileKind::ALL {
        for path in files(kind, "refuse") {
            let found = findings(kind, fs::read(&path).unwrap());
            let shown: Vec<_> =
                found.iter().map(|one| format!("{}: {}", one.rule.name, one.message)).collect();
            assert_eq!(found.len(), 1, "{}: {shown:?}", path.display());
            assert!(!found[0].help.is_empty());
            count += 1;
        }
    }
    assert!(count >= 100, "{count}");
}
