//! `baybook judge` as its users call it: limits as typed, and a build's own from a base and from its bundle.

use std::path::Path;
use std::process::{Command, Output};

use serde_json::{Value, json};

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("the binary runs")
}

fn judge(arguments: &[&str]) -> (i32, Value) {
    let output = baybook(&[&["judge", "--format", "json"], arguments].concat());
    let answer =
        serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{arguments:?}: {error}"));
    (output.status.code().expect("it ended"), answer)
}

fn told(arguments: &[&str]) -> String {
    let output = baybook(&[&["judge"], arguments].concat());
    String::from_utf8([output.stdout, output.stderr].concat()).expect("UTF-8")
}

fn smallest() -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/form/smallest/base").display().to_string()
}

/// Facts of the trade: common practice, no source.
#[test]
fn what_every_shop_knows_is_judged_so() {
    let (status, loose) = judge(&["--window", "0.008 ± 0.002 in", "0.014 in"]);
    let by = json!({ "min": "0.004", "max": "0.004", "unit": "in" });
    assert_eq!((status, &loose["verdict"], &loose["by"]), (0, &json!("out of spec"), &by));
    let (_, middle) = judge(&["--window", "0.006 ± 0.002 in", "0.006 in"]);
    assert_eq!(middle["verdict"], "in spec");
    let (_, on_the_limit) = judge(&["--window", "58 ± 2 psi", "56 psi"]);
    assert_eq!(on_the_limit["verdict"], "in spec");
    assert!(told(&["--window", "58 ± 2 psi", "56psi"]).starts_with("in spec, on the limit\n"));
}

/// A ring that closes its gap seizes the engine: common practice, no source.
#[test]
fn a_used_part_on_the_better_side_of_new_is_not_praised() {
    let demo = ["--specs", "specs", "--build", "ox-887", "--of", "ring.end-gap", "--where", "ring=top"];
    let (status, answer) = judge(&[&demo[..], &["0.10 mm"]].concat());
    assert_eq!((status, &answer["verdict"], &answer["left"]["min"]), (0, &json!("in spec"), &json!("0.6")));
    let because = answer["because"].as_str().expect("it says why not to trust it");
    for words in ["less worn than a new part", "measure again", "check the part", "seize", "do not run"] {
        assert!(because.contains(words), "{because}");
    }
    let text = told(&[&demo[..], &["0.10 mm"]].concat());
    assert!(text.contains("less worn than a new part") && text.contains("do not run"), "{text}");
    let (_, used) = judge(&[&demo[..], &["0.50 mm"]].concat());
    assert_eq!((&used["verdict"], &used["because"]), (&json!("in spec"), &json!(null)));
    // By new parts it is out of spec, as it was.
    let (_, fitted) = judge(&[&demo[..], &["--fitting", "new", "0.10 mm"]].concat());
    assert_eq!((&fitted["verdict"], &fitted["because"]), (&json!("out of spec"), &json!(null)));
}

/// The decision rule of ISO 14253-1 with U = 0.010 mm (k = 2), computed.
#[test]
fn a_reading_is_in_or_out_only_beyond_the_gauge_s_error() {
    for (reading, verdict, as_read, direction) in [
        ("0.13 mm", "out of spec", "out of spec", Some("low")),
        ("0.145 mm", "too close to call", "out of spec", Some("low")),
        ("0.150 mm", "too close to call", "in spec", Some("low")),
        ("0.155 mm", "too close to call", "in spec", Some("low")),
        ("0.17 mm", "in spec", "in spec", None),
    ] {
        let (status, answer) = judge(&["--window", "0.15..0.20 mm", reading, "--accuracy", "0.010 mm"]);
        assert_eq!(status, 0);
        assert_eq!(answer["verdict"], verdict, "{reading}");
        assert_eq!(answer["as_read"], as_read, "{reading}");
        assert_eq!(answer["direction"], json!(direction), "{reading}");
        assert_eq!(answer["settle"].is_null(), verdict != "too close to call", "{reading}");
    }
}

#[test]
fn a_part_in_use_is_held_against_the_end_of_use_and_a_new_one_against_the_fit() {
    let fit = ["--new", "0.20..0.35 mm", "--wear-limit", "max 0.60 mm"];
    let (_, used) = judge(&[&fit[..], &["0.48 mm"]].concat());
    assert_eq!((&used["verdict"], &used["against"]), (&json!("in spec"), &json!("wear_limit")));
    assert_eq!(used["left"], json!({ "min": "0.12", "max": "0.12", "unit": "mm" }));
    let (_, new) = judge(&[&fit[..], &["0.48 mm", "--fitting", "new"]].concat());
    assert_eq!(
        (&new["verdict"], &new["against"], &new["left"]),
        (&json!("out of spec"), &json!("new"), &Value::Null)
    );
}

#[test]
fn the_status_tells_an_answer_from_a_bad_reading_and_a_bad_call() {
    let window = ["--window", "0.15..0.25 mm"];
    let (status, error) = judge(&[&window[..], &["--goes", "0.40 mm", "--stops", "0.35 mm"]].concat());
    assert_eq!(
        (status, error["error"]["message"].as_str()),
        (1, Some("`0.35 mm` stops, but `0.40 mm` goes"))
    );
    assert_eq!(judge(&[&window[..], &["56 psi"]].concat()).0, 1);
    assert_eq!(judge(&[&window[..], &["a bit"]].concat()).0, 1);
    assert_eq!(judge(&["--window", "tight", "0.2 mm"]).0, 1);
    assert_eq!(judge(&window).0, 2);
    assert_eq!(judge(&["0.2 mm"]).0, 2);
    assert_eq!(
        judge(&[
            "--build",
            "engine-a",
            "--of",
            "lash.exhaust",
            "0.2",
            "--specs",
            &smallest(),
            "--when",
            "oops=1"
        ])
        .0,
        2
    );
}

#[test]
fn a_base_and_its_bundle_give_the_same_verdict_in_the_entry_s_own_words() {
    let public = tempfile::tempdir().expect("a directory");
    let out = public.path().join("handbook").display().to_string();
    assert!(baybook(&["compile", &smallest(), "--out", &out]).status.success());
    let of = ["--build", "engine-a", "--of", "lash.exhaust"];
    for (rest, verdict) in [
        (vec!["0.40 mm", "--when", "engine=cold", "--gauge", "feeler"], "out of spec"),
        (vec!["0.252 mm", "--when", "engine=cold", "--gauge", "feeler"], "too close to call"),
        (vec!["0.20", "--when", "engine=cold"], "in spec"),
        (vec!["0.20"], "cannot judge"),
        (vec!["0.20", "--when", "engine=hot"], "cannot judge"),
        (vec!["2.00", "--when", "engine=cold", "--gauge", "feeler"], "cannot judge"),
    ] {
        let from = |place: [&str; 2]| judge(&[&of[..], &place, &rest].concat());
        let (base, bundle) = (from(["--specs", &smallest()]), from(["--bundle", &out]));
        assert_eq!(base.1["verdict"], verdict, "{rest:?}");
        assert_eq!(base, bundle, "{rest:?}");
        assert_eq!(base.0, 0);
    }
    let loose = judge(&[&of[..], &["--specs", &smallest(), "0.40 mm", "--when", "engine=cold"]].concat());
    assert_eq!(loose.1["direction"], "loose");
    let unknown = told(&["--build", "engine-b", "--of", "lash.exhaust", "0.2", "--bundle", &out]);
    assert!(unknown.starts_with("baybook: there is no build `engine-b`"), "{unknown}");
    // A slip in the engine's part of the id has its near ones too, from a bundle as from a base.
    for wrong in ["engne-a", "nothing-like-it"] {
        let from = |place: [&str; 2]| {
            told(&[&["--build", wrong, "--of", "lash.exhaust", "0.2"], &place[..]].concat())
        };
        let (base, bundle) = (from(["--specs", &smallest()]), from(["--bundle", &out]));
        assert!(bundle.contains("engine-a"), "{bundle}");
        assert_eq!(base, bundle);
    }
}

/// A machine with a brake disc worn beyond its end of use, or without oil pressure, must not be run: common practice,
/// no source. People are told in a line of its own; the JSON stays as it was, and so does what only fitting says.
#[test]
fn a_reading_that_stops_the_machine_says_so_to_people_alone() {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs").display().to_string();
    let of = |entry: &'static str, more: &[&'static str]| -> Vec<String> {
        let asked = ["--specs", &specs, "--build", "ox-887", "--of", entry];
        asked.iter().chain(more).map(|one| (*one).to_owned()).collect()
    };
    let told = |arguments: &[String]| told(&arguments.iter().map(String::as_str).collect::<Vec<_>>());
    let stop = "DO NOT RUN the machine until this is put right";
    let hot = ["--when", "engine=hot", "--when", "speed=1200 rpm"];
    let oil = |reading| of("oil.pressure", &[&hot[..], &[reading]].concat());
    for (arguments, first, stops) in [
        (of("disc.thickness", &["4.0 mm"]), "out of spec: worn by 0.4 mm", true),
        (of("disc.thickness", &["4.6 mm"]), "in spec", false),
        (of("disc.thickness", &["4.6 mm", "--fitting", "new"]), "out of spec", false),
        (oil("0 kPa"), "out of spec: low by 110 kPa", true),
        (oil("200 kPa"), "out of spec: high by 10 kPa", false),
    ] {
        let said = told(&arguments);
        assert!(said.starts_with(first), "{arguments:?}: {said}");
        assert_eq!(said.lines().nth(1) == Some(stop), stops, "{arguments:?}: {said}");
    }
    let arguments = of("disc.thickness", &["4.0 mm"]);
    let (_, answer) = judge(&arguments.iter().map(String::as_str).collect::<Vec<_>>());
    let keys: Vec<&String> = answer.as_object().expect("an object").keys().collect();
    let mut pinned = ["verdict", "as_read", "direction", "by", "against", "left", "settle", "because"];
    pinned.sort_unstable();
    let mut keys: Vec<&str> = keys.into_iter().map(String::as_str).collect();
    keys.sort_unstable();
    assert_eq!(keys, pinned);
}
