//! The command as its users run it: a base in, handbook and bundle out, whole or not at all.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

mod shared;
use shared::copy;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook"))
        .args(arguments)
        .env_remove("SOURCE_DATE_EPOCH")
        .output()
        .expect("the binary runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("output is UTF-8")
}

fn path(path: &Path) -> &str {
    path.to_str().expect("a temporary path is text")
}

/// Every file below a directory, by its path there.
fn files(directory: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let all = walkdir::WalkDir::new(directory).into_iter().map(|entry| entry.expect("readable"));
    let all = all.filter(|entry| entry.file_type().is_file());
    all.map(|entry| {
        let relative = entry.path().strip_prefix(directory).expect("below it").to_owned();
        (relative, fs::read(entry.path()).expect("readable"))
    })
    .collect()
}

fn smallest() -> PathBuf {
    root().join("tests/cases/form/smallest/base")
}

fn demo() -> PathBuf {
    root().join("specs")
}

#[test]
fn the_demo_base_gives_no_finding() {
    let output = baybook(&["check", path(&demo()), "--format", "json"]);
    let report: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(report["findings"], Value::Array(Vec::new()), "{report:#}");
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(report["summary"]["engines"], 14);
    assert!(report["summary"]["statements"].as_u64().expect("a number") > 14 * 40);
}

/// The first processor that this process may use, as `taskset` names it.
fn first_processor() -> String {
    let status = fs::read_to_string("/proc/self/status").expect("Linux says it");
    let list = status.lines().find_map(|line| line.strip_prefix("Cpus_allowed_list:")).expect("there");
    list.trim().split([',', '-']).next().expect("one").to_owned()
}

#[test]
fn two_builds_are_the_same_bytes_and_say_where_to_open_them() {
    let (one, two) = (tempfile::tempdir().expect("made"), tempfile::tempdir().expect("made"));
    let (first, second) = (one.path().join("public"), two.path().join("public"));
    let output = baybook(&["compile", path(&demo()), "--out", path(&first)]);
    assert!(output.status.success(), "{}", text(&output.stderr));
    assert!(text(&output.stdout).contains(path(&first.join("index.html"))));
    // Another name for the base, another place, its files written the other way round, another time zone and
    // language, one processor and so one thread, where the first had all there are: the same bytes.
    let copied = two.path().join("elsewhere");
    for (file, bytes) in files(&demo()).into_iter().rev() {
        let to = copied.join(file);
        fs::create_dir_all(to.parent().expect("it has one")).expect("made");
        fs::write(to, bytes).expect("written");
    }
    let again = Command::new("taskset")
        .args(["--cpu-list", &first_processor(), env!("CARGO_BIN_EXE_baybook")])
        .args(["compile", "--specs", path(&copied), "--out", path(&second)])
        .envs([("TZ", "Pacific/Kiritimati"), ("LC_ALL", "de_DE.UTF-8"), ("LANG", "de_DE.UTF-8")])
        .output()
        .expect("the binary runs");
    assert!(again.status.success(), "{}", text(&again.stderr));
    let (first, second) = (files(&first), files(&second));
    assert_eq!(first.keys().collect::<Vec<_>>(), second.keys().collect::<Vec<_>>());
    for (path, bytes) in &first {
        assert_eq!(Some(bytes), second.get(path), "{} differs", path.display());
    }
}

#[test]
fn the_smallest_base_compiles_as_it_stands() {
    let out = tempfile::tempdir().expect("made");
    let out = out.path().join("public");
    let output = baybook(&["compile", path(&smallest()), "--out", path(&out)]);
    assert!(output.status.success(), "{}", text(&output.stderr));
    let engine: Value =
        serde_json::from_slice(&fs::read(out.join("bundle/engines/engine-a.json")).expect("written"))
            .expect("JSON");
    let spec = &engine["builds"][0]["specs"][0];
    assert_eq!(engine["builds"][0]["id"], "engine-a");
    assert_eq!(spec["of"], "lash.exhaust");
    assert_eq!(spec["when"], serde_json::json!({ "engine": "cold" }));
    assert_eq!(
        spec["window"]["min"],
        serde_json::json!({ "text": "0.15", "unit": "mm", "ucum": "mm", "unece": "MMT", "si": "0.00015" })
    );
    assert!(out.join("index.html").is_file());
}

#[test]
fn an_error_writes_nothing_and_leaves_the_old_tree() {
    let dir = tempfile::tempdir().expect("made");
    let (base, out) = (dir.path().join("specs"), dir.path().join("public"));
    copy(&smallest(), &base);
    assert!(baybook(&["compile", path(&base), "--out", path(&out)]).status.success());
    let before = files(&out);
    let engine = base.join("engines/quarrick/engine-a.toml");
    let broken = fs::read_to_string(&engine).expect("there").replace("0.15..0.25 mm", "0.25..0.15 mm");
    fs::write(&engine, broken).expect("written");
    let output = baybook(&["compile", path(&base), "--out", path(&out)]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("nothing was written"), "{}", text(&output.stderr));
    assert_eq!(files(&out), before);
}

#[test]
fn one_file_takes_the_place_of_its_like_and_of_nothing_else() {
    let dir = tempfile::tempdir().expect("made");
    let (base, file) = (dir.path().join("specs"), dir.path().join("build.html"));
    copy(&smallest(), &base);
    let single = |out: &Path| baybook(&["compile", path(&base), "--single", "engine-a", "--out", path(out)]);
    assert!(single(&file).status.success());
    let first = fs::read(&file).expect("written");
    assert!(single(&file).status.success(), "its own is written anew");
    assert_eq!(fs::read(&file).expect("written"), first);
    let before = files(dir.path());
    let foreign = dir.path().join("foreign.html");
    fs::write(&foreign, "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<title>Ours</title>").expect("written");
    for out in [&foreign, &base, &base.join("base.toml"), &base.join("build.html")] {
        let output = single(out);
        assert_eq!(output.status.code(), Some(2), "{}", out.display());
        assert!(text(&output.stderr).contains("cannot write"), "{}", text(&output.stderr));
    }
    fs::remove_file(&foreign).expect("still there");
    assert_eq!(files(dir.path()), before);
}

#[test]
fn an_output_in_the_base_is_refused_and_a_file_in_an_older_output_kept() {
    let dir = tempfile::tempdir().expect("made");
    let (base, out) = (dir.path().join("specs"), dir.path().join("public"));
    copy(&smallest(), &base);
    for command in [&["compile"][..], &["preview", "--runs", "1"]] {
        let output = baybook(&[command, &[path(&base), "--out", path(&base.join("public"))]].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(text(&output.stderr).contains("lies in the spec base"), "{}", text(&output.stderr));
        assert!(!base.join("public").exists());
    }
    let compile = || baybook(&["compile", path(&base), "--out", path(&out)]);
    assert!(compile().status.success());
    let engine = base.join("engines/quarrick/engine-a.toml");
    let other = fs::read_to_string(&engine).expect("there").replace("0.15..0.25 mm", "0.15..0.26 mm");
    fs::write(&engine, other).expect("written");
    assert!(compile().status.success(), "files of the last output that are no more are known as ours");
    fs::write(out.join("own.txt"), "keep").expect("written");
    let refused = compile();
    assert_eq!(refused.status.code(), Some(2));
    assert!(text(&refused.stderr).contains("`own.txt`"), "{}", text(&refused.stderr));
    assert_eq!(fs::read_to_string(out.join("own.txt")).expect("still there"), "keep");
}

#[test]
fn sums_cover_every_file_of_the_bundle() {
    let out = tempfile::tempdir().expect("made");
    let out = out.path().join("public");
    assert!(baybook(&["compile", path(&demo()), "--out", path(&out)]).status.success());
    let bundle = out.join("bundle");
    let sums = fs::read_to_string(bundle.join("SHA256SUMS")).expect("written");
    // The common tool for such lists, as a reader would run it.
    let checked = Command::new("sha256sum")
        .args(["--check", "--quiet", "SHA256SUMS"])
        .current_dir(&bundle)
        .output()
        .expect("coreutils are there");
    assert!(checked.status.success(), "{}", text(&checked.stdout));
    assert_eq!(sums.lines().count() + 1, files(&bundle).len());
}

#[test]
fn calls_and_machines_that_fail_exit_with_2_and_an_error_in_json() {
    for arguments in [
        &["check", "no/such/directory", "--format", "json"][..],
        &["convert", "--format", "json"],
        &["explain", "no-such-rule", "--format=json"],
        &["frobnicate", "--format", "json"],
    ] {
        let output = baybook(arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        assert!(answer["error"]["message"].as_str().is_some_and(|message| !message.is_empty()), "{answer}");
    }
}

#[test]
fn an_empty_directory_is_an_error_and_not_a_success() {
    let empty = tempfile::tempdir().expect("made");
    let output = baybook(&["check", path(empty.path()), "--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let report: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(report["findings"][0]["rule"], "no-files");
}

#[test]
fn conversions_answer_as_pinned() {
    let output = baybook(&["convert", "58 ± 2 psi", "kPa", "--format", "json"]);
    let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(answer["text"], "387..413 kPa");
    assert_eq!((answer["min"].as_str(), answer["max"].as_str()), (Some("387"), Some("413")));
    assert_eq!(text(&baybook(&["convert", "0.15..0.25 mm", "in"]).stdout), "0.0060..0.0098 in\n");
    assert_eq!(text(&baybook(&["convert", "-10 °C", "°F"]).stdout), "14 °F\n");
    let refused = baybook(&["convert", "12 N·m", "J"]);
    assert_eq!(refused.status.code(), Some(1));
    assert!(text(&refused.stderr).contains("does not convert"), "{}", text(&refused.stderr));
    // The kinds stand without an article: it would be `an` before some of them.
    for (value, unit, help) in [
        ("+90°", "turns", "° is a unit of angle, turns is a unit of turns"),
        ("3 kPa abs", "J", "kPa abs is a unit of absolute pressure, J is a unit of energy"),
    ] {
        let refused = baybook(&["convert", value, unit]);
        assert!(text(&refused.stderr).contains(help), "{}", text(&refused.stderr));
    }
}

#[test]
fn findings_are_coloured_only_for_a_terminal() {
    let dir = tempfile::tempdir().expect("made");
    fs::write(dir.path().join("base.toml"), "title = 1\n").expect("written");
    let output = baybook(&["check", path(dir.path())]);
    assert_eq!(output.status.code(), Some(1));
    assert!(!text(&output.stdout).contains('\u{1b}'));
}
