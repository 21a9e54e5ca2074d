//! The reader of bundles: what is written is read back whole, and nothing that is broken is.

use std::collections::BTreeMap;
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

#[test]
fn what_is_written_is_read_back_to_the_byte() {
    let bundle = Bundle::from_files(&FILES).expect("it is whole");
    assert_eq!(bundle.head.counts.engines, bundle.engines.len());
    for engine in &bundle.engines {
        let again = serde_json::to_string_pretty(engine).expect("JSON") + "\n";
        assert_eq!(again.as_bytes(), FILES[&format!("engines/{}.json", engine.id)], "{}", engine.id);
    }
    let again = serde_json::to_string_pretty(&bundle.procedures).expect("JSON") + "\n";
    assert_eq!(again.as_bytes(), FILES["procedures.json"]);
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
    // The package describes the tables, and the index of the find is read by `lookup` alone.
    let others = ["datapackage.json", "find.json"];
    let read = |path: &&String| is_data(path) && !path.contains('/') && !others.contains(&path.as_str());
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
