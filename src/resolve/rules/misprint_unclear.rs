//! `misprint-unclear`: a misprint of no printed form, or of two, puts nothing right.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "misprint_unclear",
    "misprint-unclear",
    Error,
    Units,
    "it is not clear which printed form a misprint is of"
);

/// What a misprint says is printed, and the forms that are printed alike: none, or several.
pub fn finding(span: Span, typed: &str, alike: &[Span], key: &str, all: &[String]) -> Finding {
    if alike.is_empty() {
        let message = format!("`{typed}` is none of the printed forms of this value");
        let help = if all.is_empty() {
            format!(
                "`{key}` holds no printed form: write it as meant, and say in `note` what the page prints"
            )
        } else {
            format!("give one of them as it is printed: `{}`", all.join("`, `"))
        };
        return Finding::new(&RULE, span, message, help);
    }
    let message =
        format!("`{typed}` is printed {} times in this value, and which is wrong is not said", alike.len());
    let help = format!("write in `{key}` what is meant there, and say in `note` what the page prints");
    let finding = Finding::new(&RULE, span, message, help);
    alike.iter().fold(finding, |finding, one| finding.with(*one, "printed here"))
}
