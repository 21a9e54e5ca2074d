//! `relation-broken`: values that cannot all be right together: one of them was read wrongly.

use crate::check::Subject;
use crate::check::peers::{Groups, engines};
use crate::check::relation::{Breach, Use, breaches};
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
    findings(&RULE, subject, all).into_iter().for_each(|finding| sink.push(finding));
}

/// The findings of broken relations.
pub fn findings(rule: &'static Rule, subject: &Subject<'_>, all: Vec<Breach<'_>>) -> Vec<Finding> {
    if all.is_empty() {
        return Vec::new();
    }
    let groups = Groups::of(subject);
    all.into_iter().filter_map(|breach| finding(rule, breach, &groups)).collect()
}

/// A broken relation: its arithmetic at the likeliest value, the other values and the relation itself beside it.
fn finding(rule: &'static Rule, mut breach: Breach<'_>, groups: &Groups<'_>) -> Option<Finding> {
    let odd = odd_one(&mut breach.uses, groups).unwrap_or_default();
    let (first, others) = breach.uses.split_first()?;
    let relation = breach.relation;
    let message = format!("{}: {} ({})", relation.title, breach.arithmetic, relation.source);
    let look = relation.look.as_deref().unwrap_or("look at the page again");
    let parts = [look, &odd, &breach.remedy].into_iter().filter(|part| !part.is_empty());
    let help = parts.collect::<Vec<_>>().join("; ");
    let mut finding = Finding::new(rule, first.span, message, help);
    for other in others {
        finding = finding.with(other.span, format!("{} is here", other.name));
    }
    if let Some(span) = relation.holds.span {
        finding = finding.with(span, "the relation is here");
    }
    Some(match first.statement {
        Some(statement) => finding.about(statement.span),
        None => finding,
    })
}

/// The one value of several that is unlike that of every other engine: it comes first, and is said.
fn odd_one(uses: &mut [Use<'_>], groups: &Groups<'_>) -> Option<String> {
    if uses.iter().filter(|one| one.statement.is_some()).count() < 2 {
        return None;
    }
    let unlike = |(place, one): (usize, &Use<'_>)| Some((place, groups.unlike(one.statement?, one.span)?));
    let mut odd = uses.iter().enumerate().filter_map(unlike);
    let (Some((place, peers)), None) = (odd.next(), odd.next()) else { return None };
    let (least, most) = (peers.first()?, peers.last()?);
    uses.get_mut(..=place)?.rotate_right(1);
    Some(format!(
        "{} is the odd one out: {} other engines have `{}` to `{}`",
        uses.first()?.name,
        engines(&peers).len(),
        least.printed.value.text(),
        most.printed.value.text(),
    ))
}
