//! `baybook import`: a whole table becomes statements, or none of it does.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

mod shared;

const TABLE: &str = "of;where.ring;new;wear_limit;page;row;column\n\
    ring.end-gap;second;0.35..0.50 mm | 0.014..0.020 in;max 0.90 mm;31;Second ring;End gap\n\
    ring.end-gap;top;0.25..0.40 mm;max 0.75 mm;31;Top ring;End gap\n";

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("it runs")
}

fn text(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

/// A copy of the small base with a table beside it: base, engine file, table.
fn laid_out(dir: &Path, table: &str) -> (PathBuf, PathBuf, PathBuf) {
    let base = dir.join("specs");
    shared::copy(&shared::tests("rule-base"), &base);
    fs::write(dir.join("rings.csv"), table).expect("written");
    (base.clone(), base.join("engines/quarrick/engine-a.toml"), dir.join("rings.csv"))
}

#[test]
fn a_table_becomes_statements_that_read_as_such() {
    let dir = tempfile::tempdir().expect("made");
    let (_, _, table) = laid_out(dir.path(), TABLE);
    let printed = baybook(&["import", &text(&table)]);
    assert_eq!(printed.status.code(), Some(0));
    let printed = String::from_utf8(printed.stdout).expect("UTF-8");
    let read: toml::Table = printed.parse().expect("TOML");
    let specs = read["spec"].as_array().expect("a list");
    assert_eq!(specs.len(), 2);
    assert_eq!(
        specs[0]["new"].as_array().expect("a list")[1].as_str(),
        Some("0.014..0.020 in"),
        "every digit"
    );
    let json = baybook(&["import", &text(&table), "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
    assert_eq!(
        (json["statements"].as_u64(), json["toml"].as_str().map(str::trim)),
        (Some(2), Some(printed.trim()))
    );
}

#[test]
fn a_table_goes_into_an_engine_whole_or_not_at_all() {
    let dir = tempfile::tempdir().expect("made");
    let (base, file, table) = laid_out(dir.path(), TABLE);
    let before = fs::read_to_string(&file).expect("there");
    // The last row stands twice: the same place would be stated a second time.
    let again = TABLE.lines().last().expect("a row");
    fs::write(&table, format!("{TABLE}{again}\n")).expect("written");
    let into =
        |table: &Path| baybook(&["import", &text(table), "--into", "engine-a", "--specs", &text(&base)]);
    let refused = into(&table);
    assert_eq!(refused.status.code(), Some(1), "{}", String::from_utf8_lossy(&refused.stdout));
    assert_eq!(fs::read_to_string(&file).expect("there"), before, "nothing was written");
    fs::write(&table, TABLE).expect("written");
    let added = into(&table);
    assert_eq!(added.status.code(), Some(0), "{}", String::from_utf8_lossy(&added.stderr));
    let after = fs::read_to_string(&file).expect("there");
    assert!(after.starts_with(before.trim_end()) && after.contains("0.35..0.50 mm"), "{after}");
    assert_eq!(baybook(&["check", &text(&base)]).status.code(), Some(0));
    let nowhere = baybook(&["import", &text(&table), "--into", "engine-b", "--specs", &text(&base)]);
    assert_eq!(nowhere.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&nowhere.stderr).contains("engine-a"), "the nearest is offered");
}

#[test]
fn a_cell_that_is_not_understood_is_named_with_its_place() {
    let dir = tempfile::tempdir().expect("made");
    let (_, _, table) = laid_out(dir.path(), &TABLE.replace("max 0.75 mm", "max 0,75 mm"));
    let refused = baybook(&["import", &text(&table)]);
    assert_eq!((refused.status.code(), refused.stdout.len()), (Some(1), 0));
    let said = String::from_utf8(refused.stderr).expect("UTF-8");
    assert!(
        said.contains("rings.csv:3, column `wear_limit`: ") && said.contains("nothing was written"),
        "{said}"
    );
    let json = baybook(&["import", &text(&table), "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
    assert!(json["error"]["message"].is_string());
    assert_eq!(
        (json["faults"][0]["line"].as_u64(), json["faults"][0]["column"].as_str()),
        (Some(3), Some("wear_limit"))
    );
    fs::write(&table, [0xff, 0xfe, b'o', 0]).expect("written");
    assert_eq!(baybook(&["import", &text(&table)]).status.code(), Some(1));
    assert_eq!(baybook(&["import", "nowhere.csv"]).status.code(), Some(2));
}

#[test]
fn a_line_is_the_one_of_the_file_however_its_lines_end() {
    let dir = tempfile::tempdir().expect("made");
    let (_, _, table) = laid_out(dir.path(), TABLE);
    for ends in ["\n", "\r\n", "\r"] {
        let rows = ["of,window,page", "lash.exhaust,0.20 mm,1", "", "lash.exhaust,0.2O furlongs,2"];
        fs::write(&table, rows.join(ends)).expect("written");
        let output = baybook(&["import", &text(&table), "--format", "json"]);
        let said: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        assert_eq!(said["faults"][0]["line"].as_u64(), Some(4), "{ends:?}: {said:#}");
    }
}
