//! `interval-impossible`: what no hour meter, calendar or odometer counts is never due.

use num_traits::Signed as _;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Printed};
use crate::quantity::{Exact, Kind, Shape, Unit, Value};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "interval_impossible",
    "interval-impossible",
    Error,
    Units,
    "a service interval is in no unit that one counts, is nothing, or is two of one kind"
);

/// Every part of every interval.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Interval { regular, first, severe } = &statement.form else { continue };
        for list in [regular, first, severe] {
            for (at, printed) in list.iter().enumerate() {
                let found = uncounted(subject, printed).or_else(|| nothing(printed));
                let found = found.or_else(|| list.iter().take(at).find_map(|before| second(before, printed)));
                found.into_iter().for_each(|finding| sink.push(finding.about(statement.span)));
            }
        }
    }
}

/// True for what an hour meter, the calendar or an odometer counts, or whoever uses a machine in cycles.
pub(super) fn is_counted(unit: Unit) -> bool {
    match unit.kind() {
        Kind::Time | Kind::CalendarTime => true,
        Kind::Length => ["km", "mi"].contains(&unit.symbol()),
        Kind::Count => unit.symbol() == "cycles",
        _ => false,
    }
}

fn uncounted(subject: &Subject<'_>, printed: &Printed) -> Option<Finding> {
    let unit = printed.value.unit();
    if is_counted(unit) {
        return None;
    }
    let help = if unit.symbol() == "m" {
        "write `months` if months are meant".to_owned()
    } else {
        "write hours, days, weeks, months, years, km or mi".to_owned()
    };
    let span = subject.sources.inside(printed.span, &printed.typed, printed.value.unit_range());
    Some(Finding::new(&RULE, span, format!("no interval is counted in `{}`", unit.symbol()), help))
}

/// An interval is one number, and more than nothing.
fn nothing(printed: &Printed) -> Option<Finding> {
    let value = &printed.value;
    let some = value.nominal().is_none_or(|number| *number > Exact::default());
    let none_below = value.max().is_none_or(|most| most.exact.is_positive());
    if some && none_below && !matches!(value.shape(), Shape::Turn(_)) {
        return None;
    }
    let message = format!("`{}` is no interval: it is due all the time", value.text());
    Some(Finding::new(&RULE, printed.span, message, "look at the page again"))
}

/// Two of one kind that are not one and the same in two units: makers round either to a number that one remembers, as
/// `1000 km` and `600 mi`, and not by a tenth (common practice, no source).
fn second(before: &Printed, printed: &Printed) -> Option<Finding> {
    let (first, second) = (&before.value, &printed.value);
    let same = first.unit() == second.unit();
    if !first.unit().converts_to(second.unit()) || same && first == second {
        return None;
    }
    let si = |value: &Value| value.nominal().map(|number| value.unit().to_si(number));
    let (one, other) = (si(first)?, si(second)?);
    if !same && (&one - &other).abs() * Exact::from_integer(10.into()) <= one {
        return None;
    }
    let message = format!("`{}` and `{}` are both intervals of one kind", first.text(), second.text());
    let help = "keep the one that holds; a first and a severe interval have keys of their own";
    Some(Finding::new(&RULE, printed.span, message, help).with(before.span, "the other is here"))
}
