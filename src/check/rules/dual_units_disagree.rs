//! `dual-units-disagree`: whichever is wrong, a wrench will be set to it.

use crate::model::{Printed, Statement};
use crate::quantity::{Grade, Value, convert_closely, disagreement, grade, likely_slip};
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
    let inner = disagreement(primary, secondary).map_or(0..other.typed.len(), |one| one.range);
    let span = subject.sources.inside(other.span, &other.typed, inner);
    let exact = convert_closely(primary, secondary.unit());
    let message = format!("`{}` is {exact}, not `{}`", primary.text(), secondary.text());
    let help = likely_slip(primary, secondary).map_or_else(
        || "read both again from the page, and correct the one that is wrong".to_owned(),
        |slip| format!("{}: write `{}` if the page says so", slip.what, slip.offer),
    );
    let help = format!("{help}; if the page itself is wrong, say so with `misprint`");
    Finding::new(&RULE, span, message, help).with(first.span, "the maker's own unit is here")
}
