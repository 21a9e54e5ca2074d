//! `relation-broken`: values that cannot all be right together: one of them was read wrongly.

use crate::check::Subject;
use crate::check::relation::{Breach, breaches};
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "relation_broken",
    "relation-broken",
    Warning,
    Physics,
    "values of one engine do not go together"
);

/// Every relation that a manual's rounding or an unusual engine may break.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let all = breaches(subject, |relation| !relation.arithmetic);
    all.iter().filter_map(|breach| finding(&RULE, breach)).for_each(|finding| sink.push(finding));
}

/// A broken relation: its arithmetic at the likeliest value, the other values and the relation itself beside it.
pub fn finding(rule: &'static Rule, breach: &Breach<'_>) -> Option<Finding> {
    let (first, others) = breach.uses.split_first()?;
    let relation = breach.relation;
    let message = format!("{}: {} ({})", relation.title, breach.arithmetic, relation.source);
    let look = relation.look.as_deref().unwrap_or("look at the page again");
    let help = if breach.remedy.is_empty() { look.to_owned() } else { format!("{look}; {}", breach.remedy) };
    let mut finding = Finding::new(rule, first.span, message, help);
    for other in others {
        finding = finding.with(other.span, format!("`{}` is here", other.name));
    }
    if let Some(span) = relation.holds.span {
        finding = finding.with(span, "the relation is here");
    }
    Some(match first.statement {
        Some(statement) => finding.about(statement.span),
        None => finding,
    })
}
