//! The bundle as tables: one definition of columns, types, keys and rows, written twice, as a database and
//! as CSV with its description.
//!
//! Every number stands as exact text; beside it, where ranges are asked for, as a plain number that is
//! rounded and never to be shown. An absent value is null.

mod csv;
mod database;
mod rows;

pub use csv::package;
pub use database::{APPLICATION_ID, USER_VERSION, database};
pub use rows::tables;

/// What a column holds.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Holds {
    /// Text.
    Text,
    /// A whole number.
    Integer,
    /// True or false.
    Boolean,
    /// A rounded number, for ranges only: the exact one stands beside it as text.
    Rounded,
    /// A day, ISO 8601.
    Day,
}

/// A column.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Column {
    /// Its name.
    pub name: &'static str,
    /// What it holds.
    pub holds: Holds,
    /// True if it always holds something.
    pub required: bool,
    /// What it says.
    pub title: &'static str,
}

/// A reference to another table.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Reference {
    /// Column here.
    pub column: &'static str,
    /// Table there.
    pub table: &'static str,
    /// Column there.
    pub to: &'static str,
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing.
    Null,
    /// Text.
    Text(String),
    /// A whole number.
    Integer(i64),
}

/// A table with its rows.
#[derive(Clone, Debug)]
pub struct Table {
    /// Its name.
    pub name: &'static str,
    /// What its rows are.
    pub title: &'static str,
    /// Columns.
    pub columns: Vec<Column>,
    /// Columns that tell rows apart.
    pub key: Vec<&'static str>,
    /// Columns that refer to other tables.
    pub references: Vec<Reference>,
    /// Rows, each with a cell for every column.
    pub rows: Vec<Vec<Cell>>,
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<&String> for Cell {
    fn from(text: &String) -> Self {
        Self::Text(text.clone())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<bool> for Cell {
    fn from(truth: bool) -> Self {
        Self::Integer(i64::from(truth))
    }
}

impl From<u32> for Cell {
    fn from(number: u32) -> Self {
        Self::Integer(i64::from(number))
    }
}

impl From<u16> for Cell {
    fn from(number: u16) -> Self {
        Self::Integer(i64::from(number))
    }
}

impl From<usize> for Cell {
    fn from(number: usize) -> Self {
        Self::Integer(i64::try_from(number).unwrap_or(i64::MAX))
    }
}

impl<T: Into<Cell>> From<Option<T>> for Cell {
    fn from(some: Option<T>) -> Self {
        some.map_or(Self::Null, Into::into)
    }
}
