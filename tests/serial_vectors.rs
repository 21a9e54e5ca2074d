//! The compiler and the handbook's script answer alike which row a serial number falls in: both are
//! held against the same vectors, this one for the compiler.

use std::collections::BTreeMap;

use baybook::model::{SerialRange, SerialRow, row_of};
use serde::Deserialize;

#[derive(Deserialize)]
struct Vectors {
    tables: BTreeMap<String, Vec<Row>>,
    vectors: Vec<Vector>,
}

#[derive(Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum Row {
    Span { prefix: String, from: Option<u32>, to: Option<u32> },
    Rest,
    All,
}

#[derive(Deserialize)]
struct Vector {
    table: String,
    serial: String,
    row: Option<usize>,
    #[serde(default)]
    unsure: bool,
}

impl From<&Row> for SerialRange {
    fn from(row: &Row) -> Self {
        match row {
            Row::Span { prefix, from, to } => Self::Span { prefix: prefix.clone(), from: *from, to: *to },
            Row::Rest => Self::Rest,
            Row::All => Self::All,
        }
    }
}

#[test]
fn every_vector_is_answered() {
    let vectors: Vectors = serde_json::from_str(include_str!("vectors/serial.json")).expect("vectors");
    assert!(vectors.vectors.len() > 30);
    for vector in &vectors.vectors {
        let table: Vec<SerialRange> = vectors.tables[&vector.table].iter().map(SerialRange::from).collect();
        let expected = match (vector.row, vector.unsure) {
            (Some(row), _) => SerialRow::Found(row),
            (None, true) => SerialRow::Unsure,
            (None, false) => SerialRow::NotFound,
        };
        assert_eq!(row_of(&table, &vector.serial), expected, "{} in {}", vector.serial, vector.table);
    }
}
