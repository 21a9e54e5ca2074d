//! `waiver-not-allowed`: only warnings can be accepted; an error is a contradiction that nobody can accept away.

use crate::check::registry;
use crate::diag::{Finding, Rule, Severity, nearest};
use crate::model::Waiver;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "waiver_not_allowed",
    "waiver-not-allowed",
    Error,
    Reference,
    "a waiver is for a rule that cannot be waived"
);

/// The warnings that are about no value of an engine: a waiver is given for a value, and has none to be given for.
pub const ON_NO_VALUE: [&str; 12] = [
    "access-never-needed",
    "codes-without-source",
    "complaint-fits-nothing",
    "engine-not-fitted",
    "file-name-differs",
    "file-out-of-place",
    "name-means-two-things",
    "number-in-prose",
    "procedure-fits-nothing",
    "stop-never-cited",
    "variant-fits-nothing",
    "waiver-lapsed",
];

/// A waiver for an error, a note, or a rule that is not there.
pub fn finding(waiver: &Waiver, rule: Option<&Rule>) -> Finding {
    let name = &waiver.rule;
    let (message, help) = match rule {
        Some(rule) if rule.severity == Severity::Error => (
            format!("`{name}` is an error, and errors cannot be waived"),
            "mend what it finds, and take the waiver out".to_owned(),
        ),
        Some(rule) if rule.severity == Severity::Warning => (
            format!("`{name}` is about no value of an engine, and only a value can be waived"),
            "mend what it finds, and take the waiver out; it stays a warning, and stops nothing".to_owned(),
        ),
        Some(_) => {
            (format!("`{name}` is only a note, and needs no waiver"), "take the waiver out".to_owned())
        }
        None => {
            let near = nearest(name, registry::rules().into_iter().map(|rule| rule.name));
            let help = near.map_or_else(
                || "`baybook explain` lists all rules".to_owned(),
                |near| format!("did you mean `{near}`?"),
            );
            (format!("there is no rule `{name}`"), help)
        }
    };
    Finding::new(&RULE, waiver.span, message, help)
}
