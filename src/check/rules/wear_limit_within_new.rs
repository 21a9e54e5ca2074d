//! `wear-limit-within-new`: a part would be worn out before it was used: one of the two is read from the wrong column.

use super::dual_units_disagree::contradict;
use crate::check::{Subject, witnesses};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Form, Statement};
use crate::quantity::{Limit, Shape, Side, Value, likely_slips_beside};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "wear_limit_within_new",
    "wear-limit-within-new",
    Warning,
    Physics,
    "a wear limit lies within the fit of new parts"
);

/// Every wear limit that stands beside the fit of new parts.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Fit { new, wear_limit } = &statement.form else { continue };
        let (Some(first_new), Some(limit)) = (new.first(), wear_limit.first()) else { continue };
        let said_already = contradict(new) || contradict(wear_limit);
        if !said_already
            && limit.value.unit().converts_to(first_new.value.unit())
            && crosses(&first_new.value, &limit.value)
        {
            let message = format!(
                "the wear limit `{}` lies within new, `{}`",
                limit.value.text(),
                first_new.value.text()
            );
            let help = help(subject, statement, &first_new.value, &limit.value);
            let finding = Finding::new(&RULE, limit.span, message, help).with(first_new.span, "new is here");
            sink.push(finding.about(statement.span));
        }
    }
}

/// The likelier slip first; where none explains it, the columns may be swapped.
fn help(subject: &Subject<'_>, statement: &Statement, new: &Value, limit: &Value) -> String {
    if touches(new, limit) {
        return "look at the page again: one of the two was read from the column of the other".to_owned();
    }
    let (of_new, of_limit) = (witnesses::of(subject, statement, 0), witnesses::of(subject, statement, 1));
    let slips = likely_slips_beside((new, &of_new), (limit, &of_limit), |new, limit| !crosses(new, limit));
    let columns = "look at the page again: were the columns for new and for the limit swapped?";
    let offers: Vec<_> = slips
        .iter()
        .map(|slip| {
            let at = if slip.side == Side::Primary { "in new" } else { "in the limit" };
            format!("{} {at}: write `{}`", slip.what, slip.offer)
        })
        .collect();
    if offers.is_empty() { columns.to_owned() } else { format!("{columns} or {}", offers.join("; or ")) }
}

/// Whether the limit is one of the ends of new: no slip of a digit, but of the eye.
fn touches(new: &Value, limit: &Value) -> bool {
    let ends = |value: &Value| {
        let ends = [value.min(), value.max()].into_iter().flatten();
        ends.map(|end| value.unit().to_si(&end.exact)).collect::<Vec<_>>()
    };
    let worn = ends(limit);
    ends(new).iter().any(|end| worn.contains(end))
}

/// A greatest wear not above the largest new size, or a least not below the smallest: a limit that new parts
/// already touch leaves nothing to wear, and was taken from the column beside it.
fn crosses(new: &Value, limit: &Value) -> bool {
    let si = |value: &Value, end: Option<Limit>| end.map(|end| value.unit().to_si(&end.exact));
    let (least, most) = (si(new, new.min()), si(new, new.max()));
    match limit.shape() {
        Shape::Max(_) | Shape::Under(_) => {
            most.or(least).zip(si(limit, limit.max())).is_some_and(|(new, worn)| worn <= new)
        }
        Shape::Min(_) | Shape::Over(_) => {
            least.or(most).zip(si(limit, limit.min())).is_some_and(|(new, worn)| worn >= new)
        }
        _ => false,
    }
}
