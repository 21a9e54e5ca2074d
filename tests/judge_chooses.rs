//! Which of a build's statements `baybook judge` holds a reading against: never one that may not be meant.

mod shared;

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// A lash of the exhaust valves for a place and a state, as a file states it.
fn lash(place: &str, when: &str, window: &str) -> String {
    format!(
        "\n[[spec]]\nof = \"lash.exhaust\"\nwhere = {{ {place} }}\nwhen = {{ {when} }}\nwindow = [\"{window}\"]\npage = \"12\"\n"
    )
}

fn general() -> String {
    lash("", "engine = \"cold\"", "0.15..0.25 mm")
}

fn rear() -> String {
    lash("cylinder = \"rear\"", "engine = \"cold\"", "0.30..0.35 mm")
}

/// A base whose engine states the lash of its exhaust valves so.
fn base(statements: &[String]) -> tempfile::TempDir {
    let directory = tempfile::tempdir().expect("a directory");
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/clean/all-kinds-of-files/base");
    shared::copy(&from, directory.path());
    fs::remove_dir_all(directory.path().join("rereads")).expect("it was there");
    let file = directory.path().join("engines/quarrick/engine-a.toml");
    let text = fs::read_to_string(&file).expect("an engine");
    let (head, tables) = text.split_once("[[spec]]").expect("statements");
    let others = tables.split("[[spec]]").filter(|one| !one.contains("lash.exhaust"));
    let others: String = others.map(|one| format!("[[spec]]{one}")).collect();
    let text = format!("{head}{}\n{others}", statements.concat());
    fs::write(file, text).expect("written");
    directory
}

/// The verdict and the limits it was held against, or what was said in place of one.
fn judged(base: &tempfile::TempDir, reading: &str, more: &[&str]) -> String {
    let specs = base.path().display().to_string();
    let asked = ["judge", "--specs", &specs, "--build", "engine-a", "--of", "lash.exhaust", reading];
    let output =
        Command::new(env!("CARGO_BIN_EXE_baybook")).args(asked).args(more).output().expect("it runs");
    String::from_utf8([output.stdout, output.stderr].concat()).expect("UTF-8")
}

const COLD: [&str; 2] = ["--when", "engine=cold"];
const HOT: [&str; 2] = ["--when", "engine=hot"];
const FRONT: [&str; 2] = ["--where", "cylinder=front"];
const REAR_ONE: [&str; 2] = ["--where", "cylinder=rear"];

#[test]
fn a_narrower_place_holds_only_where_it_was_asked_for() {
    let base = base(&[general(), rear()]);
    let rear = judged(&base, "0.32 mm", &[REAR_ONE, COLD].concat());
    assert_eq!(rear, "in spec\n  0.32 mm against the window 0.30..0.35 mm (cylinder rear, engine cold)\n");
    let front = judged(&base, "0.32 mm", &[FRONT, COLD].concat());
    assert_eq!(
        front,
        "out of spec: loose by 0.07 mm\n  0.32 mm against the window 0.15..0.25 mm (engine cold)\n"
    );
    let unsaid = judged(&base, "0.32 mm", &COLD);
    assert!(unsaid.contains("stated for several places: everywhere; cylinder=rear"), "{unsaid}");
    assert!(unsaid.contains("say which with `--where`"), "{unsaid}");
}

#[test]
fn a_place_of_which_only_another_state_is_told_takes_what_holds_everywhere() {
    let base = base(&[general(), lash("cylinder = \"front\"", "engine = \"hot\"", "0.40..0.45 mm")]);
    let cold = judged(&base, "0.20 mm", &[FRONT, COLD].concat());
    assert!(cold.starts_with("in spec\n") && cold.contains("0.15..0.25 mm (engine cold)"), "{cold}");
    let hot = judged(&base, "0.42 mm", &[FRONT, HOT].concat());
    assert!(hot.starts_with("in spec\n") && hot.contains("(cylinder front, engine hot)"), "{hot}");
    let unsaid = judged(&base, "0.42 mm", &FRONT);
    assert!(unsaid.starts_with("cannot judge: the limit holds with engine cold, or engine hot"), "{unsaid}");
}

#[test]
fn what_holds_everywhere_does_not_answer_for_a_place_whose_state_nobody_told() {
    let on_a_cool_day =
        lash("cylinder = \"front\"", "engine = \"cold\", air = \"under 35 °C\"", "0.20..0.28 mm");
    let base = base(&[general(), on_a_cool_day]);
    let unsaid = judged(&base, "0.27 mm", &[FRONT, COLD].concat());
    assert!(
        unsaid.starts_with("cannot judge: the limit holds with air under 35 °C, engine cold"),
        "{unsaid}"
    );
    let cool = judged(&base, "0.27 mm", &[&FRONT[..], &COLD, &["--when", "air=20 °C"]].concat());
    assert!(cool.starts_with("in spec\n"), "{cool}");
    let warm = judged(&base, "0.27 mm", &[&FRONT[..], &COLD, &["--when", "air=40 °C"]].concat());
    assert!(warm.starts_with("out of spec: loose by 0.02 mm\n"), "{warm}");
}

#[test]
fn a_base_and_its_bundle_choose_alike() {
    let base = base(&[general(), rear()]);
    let out = tempfile::tempdir().expect("a directory");
    let bundle = out.path().join("handbook");
    let [specs, to] = [base.path(), &bundle].map(|one| one.display().to_string());
    let compiled =
        Command::new(env!("CARGO_BIN_EXE_baybook")).args(["compile", &specs, "--out", &to]).output();
    assert!(compiled.expect("it runs").status.success());
    for more in [&[REAR_ONE, COLD].concat()[..], &[FRONT, COLD].concat(), &COLD, &[]] {
        let asked = |shelf: &str, at: &str| {
            let of = ["judge", shelf, at, "--build", "engine-a", "--of", "lash.exhaust", "0.32 mm"];
            let run = Command::new(env!("CARGO_BIN_EXE_baybook"))
                .args(of)
                .args(more)
                .args(["--format", "json"])
                .output()
                .expect("it runs");
            serde_json::from_slice::<Value>(&run.stdout).expect("JSON")
        };
        assert_eq!(asked("--specs", &specs), asked("--bundle", &to), "{more:?}");
    }
}
