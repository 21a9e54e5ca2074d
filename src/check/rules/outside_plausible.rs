//! `outside-plausible`: most slips of a decimal point or a unit land far outside the ordinary range.

use crate::model::{EntryId, Form, Printed};
use crate::quantity::{Exact, Limit, Shape, Value, power_of_ten};
use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("outside_plausible", "outside-plausible", Warning, Physics, "a value lies outside what an experienced eye finds plausible");

/// Every value with a plausible span, against it.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        let Some(plausible) = &entry.plausible else { continue };
        for printed in values(&statement.form) {
            if let Some(finding) = held(&statement.identity.of, printed, plausible, entry.plausible_from.as_deref()) {
                sink.push(finding.with(plausible.span, "the plausible span is here").about(statement.span));
            }
        }
    }
}

/// The first printed form of every value; the others are held against it elsewhere.
fn values(form: &Form) -> Vec<&Printed> {
    match form {
        Form::Points(points) => points.iter().map(|point| &point.reads).collect(),
        Form::Stages(stages) => {
            let stages = stages.iter().filter_map(|forms| forms.first());
            stages.filter(|one| !matches!(one.value.shape(), Shape::Turn(_))).collect()
        }
        other => other.alternatives().into_iter().filter_map(<[Printed]>::first).collect(),
    }
}

fn held(of: &EntryId, printed: &Printed, plausible: &Printed, from: Option<&str>) -> Option<Finding> {
    let unit = printed.value.unit();
    if unit.kind() != plausible.value.unit().kind() {
        return None;
    }
    let (low, high) = ends(&printed.value);
    let (least, most) = ends(&plausible.value);
    let below = low.as_ref().zip(least.as_ref()).is_some_and(|(low, least)| low < least);
    let above = high.as_ref().zip(most.as_ref()).is_some_and(|(high, most)| high > most);
    if !below && !above {
        return None;
    }
    let (side, beyond) = if below { ("below", low) } else { ("above", high) };
    let help = beyond.and_then(|value| tenfold(&value, least.as_ref(), most.as_ref())).map_or_else(
        || "look at the page again: the unit, the decimal point, the row".to_owned(),
        |factor| format!("look at the page again: {factor} would be plausible, so a decimal point may have moved"),
    );
    let from = from.map(|from| format!(" ({from})")).unwrap_or_default();
    let message = format!("`{}` lies {side} what is plausible for `{of}`: {}{from}", printed.value.text(), plausible.value.text());
    Some(Finding::new(&RULE, printed.span, message, help))
}

/// The ends of a value in SI.
fn ends(value: &Value) -> (Option<Exact>, Option<Exact>) {
    let si = |limit: Option<Limit>| limit.map(|limit| value.unit().to_si(&limit.exact));
    (si(value.min()), si(value.max()))
}

/// The power of ten, up or down, that would bring a value inside.
fn tenfold(value: &Exact, least: Option<&Exact>, most: Option<&Exact>) -> Option<&'static str> {
    let inside = |one: &Exact| least.is_none_or(|least| one >= least) && most.is_none_or(|most| one <= most);
    let times = |power: i32| value * power_of_ten(power);
    [(-1, "a tenth of it"), (1, "ten times it"), (-2, "a hundredth of it"), (2, "a hundred times it")]
        .into_iter()
        .find(|(power, _)| inside(&times(*power)))
        .map(|(_, words)| words)
}
