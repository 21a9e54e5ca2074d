//! The tables as a Frictionless Data Package (version 2): CSV files and `datapackage.json`, which says what
//! every column holds.

use serde_json::{Value, json};

use super::{Cell, Column, Holds, Table};
use crate::bundle::Bundle;
use crate::bundle::hash::sha256;
use crate::emit::Tree;

/// The CSV files under `tables/`, and their description.
pub fn package(bundle: &Bundle, tables: &[Table]) -> Tree {
    let mut tree = Tree::new();
    let mut resources = Vec::new();
    // A resource of no rows says nothing, and would only be a table that no reader can guess the use of.
    for table in tables {
        let path = format!("tables/{}.csv", table.name);
        let bytes = csv(table).into_bytes();
        resources.push(resource(table, &path, &bytes));
        tree.insert(path, bytes);
    }
    let package = json!({
        "$schema": "https://datapackage.org/profiles/2.0/datapackage.json",
        "name": "baybook",
        "title": bundle.head.title,
        "version": bundle.head.release,
        "created": format!("{}T00:00:00Z", bundle.head.date),
        "description": bundle.head.notice,
        "licenses": [{ "name": bundle.head.licence }],
        "resources": resources,
    });
    let mut bytes = serde_json::to_vec_pretty(&package).unwrap_or_default();
    bytes.push(b'\n');
    tree.insert("datapackage.json".to_owned(), bytes);
    tree
}

fn resource(table: &Table, path: &str, bytes: &[u8]) -> Value {
    let references = table.references.iter().map(
        |one| json!({ "fields": [one.column], "reference": { "resource": one.table, "fields": [one.to] } }),
    );
    let references: Vec<Value> = references.collect();
    let mut schema = json!({
        "$schema": "https://datapackage.org/profiles/2.0/tableschema.json",
        "fields": table.columns.iter().map(field).collect::<Vec<_>>(),
        "primaryKey": table.key,
        "missingValues": [""],
    });
    if let (Some(schema), false) = (schema.as_object_mut(), references.is_empty()) {
        schema.insert("foreignKeys".to_owned(), references.into());
    }
    json!({
        "name": table.name,
        "title": table.title,
        "path": path,
        "type": "table",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": bytes.len(),
        "hash": format!("sha256:{}", sha256(bytes)),
        "schema": schema,
    })
}

fn field(column: &Column) -> Value {
    let kind = match column.holds {
        Holds::Text => "string",
        Holds::Integer => "integer",
        Holds::Boolean => "boolean",
        Holds::Rounded => "number",
        Holds::Day => "date",
    };
    let mut field = json!({ "name": column.name, "title": column.title, "type": kind });
    // An empty text is a missing value in CSV, so that only a column that is never empty is required.
    let never_empty = column.required && column.holds != Holds::Text;
    if let (Some(field), true) = (field.as_object_mut(), never_empty) {
        field.insert("constraints".to_owned(), json!({ "required": true }));
    }
    field
}

/// A table as RFC 4180 has it.
fn csv(table: &Table) -> String {
    let head = table.columns.iter().map(|column| column.name.to_owned()).collect::<Vec<_>>().join(",");
    let mut text = head + "\r\n";
    for row in &table.rows {
        let cells = row.iter().zip(&table.columns).map(|(cell, column)| written(cell, column));
        text.push_str(&cells.collect::<Vec<_>>().join(","));
        text.push_str("\r\n");
    }
    text
}

fn written(cell: &Cell, column: &Column) -> String {
    match cell {
        Cell::Null => String::new(),
        Cell::Integer(truth) if column.holds == Holds::Boolean => (*truth != 0).to_string(),
        Cell::Integer(number) => number.to_string(),
        Cell::Text(text) if text.contains(['"', ',', '\n', '\r']) || text.trim() != text => {
            format!("\"{}\"", text.replace('"', "\"\""))
        }
        Cell::Text(text) => text.clone(),
    }
}
