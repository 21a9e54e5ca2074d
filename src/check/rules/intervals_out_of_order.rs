//! `intervals-out-of-order`: a first service after the regular one, or hours and distance that no machine drives.

use super::interval_impossible::is_counted;
use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Printed, Statement};
use crate::quantity::{Exact, Kind, decimal_text};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "intervals_out_of_order",
    "intervals-out-of-order",
    Warning,
    Physics,
    "a first or severe interval is longer than the regular one, or its hours and distance do not go together"
);

/// Every service interval.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Interval { regular, first, severe } = &statement.form else { continue };
        for (name, list) in [("first", first), ("severe", severe)] {
            for printed in list {
                let same = regular.iter().find(|one| one.value.unit().kind() == printed.value.unit().kind());
                if let Some(regular) = same.filter(|regular| si(printed) > si(regular)) {
                    let message = format!(
                        "the {name} interval `{}` is longer than the regular one, `{}`",
                        printed.value.text(),
                        regular.value.text()
                    );
                    let help = "look whether the rows were swapped";
                    sink.push(
                        Finding::new(&RULE, printed.span, message, help)
                            .with(regular.span, "the regular one is here")
                            .about(statement.span),
                    );
                }
            }
        }
        for list in [regular, first, severe] {
            if let Some(finding) = speed(list) {
                sink.push(at(finding, statement));
            }
        }
    }
}

fn at(finding: Finding, statement: &Statement) -> Finding {
    finding.about(statement.span)
}

fn si(printed: &Printed) -> Option<Exact> {
    printed.value.nominal().map(|nominal| printed.value.unit().to_si(nominal))
}

/// Distance over hours: 8 to 60 km/h in use (common practice, no source).
fn speed(list: &[Printed]) -> Option<Finding> {
    let of =
        |kind: Kind| list.iter().find(|one| one.value.unit().kind() == kind && is_counted(one.value.unit()));
    let (hours, distance) = (of(Kind::Time)?, of(Kind::Length)?);
    let metres_a_second = si(distance)? / si(hours).filter(|time| *time > Exact::default())?;
    let speed = metres_a_second * Exact::new(18.into(), 5.into());
    if (Exact::from_integer(8.into())..=Exact::from_integer(60.into())).contains(&speed) {
        return None;
    }
    let message = format!(
        "`{}` in `{}` is {} km/h, and machines are used at 8 to 60 km/h (common practice, no source)",
        distance.value.text(),
        hours.value.text(),
        decimal_text(&speed, 1),
    );
    let finding =
        Finding::new(&RULE, distance.span, message, "look at the units, and whether both are of one row");
    Some(finding.with(hours.span, "the hours are here"))
}
