//! `baybook.sqlite`: the tables as a database, with a search index and a view that answers what a
//! technician asks: this machine, this year, this serial number, this entry.
//!
//! It is made in memory, in one transaction, in the order of the tables, so that the same data gives the
//! same bytes.

use rusqlite::types::ToSqlOutput;
use rusqlite::{Connection, Result, ToSql, params_from_iter};

use super::{Cell, Holds, Table};

/// `BayB`: tells the file apart from other databases.
pub const APPLICATION_ID: i32 = 0x4261_7942;
/// Version of the tables.
pub const USER_VERSION: i32 = 4;

/// One row for every statement of a machine, year and span of serial numbers, with its maker's own form.
/// A serial number fits a row that has a prefix if it begins with it and its number lies within; if it fits none
/// of those, the row without a prefix, which then has `rest`: of the rows it may fit, those of the least `rest`.
const ANSWER: &str = "
CREATE VIEW answer AS
SELECT fit.machine, machine.name AS machine_name, fit.from_year, fit.to_year, fit.serial_prefix,
       fit.serial_from, fit.serial_to, fit.rest, spec.build, spec.entry, entry.title, spec.place, spec.state,
       spec.form, value.part, value.step, value.text AS printed, spec.text, spec.absent, spec.withheld, value.unit,
       value.min_si, value.max_si, value.min_number, value.max_number, spec.confirmation,
       source.title AS source_title, spec.page
FROM fit
JOIN machine ON machine.id = fit.machine
JOIN spec ON spec.build = fit.build
JOIN entry ON entry.id = spec.entry
LEFT JOIN value ON value.spec = spec.id AND value.form = 1 AND value.part NOT IN ('when', 'input', 'expect')
LEFT JOIN source ON source.id = spec.source;
-- The values that each part of a procedure means in a build: those whose place and state do not contradict
-- the words that narrow it; of an entry without any value, its statements that say why.
CREATE VIEW procedure_value AS
WITH meant AS (
  SELECT part.procedure, part.block, part.place, procedure_build.build, spec.id AS spec,
         spec.absent IS NULL AND NOT EXISTS (
           SELECT 1 FROM part_word JOIN spec_word ON spec_word.spec = spec.id AND spec_word.name = part_word.name
           WHERE part_word.procedure = part.procedure AND part_word.block = part.block
             AND part_word.part = part.place AND spec_word.word <> part_word.word) AS wanted
  FROM part
  JOIN procedure_build ON procedure_build.procedure = part.procedure
  JOIN spec ON spec.build = procedure_build.build AND spec.entry = part.entry
  WHERE part.sort IN ('spec', 'reading', 'turn'))
SELECT meant.procedure, meant.build, block.step, meant.block, meant.place AS part, part.sort, part.text AS label,
       spec.entry, entry.title, spec.place, spec.state, spec.form, value.part AS value_part, value.step AS value_step,
       value.text AS printed, spec.text, spec.direction, spec.absent, spec.withheld, spec.confirmation, spec.id AS spec
FROM meant
JOIN block ON block.procedure = meant.procedure AND block.place = meant.block
JOIN part ON part.procedure = meant.procedure AND part.block = meant.block AND part.place = meant.place
JOIN spec ON spec.id = meant.spec
JOIN entry ON entry.id = spec.entry
LEFT JOIN value ON value.spec = spec.id AND value.form = 1 AND value.part NOT IN ('when', 'input', 'expect')
WHERE meant.wanted OR NOT EXISTS (
  SELECT 1 FROM meant AS other WHERE other.wanted AND other.procedure = meant.procedure AND other.block = meant.block
    AND other.place = meant.place AND other.build = meant.build);
-- What every retired id is now, followed to the end: none if it was withdrawn, several if it was split.
CREATE VIEW id_now AS
WITH RECURSIVE follow (id, now) AS (
  SELECT id, now FROM retired_id_now
  UNION
  SELECT follow.id, later.now FROM follow JOIN retired_id_now AS later ON later.id = follow.now)
SELECT id, now FROM follow WHERE now NOT IN (SELECT id FROM retired_id);
CREATE INDEX spec_by_build ON spec (build, entry);
CREATE INDEX spec_by_entry ON spec (entry);
CREATE INDEX fit_by_machine ON fit (machine, from_year, to_year);
CREATE INDEX value_by_number ON value (min_number, max_number);
";

/// Every entry of every build by its words: names, other names, machine, value.
const SEARCH: &str = "
CREATE VIRTUAL TABLE search USING fts5(title, other_names, machines, printed, build UNINDEXED, entry UNINDEXED,
                                       spec UNINDEXED, tokenize = 'unicode61');
INSERT INTO search (rowid, title, other_names, machines, printed, build, entry, spec)
SELECT spec.id, entry.title,
       coalesce((SELECT group_concat(name, '; ' ORDER BY name) FROM other_name WHERE other_name.entry = entry.id), ''),
       coalesce((SELECT group_concat(DISTINCT machine.name) FROM fit JOIN machine ON machine.id = fit.machine
                 WHERE fit.build = spec.build), ''),
       coalesce((SELECT group_concat(value.text, '; ') FROM value WHERE value.spec = spec.id
                 AND value.part NOT IN ('when', 'input', 'expect')), spec.text, ''),
       spec.build, spec.entry, spec.id
FROM spec JOIN entry ON entry.id = spec.entry ORDER BY spec.id;
INSERT INTO search (search) VALUES ('optimize');
";

/// The database of some tables, as the bytes of its file.
///
/// # Errors
///
/// When the database refuses a row, which a proved base cannot cause.
pub fn database(tables: &[Table]) -> Result<Vec<u8>> {
    let mut connection = Connection::open_in_memory()?;
    connection.pragma_update(None, "foreign_keys", "ON")?;
    connection.pragma_update(None, "application_id", APPLICATION_ID)?;
    connection.pragma_update(None, "user_version", USER_VERSION)?;
    let transaction = connection.transaction()?;
    // A row may refer to a later one of its own table: references are held when all are there.
    transaction.pragma_update(None, "defer_foreign_keys", "ON")?;
    for table in tables {
        transaction.execute_batch(&definition(table))?;
        let places = vec!["?"; table.columns.len()].join(", ");
        let mut insert = transaction.prepare(&format!("INSERT INTO {} VALUES ({places})", table.name))?;
        for row in &table.rows {
            insert.execute(params_from_iter(row))?;
        }
    }
    transaction.execute_batch(ANSWER)?;
    transaction.execute_batch(SEARCH)?;
    transaction.commit()?;
    connection.execute_batch("VACUUM")?;
    Ok(connection.serialize("main")?.to_vec())
}

fn definition(table: &Table) -> String {
    let columns = table.columns.iter().map(|column| {
        let sort = match column.holds {
            Holds::Text | Holds::Day => "TEXT",
            Holds::Integer | Holds::Boolean => "INTEGER",
            Holds::Rounded => "REAL",
        };
        let required = if column.required { " NOT NULL" } else { "" };
        format!("  {} {sort}{required}", column.name)
    });
    let references = table
        .references
        .iter()
        .map(|one| format!("  FOREIGN KEY ({}) REFERENCES {} ({})", one.column, one.table, one.to));
    let key = std::iter::once(format!("  PRIMARY KEY ({})", table.key.join(", ")));
    let lines: Vec<_> = columns.chain(key).chain(references).collect();
    format!("CREATE TABLE {} (\n{}\n) STRICT;", table.name, lines.join(",\n"))
}

impl ToSql for Cell {
    fn to_sql(&self) -> Result<ToSqlOutput<'_>> {
        match self {
            Self::Null => Ok(ToSqlOutput::from(rusqlite::types::Null)),
            Self::Text(text) => Ok(ToSqlOutput::from(text.as_str())),
            Self::Integer(number) => Ok(ToSqlOutput::from(*number)),
        }
    }
}
