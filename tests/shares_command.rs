//! `shares`: what is counted of job records, once a job; and that whatever is no job record is refused by name.

mod shared;

use std::path::Path;
use std::process::{Command, Output};

use serde_json::{Value, json};

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("it runs")
}

fn answer(arguments: &[&str]) -> (Option<i32>, Value) {
    let output = baybook(&[&["shares", "--format", "json"], arguments].concat());
    let said = String::from_utf8_lossy(&output.stdout);
    (output.status.code(), serde_json::from_str(&said).unwrap_or_else(|_| panic!("no JSON: {said}")))
}

/// A record of one job, as the handbook saves it, with what was found for complaints.
fn record(id: &str, closed: Option<&str>, complaints: &Value) -> Value {
    json!({
        "format": "baybook job record 2",
        "id": id,
        "base": { "title": "Motor pool", "release": "2026.11", "date": "2026-11-25", "content": "c" },
        "build": { "id": "qk-498", "hash": "h", "engine": "Quarrick 498", "machine": "Machine" },
        "begun": "2026-11-25T08:00:00.000Z", "closed": closed, "written": {}, "states": {}, "readings": [],
        "gauges": {}, "places": {}, "pairs": {}, "fitting": {}, "steps": {}, "open": {}, "proofs": {},
        "complaints": complaints,
    })
}

/// What was found for the complaint of a flat battery.
fn flat(cause: Option<&str>, confirmed: Option<&str>) -> Value {
    let found = cause
        .map(|cause| json!({ "cause": cause, "title": format!("The {cause}"), "by": "checks", "time": "t" }));
    json!({ "loses-charge": { "title": "Battery goes flat", "release": "2026.11", "content": "c", "checks": [], "found": found, "confirmed": confirmed } })
}

fn write(folder: &Path, name: &str, record: &Value) {
    std::fs::write(folder.join(name), record.to_string()).expect("written");
}

const PROVED: Option<&str> = Some("2026-11-25T10:00:00.000Z");
const CLOSED: Option<&str> = Some("2026-11-25T11:00:00.000Z");

/// Five jobs: three proved, one of them saved twice; one found and not proved; one that found nothing.
fn jobs(folder: &Path) {
    write(folder, "1.json", &record("one", CLOSED, &flat(Some("regulator"), PROVED)));
    write(folder, "2.json", &record("two", CLOSED, &flat(Some("regulator"), PROVED)));
    write(folder, "3.json", &record("three", None, &flat(Some("drain"), PROVED)));
    // The same job, saved before the cause was found, and with another cause that was given up.
    write(folder, "1-before.json", &record("one", None, &flat(None, None)));
    write(
        folder,
        "2-before.json",
        &record("two", None, &flat(Some("stator"), Some("2026-11-25T10:30:00.000Z"))),
    );
    write(folder, "4.json", &record("four", CLOSED, &flat(Some("stator"), None)));
    write(folder, "5.json", &record("five", CLOSED, &flat(None, None)));
    std::fs::write(folder.join("notes.txt"), "no record, and no `.json`").expect("written");
}

#[test]
fn a_cause_counts_once_a_job_where_it_was_found_and_proved() {
    let dir = tempfile::tempdir().expect("a directory");
    jobs(dir.path());
    let (code, said) = answer(&[&dir.path().to_string_lossy()]);
    assert_eq!(code, Some(0), "{said}");
    assert_eq!(said["records"], 7);
    let wanted = json!([{
        "id": "loses-charge", "title": "Battery goes flat", "in_guide": true,
        "jobs": 3, "not_proved": 1, "not_found": 1,
        "causes": [
            { "id": "regulator", "title": "The regulator", "jobs": 2, "share": "2/3", "written": null },
            { "id": "drain", "title": "The drain", "jobs": 1, "share": "1/3", "written": null },
        ],
    }]);
    assert_eq!(said["complaints"], wanted);
}

#[test]
fn the_guide_gives_order_shares_and_causes_never_found() {
    let dir = tempfile::tempdir().expect("a directory");
    jobs(dir.path());
    write(dir.path(), "6.json", &record("six", CLOSED, &flat(Some("gremlins"), PROVED)));
    let old_name = json!({ "charging-and-drain": { "title": "Gone", "release": "1", "content": "c", "checks": [], "found": null, "confirmed": null } });
    write(dir.path(), "7.json", &record("seven", CLOSED, &old_name));
    let specs = shared::tests("../specs").to_string_lossy().into_owned();
    let folder = dir.path().to_string_lossy().into_owned();
    let (code, said) = answer(&[&folder, "--specs", &specs]);
    assert_eq!(code, Some(0), "{said}");
    let [gone, flat] = said["complaints"].as_array().expect("a list").as_slice() else { panic!("{said}") };
    assert_eq!(
        (&gone["id"], &gone["in_guide"], &gone["jobs"]),
        (&json!("charging-and-drain"), &json!(false), &json!(0))
    );
    assert_eq!(flat["in_guide"], true);
    let causes: Vec<_> = flat["causes"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|one| {
            (
                one["id"].as_str().expect("an id"),
                one["jobs"].as_u64().expect("a count"),
                one["share"].as_str().expect("a share"),
                one["written"].as_str(),
            )
        })
        .collect();
    // In the order of the guide, with its shares; then what it does not have.
    assert_eq!(
        causes,
        [
            ("battery-old", 0, "0", Some("22")),
            ("drain", 1, "0.25", Some("22")),
            ("regulator", 2, "0.5", Some("20")),
            ("stator", 0, "0", Some("14")),
            ("plug-burnt", 0, "0", Some("14")),
            ("other", 0, "0", Some("8")),
            ("gremlins", 1, "0.25", None),
        ]
    );
    let people = baybook(&["shares", &folder, "--specs", &specs]);
    let text = String::from_utf8_lossy(&people.stdout).into_owned();
    for line in [
        "4 jobs with the cause found and proved; 1 more found and not proved; 1 more without a cause",
        "2 of 4  Regulator faulty   the guide has share = 20",
        "the guide has no such complaint",
        "counted 9 records",
    ] {
        assert!(text.contains(line), "no {line:?}:\n{text}");
    }
}

#[test]
fn a_complaint_that_moved_is_counted_under_its_new_id() {
    let dir = tempfile::tempdir().expect("a directory");
    let specs = dir.path().join("specs");
    let id = "loses-charge";
    for (path, content) in shared::read(&shared::tests("cases/clean/all-kinds-of-files/base")) {
        let baybook::load::disk::Content::Bytes(bytes) = content else { continue };
        let to = specs.join(path);
        std::fs::create_dir_all(to.parent().expect("it has one")).expect("made");
        std::fs::write(to, bytes).expect("written");
    }
    let moved = format!(
        "[[retired]]\nid = \"loses-charge-old\"\nfate = \"moved\"\nto = [\"{id}\"]\nbecause = \"Shorter\"\nrelease = \"2026.11\"\n"
    );
    std::fs::write(specs.join("ids.toml"), moved).expect("written");
    let both = json!({ "loses-charge-old": flat(Some("x"), PROVED)["loses-charge"] });
    let jobs = dir.path().join("jobs");
    std::fs::create_dir(&jobs).expect("made");
    write(&jobs, "1.json", &record("one", CLOSED, &both));
    let (code, said) = answer(&[&jobs.to_string_lossy(), "--specs", &specs.to_string_lossy()]);
    assert_eq!(
        (code, &said["complaints"][0]["id"], &said["complaints"][0]["jobs"]),
        (Some(0), &json!(id), &json!(1)),
        "{said}"
    );
}

#[test]
fn what_is_no_job_record_is_refused_by_name_and_nothing_is_counted() {
    let dir = tempfile::tempdir().expect("a directory");
    let at = |name: &str| dir.path().join(name).to_string_lossy().into_owned();
    jobs(dir.path());
    let whole = record("x", None, &flat(None, None)).to_string();
    for (name, text, because) in [
        ("cut.json", &whole[..whole.len() / 2], "it breaks off"),
        ("other.json", "{\"name\": \"a package\"}", "its `format` is not"),
        ("words.json", "Dear diary", "it is not JSON"),
        ("later.json", &whole.replacen("record 2", "record 3", 1), "`baybook job record 3`"),
        ("damaged.json", &whole.replacen("\"confirmed\":null", "\"confirmed\":{}", 1), "it is damaged"),
        ("empty.json", "", "it is empty"),
    ] {
        std::fs::write(at(name), text).expect("written");
        let (code, said) = answer(&[&at("1.json"), &at(name)]);
        assert_eq!(code, Some(1), "{said}");
        assert_eq!(said["refused"].as_array().map(Vec::len), Some(1), "{said}");
        assert_eq!(said["refused"][0]["file"], at(name));
        assert!(said["refused"][0]["because"].as_str().expect("a text").contains(because), "{said}");
        let people = baybook(&["shares", &at(name)]);
        assert!(people.stdout.is_empty(), "nothing is counted");
        assert!(String::from_utf8_lossy(&people.stderr).contains(&format!("{} is no job record", at(name))));
    }
    let (code, said) = answer(&[&dir.path().to_string_lossy()]);
    assert_eq!((code, said["refused"].as_array().map(Vec::len)), (Some(1), Some(6)), "each is named: {said}");
    let none = dir.path().join("none");
    std::fs::create_dir(&none).expect("made");
    assert_eq!(answer(&[&none.to_string_lossy()]).0, Some(1));
    let (code, said) = answer(&[&at("nowhere.json")]);
    assert_eq!(code, Some(2), "{said}");
    assert!(said["error"]["message"].as_str().expect("a text").contains("nowhere.json"));
}
