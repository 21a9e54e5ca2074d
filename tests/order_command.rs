//! `baybook order` as its users call it: a file of its own, a complaint of a base and of its bundle.

use std::path::Path;
use std::process::{Command, Output};

use serde_json::{Value, json};

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("the binary runs")
}

fn order(arguments: &[&str]) -> (i32, Value) {
    let output = baybook(&[&["order", "--format", "json"], arguments].concat());
    let answer =
        serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{arguments:?}: {error}"));
    (output.status.code().expect("it ended"), answer)
}

fn told(arguments: &[&str]) -> String {
    let output = baybook(&[&["order"], arguments].concat());
    String::from_utf8([output.stdout, output.stderr].concat()).expect("UTF-8")
}

fn demo() -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("specs").display().to_string()
}

/// Set-up paid once: computed by trying all 120 orders. By share over minutes without set-up it is 13.20.
const SET_UP: &str = r#"
id = "set-up"
title = "Set-up paid once"
causes = [
    { id = "1", title = "1", share = 0.30 },
    { id = "2", title = "2", share = 0.10 },
    { id = "3", title = "3", share = 0.25 },
    { id = "4", title = "4", share = 0.20 },
    { id = "5", title = "5", share = 0.15 },
]
access = [{ id = "x", minutes = 6 }, { id = "y", title = "Y off", minutes = 2 }]
checks = [
    { id = "a", title = "A", minutes = 2, shows = ["1"], needs = ["x"] },
    { id = "b", title = "B", minutes = 1, shows = ["2"], needs = ["x"] },
    { id = "c", title = "C", minutes = 3, shows = ["3"], needs = ["y"] },
    { id = "d", title = "D", minutes = 4, shows = ["4"], needs = ["y"] },
    { id = "e", title = "E", minutes = 2, shows = ["5"] },
]
"#;

fn file(text: &str) -> (tempfile::TempDir, String) {
    let place = tempfile::tempdir().expect("a directory");
    let path = place.path().join("complaint.toml");
    std::fs::write(&path, text).expect("written");
    let path = path.display().to_string();
    (place, path)
}

#[test]
fn a_file_of_its_own_is_ordered() {
    let (_place, path) = file(SET_UP);
    let (status, found) = order(&[&path]);
    let expected = json!({
        "order": ["e", "c", "d", "a", "b"],
        "expected_minutes": "11.95",
        "as_written_minutes": "13.4",
        "left": { "1": "0.3", "2": "0.1", "3": "0.25", "4": "0.2", "5": "0.15" },
    });
    assert_eq!((status, found), (0, expected));
    let text = told(&[&path]);
    assert!(text.contains("  2. c: C\n     5 min with y off; 7 min gone\n"), "{text}");
}

/// A check of causes that no job has had so far is said like any other.
#[test]
fn every_check_of_the_order_stands_in_the_list_for_people() {
    let text = SET_UP.replace("share = 0.15", "share = 0").replace("share = 0.30", "share = 0.45");
    let (_place, path) = file(&text);
    let (status, found) = order(&[&path]);
    let told = told(&[&path]);
    let checks = found["order"].as_array().expect("a list");
    assert_eq!((status, checks.len()), (0, 5), "{found}");
    for check in checks.iter().filter_map(Value::as_str) {
        let listed = [format!(" {check}: "), format!(": {check}\n"), format!(", {check}")];
        assert!(listed.iter().any(|one| told.contains(one)), "`{check}` is not in:\n{told}");
    }
    assert!(told.contains("\nshows only causes that no job has had so far: e\n"), "{told}");
}

#[test]
fn results_clear_causes_and_keep_open_what_is_open() {
    let (_place, path) = file(SET_UP);
    let (_, cleared) = order(&[&path, "--result", "c=clear", "--result", "e=clear"]);
    // What c opened is open: d takes 4 minutes and comes first.
    assert_eq!(cleared["order"], json!(["d", "a", "b"]));
    assert_eq!(cleared["left"], json!({ "1": "0.5", "2": "1/6", "4": "1/3" }));
    let (_, shown) = order(&[&path, "--result", "c=shown"]);
    assert_eq!((&shown["left"], &shown["expected_minutes"]), (&json!({ "3": "1" }), &json!("0")));
    assert!(told(&[&path, "--result", "c=shown"]).contains("found: 3\n"));
}

#[test]
fn the_status_tells_a_bad_file_from_a_bad_call() {
    let (_place, path) = file(SET_UP);
    assert_eq!(order(&[&path, "--result", "z=clear"]).0, 2);
    assert_eq!(order(&[&path, "--result", "c=clear", "--result", "c=shown"]).0, 2);
    assert_eq!(order(&[&path, "--result", "c=shown", "--result", "d=shown"]).0, 1);
    assert_eq!(order(&[&path, "--build", "ox-887"]).0, 2);
    assert_eq!(order(&["there-is-none.toml"]).0, 2);
    let (_place, hidden) = file(&SET_UP.replace(r#"shows = ["5"]"#, r#"shows = ["4"]"#));
    let (status, error) = order(&[&hidden]);
    assert_eq!((status, error["error"]["message"].as_str()), (1, Some("no check shows the cause `5`")));
    let (_place, broken) = file(&SET_UP.replace("minutes = 4", "minute = 4"));
    let (status, error) = order(&[&broken]);
    assert_eq!(status, 1);
    assert!(error["findings"].as_array().is_some_and(|findings| !findings.is_empty()), "{error}");
}

#[test]
fn a_base_and_its_bundle_give_the_same_order() {
    let public = tempfile::tempdir().expect("a directory");
    let out = public.path().join("handbook").display().to_string();
    assert!(baybook(&["compile", &demo(), "--out", &out]).status.success());
    for complaint in
        ["loses-charge", "overheats-loaded", "pump-will-not-start", "starts-badly-cold", "weak-at-altitude"]
    {
        let (status, base) = order(&[complaint, "--specs", &demo()]);
        assert_eq!((status, &base), (0, &order(&[complaint, "--bundle", &out]).1), "{complaint}");
        assert!(base["proved"].is_null(), "{complaint}: an order of this size is proved");
    }
    for place in [["--specs", &demo()], ["--bundle", &out]] {
        let text = told(&["pump-will-not-start", "--build", "qk-213", place[0], place[1]]);
        let spark = text.split("1. ").nth(1).expect("a first check");
        assert!(spark.starts_with("spark: Spark at an open tester"), "{text}");
        let caution =
            "\n     WARNING: Spark beside open fuel. Never a spark test beside open fuel: tank shut,";
        assert!(spark.split("\n\n").next().is_some_and(|own| own.contains(caution)), "{text}");
        assert!(
            text.contains("\n     how: procedure compression-test; WARNING: Ignition voltage; WARNING: "),
            "{text}"
        );
        assert!(text.contains("\nshares of past jobs: common practice, no source, invented\n"), "{text}");
        // Overheats: in and out of the core shown, the core clear; thermostat or pump, and nothing left to ask.
        let results = ["--result", "in-and-out=shown", "--result", "core-look=clear"];
        let stuck = told(&[&["overheats-loaded", place[0], place[1]], &results[..]].concat());
        assert!(stuck.contains("\nno check of this guide tells these causes apart: look at each"), "{stuck}");
        assert!(!stuck.contains("0 min to the cause"), "{stuck}");
        let cold = told(&["starts-badly-cold", place[0], place[1]]);
        let part = |id: &str| {
            let rest = cold.split(&format!(". {id}: ")).nth(1).unwrap_or_else(|| panic!("{id}: {cold}"));
            rest.split("\n\n").next().unwrap_or_default().to_owned()
        };
        let voided = "it takes the cold engine away from lash-measure: do that first, or the engine must cool again, 180 min";
        assert!(part("ground-drop").contains(voided), "{cold}");
        assert!(
            part("lash-measure").contains("first let the engine cool right through: 180 min more (common"),
            "{cold}"
        );
        assert!(
            cold.contains(
                "\nwarming and cooling on top: 180 min if every check is done (common practice, no source)\n"
            ),
            "{cold}"
        );
        let fits = |build: &str| order(&[&["loses-charge", "--build", build], &place[..]].concat()).0;
        assert_eq!((fits("ox-887"), fits("sd-61"), order(&[&["no-such"], &place[..]].concat()).0), (0, 2, 2));
    }
}
