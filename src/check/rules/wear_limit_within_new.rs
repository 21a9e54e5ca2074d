//! `wear-limit-within-new`: a part would be worn out before it was used: one of the two is read from the wrong column.

use crate::model::Form;
use crate::quantity::{Limit, Shape, Value};
use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("wear_limit_within_new", "wear-limit-within-new", Warning, Physics, "a wear limit lies within the fit of new parts");

/// Every wear limit that stands beside the fit of new parts.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Fit { new, wear_limit } = &statement.form else { continue };
        let (Some(new), Some(limit)) = (new.first(), wear_limit.first()) else { continue };
        if new.value.unit().kind() == limit.value.unit().kind() && crosses(&new.value, &limit.value) {
            let message = format!("the wear limit `{}` lies within new, `{}`", limit.value.text(), new.value.text());
            let help = "look at the page again: were the columns for new and for the limit swapped?";
            sink.push(Finding::new(&RULE, limit.span, message, help).with(new.span, "new is here").about(statement.span));
        }
    }
}

/// A greatest wear below the largest new size, or a least below which new parts already lie.
fn crosses(new: &Value, limit: &Value) -> bool {
    let si = |value: &Value, end: Option<Limit>| end.map(|end| value.unit().to_si(&end.exact));
    let (least, most) = (si(new, new.min()), si(new, new.max()));
    match limit.shape() {
        Shape::Max(_) | Shape::Under(_) => {
            most.or(least).zip(si(limit, limit.max())).is_some_and(|(new, worn)| worn < new)
        }
        Shape::Min(_) | Shape::Over(_) => {
            least.or(most).zip(si(limit, limit.min())).is_some_and(|(new, worn)| worn > new)
        }
        _ => false,
    }
}
