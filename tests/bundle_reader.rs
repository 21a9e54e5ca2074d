//! The reader of bundles: what is written is read back whole, and nothing that is broken is.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::LazyLock;

use baybook::bundle::{Bundle, BundleError, is_data};
use baybook::emit::{self, disk};

/// The files of the demo base's bundle, by their path in it.
static FILES: LazyLock<BTreeMap<String, Vec<u8>>> = LazyLock::new(|| {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let examined = baybook::examine(baybook::load::disk::read_base(&specs).expect("there"), None);
    let tree = emit::bundle::bundle(examined.checked.expect("no errors").model()).expect("made").tree;
    tree.into_iter().map(|(path, bytes)| (path.replacen("bundle/", "", 1), bytes)).collect()
});

/// The package describes the tables, and the index of the find is read by `lookup` alone.
const OTHERS: [&str; 2] = ["datapackage.json", "find.json"];

#[test]
fn what_is_written_is_read_back_to_the_byte() {
    let bundle = Bundle::from_files(&FILES).expect("it is whole");
    assert_eq!(bundle.head.counts.engines, bundle.engines.len());
    for engine in &bundle.engines {
        let again = serde_json::to_string_pretty(engine).expect("JSON") + "\n";
        assert_eq!(again.as_bytes(), FILES[&format!("engines/{}.json", engine.id)], "{}", engine.id);
    }
    let mut left: BTreeSet<&str> = FILES
        .keys()
        .map(String::as_str)
        .filter(|path| is_data(path) && !path.starts_with("engines/") && !OTHERS.contains(path))
        .collect();
    let Bundle { head, units, catalogue, relations, machines, sources, hazards, .. } = &bundle;
    let Bundle { gauges, procedures, complaints, codes, ids, changes, .. } = &bundle;
    let json = |part: &dyn Fn() -> serde_json::Result<String>| part().expect("JSON") + "\n";
    for (file, again) in [
        ("bundle.json", json(&|| serde_json::to_string_pretty(head))),
        ("units.json", json(&|| serde_json::to_string_pretty(units))),
        ("catalogue.json", json(&|| serde_json::to_string_pretty(catalogue))),
        ("relations.json", json(&|| serde_json::to_string_pretty(relations))),
        ("machines.json", json(&|| serde_json::to_string_pretty(machines))),
        ("sources.json", json(&|| serde_json::to_string_pretty(sources))),
        ("hazards.json", json(&|| serde_json::to_string_pretty(hazards))),
        ("gauges.json", json(&|| serde_json::to_string_pretty(gauges))),
        ("procedures.json", json(&|| serde_json::to_string_pretty(procedures))),
        ("complaints.json", json(&|| serde_json::to_string_pretty(complaints))),
        ("codes.json", json(&|| serde_json::to_string_pretty(codes))),
        ("ids.json", json(&|| serde_json::to_string_pretty(ids))),
    ] {
        assert_eq!(again.as_bytes(), FILES[file], "{file}");
        left.remove(file);
    }
    assert!(left.is_empty() && changes.is_none(), "not read: {left:?}");
}

#[test]
fn what_changed_is_read_back_too() {
    let mut files = FILES.clone();
    let said = r#"{"since":{"release":"2026.04","date":"2026-04-01","content_hash":null},"step":"patch","changes":[]}"#;
    files.insert("changes.json".into(), said.into());
    let changes = Bundle::from_files(&files).expect("whole").changes.expect("read");
    assert_eq!(serde_json::to_string(&changes).expect("JSON"), said);
    files.insert("changes.json".into(), b"[]".to_vec());
    let error = Bundle::from_files(&files).expect_err("refused").to_string();
    assert!(error.starts_with("changes.json is not as its schema says"), "{error}");
}

#[test]
fn a_machine_says_which_builds_it_may_have() {
    let bundle = Bundle::from_files(&FILES).expect("it is whole");
    let machine = bundle.machines.machines.iter().find(|one| one.id == "tarnhawk-887").expect("there");
    let builds = |year, serial| -> Vec<&str> {
        machine.builds(year, serial).iter().map(|fit| fit.build.as_str()).collect()
    };
    assert_eq!(builds(2022, Some("TH22-500")), ["ox-887~sb-22-04~sb-23-11"]);
    assert_eq!(builds(2022, Some("TH22-2500")), ["ox-887~sb-23-11"]);
    assert_eq!(builds(2022, Some("TH23-7")), ["ox-887~sb-23-11"]);
    // Not known, or not written out: every one it may be.
    assert_eq!(builds(2022, None), ["ox-887~sb-22-04~sb-23-11", "ox-887~sb-23-11"]);
    assert_eq!(builds(2022, Some("TH22-5x")), ["ox-887~sb-22-04~sb-23-11", "ox-887~sb-23-11"]);
    assert_eq!(builds(2020, Some("anything")), ["ox-887"]);
    assert!(builds(1999, None).is_empty());
}

#[test]
fn a_moved_id_leads_to_what_it_is_now() {
    let bundle = Bundle::from_files(&FILES).expect("it is whole");
    let (engine, build) = bundle.build("ox-887~sb-21-09").expect("it was moved");
    assert_eq!((engine.id.as_str(), build.id.as_str()), ("ox-887", "ox-887~sb-22-04~sb-23-11"));
    assert_eq!(bundle.entry("lash.inlet").expect("it was moved").id, "lash.intake");
    assert_eq!(bundle.ids.now("charging-and-drain"), ["battery-and-charging", "key-off-drain"]);
    assert!(bundle.ids.now("sd-894~letter-23-2").is_empty());
    assert!(bundle.build("never-was").is_none());
}

#[test]
fn ids_that_move_in_a_circle_end_somewhere() {
    let mut bundle = Bundle::from_files(&FILES).expect("it is whole");
    let circle = [("a", "b"), ("b", "a"), ("c", "c")].map(|(id, to)| baybook::bundle::Retired {
        id: id.into(),
        fate: "moved".into(),
        to: vec![to.into()],
        because: String::new(),
        release: String::new(),
    });
    bundle.ids.retired = circle.to_vec();
    assert!(bundle.ids.now("a").is_empty());
    assert!(bundle.ids.now("c").is_empty());
}

#[test]
fn a_missing_file_is_named() {
    let read = |path: &&String| is_data(path) && !path.contains('/') && !OTHERS.contains(&path.as_str());
    for gone in FILES.keys().filter(read) {
        let mut files = FILES.clone();
        files.remove(gone);
        let error = Bundle::from_files(&files).expect_err("refused");
        assert!(matches!(&error, BundleError::Missing { file } if file == gone), "{error}");
    }
}

#[test]
fn what_is_not_as_its_schema_says_is_named_with_its_place() {
    let breaks: [(&str, &str, &str, &str); 4] = [
        ("bundle.json", "\"release\":", "\"releese\":", "release"),
        ("engines/ox-887.json", "\"si\": \"0.0002", "\"si\": \"0,0002", "no exact number"),
        ("machines.json", "\"from_year\": 2", "\"from_year\": -2", "invalid value"),
        ("hazards.json", "{", "[", "hazards"),
    ];
    for (file, from, to, said) in breaks {
        let mut files = FILES.clone();
        let text = String::from_utf8(files[file].clone()).expect("UTF-8");
        assert!(text.contains(from), "{file} has no {from}");
        files.insert(file.into(), text.replacen(from, to, 1).into_bytes());
        let error = Bundle::from_files(&files).expect_err("refused").to_string();
        assert!(error.contains(file) && error.contains(said) && error.contains("line"), "{error}");
    }
}

#[test]
fn a_bundle_is_found_in_its_output_directory_too() {
    let dir = tempfile::tempdir().expect("a directory");
    let tree = FILES.iter().map(|(path, bytes)| (format!("bundle/{path}"), bytes.clone())).collect();
    let out = dir.path().join("public");
    disk::write(&tree, &out).expect("written");
    assert_eq!(Bundle::read(&out).expect("there"), Bundle::read(&out.join("bundle")).expect("there"));
    assert!(matches!(Bundle::read(dir.path()), Err(BundleError::Missing { .. })));
}
