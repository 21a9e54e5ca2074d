//! `min-for-max`: a least taken for a most turns every verdict round.

use std::collections::BTreeMap;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{EntryId, Printed, Statement, Words};
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

/// The first printed form of a value, and its side if it has one.
type Limit<'a> = (&'a Statement, &'a Printed, Option<Side>);

/// Every limit on one side, against all others of its entry and of its place. Two places of one entry may well have limits
/// on different sides, as a rich and a lean voltage.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let mut groups: BTreeMap<(&EntryId, &Words, usize), Vec<Limit<'_>>> = BTreeMap::new();
    for statement in subject.statements() {
        let identity = &statement.identity;
        for (role, forms) in statement.form.alternatives().into_iter().enumerate() {
            if let Some(first) = forms.first() {
                let group = groups.entry((&identity.of, &identity.place, role)).or_default();
                group.push((statement, first, Side::of(first)));
            }
        }
    }
    groups.values().filter_map(|group| odd_one(group)).for_each(|finding| sink.push(finding));
}

/// The one limit of a group that has the other side than all the rest.
fn odd_one(group: &[Limit<'_>]) -> Option<Finding> {
    let on = |side: Side| group.iter().filter(move |(.., one)| *one == Some(side));
    let all_but_one = group.len().checked_sub(1).filter(|rest| *rest >= ENOUGH)?;
    let side = [Side::Min, Side::Max].into_iter().find(|side| on(side.other()).count() == all_but_one)?;
    let (statement, first, _) = on(side).next()?;
    let seen = on(side.other()).next().map(|(_, printed, _)| *printed);
    Some(finding(statement, first, side, seen).about(statement.span))
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
