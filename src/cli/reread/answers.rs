//! The answers of a second reader as text of a rereads file.

use std::fmt::Write;

use crate::model::{Date, Engine, Statement};

/// Answers, in the order they were given.
pub struct Answers {
    engine: String,
    maker: String,
    by: String,
    on: Date,
    tables: Vec<String>,
}

impl Answers {
    /// No answers yet.
    pub fn new(engine: &Engine, by: &str, on: Date) -> Self {
        Self {
            engine: engine.id.to_string(),
            maker: engine.maker.to_string(),
            by: by.to_owned(),
            on,
            tables: Vec::new(),
        }
    }

    /// Adds the answer for a statement.
    pub fn add(&mut self, statement: &Statement, given: &[(&'static str, toml::Value)]) {
        let mut table = format!("\n[[reread]]\nof = {}\n", quoted(statement.identity.of.as_str()));
        if let Some(variant) = &statement.variant {
            _ = writeln!(table, "variant = {}", quoted(variant.as_str()));
        }
        for (key, value) in given {
            _ = writeln!(table, "{key} = {value}");
        }
        if let Some(source) = &statement.provenance.source {
            _ = writeln!(table, "source = {}", quoted(source.as_str()));
        }
        if let Some(page) = &statement.provenance.page {
            _ = writeln!(table, "page = {}", quoted(page));
        }
        self.tables.push(table);
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.tables.len()
    }

    /// True if there is none.
    pub fn is_empty(&self) -> bool {
        self.tables.is_empty()
    }

    /// Where they go, relative to the base: a file of this reader and day's own.
    pub fn path(&self) -> String {
        format!("rereads/{}/{}-{}-{}.toml", self.maker, self.engine, self.by, self.on)
    }

    /// The file, what it held before kept as it was.
    pub fn text(&self, before: Option<&str>) -> String {
        let head = || {
            format!(
                "#:schema ../../../schemas/rereads.schema.json\n\nengine = {}\nread_by = {}\ndate = {}\n",
                quoted(&self.engine),
                quoted(&self.by),
                self.on
            )
        };
        before.map_or_else(head, ToOwned::to_owned) + &self.tables.concat()
    }
}

fn quoted(text: &str) -> String {
    toml::Value::from(text).to_string()
}
