//! `waiver-lapsed`: a waiver outlives its reason unless somebody looks at it again.

use crate::diag::{Finding, Rule};
use crate::model::Waiver;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("waiver_lapsed", "waiver-lapsed", Warning, Reference, "a waiver no longer acts");

/// A waiver whose last day is past.
pub fn by_date(waiver: &Waiver) -> Finding {
    let message = format!("the waiver of `{}` for {} ended on {}", waiver.rule, waiver.on, waiver.until);
    Finding::new(
        &RULE,
        waiver.until_span,
        message,
        "look at the value again; set a new day if the reason still holds",
    )
}

/// A waiver whose value has changed, or whose statement is gone.
pub fn by_value(waiver: &Waiver, stated: Option<Span>) -> Finding {
    let message = match stated {
        Some(_) => {
            format!("{} is no longer `{}`, for which `{}` was waived", waiver.on, waiver.value, waiver.rule)
        }
        None => format!("{} is not stated, and `{}` is waived for it", waiver.on, waiver.rule),
    };
    let finding = Finding::new(
        &RULE,
        waiver.value_span,
        message,
        "look at the value again; then mend the waiver or take it out",
    );
    match stated {
        Some(span) => finding.with(span, "the statement is here"),
        None => finding,
    }
}

/// A waiver of something that is not found any more.
pub fn needless(waiver: &Waiver) -> Finding {
    let message = format!("`{}` finds nothing at {}, so there is nothing to waive", waiver.rule, waiver.on);
    Finding::new(&RULE, waiver.span, message, "take the waiver out")
}
