//! The bundle's own schemas: committed as they are shipped, and every file of a bundle holds to its own.
//!
//! `BLESS=1 cargo test --test bundle_schemas` writes `schemas/bundle/` anew.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use baybook::emit::bundle;
use baybook::load::disk;
use serde_json::Value;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn own_schemas() -> Vec<(PathBuf, Value)> {
    let all = bundle::schemas().into_iter().filter(|(name, _)| name.starts_with("bundle/"));
    all.map(|(name, schema)| (root().join("schemas").join(name), schema)).collect()
}

#[test]
fn the_committed_schemas_are_the_shipped_ones() {
    let bless = std::env::var_os("BLESS").is_some();
    let mut known = BTreeSet::new();
    for (path, schema) in own_schemas() {
        let generated = serde_json::to_string_pretty(&schema).expect("JSON") + "\n";
        if bless {
            fs::create_dir_all(path.parent().expect("it has one")).expect("made");
            fs::write(&path, &generated).expect("written");
        }
        let committed = fs::read_to_string(&path).unwrap_or_default();
        assert!(committed == generated, "{} is not what the types say: run with BLESS=1", path.display());
        known.insert(path);
    }
    let found = fs::read_dir(root().join("schemas/bundle")).expect("there");
    let found: BTreeSet<_> = found.map(|entry| entry.expect("readable").path()).collect();
    assert_eq!(found, known);
}

#[test]
fn every_file_of_the_demo_bundle_holds_to_its_schema() {
    let examined = baybook::examine(disk::read_base(&root().join("specs")).expect("there"), None);
    let checked = examined.checked.expect("no errors");
    let mut old = bundle::data(checked.model(), bundle::Withheld::LeftOut);
    old.engines[0].title.push_str(" as it was");
    let made = bundle::bundle_since(checked.model(), Some(&old)).expect("it is made");
    let mut held = 0;
    for (name, schema) in bundle::schemas() {
        let Some(kind) = name.strip_prefix("bundle/").and_then(|name| name.strip_suffix(".schema.json"))
        else {
            continue;
        };
        let validator = jsonschema::draft202012::new(&schema).expect("a schema");
        let folder = "bundle/engines/";
        let files = made.tree.iter().filter(|(path, _)| match kind {
            "engine" => path.starts_with(folder),
            other => **path == format!("bundle/{other}.json"),
        });
        let mut of_kind = 0;
        for (path, bytes) in files {
            let value: Value = serde_json::from_slice(bytes).expect("JSON");
            let errors: Vec<_> = validator.iter_errors(&value).map(|error| error.to_string()).collect();
            assert!(errors.is_empty(), "{path}: {errors:?}");
            of_kind += 1;
        }
        assert!(of_kind > 0, "no file of kind {kind}");
        held += of_kind;
    }
    // Fourteen engines and fourteen single files.
    assert_eq!(held, 14 + 14);
}
