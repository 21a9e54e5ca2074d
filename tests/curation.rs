//! The commands that help to write a base: `tidy` and `draft`. Neither ever changes or makes up a number.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

mod shared;

fn baybook(base: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_baybook"));
    command.args(arguments).arg("--specs").arg(base).output().expect("the binary runs")
}

fn copied(from: &str, dir: &Path) -> PathBuf {
    let base = dir.join("specs");
    shared::copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join(from), &base);
    base
}

fn smallest(dir: &Path) -> PathBuf {
    copied("tests/cases/form/smallest/base", dir)
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
fn tidy_keeps_a_clean_base_clean_where_a_page_misprints() {
    let dir = tempfile::tempdir().expect("made");
    let base = copied("tests/rule-base", dir.path());
    let file = base.join("engines/quarrick/engine-a.toml");
    let mut text = fs::read_to_string(&file).expect("readable");
    text += r#"
[[spec]]
of = "torque.case-bolt"
setting = ["14Nm", "10lbf-in"]
misprint = { printed = "10lbf-in", meant = "10lbf-ft", because = "Page 92 has 10 lbf·ft", decided_by = "mk" }
page = "12"
"#;
    fs::write(&file, text).expect("written");
    assert!(baybook(&base, &["check"]).status.success(), "{}", said(&baybook(&base, &["check"])));
    assert!(baybook(&base, &["tidy"]).status.success());
    let after = fs::read_to_string(&file).expect("readable");
    assert!(
        after.contains(r#"["14 N·m", "10 lbf·in"]"#) && after.contains(r#"printed = "10lbf-in""#),
        "{after}"
    );
    assert!(baybook(&base, &["check"]).status.success(), "{}", said(&baybook(&base, &["check"])));
}

#[test]
fn tidy_leaves_a_recalled_value_as_it_stood_and_it_is_found_all_the_same() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let recall = "[[recall]]\nengine = \"engine-a\"\nof = \"lash.exhaust\"\nwhen = { engine = \"cold\" }\n\
                  value = \"0.15 to 0.25mm\"\nreleases = [\"2026.04\"]\nbecause = \"Two rows were mixed up\"\n";
    fs::write(base.join("ids.toml"), recall).expect("written");
    assert!(said(&baybook(&base, &["tidy"])).contains("every value is written one way"));
    assert_eq!(fs::read_to_string(base.join("ids.toml")).expect("readable"), recall);
    assert!(said(&baybook(&base, &["check"])).contains("recalled-value-stated"));
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
    let base = copied("specs", dir.path());
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

#[test]
fn an_editor_is_offered_the_ids_of_the_base_and_takes_every_file_of_it() {
    let dir = tempfile::tempdir().expect("made");
    let base = copied("specs", dir.path());
    let written = baybook(&base, &["editor"]);
    assert_eq!(written.status.code(), Some(0), "{}", said(&written));
    let engine = fs::read_to_string(dir.path().join("schemas/engine.schema.json")).expect("written");
    let engine: serde_json::Value = serde_json::from_str(&engine).expect("JSON");
    let offered = engine["$defs"]["Spec"]["properties"]["of"]["enum"].as_array().expect("ids are offered");
    assert!(offered.contains(&"lash.exhaust".into()));
    let validator = jsonschema::draft202012::new(&engine).expect("a schema");
    for entry in walkdir::WalkDir::new(base.join("engines")) {
        let entry = entry.expect("readable");
        if entry.file_type().is_file() {
            let text = fs::read_to_string(entry.path()).expect("readable");
            let table: toml::Table = text.parse().expect("TOML");
            let json = json_of(toml::Value::Table(table));
            let errors: Vec<_> = validator.iter_errors(&json).map(|error| error.to_string()).collect();
            assert!(errors.is_empty(), "{}: {errors:#?}", entry.path().display());
        }
    }
    let again = baybook(&base, &["editor"]);
    assert_eq!(again.status.code(), Some(0), "{}", said(&again));

    fs::write(dir.path().join("schemas/base.schema.json"), "{\"title\": \"Another\"}").expect("written");
    let refused = baybook(&base, &["editor"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(said(&refused).contains("no schema of ours"), "{}", said(&refused));
}

/// TOML as JSON; dates are the strings they were typed as.
fn json_of(value: toml::Value) -> serde_json::Value {
    match value {
        toml::Value::Table(table) => table.into_iter().map(|(key, value)| (key, json_of(value))).collect(),
        toml::Value::Array(items) => items.into_iter().map(json_of).collect(),
        toml::Value::Datetime(date) => date.to_string().into(),
        other => serde_json::to_value(other).expect("JSON"),
    }
}

#[test]
fn a_preview_writes_what_compiles_and_keeps_it_while_there_is_an_error() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let out = dir.path().join("public");
    let preview =
        |runs: &str| baybook(&base, &["preview", "--runs", runs, "--out", out.to_str().expect("text")]);
    assert_eq!(preview("1").status.code(), Some(0));
    let home = fs::read(out.join("index.html")).expect("written");
    fs::write(base.join("engines/quarrick/engine-a.toml"), "id = ").expect("written");
    let broken = preview("1");
    assert_eq!(broken.status.code(), Some(1));
    assert!(said(&broken).contains("stays as it was"), "{}", said(&broken));
    assert_eq!(fs::read(out.join("index.html")).expect("still there"), home);
}

#[test]
fn a_preview_sees_a_change() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let out = dir.path().join("public");
    let file = base.join("engines/quarrick/engine-a.toml");
    let clean = fs::read_to_string(&file).expect("readable");
    let mut child = Command::new(env!("CARGO_BIN_EXE_baybook"))
        .args(["preview", "--runs", "2", "--out"])
        .arg(&out)
        .arg("--specs")
        .arg(&base)
        .stdout(std::process::Stdio::null())
        .spawn()
        .expect("the binary runs");
    while !out.join("index.html").is_file() {
        std::thread::sleep(std::time::Duration::from_millis(20));
        assert!(child.try_wait().expect("known").is_none(), "it ended before the change");
    }
    fs::write(&file, clean.replace("Engine A", "Engine of another title")).expect("written");
    assert_eq!(child.wait().expect("it ends").code(), Some(0));
    let engine = fs::read_to_string(out.join("bundle/engines/engine-a.json")).expect("written");
    assert!(engine.contains("Engine of another title"));
}

#[test]
fn a_draft_without_a_title_is_refused_before_a_file_is_there() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    for title in ["", "  "] {
        let output = baybook(&base, &["draft", "engine-b", "--maker", "quarrick", "--title", title]);
        assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    }
    assert!(!base.join("engines/quarrick/engine-b.toml").exists());
}

#[test]
fn a_source_date_that_is_none_is_said_and_nothing_is_written() {
    let dir = tempfile::tempdir().expect("made");
    let (base, out) = (smallest(dir.path()), dir.path().join("public"));
    let compile = |date: &str| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_baybook"));
        command.args(["compile", "--specs"]).arg(&base).arg("--out").arg(&out);
        command.env("SOURCE_DATE_EPOCH", date).output().expect("the binary runs")
    };
    for date in ["abc", "-1", "2026-11-25", "99999999999999"] {
        let refused = compile(date);
        assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
        assert!(
            said(&refused).contains("SOURCE_DATE_EPOCH") && said(&refused).contains(date),
            "{}",
            said(&refused)
        );
        assert!(!out.exists());
    }
    for date in ["1764028800", " 1764028800 ", ""] {
        assert_eq!(compile(date).status.code(), Some(0), "{date:?}");
    }
}
