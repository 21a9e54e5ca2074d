//! `min-for-max`: a least taken for a most turns every verdict round.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Printed, Statement};
use crate::quantity::Shape;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "min_for_max",
    "min-for-max",
    Warning,
    Physics,
    "a limit is a minimum where all others of its entry are a maximum, or the other way round"
);

/// So many other statements of the entry must all have the same side before one that has the other is odd.
const ENOUGH: usize = 3;

/// Every limit on one side, against all others of its entry and of its place.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        for (place, forms) in statement.form.alternatives().into_iter().enumerate() {
            let Some((first, side)) = forms.first().and_then(|one| Some((one, Side::of(one)?))) else {
                continue;
            };
            let others: Vec<_> = subject.statements().filter(|one| is_another(one, statement)).collect();
            let sides: Vec<_> = others.iter().filter_map(|one| of(&one.form, place)).collect();
            if sides.len() >= ENOUGH && sides.iter().all(|(other, _)| *other == Some(side.other())) {
                let seen = sides.first().map(|(_, printed)| *printed);
                sink.push(finding(statement, first, side, seen).about(statement.span));
            }
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Side {
    Min,
    Max,
}

impl Side {
    const fn of(printed: &Printed) -> Option<Self> {
        match printed.value.shape() {
            Shape::Min(_) | Shape::Over(_) => Some(Self::Min),
            Shape::Max(_) | Shape::Under(_) => Some(Self::Max),
            _ => None,
        }
    }

    const fn other(self) -> Self {
        match self {
            Self::Min => Self::Max,
            Self::Max => Self::Min,
        }
    }

    const fn word(self) -> &'static str {
        match self {
            Self::Min => "minimum",
            Self::Max => "maximum",
        }
    }
}

/// Two places of one entry may well have limits on different sides, as a rich and a lean voltage.
fn is_another(one: &Statement, statement: &Statement) -> bool {
    let (mine, theirs) = (&statement.identity, &one.identity);
    mine.of == theirs.of && one.span != statement.span && mine.place == theirs.place
}

/// The side of what stands at a place of a form, if anything does.
fn of(form: &Form, place: usize) -> Option<(Option<Side>, &Printed)> {
    let printed = form.alternatives().get(place)?.first()?;
    Some((Side::of(printed), printed))
}

fn finding(statement: &Statement, printed: &Printed, side: Side, seen: Option<&Printed>) -> Finding {
    let text = printed.value.text();
    let message = format!(
        "`{text}` of {} is a {}, and every other limit of this entry is a {}",
        statement.identity,
        side.word(),
        side.other().word()
    );
    let (here, there) = if side == Side::Min { ("min ", "max ") } else { ("max ", "min ") };
    let offer = text.strip_prefix(here).map(|rest| format!("; write `{there}{rest}` if the page says so"));
    let help = format!("look at the page again{}", offer.unwrap_or_default());
    let finding = Finding::new(&RULE, printed.span, message, help);
    match seen {
        Some(seen) => finding.with(seen.span, "another limit of this entry is here"),
        None => finding,
    }
}
