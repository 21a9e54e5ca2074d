//! `baybook reread`: a second reader is asked for every open value and never shown the first reading.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;

mod shared;

fn baybook(arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_baybook"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the binary runs");
    child.stdin.take().expect("piped").write_all(input.as_bytes()).expect("it listens");
    child.wait_with_output().expect("it ends")
}

fn smallest(dir: &Path) -> PathBuf {
    let base = dir.join("specs");
    shared::copy(&shared::tests("cases/form/smallest/base"), &base);
    base
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn confirmation(base: &Path) -> Value {
    let out = base.with_file_name("public");
    let output =
        baybook(&["compile", base.to_str().expect("text"), "--out", out.to_str().expect("text")], "");
    assert!(output.status.success(), "{}", text(&output.stderr));
    let engine = fs::read(out.join("bundle/engines/engine-a.json")).expect("written");
    let engine: Value = serde_json::from_slice(&engine).expect("JSON");
    engine["builds"][0]["specs"][0]["confirmation"]["state"].clone()
}

fn reread(base: &Path, by: &str, input: &str) -> Output {
    baybook(&["reread", "engine-a", "--by", by, "--specs", base.to_str().expect("text")], input)
}

#[test]
fn the_first_reading_is_never_shown_and_an_equal_second_one_confirms() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    assert_eq!(confirmation(&base), "read-once");
    // Limits, none to set to, no place, the state, no row, no column, no footnote.
    let output = reread(&base, "jl", "0.15 to 0.25 mm\n\n\nengine = cold\n\n\n\n");
    let shown = text(&output.stdout);
    assert!(output.status.success(), "{}", text(&output.stderr));
    assert!(!shown.contains("0.15") && !shown.contains("0.25"), "{shown}");
    assert!(shown.contains("Engine A workshop manual, page 12"), "{shown}");
    assert_eq!(confirmation(&base), "confirmed");
    let again = reread(&base, "jl", "");
    assert!(text(&again.stdout).contains("is confirmed"), "{}", text(&again.stdout));
}

#[test]
fn a_second_reading_that_differs_is_an_error_of_the_base_and_both_are_kept() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let engine = base.join("engines/quarrick/engine-a.toml");
    let before = fs::read_to_string(&engine).expect("there");
    assert!(reread(&base, "jl", "0.15..0.26 mm\n\n\nengine = cold\n\n\n\n").status.success());
    assert_eq!(fs::read_to_string(&engine).expect("there"), before);
    let output = baybook(&["check", base.to_str().expect("text"), "--format", "json"], "");
    let report: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(report["findings"][0]["rule"], "reread-differs");
}

#[test]
fn a_condition_that_one_reader_lost_is_found() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    assert!(reread(&base, "jl", "0.15..0.25 mm\n\n\n\n\n\n\n").status.success());
    let output = baybook(&["check", base.to_str().expect("text"), "--format", "json"], "");
    let report: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(report["findings"][0]["rule"], "reread-without-statement", "{report:#}");
}

#[test]
fn what_does_not_read_as_a_value_is_asked_again() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    let output = reread(&base, "jl", "0,15..0,25 mm\n0.15..0.25 mm\n\n\nengine = cold\n\n\n\n");
    assert!(text(&output.stdout).contains("`0,15`"), "{}", text(&output.stdout));
    assert_eq!(confirmation(&base), "confirmed");
}

#[test]
fn the_first_reader_is_not_asked_and_nothing_is_written_without_an_answer() {
    let dir = tempfile::tempdir().expect("made");
    let base = smallest(dir.path());
    assert!(text(&reread(&base, "mk", "").stdout).contains("did not read first"));
    assert!(reread(&base, "jl", "").status.success());
    assert!(reread(&base, "jl", "\n").status.success());
    assert!(!base.join("rereads").exists());
    let refused = reread(&base, "../jl", "");
    assert_eq!(refused.status.code(), Some(2));
}
