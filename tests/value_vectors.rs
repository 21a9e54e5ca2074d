//! The handbook's script reads and refuses the texts of values as the compiler does, word for word.
//!
//! `tests/quantity_grammar.rs` says what the grammar is; here its texts, and slips of the hand in them, are
//! kept as vectors with the compiler's answers. After a wanted change: `BLESS=1 cargo test --test value_vectors`.

use std::path::Path;

use baybook::quantity::Value;
use serde_json::{Value as Json, json};

const FILE: &str = "tests/vectors/values.json";

fn answer(typed: &str) -> Json {
    match Value::parse(typed) {
        Ok(value) => json!({ "typed": typed, "text": value.text() }),
        Err(error) => json!({ "typed": typed, "message": error.message(), "help": error.help() }),
    }
}

#[test]
fn every_text_is_read_or_refused_as_written_down() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE);
    let committed = std::fs::read_to_string(&path).expect("the vectors");
    let file: Json = serde_json::from_str(&committed).expect("JSON");
    let typed =
        file["vectors"].as_array().expect("vectors").iter().map(|row| row["typed"].as_str().expect("text"));
    let rows: Vec<_> = typed.map(|typed| answer(typed).to_string()).collect();
    assert!(rows.len() > 1500);
    assert!(rows.iter().filter(|row| row.contains("\"message\"")).count() > 500);
    let text = format!("{{\"vectors\": [\n{}\n]}}\n", rows.join(",\n"));
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, &text).expect("writable");
    }
    let differing = committed.lines().zip(text.lines()).find(|(old, new)| old != new);
    assert!(differing.is_none() || std::env::var_os("BLESS").is_some(), "{differing:?}");
}
