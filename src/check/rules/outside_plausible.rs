//! `outside-plausible`: most slips of a decimal point or a unit land far outside the ordinary range.

use super::dual_units_disagree::contradict;
use crate::check::{Subject, witnesses};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Entry, Form, Printed, Statement};
use crate::quantity::{Beyond, Shape, Witness, beyond, likely_slip_alone};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "outside_plausible",
    "outside-plausible",
    Warning,
    Physics,
    "a value lies outside what an experienced eye finds plausible"
);

/// Every value with a plausible span, against it; where two printed forms contradict each other, that is said.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        let Some(plausible) = &entry.plausible else { continue };
        for (place, printed) in values(statement) {
            if let Some(side) = beyond(&printed.value, &plausible.value) {
                let known = place.map(|place| witnesses::of(subject, statement, place)).unwrap_or_default();
                sink.push(finding(entry, printed, plausible, side, &known).about(statement.span));
            }
        }
    }
}

/// The first printed form of every value, and its place among those of the statement.
fn values(statement: &Statement) -> Vec<(Option<usize>, &Printed)> {
    match &statement.form {
        Form::Points(points) => points.iter().map(|point| (None, &point.reads)).collect(),
        form => {
            let all = form.alternatives().into_iter().enumerate();
            let sound = all.filter(|(_, forms)| !contradict(forms));
            let first = sound.filter_map(|(place, forms)| Some((Some(place), forms.first()?)));
            // A turn of a bolt is no torque, whatever its entry is measured in.
            first.filter(|(_, one)| !matches!(one.value.shape(), Shape::Turn(_))).collect()
        }
    }
}

fn finding(
    entry: &Entry,
    printed: &Printed,
    plausible: &Printed,
    side: Beyond,
    known: &[Witness<'_>],
) -> Finding {
    let side = match side {
        Beyond::Below => "below",
        Beyond::Above => "above",
    };
    let from = entry.plausible_from.as_deref().map(|from| format!(" ({from})")).unwrap_or_default();
    let (value, span) = (printed.value.text(), plausible.value.text());
    let message = format!("`{value}` lies {side} what is plausible for `{}`: {span}{from}", entry.id);
    let inside = |meant: &crate::quantity::Value| beyond(meant, &plausible.value).is_none();
    let help = likely_slip_alone(&printed.value, known, inside).map_or_else(
        || "look at the page again: the unit, the decimal point, the row".to_owned(),
        |slip| {
            format!(
                "look at the page again: probably {}; write `{}` if the page says so",
                slip.what, slip.offer
            )
        },
    );
    Finding::new(&RULE, printed.span, message, help).with(plausible.span, "the plausible span is here")
}
