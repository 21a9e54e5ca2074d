//! `waiver-not-allowed`: only warnings can be accepted; an error is a contradiction that nobody can accept away.

use super::waiver_lapsed;
use crate::check::registry;
use crate::diag::{Finding, Rule, Severity, nearest};
use crate::model::{OnText, OnValue, Waiver};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "waiver_not_allowed",
    "waiver-not-allowed",
    Error,
    Reference,
    "a waiver is for a rule that cannot be waived, or not there"
);

/// The warnings that are about no value of an engine: they are waived in `base.toml`.
pub const ON_NO_VALUE: [&str; 11] = [
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
];

/// The warnings that may be about what no statement says: measures of the layout, a variant without a statement. Only
/// those of their findings are waived in `base.toml`.
pub const NOT_ALWAYS_ON_A_VALUE: [&str; 2] = ["relation-broken", "variant-changes-nothing"];

/// The rule of a waiver.
///
/// # Errors
///
/// The finding that what the rule finds cannot be accepted, or that there is no such rule.
pub fn warning(name: &str, span: Span) -> Result<&'static Rule, Box<Finding>> {
    let rules = registry::rules();
    let Some(rule) = rules.iter().find(|rule| rule.name == name) else {
        let near = nearest(name, rules.iter().map(|rule| rule.name));
        let help = near.map_or_else(
            || "`baybook explain` lists all rules".to_owned(),
            |near| format!("did you mean `{near}`?"),
        );
        return Err(Box::new(Finding::new(&RULE, span, format!("there is no rule `{name}`"), help)));
    };
    let (message, help) = match rule.severity {
        Severity::Warning if name == waiver_lapsed::RULE.name => (
            format!("`{name}` says that a waiver no longer acts, and is not waived itself"),
            "set a new day on that waiver, or take both out",
        ),
        Severity::Warning => return Ok(rule),
        Severity::Error => (
            format!("`{name}` is an error, and errors cannot be waived"),
            "mend what it finds, and take the waiver out",
        ),
        Severity::Note => (format!("`{name}` is only a note, and needs no waiver"), "take the waiver out"),
    };
    Err(Box::new(Finding::new(&RULE, span, message, help)))
}

/// A waiver in the file of an engine, of a rule that is about no value.
pub fn for_a_value(waiver: &Waiver<OnValue>) -> Finding {
    let message = format!("`{}` is about no value of an engine, and is waived in `base.toml`", waiver.rule);
    let help = "write the waiver there, with `on = { file = \"…\", text = \"…\" }`: the file of the finding and what it underlines";
    Finding::new(&RULE, waiver.span, message, help)
}

/// A waiver in `base.toml`, of a rule that is about a value.
pub fn for_a_text(waiver: &Waiver<OnText>) -> Finding {
    let message = format!("`{}` is about a value, and is waived in the file of its engine", waiver.rule);
    let help = "write the waiver there, with `on = { of = \"…\", value = \"…\" }`, and `where` and `when` as the statement has them";
    Finding::new(&RULE, waiver.span, message, help)
}
