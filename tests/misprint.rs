//! A declared misprint: what the page prints is told, what is meant is shown, judged and worked out everywhere.
//!
//! The same statement goes through the command line, the bundle, the sheets and the find; conversions are worked out
//! by hand: 1 lbf·ft = 12 lbf·in = 1.3558 N·m (exact by 0.3048 m, 0.45359237 kg, 9.80665 m/s²), 1 psi = 6.8948 kPa.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::{Value, json};

mod shared;

const TORQUE: &str = r#"
window = ["12..14 N·m", "9..10 lbf·in"]
misprint = { printed = "9..10 lbf·in", meant = "9..10 lbf·ft", because = "b", decided_by = "mk" }"#;
const PRESSURE: &str = r#"
window = ["12..14 kPa", "1.2..1.4 bar"]
misprint = { printed = "12..14 kPa", meant = "120..140 kPa", because = "b", decided_by = "mk" }"#;

/// The smallest base with another kind and another value for its one entry.
fn base(dir: &Path, kind: &str, value: &str, plausible: Option<&str>) -> PathBuf {
    let base = dir.join("specs");
    shared::copy(&shared::tests("cases/clean/smallest-base/base"), &base);
    let catalogue = base.join("catalogue/top-end.toml");
    let text = fs::read_to_string(&catalogue).expect("readable");
    let kept = text.lines().filter(|line| !line.starts_with("plausible"));
    let mut text = kept.map(|line| format!("{line}\n")).collect::<String>();
    text = text.replace("kind = \"length\"", &format!("kind = \"{kind}\""));
    text.extend(
        plausible
            .map(|span| format!("plausible = \"{span}\"\nplausible_from = \"common practice, no source\"\n")),
    );
    fs::write(catalogue, text).expect("written");
    let engine = base.join("engines/quarrick/engine-a.toml");
    let text = fs::read_to_string(&engine).expect("readable");
    fs::write(engine, text.replace("window = [\"0.15..0.25 mm\"]", value.trim())).expect("written");
    base
}

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("the binary runs")
}

fn path(path: &Path) -> &str {
    path.to_str().expect("text")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn findings(base: &Path) -> Vec<(String, String)> {
    let output = baybook(&["check", path(base), "--format", "json"]);
    let report: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let word = |one: &Value, key: &str| one[key].as_str().expect("text").to_owned();
    let all = report["findings"].as_array().expect("findings").iter();
    all.map(|one| (word(one, "rule"), word(one, "message"))).collect()
}

fn compiled(base: &Path) -> PathBuf {
    let out = base.with_file_name("public");
    let output = baybook(&["compile", path(base), "--out", path(&out)]);
    assert!(output.status.success(), "{}", said(&output));
    out
}

fn judge(from: &[&str], reading: &str) -> Value {
    let of =
        ["judge", "--format", "json", "--build", "engine-a", "--of", "lash.exhaust", "--when", "engine=cold"];
    let output = baybook(&[&of, from, &[reading]].concat());
    serde_json::from_slice(&output.stdout)
        .unwrap_or_else(|error| panic!("{reading}: {error}: {}", said(&output)))
}

/// A page as one reads it: tags out, every space alike.
fn plain(page: &str) -> String {
    let mut text = String::new();
    let mut inside = false;
    for sign in page.chars() {
        match sign {
            '<' => inside = true,
            '>' if inside => inside = false,
            '\u{a0}' if !inside => text.push(' '),
            sign if !inside => text.push(sign),
            _ => {}
        }
    }
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the browser judges by: the attribute of the reading on the procedure sheet.
fn attribute(page: &str, name: &str) -> String {
    let start = page.find(&format!("{name}=\"")).expect("it is there") + name.len() + 2;
    page[start..].split('"').next().expect("closed").to_owned()
}

#[test]
fn the_command_line_the_bundle_and_the_browser_judge_by_what_is_meant() {
    for (kind, value, readings) in [
        // 110 lbf·in = 12.4 N·m, 9.5 lbf·in = 1.1 N·m, 9.5 lbf·ft is within the form that is meant.
        (
            "torque",
            TORQUE,
            [("110 lbf·in", "in spec"), ("9.5 lbf·in", "out of spec"), ("9.5 lbf·ft", "in spec")],
        ),
        // 20 psi = 137.9 kPa, 13 kPa = 0.13 bar, 130 kPa is the middle.
        ("pressure", PRESSURE, [("20 psi", "in spec"), ("13 kPa", "out of spec"), ("130 kPa", "in spec")]),
    ] {
        let dir = tempfile::tempdir().expect("made");
        let base = base(dir.path(), kind, value, None);
        assert_eq!(findings(&base), [], "{kind}");
        let out = compiled(&base);
        let sheet = fs::read_to_string(out.join("builds/engine-a/valve-lash.html")).expect("written");
        let typed = attribute(&sheet, "data-window").split(" | ").map(ToOwned::to_owned).collect::<Vec<_>>();
        for (reading, verdict) in readings {
            let answer = judge(&["--specs", path(&base)], reading);
            assert_eq!(answer["verdict"], verdict, "{reading}: {answer}");
            assert_eq!(judge(&["--bundle", path(&out)], reading), answer, "{reading}: by the bundle");
            // `tests/vectors` hold the browser's judge to the same answer for the same window.
            let windows = typed.iter().flat_map(|one| ["--window", one]).collect::<Vec<_>>();
            let output = baybook(&[&["judge", "--format", "json"], windows.as_slice(), &[reading]].concat());
            let browser: Value = serde_json::from_slice(&output.stdout).expect("JSON");
            assert_eq!(browser["verdict"], verdict, "{reading}: by {typed:?}");
            assert_eq!(browser["by"], answer["by"], "{reading}: by {typed:?}");
        }
    }
}

#[test]
fn the_bundle_holds_what_is_meant_and_tells_what_is_printed() {
    let dir = tempfile::tempdir().expect("made");
    let out = compiled(&base(dir.path(), "pressure", PRESSURE, None));
    let engine = fs::read(out.join("bundle/engines/engine-a.json")).expect("written");
    let engine: Value = serde_json::from_slice(&engine).expect("JSON");
    let spec = &engine["builds"][0]["specs"][0];
    assert_eq!(spec["window"]["min"]["si"], "120000");
    assert_eq!(spec["window"]["max"]["si"], "140000");
    assert_eq!(spec["window"]["printed"][0]["text"], "120..140 kPa");
    assert_eq!(spec["misprint"]["printed"], "12..14 kPa");
    let database = rusqlite::Connection::open(out.join("bundle/baybook.sqlite")).expect("a database");
    let mut asked = database.prepare("select min_si, max_si from answer").expect("the README's view");
    let rows =
        asked.query_map([], |row| Ok((row.get::<_, String>(0)?, row.get::<_, String>(1)?))).expect("rows");
    assert_eq!(
        rows.map(|row| row.expect("limits")).collect::<Vec<_>>(),
        [("120000".to_owned(), "140000".to_owned())]
    );
}

#[test]
fn every_sheet_shows_what_is_meant_with_the_misprint_beside_it() {
    for (kind, value, meant, printed) in [
        ("torque", TORQUE, "9..10 lbf·ft", "(printed as 9..10 lbf·in (pound-inches), a misprint)"),
        ("pressure", PRESSURE, "120..140 kPa", "(printed as 12..14 kPa, a misprint)"),
    ] {
        let dir = tempfile::tempdir().expect("made");
        let out = compiled(&base(dir.path(), kind, value, None));
        let together = format!("{meant} {printed}");
        for sheet in
            ["builds/engine-a/card.html", "builds/engine-a/engine.html", "builds/engine-a/valve-lash.html"]
        {
            let page = plain(&fs::read_to_string(out.join(sheet)).expect("written"));
            assert!(page.contains(&together), "{sheet}: {page}");
        }
    }
    let dir = tempfile::tempdir().expect("made");
    let out = compiled(&base(dir.path(), "pressure", PRESSURE, None));
    let sheet = fs::read_to_string(out.join("builds/engine-a/valve-lash.html")).expect("written");
    let drawing = &sheet[sheet.find("<svg class=\"drawing").expect("drawn")..];
    let drawing = &drawing[..drawing.find("</svg>").expect("closed")];
    assert!(drawing.contains(">120<") && drawing.contains(">140<"), "{drawing}");
    assert!(!drawing.contains(">12<") && !drawing.contains(">14<"), "{drawing}");
}

#[test]
fn the_find_says_what_is_meant_and_what_is_printed() {
    let dir = tempfile::tempdir().expect("made");
    let base = base(dir.path(), "torque", TORQUE, None);
    let out = compiled(&base);
    for from in [["--specs", path(&base)], ["--bundle", path(&out)]] {
        let output = baybook(&[&["lookup", "exhaust", "lash", "--format", "json"], from.as_slice()].concat());
        let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        assert_eq!(
            answer["results"][0]["text"],
            "12..14 N·m (9..10 lbf·ft, printed as 9..10 lbf·in (pound-inches), a misprint)",
            "{answer}"
        );
    }
}

#[test]
fn rules_look_at_what_is_meant() {
    for (kind, value, plausible, expected) in [
        // What is plausible is so of the value meant.
        ("pressure", PRESSURE, Some("100..200 kPa"), vec![]),
        ("pressure", PRESSURE, Some("10..20 kPa"), vec!["outside-plausible"]),
        // What is meant may itself be wrong: of another kind, against the other form, or no value.
        (
            "torque",
            r#"
window = ["12..14 N·m", "9..10 lbf·in"]
misprint = { printed = "9..10 lbf·in", meant = "max 14 mm", because = "b", decided_by = "mk" }"#,
            None,
            vec!["unit-of-another-kind"],
        ),
        (
            "torque",
            r#"
window = ["12..14 N·m", "9..10 lbf·in"]
misprint = { printed = "9..10 lbf·in", meant = "19..20 lbf·ft", because = "b", decided_by = "mk" }"#,
            None,
            vec!["dual-units-disagree"],
        ),
        (
            "torque",
            r#"
window = ["12..14 N·m", "9..10 lbf·in"]
misprint = { printed = "9..10 lbf·in", meant = "rubbish", because = "b", decided_by = "mk" }"#,
            None,
            vec!["value-not-understood"],
        ),
        // What is printed must be one of the forms, and only one.
        (
            "torque",
            r#"
window = ["12..14 N·m", "9..10 lbf·in"]
misprint = { printed = "9..11 lbf·in", meant = "9..10 lbf·ft", because = "b", decided_by = "mk" }"#,
            None,
            vec!["misprint-unclear"],
        ),
        (
            "torque",
            r#"
window = ["12..14 N·m", "9..10 lbf·in", "9..10 lbf·in"]
misprint = { printed = "9..10 lbf·in", meant = "9..10 lbf·ft", because = "b", decided_by = "mk" }"#,
            None,
            vec!["misprint-unclear"],
        ),
    ] {
        let dir = tempfile::tempdir().expect("made");
        let found = findings(&base(dir.path(), kind, value, plausible));
        let rules: Vec<_> = found.iter().map(|(rule, _)| rule.as_str()).collect();
        assert_eq!(rules, expected, "{value}: {found:?}");
    }
}

#[test]
fn a_second_reader_who_finds_what_is_printed_confirms_it() {
    for (read, state) in [("12..14 kPa", "confirmed"), ("120..140 kPa", "differs")] {
        let dir = tempfile::tempdir().expect("made");
        let base = base(dir.path(), "pressure", PRESSURE, None);
        let again = format!(
            "engine = \"engine-a\"\nread_by = \"jl\"\ndate = 2026-11-20\nsource = \"manual-a\"\n[[reread]]\nof = \"lash.exhaust\"\nwhen = {{ engine = \"cold\" }}\nwindow = [\"{read}\", \"1.2..1.4 bar\"]\npage = \"12\"\n"
        );
        fs::create_dir_all(base.join("rereads/quarrick")).expect("made");
        fs::write(base.join("rereads/quarrick/engine-a.toml"), again).expect("written");
        let found = findings(&base);
        assert_eq!(found.iter().any(|(rule, _)| rule == "reread-differs"), state == "differs", "{found:?}");
        if state == "confirmed" {
            let engine = fs::read(compiled(&base).join("bundle/engines/engine-a.json")).expect("written");
            let engine: Value = serde_json::from_slice(&engine).expect("JSON");
            assert_eq!(engine["builds"][0]["specs"][0]["confirmation"]["state"], json!(state));
        }
    }
}
