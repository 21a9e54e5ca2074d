//! The commands that help to write a base: `tidy` and `draft`. Neither ever changes or makes up a number.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn baybook(base: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_baybook"));
    command.args(arguments).arg("--specs").arg(base).output().expect("the binary runs")
}

fn copy(from: &str, dir: &Path) -> PathBuf {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join(from);
    let base = dir.join("specs");
    for entry in walkdir::WalkDir::new(&from).into_iter().map(|entry| entry.expect("readable")) {
        let to = base.join(entry.path().strip_prefix(&from).expect("below it"));
        if entry.file_type().is_dir() {
            fs::create_dir_all(&to).expect("made");
        } else {
            fs::copy(entry.path(), &to).expect("copied");
        }
    }
    base
}

fn smallest(dir: &Path) -> PathBuf {
    copy("tests/cases/form/smallest/base", dir)
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

#[test]
fn tidy_respells_values_and_touches_nothing_else() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let file = base.join("engines/quarrick/engine-a.toml");
    let clean = fs::read_to_string(&file).expect("readable");
    fs::write(&file, clean.replace("\"0.15..0.25 mm\"", "\"0.15 to 0.25mm\" ")).expect("written");

    let looked = baybook(&base, &["tidy", "--look"]);
    assert_eq!(looked.status.code(), Some(1));
    assert!(said(&looked).contains("`0.15 to 0.25mm` is `0.15..0.25 mm`"), "{}", said(&looked));
    assert!(fs::read_to_string(&file).expect("readable").contains("0.15 to 0.25mm"), "--look wrote");

    let tidied = baybook(&base, &["tidy"]);
    assert_eq!(tidied.status.code(), Some(0), "{}", said(&tidied));
    let after = fs::read_to_string(&file).expect("readable");
    assert_eq!(after, clean.replace("\"0.15..0.25 mm\"", "\"0.15..0.25 mm\" "));
    assert!(said(&baybook(&base, &["tidy"])).contains("every value is written one way"));
}

#[test]
fn tidy_leaves_a_broken_file_as_it_is_and_says_so() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let file = base.join("engines/quarrick/engine-a.toml");
    fs::write(&file, "window = [\"20Nm\"\n[[").expect("written");
    let tidied = baybook(&base, &["tidy"]);
    assert_eq!(tidied.status.code(), Some(1));
    assert!(said(&tidied).contains("engines/quarrick/engine-a.toml is left as it is"), "{}", said(&tidied));
    assert_eq!(fs::read_to_string(&file).expect("readable"), "window = [\"20Nm\"\n[[");
}

#[test]
fn a_draft_of_the_whole_catalogue_has_no_error_and_no_number() {
    let dir = tempfile::tempdir().expect("made");
    let base = copy("specs", dir.path());
    let call = ["draft", "qk-new", "--maker", "quarrick", "--title", "Quarrick \"new\""];
    let drafted = baybook(&base, &call);
    assert_eq!(drafted.status.code(), Some(0), "{}", said(&drafted));
    let text = fs::read_to_string(base.join("engines/quarrick/qk-new.toml")).expect("written");
    let catalogue = walkdir::WalkDir::new(base.join("catalogue")).into_iter();
    let entries = catalogue
        .filter_map(|entry| fs::read_to_string(entry.expect("readable").path()).ok())
        .map(|text| text.matches("[[entry]]").count())
        .sum::<usize>();
    assert_eq!(text.matches("absent = \"not-read\"").count(), entries);

    let checked = baybook(&base, &["check", "--format", "json"]);
    let report: serde_json::Value = serde_json::from_slice(&checked.stdout).expect("JSON");
    assert_eq!(report["summary"]["errors"], 0, "{report:#}");
    let coverage = said(&baybook(&base, &["coverage", "--engine", "qk-new"]));
    assert!(coverage.contains("Quarrick \"new\" (qk-new): 0 values"), "{coverage}");

    let again = baybook(&base, &call);
    assert_eq!(again.status.code(), Some(2));
    assert_eq!(fs::read_to_string(base.join("engines/quarrick/qk-new.toml")).expect("there"), text);
}

#[test]
fn a_draft_like_another_engine_has_its_places_and_states() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let call = ["draft", "engine-b", "--maker", "quarrick", "--title", "Engine B", "--like", "engine-a"];
    let drafted = baybook(&base, &call);
    assert_eq!(drafted.status.code(), Some(0), "{}", said(&drafted));
    let text = fs::read_to_string(base.join("engines/quarrick/engine-b.toml")).expect("written");
    assert!(
        text.contains("of = \"lash.exhaust\"\nwhen = { engine = \"cold\" }\nabsent = \"not-read\"\n"),
        "{text}"
    );
    let unknown = baybook(&base, &["draft", "c", "--maker", "m", "--title", "C", "--like", "engine-aa"]);
    assert_eq!(unknown.status.code(), Some(2));
    assert!(said(&unknown).contains("did you mean `engine-a`?"), "{}", said(&unknown));
}
