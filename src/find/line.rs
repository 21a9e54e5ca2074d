//! A statement in one line: every printed form, and the unit a shop wants beside it.

use crate::model::{Confirmation, Form, Printed, Statement};
use crate::quantity::{Unit, Value, convert};

/// What stands in the place of a value that is not to be shown yet.
pub(super) const WITHHELD: &str = "withheld until a second reading confirms it";

/// True if no second reading confirms it.
pub(super) const fn is_open(statement: &Statement) -> bool {
    matches!(statement.confirmation, Confirmation::ReadOnce | Confirmation::Differs { .. })
}

/// The value in one line.
pub(super) fn text(statement: &Statement) -> String {
    match &statement.form {
        Form::Window { printed, set_to } if set_to.is_empty() => forms(printed),
        Form::Window { printed, set_to } => format!("{}; set to {}", forms(printed), forms(set_to)),
        Form::Fit { new, wear_limit } => {
            labelled(&[("new", new.as_slice()), ("wear limit", wear_limit.as_slice())])
        }
        Form::Setting(printed) => forms(printed),
        Form::Stages(stages) => stages.iter().map(|one| forms(one)).collect::<Vec<_>>().join(", then "),
        Form::Points(points) => {
            let each =
                points.iter().map(|one| format!("{}: {}", with_misprint(&one.at), with_misprint(&one.reads)));
            each.collect::<Vec<_>>().join("; ")
        }
        Form::Direction { turns, seen_from } => {
            let seen = seen_from.as_ref().map(|from| format!(", seen from the {from}")).unwrap_or_default();
            format!("{}{seen}", turns.word())
        }
        Form::Interval { regular, first, severe } => {
            let either = |all: &[Printed]| all.iter().map(with_misprint).collect::<Vec<_>>().join(" or ");
            let each = [("every", regular), ("first", first), ("severe", severe)];
            let each = each.into_iter().filter(|(_, all)| !all.is_empty());
            each.map(|(label, all)| format!("{label} {}", either(all))).collect::<Vec<_>>().join("; ")
        }
        Form::Selection(selection) => format!("chosen by {}", selection.by.join(" and ")),
        Form::Pins(pins) => format!("{} cavities", pins.len()),
        Form::Text(text) => text.clone(),
        Form::Absent(why) => why.word().to_owned(),
    }
}

fn labelled(parts: &[(&str, &[Printed])]) -> String {
    let some = parts.iter().filter(|(_, printed)| !printed.is_empty());
    some.map(|(label, printed)| format!("{label} {}", forms(printed))).collect::<Vec<_>>().join("; ")
}

/// The maker's own form, then the others; where there is none, one converted and marked so.
fn forms(printed: &[Printed]) -> String {
    let Some((first, others)) = printed.split_first() else { return String::new() };
    let mut text = with_misprint(first);
    for one in others {
        text = format!("{text} ({})", with_misprint(one));
    }
    let beside = first.value.unit().counterpart().filter(|_| others.is_empty());
    if let Some(found) = beside.and_then(|unit| convert(&first.value, unit).ok()) {
        text = format!("{text} (converted: {})", spelt(&found.text, found.unit));
    }
    text
}

/// A printed form; where the page misprints it, what is meant and what is printed.
fn with_misprint(one: &Printed) -> String {
    let spelt = |value: &Value| spelt(&value.text(), value.unit());
    let wrong = one.misprint(spelt).map(|wrong| format!(", {wrong}")).unwrap_or_default();
    format!("{}{wrong}", spelt(&one.value))
}

/// Pound-inches in full: they are a twelfth of the pound-feet they are taken for.
fn spelt(text: &str, unit: Unit) -> String {
    if unit.symbol() == "lbf·in" { format!("{text} ({})", unit.spoken()) } else { text.to_owned() }
}
