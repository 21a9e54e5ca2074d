//! `waiver-lapsed`: a waiver outlives its reason unless somebody looks at it again.

use std::fmt::Display;

use crate::diag::{Finding, Rule, nearest};
use crate::model::{OnText, OnValue, Waiver};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("waiver_lapsed", "waiver-lapsed", Warning, Reference, "a waiver no longer acts");

/// A waiver whose last day is past.
pub fn by_date<On: Display>(waiver: &Waiver<On>) -> Finding {
    let message = format!("the waiver of `{}` for {} ended on {}", waiver.rule, waiver.on, waiver.until);
    let help = "look at it again; set a new day if the reason still holds, else take the waiver out";
    Finding::new(&RULE, waiver.until_span, message, help)
}

/// A waiver whose statement says something else, or is gone.
pub fn by_value(waiver: &Waiver<OnValue>, stated: Option<Span>) -> Finding {
    let Waiver { on, rule, .. } = waiver;
    let message = match stated {
        Some(_) => format!("{on} is no longer `{}`, for which `{rule}` was waived", on.value),
        None => format!("{on} is not stated, and `{rule}` is waived for it"),
    };
    let help = "look at the value again; then mend the waiver or take it out";
    let finding = Finding::new(&RULE, on.value_span, message, help);
    match stated {
        Some(span) => finding.with(span, "the statement is here"),
        None => finding,
    }
}

/// A waiver of something that is not found any more.
pub fn needless(waiver: &Waiver<OnValue>) -> Finding {
    let message = format!("`{}` finds nothing at {}, so there is nothing to waive", waiver.rule, waiver.on);
    Finding::new(&RULE, waiver.span, message, "take the waiver out")
}

/// A waiver for a file that the base has not.
pub fn by_file<'a>(waiver: &Waiver<OnText>, paths: impl Iterator<Item = &'a str>) -> Finding {
    let file = &waiver.on.file;
    let message = format!("the base has no file `{file}`, and `{}` is waived for it", waiver.rule);
    let help = nearest(file, paths).map_or_else(
        || "write the path of the file as a finding shows it, or take the waiver out".to_owned(),
        |near| format!("did you mean `{near}`?"),
    );
    Finding::new(&RULE, waiver.on.file_span, message, help)
}

/// A waiver for a text that its rule does not find in the file; what it finds there may be another.
pub fn by_text(waiver: &Waiver<OnText>, other: Option<&str>) -> Finding {
    let OnText { file, text, text_span, .. } = &waiver.on;
    let rule = &waiver.rule;
    let message = match text {
        Some(text) => format!("`{rule}` finds no `{text}` in `{file}`, so there is nothing to waive"),
        None => format!("`{rule}` does not find the file `{file}` as a whole, so there is nothing to waive"),
    };
    let help = match (text, other.map(str::trim)) {
        (Some(_), Some("")) => "it is about the file as a whole: leave `text` out".to_owned(),
        (None, Some(_)) => "say in `text` what it underlines there".to_owned(),
        (Some(_), Some(_)) => {
            "look at what it finds there now; then mend the waiver or take it out".to_owned()
        }
        (_, None) => "take the waiver out".to_owned(),
    };
    Finding::new(&RULE, *text_span, message, help)
}
