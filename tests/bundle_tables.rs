//! The database and the CSV tables: whole by their own checks, the same bytes each time, and one the other.
//!
//! That they hold the same numbers as JSON and sheets is walked from outside, in `tests/outside/bundle`.

mod shared;

use std::sync::LazyLock;

use baybook::emit::Tree;
use baybook::emit::bundle::tables::{APPLICATION_ID, USER_VERSION};
use baybook::emit::bundle::{Withheld, bundle, data, tables};
use rusqlite::Connection;
use serde_json::Value;

fn demo() -> Tree {
    let examined = shared::examine(shared::read(&shared::tests("../specs")));
    bundle(examined.checked.expect("no errors").model()).expect("made").tree
}

static TREE: LazyLock<Tree> = LazyLock::new(demo);

fn database() -> Connection {
    let mut connection = Connection::open_in_memory().expect("opened");
    let bytes: &'static [u8] = &TREE["bundle/baybook.sqlite"];
    connection.deserialize_bytes("main", bytes).expect("a database");
    connection
}

#[test]
fn the_database_passes_its_own_checks_and_says_what_it_is() {
    let connection = database();
    let one = |pragma: &str| -> String {
        connection
            .query_row(&format!("PRAGMA {pragma}"), [], |row| row.get::<_, rusqlite::types::Value>(0))
            .map_or_else(
                |error| error.to_string(),
                |value| match value {
                    rusqlite::types::Value::Text(text) => text,
                    rusqlite::types::Value::Integer(number) => number.to_string(),
                    other => format!("{other:?}"),
                },
            )
    };
    assert_eq!(one("integrity_check"), "ok");
    assert_eq!(
        one("foreign_key_check"),
        rusqlite::Error::QueryReturnedNoRows.to_string(),
        "no row is at fault"
    );
    assert_eq!(one("application_id"), APPLICATION_ID.to_string());
    assert_eq!(one("user_version"), USER_VERSION.to_string());
    let references: i64 = connection
        .query_row(
            "SELECT count(*) FROM sqlite_schema, pragma_foreign_key_list(sqlite_schema.name)",
            [],
            |row| row.get(0),
        )
        .expect("counted");
    assert!(references > 10, "{references} references only");
}

#[test]
fn the_same_base_gives_the_same_bytes() {
    let again = demo();
    assert_eq!(TREE.keys().collect::<Vec<_>>(), again.keys().collect::<Vec<_>>());
    for (path, bytes) in TREE.iter() {
        assert!(again[path] == *bytes, "{path} differs");
    }
}

#[test]
fn one_query_answers_what_a_technician_asks() {
    let connection = database();
    // The query of the README, for whichever number.
    let readme = std::fs::read_to_string(shared::tests("../README.md")).expect("there");
    let query = readme.split("```sql\n").find(|block| block.contains("least")).expect("it is there");
    let query = query.split("```").next().expect("a block");
    assert!(query.contains(" 500 BETWEEN"), "{query}");
    let ask = |serial: i64| -> Vec<(String, String)> {
        let mut query = connection.prepare(&query.replace(" 500 ", &format!(" {serial} "))).expect("a query");
        let rows = query.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?))).expect("asked");
        let rows = rows.map(|row| row.expect("texts"));
        let rear = rows.filter(|(_, place, _): &(String, String, String)| place == "cylinder=rear");
        rear.map(|(build, _, printed)| (build, printed)).collect()
    };
    let said = |rows: &[(&str, &str)]| -> Vec<(String, String)> {
        rows.iter().map(|(build, printed)| ((*build).to_owned(), (*printed).to_owned())).collect()
    };
    for named in [400, 500, 1999] {
        assert_eq!(ask(named), said(&[("ox-887~sb-22-04~sb-23-11", "0.30 ± 0.02 mm")]));
    }
    // The window, and what it is set to.
    for other in [399, 2000] {
        let rest = "ox-887~sb-23-11";
        assert_eq!(ask(other), said(&[(rest, "0.26..0.28 mm"), (rest, "0.26 ± 0.02 mm")]));
    }
    let now = |id: &str| -> Vec<String> {
        let mut query =
            connection.prepare("SELECT now FROM id_now WHERE id = ? ORDER BY now").expect("a query");
        let rows = query.query_map([id], |row| row.get(0)).expect("asked");
        rows.map(|row| row.expect("a text")).collect()
    };
    assert_eq!(now("clearance.inlet"), ["lash.intake"], "twice moved");
    assert_eq!(now("charging-and-drain"), ["battery-and-charging", "key-off-drain"]);
    assert!(now("sd-894~letter-23-2").is_empty(), "withdrawn");
    let found: i64 = connection
        .query_row("SELECT count(*) FROM search WHERE search MATCH 'tappet AND exhaust'", [], |row| {
            row.get(0)
        })
        .expect("searched");
    assert!(found > 0, "another name is found");
}

/// A CSV file by its own rules: fields, quoted where they must be.
fn parsed(text: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut cell, mut quoted) = (Vec::new(), Vec::new(), String::new(), false);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '"' if quoted && letters.peek() == Some(&'"') => cell.push(letters.next().expect("peeked")),
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(std::mem::take(&mut cell)),
            '\r' if !quoted => {}
            '\n' if !quoted => {
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            other => cell.push(other),
        }
    }
    rows
}

#[test]
fn the_csv_tables_are_the_tables_of_the_database() {
    let package: Value = serde_json::from_slice(&TREE["bundle/datapackage.json"]).expect("JSON");
    let connection = database();
    let mut cells = 0;
    for resource in package["resources"].as_array().expect("a list") {
        let (name, path) =
            (resource["name"].as_str().expect("a name"), resource["path"].as_str().expect("a path"));
        let text = String::from_utf8(TREE[&format!("bundle/{path}")].clone()).expect("UTF-8");
        let rows = parsed(&text);
        let fields = resource["schema"]["fields"].as_array().expect("a list");
        let mut query = connection.prepare(&format!("SELECT * FROM {name} ORDER BY rowid")).expect("a table");
        let mut found = query.query([]).expect("asked");
        for row in &rows[1..] {
            let stored = found.next().expect("read").unwrap_or_else(|| panic!("{name} is shorter"));
            for (at, cell) in row.iter().enumerate() {
                let value: rusqlite::types::Value = stored.get(at).expect("a cell");
                let same = match (&value, fields[at]["type"].as_str().expect("a type")) {
                    (rusqlite::types::Value::Null, _) => cell.is_empty(),
                    (rusqlite::types::Value::Integer(truth), "boolean") => *cell == (*truth != 0).to_string(),
                    (rusqlite::types::Value::Integer(number), _) => *cell == number.to_string(),
                    (rusqlite::types::Value::Real(number), _) => cell.parse() == Ok(*number),
                    (rusqlite::types::Value::Text(text), _) => cell == text,
                    (other, _) => panic!("{name}: {other:?}"),
                };
                assert!(same, "{name}: {cell:?} is not {value:?}");
                cells += 1;
            }
        }
        assert!(found.next().expect("read").is_none(), "{name} is longer");
    }
    assert!(cells > 10_000, "{cells} cells");
}

#[test]
fn every_reference_and_key_of_a_table_is_one_of_its_columns() {
    let examined = shared::examine(shared::rule_base());
    let all = tables::tables(&data(examined.checked.expect("no errors").model(), Withheld::LeftOut));
    for table in &all {
        let has = |column: &str| table.columns.iter().any(|one| one.name == column);
        assert!(table.key.iter().all(|key| has(key)), "{}", table.name);
        for reference in &table.references {
            let to = all.iter().find(|one| one.name == reference.table).expect("there");
            assert!(
                has(reference.column) && to.columns.iter().any(|one| one.name == reference.to),
                "{}",
                table.name
            );
        }
        assert!(table.rows.iter().all(|row| row.len() == table.columns.len()), "{}", table.name);
    }
}
