//! `baybook explain`

use std::io::Write;

use serde_json::{Value, json};

use super::args::ExplainArguments;
use super::{Failure, Status, is_json, write_json};
use crate::check::registry;
use crate::diag::{Rule, nearest};

/// Writes the page of a rule, or the list of all.
pub fn run(arguments: &ExplainArguments, out: &mut dyn Write) -> Result<Status, Failure> {
    let Some(name) = &arguments.rule else { return list(arguments, out) };
    let rule = registry::find(name).ok_or_else(|| unknown(name))?;
    if is_json(arguments.format) {
        write_json(out, &described(rule))?;
    } else {
        writeln!(out, "{}\n\n{}", rule.page.trim(), rule.printed.trim_end())?;
    }
    Ok(Status::Answered)
}

fn list(arguments: &ExplainArguments, out: &mut dyn Write) -> Result<Status, Failure> {
    let rules = registry::rules();
    if is_json(arguments.format) {
        let all: Vec<_> = rules.iter().map(|rule| described(rule)).collect();
        write_json(out, &json!({ "rules": all }))?;
        return Ok(Status::Answered);
    }
    let mut group = None;
    for rule in rules {
        if group.replace(rule.group) != Some(rule.group) {
            writeln!(out, "{}", rule.group.title())?;
        }
        writeln!(out, "  {:<24} {:<8} {}", rule.name, rule.severity.word(), rule.summary)?;
    }
    Ok(Status::Answered)
}

fn described(rule: &Rule) -> Value {
    json!({
        "rule": rule.name,
        "severity": rule.severity.word(),
        "group": rule.group.title(),
        "summary": rule.summary,
        "page": rule.page,
    })
}

fn unknown(name: &str) -> Failure {
    let near = nearest(name, registry::rules().into_iter().map(|rule| rule.name));
    let help = near.map_or_else(
        || "`baybook explain` without a name lists all rules".to_owned(),
        |near| format!("did you mean `{near}`?"),
    );
    Failure::Usage(format!("there is no rule `{name}`"), help)
}
