//! `dual-units-disagree`: whichever is wrong, a wrench will be set to it.

use crate::model::{Printed, Statement};
use crate::quantity::{Grade, Part, PartName, Value, disagreement, grade, likely_slip};
use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("dual_units_disagree", "dual-units-disagree", Error, Units, "two printed forms of one value contradict each other");

/// Every further printed form is held against the first, the maker's own.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        for forms in statement.form.alternatives() {
            let Some((first, others)) = forms.split_first() else { continue };
            let primary = as_meant(statement, first);
            for other in others {
                let secondary = as_meant(statement, other);
                if grade(&primary, &secondary) == Some(Grade::Conflict) {
                    sink.push(finding(subject, first, &primary, other, &secondary).about(statement.span));
                }
            }
        }
    }
}

/// The value as meant: what the manual is known to misprint is put right.
fn as_meant(statement: &Statement, printed: &Printed) -> Value {
    let misprint = statement.misprint.as_ref().filter(|one| one.printed == printed.typed);
    misprint.and_then(|one| Value::parse(&one.meant).ok()).unwrap_or_else(|| printed.value.clone())
}

fn finding(
    subject: &Subject<'_>,
    first: &Printed,
    primary: &Value,
    other: &Printed,
    secondary: &Value,
) -> Finding {
    let part = disagreement(primary, secondary);
    let inner = part.as_ref().map_or(0..other.typed.len(), |one| one.range.clone());
    let span = subject.sources.inside(other.span, &other.typed, inner);
    let message = message(primary, secondary, part.as_ref());
    let help = likely_slip(primary, secondary).map_or_else(
        || "read both again from the page, and correct the one that is wrong".to_owned(),
        |slip| format!("probably {}; write `{}` if the page says so", slip.what, slip.offer),
    );
    let help = format!("{help}; if the page itself is wrong, say so with `misprint`");
    Finding::new(&RULE, span, message, help).with(first.span, "the maker's own unit is here")
}

/// What the part that contradicts should be, to more digits than it prints.
fn message(primary: &Value, secondary: &Value, part: Option<&Part>) -> String {
    let (whole, other) = (primary.text(), secondary.text());
    let unit = secondary.unit();
    match part {
        Some(Part { name: PartName::Value, expected: Some(expected), .. }) => {
            format!("`{whole}` is {}, not `{other}`", unit.after(expected))
        }
        Some(Part { name, expected: Some(expected), printed: Some(printed), .. }) => {
            let name = word(*name);
            format!("the {name} of `{whole}` is {}, not {printed} as in `{other}`", unit.after(expected))
        }
        Some(Part { name, expected: Some(_), .. }) => {
            format!("`{whole}` has a {}, and `{other}` has none", word(*name))
        }
        Some(Part { name, .. }) => format!("`{other}` has a {}, and `{whole}` has none", word(*name)),
        None => format!("`{whole}` and `{other}` do not agree"),
    }
}

const fn word(part: PartName) -> &'static str {
    match part {
        PartName::Value => "value",
        PartName::Nominal => "middle",
        PartName::Plus | PartName::Minus => "tolerance",
        PartName::Percent => "tolerance in percent",
        PartName::Minimum => "minimum",
        PartName::Maximum => "maximum",
    }
}
