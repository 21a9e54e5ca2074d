//! Statements from a table that a spreadsheet wrote as CSV, turned into the TOML of an engine file.
//!
//! Every cell is taken as it stands or refused with its line and column: a table gives all of its rows or
//! none. What spreadsheets do to numbers (a decimal comma, a value turned into a date, a lost unit) is
//! refused by the grammar of values, never mended.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use csv::{ReaderBuilder, StringRecord};

use crate::diag::nearest;
use crate::quantity::Value;

/// Columns that hold printed values; several forms of one value stand in one cell with ` | ` between.
const VALUES: &[&str] = &["window", "set_to", "new", "wear_limit", "setting"];

/// Columns that hold words.
const WORDS: &[&str] = &["of", "page", "row", "column", "footnote", "source", "read_by", "text", "note"];

/// What is wrong with one cell, or with the head of the table.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Fault {
    /// Line in the table, counted from 1.
    pub line: u64,
    /// Name of the column, where it is one column's.
    pub column: Option<String>,
    /// What is wrong.
    pub message: String,
    /// How it is mended.
    pub help: String,
}

/// One row of the table: the cells that are not empty, by column.
struct Row {
    line: u64,
    cells: BTreeMap<String, String>,
}

/// The statements of a table as TOML, and how many there are.
///
/// # Errors
/// Every fault of the table, in order of line.
pub fn statements(table: &str) -> Result<(String, usize), Vec<Fault>> {
    let table = table.strip_prefix('\u{feff}').unwrap_or(table);
    if table.trim().is_empty() {
        let help = "begin with a head, as `of,window,page`, and write one statement a row";
        return Err(vec![fault(1, None, "the table is empty", help)]);
    }
    let rows = rows(table)?;
    let mut faults: Vec<_> = rows.iter().flat_map(faults_of).collect();
    if rows.is_empty() {
        faults.push(fault(1, None, "the table has no row under its head", "write one statement a row"));
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let text = rows.iter().fold(String::new(), |mut text, row| {
        text.push_str(&toml_of(row));
        text
    });
    Ok((text, rows.len()))
}

/// The table, its head understood.
fn rows(table: &str) -> Result<Vec<Row>, Vec<Fault>> {
    let mut reader =
        ReaderBuilder::new().delimiter(delimiter(table)).trim(csv::Trim::All).from_reader(table.as_bytes());
    let mut lines = Lines::of(table);
    let unreadable = |error: &csv::Error| {
        let line = error.position().map_or(1, |position| Lines::of(table).at(position));
        if let csv::ErrorKind::UnequalLengths { expected_len, len, .. } = error.kind() {
            let message = format!("this row has {len} cells, and the head has {expected_len}");
            let help = "every row has a cell for each column, if empty; one that holds the separator or a line end stands in double quotes";
            return vec![fault(line, None, &message, help)];
        }
        vec![fault(line, None, "this is no CSV", "save the sheet again as CSV in UTF-8")]
    };
    let head = reader.headers().map_err(|error| unreadable(&error))?.clone();
    let faults = faults_of_head(&head);
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|error| unreadable(&error))?;
        let line = record.position().map_or(0, |position| lines.at(position));
        let cells = head.iter().zip(&record).filter(|(_, cell)| !cell.is_empty());
        let cells: BTreeMap<_, _> = cells.map(|(name, cell)| (name.to_owned(), cell.to_owned())).collect();
        if !cells.is_empty() {
            rows.push(Row { line, cells });
        }
    }
    Ok(rows)
}

/// Counts the lines of a table from one record to the next. The reader's own count is off by one where lines end as in
/// Windows, and by every empty line before a record.
struct Lines<'t> {
    rest: &'t [u8],
    passed: usize,
    line: u64,
}

impl<'t> Lines<'t> {
    const fn of(table: &'t str) -> Self {
        Self { rest: table.as_bytes(), passed: 0, line: 1 }
    }

    /// The line of a record that begins at a position, or after the empty lines there; positions only go on.
    fn at(&mut self, position: &csv::Position) -> u64 {
        let from = usize::try_from(position.byte()).unwrap_or(usize::MAX);
        while let Some((first, rest)) = self.rest.split_first() {
            if self.passed >= from && !matches!(first, b'\r' | b'\n') {
                break;
            }
            let ends = *first == b'\n' || *first == b'\r' && rest.first() != Some(&b'\n');
            self.line += u64::from(ends);
            self.passed += 1;
            self.rest = rest;
        }
        self.line
    }
}

/// A spreadsheet separates by comma, semicolon or tab: the commonest of them in the head.
fn delimiter(table: &str) -> u8 {
    let head = table.lines().next().unwrap_or_default();
    let count = |separator: u8| head.bytes().filter(|byte| *byte == separator).count();
    let mut best = b',';
    for other in [b';', b'\t'] {
        if count(other) > count(best) {
            best = other;
        }
    }
    best
}

fn faults_of_head(head: &StringRecord) -> Vec<Fault> {
    let known = || VALUES.iter().chain(WORDS).copied();
    let is_known = |name: &str| {
        known().any(|one| one == name)
            || ["where.", "when."]
                .iter()
                .any(|part| name.strip_prefix(part).is_some_and(|rest| !rest.is_empty()))
    };
    let mut faults = Vec::new();
    for (at, name) in head.iter().enumerate() {
        if !is_known(name) {
            let help =
                of_other_name(name).or_else(|| Some(format!("did you mean `{}`?", nearest(name, known())?)));
            let help = help.unwrap_or_else(|| {
                format!(
                    "columns are {}, `where.AXIS` and `when.STATE`",
                    known().collect::<Vec<_>>().join(", ")
                )
            });
            faults.push(fault(1, Some(name), &format!("there is no column `{name}`"), &help));
        } else if head.iter().take(at).any(|one| one == name) {
            faults.push(fault(1, Some(name), "this column stands twice", "take one of them out"));
        }
    }
    // Where a column is to become `of`, it is not missing too.
    let meant = faults.iter().any(|one: &Fault| one.help.contains("`of`"));
    if !meant && !head.iter().any(|name| name == "of") {
        faults.push(fault(1, None, "the column `of` is missing", "it names the entry: `lash.exhaust`"));
    }
    faults
}

/// What a column is to be called that has another's name, or the name of several.
fn of_other_name(name: &str) -> Option<String> {
    match name.to_lowercase().as_str() {
        "where" => Some(
            "name the axis in the head, as `where.cylinder`, and the place in the cell, as `front`"
                .to_owned(),
        ),
        "when" => Some(
            "name the state in the head, as `when.engine`, and its word in the cell, as `cold`".to_owned(),
        ),
        "entry" | "id" | "item" | "spec" | "name" => {
            Some("call it `of`; it names the entry, as `lash.exhaust`".to_owned())
        }
        "value" | "limit" | "limits" | "range" => {
            Some("call it what the value is: `window`, `setting`, `new` or `wear_limit`".to_owned())
        }
        _ => None,
    }
}

fn faults_of(row: &Row) -> Vec<Fault> {
    let mut faults = Vec::new();
    if !row.cells.contains_key("of") {
        faults.push(fault(
            row.line,
            Some("of"),
            "this row names no entry",
            "write its id, as `lash.exhaust`",
        ));
    }
    let form = |name: &&String| name.as_str() == "text" || VALUES.contains(&name.as_str());
    if !row.cells.keys().any(|name| form(&name)) {
        faults.push(fault(
            row.line,
            None,
            "this row has no value",
            "fill one of the columns of values, or take the row out",
        ));
    }
    for (name, cell) in row.cells.iter().filter(|(name, _)| VALUES.contains(&name.as_str())) {
        for form in forms(cell) {
            if let Err(error) = Value::parse(form) {
                faults.push(fault(row.line, Some(name), &error.message(), &error.help_for(form)));
            }
        }
    }
    faults
}

/// The printed forms in one cell.
fn forms(cell: &str) -> impl Iterator<Item = &str> {
    cell.split('|').map(str::trim)
}

fn toml_of(row: &Row) -> String {
    let mut text = "\n[[spec]]\n".to_owned();
    let mut line = |key: &str, value: &str| _ = writeln!(text, "{key} = {value}");
    let cell = |name: &str| row.cells.get(name);
    if let Some(of) = cell("of") {
        line("of", &quoted(of));
    }
    for table in ["where", "when"] {
        let start = format!("{table}.");
        let words = row.cells.iter().filter_map(|(name, word)| Some((name.strip_prefix(&start)?, word)));
        let words: Vec<_> = words.map(|(name, word)| format!("{} = {}", key(name), quoted(word))).collect();
        if !words.is_empty() {
            line(table, &format!("{{ {} }}", words.join(", ")));
        }
    }
    for name in VALUES {
        if let Some(value) = cell(name) {
            let all: Vec<_> = forms(value).map(quoted).collect();
            line(name, &format!("[{}]", all.join(", ")));
        }
    }
    for name in WORDS.iter().filter(|name| **name != "of") {
        if let Some(words) = cell(name) {
            line(name, &quoted(words));
        }
    }
    text
}

fn quoted(text: &str) -> String {
    toml::Value::from(text).to_string()
}

/// A key, quoted where it must be.
fn key(name: &str) -> String {
    let bare = name.chars().all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_');
    if bare { name.to_owned() } else { quoted(name) }
}

fn fault(line: u64, column: Option<&str>, message: &str, help: &str) -> Fault {
    Fault { line, column: column.map(ToOwned::to_owned), message: message.to_owned(), help: help.to_owned() }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::statements;

    #[test]
    fn a_row_is_a_statement() {
        let table = "of;where.cylinder;when.engine;window;page\nlash.exhaust;front;cold;0.20 ± 0.05 mm | 0.008 ± 0.002 in;5-12\n";
        let expected = "\n[[spec]]\nof = \"lash.exhaust\"\nwhere = { cylinder = \"front\" }\nwhen = { engine = \"cold\" }\nwindow = [\"0.20 ± 0.05 mm\", \"0.008 ± 0.002 in\"]\npage = \"5-12\"\n";
        assert_eq!(statements(table).unwrap(), (expected.to_owned(), 1));
    }

    #[test]
    fn commas_tabs_and_a_byte_order_mark_are_read() {
        assert_eq!(statements("\u{feff}of,setting\nplug.gap,0.8 mm\n").unwrap().1, 1);
        assert_eq!(statements("of\tsetting\r\nplug.gap\t0.8 mm\r\n\r\n").unwrap().1, 1);
    }

    #[test]
    fn what_a_spreadsheet_does_to_numbers_is_refused_with_its_place() {
        let faults =
            statements("of;setting\nplug.gap;0,8 mm\nplug.gap;08.05.26\nplug.gap;0.8\n").unwrap_err();
        let places: Vec<_> = faults.iter().map(|one| (one.line, one.column.as_deref())).collect();
        assert_eq!(places, [(2, Some("setting")), (3, Some("setting")), (4, Some("setting"))]);
    }

    #[test]
    fn a_strange_column_is_named() {
        let faults = statements("of,windw\nlash.exhaust,0.2 mm\n").unwrap_err();
        assert_eq!(faults.first().unwrap().help, "did you mean `window`?");
    }

    #[test]
    fn a_row_that_lacks_cells_and_a_column_of_another_name_are_said_in_words_of_the_table() {
        let said = |table: &str| {
            let faults = statements(table).unwrap_err();
            faults.into_iter().map(|one| (one.line, one.message, one.help)).collect::<Vec<_>>()
        };
        let short = said("of,window,page\nlash.exhaust,0.2 mm\n");
        assert_eq!(short.len(), 1);
        assert_eq!(short.first().unwrap().1, "this row has 2 cells, and the head has 3");
        assert_eq!(said("").first().unwrap().1, "the table is empty");
        let named = said("entry,where,window\nlash.exhaust,front,0.2 mm\n");
        assert_eq!(named.len(), 2, "{named:?}");
        assert!(named.first().unwrap().2.starts_with("call it `of`"));
        assert!(named.last().unwrap().2.contains("`where.cylinder`"));
        let dashed = said("of,window\nplug.gap,1-1/2 in\n");
        assert_eq!(dashed.first().unwrap().2, "write `1 1/2 in`");
    }

    #[test]
    fn a_table_without_rows_or_values_is_refused() {
        assert!(statements("of,window\n").is_err());
        assert!(statements("of,page\nlash.exhaust,12\n").is_err());
        assert!(statements("").is_err());
    }
}
