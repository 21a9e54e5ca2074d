//! `code-is-not-size`: where marks are sizes without their point, a mark that is not its size is a slipped digit.

use crate::check::Subject;
use crate::check::table::{Row, tables};
use crate::diag::{Finding, Rule, Sink};
use crate::quantity::{Exact, Kind, Number, power_of_ten};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "code_is_not_size",
    "code-is-not-size",
    Warning,
    Physics,
    "a mark in a table of sizes is not its size, and all others are"
);

/// Every table of lengths by one mark, in which most marks are their sizes.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for (statement, entry, _, rows) in tables(subject) {
        if entry.kind != Some(Kind::Length) || rows.len() < 4 {
            continue;
        }
        for power in 0..4 {
            let (same, others): (Vec<&Row<'_>>, Vec<&Row<'_>>) =
                rows.iter().partition(|row| is_size(row, power) == Some(true));
            if same.len() < others.len() * 4 {
                continue;
            }
            for row in others {
                let mark = row.inputs.first().map_or("", String::as_str);
                let message = format!(
                    "the mark `{mark}` stands for `{}`, and every other mark of the table is its size",
                    row.part
                );
                let help = "look at this row of the page again";
                sink.push(Finding::new(&RULE, row.span, message, help).about(statement.span));
            }
        }
    }
}

/// True if the only input of a row is its size in the printed unit, times a power of ten.
fn is_size(row: &Row<'_>, power: i32) -> Option<bool> {
    let [mark] = row.inputs else { return None };
    let mark: Exact = Number::parse(mark).ok()?.exact().clone();
    let value = row.value()?;
    Some(value.nominal()? * power_of_ten(power) == mark)
}
