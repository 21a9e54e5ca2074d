//! `table-contradicts-itself`: a table that gives two answers, or none, is read by luck.

use num_traits::Signed as _;

use crate::check::Subject;
use crate::check::table::{Row, tables};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Pin, Point, Selection, Statement};
use crate::quantity::{Exact, Kind, Shape, Value};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "table_contradicts_itself",
    "table-contradicts-itself",
    Error,
    Physics,
    "a table gives two answers to one question, or no answer"
);

/// Every table: of parts, of points, of cavities.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for (statement, _, selection, rows) in tables(subject) {
        let found = width(selection, &rows).or_else(|| two_parts(&rows));
        found.into_iter().for_each(|finding| sink.push(finding.about(statement.span)));
    }
    for statement in subject.statements() {
        let found = match &statement.form {
            Form::Points(points) => points_of(points),
            Form::Pins(pins) => cavity_twice(statement, pins),
            _ => None,
        };
        found.into_iter().for_each(|finding| sink.push(finding.about(statement.span)));
    }
}

/// A row that has not one input for each name, and then the part.
fn width(selection: &Selection, rows: &[Row<'_>]) -> Option<Finding> {
    let wanted = selection.by.len();
    let row = rows.iter().find(|row| row.inputs.len() != wanted)?;
    let message = format!(
        "this row has {} of the {wanted} inputs that `by` names, and then the part `{}`",
        row.inputs.len(),
        row.part
    );
    let help = format!("a row is its inputs in order, `{}`, and then the part", selection.by.join("`, `"));
    Some(Finding::new(&RULE, row.span, message, help))
}

/// Two rows that can both be meant, and lead to two parts.
fn two_parts(rows: &[Row<'_>]) -> Option<Finding> {
    rows.iter().enumerate().find_map(|(at, second)| {
        let mut before = rows.iter().take(at);
        let first = before.find(|first| first.part != second.part && overlap(first.inputs, second.inputs))?;
        let inputs = second.inputs.join("`, `");
        let message =
            format!("`{inputs}` leads to `{}`, and to `{}` by another row", second.part, first.part);
        let help = "look at both rows of the page again: one input or one part is another";
        let finding = Finding::new(&RULE, second.span, message, help);
        Some(if first.span == second.span { finding } else { finding.with(first.span, "the other row") })
    })
}

/// True if some measured or read inputs are in both rows; spans that only touch are not.
fn overlap(one: &[String], other: &[String]) -> bool {
    one.len() == other.len()
        && one.iter().zip(other).all(|(one, other)| one == other || spans_overlap(one, other))
}

fn spans_overlap(one: &str, other: &str) -> bool {
    let (Ok(one), Ok(other)) = (Value::parse(one), Value::parse(other)) else { return false };
    if !one.unit().converts_to(other.unit()) {
        return false;
    }
    let end =
        |value: &Value, end: Option<crate::quantity::Limit>| end.map(|end| value.unit().to_si(&end.exact));
    let below = |one: &Value, other: &Value| match (end(one, one.max()), end(other, other.min())) {
        (Some(most), Some(least)) => most <= least,
        _ => false,
    };
    let same = || {
        end(&one, one.min()) == end(&other, other.min()) && end(&one, one.max()) == end(&other, other.max())
    };
    same() || !below(&one, &other) && !below(&other, &one)
}

/// A point read at no one input, one that no part can have, and two that differ at one input.
fn points_of(points: &[Point]) -> Option<Finding> {
    let at = |point: &Point| -> Option<Exact> {
        let value = &point.at.value;
        matches!(value.shape(), Shape::Single(_)).then_some(())?;
        value.nominal().map(|nominal| value.unit().to_si(nominal))
    };
    for (index, point) in points.iter().enumerate() {
        let Some(here) = at(point) else {
            let message =
                format!("`{}` is no one input: nothing is read at all of it", point.at.value.text());
            return Some(Finding::new(
                &RULE,
                point.at.span,
                message,
                "write the one value that it is read at",
            ));
        };
        let reads = &point.reads.value;
        let nothing = |limit: &Exact| !limit.is_positive();
        if reads.unit().kind() == Kind::Resistance && reads.max().is_some_and(|most| nothing(&most.exact)) {
            let message = format!("`{}` is no resistance that a sensor has", reads.text());
            return Some(Finding::new(&RULE, point.reads.span, message, "look at the page again"));
        }
        let same =
            |other: &&Point| at(other).as_ref() == Some(&here) && other.reads.value != point.reads.value;
        if let Some(other) = points.iter().take(index).find(same) {
            let message = format!(
                "`{}` is read at `{}`, and `{}` too",
                point.reads.value.text(),
                point.at.value.text(),
                other.reads.value.text()
            );
            let help = "look at both rows of the page again: one of them is read at another input";
            return Some(
                Finding::new(&RULE, point.at.span, message, help).with(other.at.span, "the other point"),
            );
        }
    }
    None
}

/// Two cavities of one name.
fn cavity_twice(statement: &Statement, pins: &[Pin]) -> Option<Finding> {
    let twice = |(at, pin): (usize, &Pin)| pins.iter().take(at).any(|one| one.cavity == pin.cavity);
    let (_, pin) = pins.iter().enumerate().find(|one| twice(*one))?;
    let message = format!("the cavity `{}` stands twice in {}", pin.cavity, statement.identity);
    let help = "look at the connector's drawing again: one of the two is another cavity";
    Some(Finding::new(&RULE, statement.span, message, help))
}
