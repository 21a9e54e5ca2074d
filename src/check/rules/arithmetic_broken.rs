//! `arithmetic-broken`: numbers of which one follows from the others, and does not.

use super::relation_broken::findings;
use crate::check::Subject;
use crate::check::relation::breaches;
use crate::diag::{Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "arithmetic_broken",
    "arithmetic-broken",
    Error,
    Physics,
    "numbers of one engine contradict each other"
);

/// Every relation that only a wrong number can break.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let all = breaches(subject, |relation| relation.arithmetic);
    findings(&RULE, subject, all).into_iter().for_each(|finding| sink.push(finding));
}
