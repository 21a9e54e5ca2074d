//! Every rule of every phase, in one list: what `explain`, the handbook and the tests read.

use super::rules::{CHECKS, LAST};
use crate::diag::Rule;
use crate::{load, resolve};

/// Every rule, in order of group and name.
pub fn rules() -> Vec<&'static Rule> {
    let early = load::rules::RULES.iter().chain(resolve::rules::RULES).chain(LAST).copied();
    let mut all: Vec<_> = early.chain(CHECKS.iter().map(|check| check.rule)).collect();
    all.sort_by_key(|rule| (rule.group, rule.name));
    all
}

/// The rule of a name.
pub fn find(name: &str) -> Option<&'static Rule> {
    rules().into_iter().find(|rule| rule.name == name)
}
