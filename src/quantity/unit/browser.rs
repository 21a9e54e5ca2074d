//! The table of units as the handbook's script has it: a committed file that must equal this one.
//!
//! After a wanted change write it anew with `BLESS=1 cargo test --lib unit::browser`.

use std::fmt::{Display, Write as _};

use serde_json::{Value, json};

use super::super::Kind;
use super::row::Row;
use super::{spelling, table};

const FILE: &str = "site/compute/unit-table.js";

const HEAD: &str = r#"// @ts-check
/*
 * The table of units, written from the compiler's own in src/quantity/unit by a test: change it there.
 *
 * A unit is a line, for it lies on disk as it stands: symbol, name in full, kind if it is not the line's before,
 * size in the SI unit of its kind, zero of its scale likewise if it has one, symbol of the unit wanted beside it,
 * other spellings in the normal form. An ambiguous spelling: how to write each thing that could be meant, and what
 * that is.
 */
(() => {
  "use strict";

  /** @type {BaybookCompute} */
  const compute = (globalThis.baybookCompute ??= /** @type {any} */ ({}));
"#;

fn unit(row: &Row, before: Option<Kind>) -> String {
    let fraction = |above: &dyn Display, below: &dyn Display| {
        let below = below.to_string();
        if below == "1" { above.to_string() } else { format!("{above}/{below}") }
    };
    let size = fraction(&row.factor.0, &row.factor.1);
    let zero = if row.offset.0 == 0 { String::new() } else { fraction(&row.offset.0, &row.offset.1) };
    let kind = if before == Some(row.kind) { "" } else { row.kind.name() };
    let own = [row.symbol, row.spoken, kind, &size, &zero, row.beside.unwrap_or_default()];
    own.into_iter().chain(row.spellings.iter().copied()).collect::<Vec<_>>().join("|")
}

/// Spellings of one set of meanings together.
fn ambiguous() -> Vec<Value> {
    let mut groups: Vec<(Vec<&str>, spelling::Meanings)> = Vec::new();
    for &(text, meanings) in spelling::AMBIGUOUS {
        match groups.last_mut() {
            Some((texts, same)) if *same == meanings => texts.push(text),
            _ => groups.push((vec![text], meanings)),
        }
    }
    groups.into_iter().map(|group| json!(group)).collect()
}

fn file_text() -> String {
    let spelt = |kind: &&Kind| kind.title() != kind.name().replace('-', " ");
    let kinds = Kind::all().iter().filter(spelt);
    let kinds = kinds.map(|kind| format!("{}: {}", json!(kind.name()), json!(kind.title()))).collect();
    let mut before = None;
    let units: Vec<_> = table::rows().map(|row| unit(row, before.replace(row.kind))).collect();
    let ambiguous: Vec<_> = ambiguous().iter().map(Value::to_string).collect();
    let mut out = String::from(HEAD);
    let _ = writeln!(out, "  compute.unitTable = {{");
    let mut list = |name: &str, open: char, rows: Vec<String>, close: char| {
        let _ = writeln!(out, "    {name}: {open}");
        for row in rows {
            let _ = writeln!(out, "      {row},");
        }
        let _ = writeln!(out, "    {close},");
    };
    list("kinds", '{', kinds, '}');
    list("ambiguous", '[', ambiguous, ']');
    let _ = writeln!(out, "    units: `{}`,", units.join("\n"));
    out + "  };\n})();\n"
}

#[test]
fn the_script_s_table_is_the_compiler_s() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE);
    let text = file_text();
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, &text).expect("writable");
    }
    let committed = std::fs::read_to_string(&path).expect("the committed table");
    let differing = committed.lines().zip(text.lines()).find(|(old, new)| old != new);
    assert_eq!(differing, None, "the first line that differs");
    assert_eq!(committed.len(), text.len());
}
