//! The rows of every table, from the data of a bundle.
//!
//! All that the JSON states stands in some table, so that either can be made from the other:
//! `tests/outside/bundle/same.py` does so. A list has a row for each of its items, with its place from 1.

mod base;
mod catalogue;
mod guides;
mod machines;
mod procedures;
mod reference;
mod relations;
mod specs;

use std::collections::BTreeMap;

use super::{Cell, Column, Holds, Reference, Table};
use crate::bundle::{Bundle, Printed, Quantity};
use crate::quantity::{Exact, decimal_text, power_of_ten};

/// Declares a table: its columns in one line each, `!` for those that always hold something.
macro_rules! table {
    ($name:literal $title:literal key($($key:literal),*)
        refers[$(($column:literal $to:literal $other:literal))*]
        $($holds:ident $col:ident $need:literal $says:literal;)*) => {
        Table {
            name: $name,
            title: $title,
            columns: vec![$(Column {
                name: stringify!($col), holds: Holds::$holds, required: $need == '!', title: $says,
            }),*],
            key: vec![$($key),*],
            references: vec![$(Reference { column: $column, table: $to, to: $other }),*],
            rows: Vec::new(),
        }
    };
}

/// One row: cells of whatever can be one.
macro_rules! row {
    ($($cell:expr),* $(,)?) => { vec![$(Cell::from($cell)),*] };
}

use {row, table};

/// Every table, each after those it refers to.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    let mut all = base::tables(bundle);
    all.extend(reference::tables(bundle));
    all.extend(catalogue::tables(bundle));
    all.extend(relations::tables(bundle));
    all.extend(machines::tables(bundle));
    all.extend(specs::tables(bundle));
    all.extend(guides::complaints(bundle));
    all.extend(procedures::tables(bundle));
    all.extend(guides::codes(bundle));
    all.extend(base::identity(bundle));
    all
}

/// The places of a list, from 1.
fn places<T>(list: &[T]) -> impl Iterator<Item = (usize, &T)> {
    (1..).zip(list)
}

/// Words as `name=word`, sorted, with `;` between.
fn words(words: &BTreeMap<String, String>) -> String {
    words.iter().map(|(key, word)| format!("{key}={word}")).collect::<Vec<_>>().join(";")
}

/// The columns of a printed value.
fn printed_columns() -> Vec<Column> {
    let of = table! { "" "" key() refers[]
    Text text '!' "The whole form, digits as printed"; Text unit '!' "Unit as written";
    Text ucum '?' "Unit in UCUM"; Text unece '?' "Unit in UNECE Recommendation 20";
    Text min '?' "Lower limit as text"; Text max '?' "Upper limit as text"; Text nominal '?' "Middle as printed";
    Boolean min_inclusive '!' "False where the lower limit is outside";
    Boolean max_inclusive '!' "False where the upper limit is outside";
    Text min_si '?' "Lower limit, exact, in the unit of its kind"; Text max_si '?' "Upper limit, exact";
    Text nominal_si '?' "Middle, exact";
    Rounded min_number '?' "Lower limit, rounded: for ranges only";
    Rounded max_number '?' "Upper limit, rounded: for ranges only"; };
    of.columns
}

/// A printed value as the cells of [`printed_columns`].
fn printed_cells(form: &Printed) -> Vec<Cell> {
    let (min, max) = (form.min.as_ref(), form.max.as_ref());
    let either = min.or(max);
    let text = |one: Option<&Quantity>| one.map(|one| one.text.clone());
    let si = |one: Option<&Quantity>| one.map(|one| one.si.as_str().to_owned());
    let number = |one: Option<&Quantity>| one.map(|one| rounded(one.si.exact()));
    row![
        &form.text,
        either.map(|one| &one.unit).map_or("", String::as_str),
        either.and_then(|one| one.ucum.as_ref()),
        either.and_then(|one| one.unece.as_ref()),
        text(min),
        text(max),
        text(form.nominal.as_ref()),
        form.min_inclusive,
        form.max_inclusive,
        si(min),
        si(max),
        si(form.nominal.as_ref()),
        number(min),
        number(max),
    ]
}

/// A table of printed values, each of a part of the thing that `owner` names.
fn printed_table(mut table: Table) -> Table {
    table.columns.extend(printed_columns());
    table.references.push(Reference { column: "unit", table: "unit", to: "symbol" });
    table
}

/// A row of such a table; none where there is no value.
fn printed_row(owner: &str, part: &str, form: Option<&Printed>) -> Option<Vec<Cell>> {
    let mut row = row![owner, part];
    row.extend(printed_cells(form?));
    Some(row)
}

/// A number with seventeen significant digits or all it has: what a range may be asked by.
fn rounded(exact: &Exact) -> String {
    let mut decimals = 17;
    let mut reach = power_of_ten(0);
    while decimals > 0 && num_traits::Signed::abs(exact) >= reach {
        reach *= power_of_ten(1);
        decimals -= 1;
    }
    let text = decimal_text(exact, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
