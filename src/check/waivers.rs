//! Waivers: warnings that the lead accepts are taken out; waivers that no longer act are found.

use super::Subject;
use super::rules::{waiver_lapsed, waiver_not_allowed};
use crate::diag::{Finding, Rule, Severity, Sink};
use crate::model::{Engine, Statement, Waiver};

/// Takes out what is waived. Runs after all other rules, since it looks at what they found.
pub fn apply(subject: &Subject<'_>, sink: &mut Sink) {
    for engine in subject.model.engines.values() {
        for waiver in &engine.waivers {
            if let Some(finding) = act(engine, waiver, subject, sink) {
                sink.push(finding);
            }
        }
    }
}

/// Takes out what one waiver accepts; a finding if it can accept nothing.
fn act(engine: &Engine, waiver: &Waiver, subject: &Subject<'_>, sink: &mut Sink) -> Option<Finding> {
    let rule = super::registry::find(&waiver.rule);
    let can_be = |rule: &&'static Rule| {
        rule.severity == Severity::Warning && !waiver_not_allowed::ON_NO_VALUE.contains(&rule.name)
    };
    let Some(rule) = rule.filter(can_be) else {
        return Some(waiver_not_allowed::finding(waiver, rule));
    };
    if waiver.until < subject.today {
        return Some(waiver_lapsed::by_date(waiver));
    }
    let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
    let stated: Vec<&Statement> = engine.statements.iter().chain(varied).map(AsRef::as_ref).collect();
    let on: Vec<_> = stated.iter().filter(|one| waiver.is_on(one)).map(|one| one.span).collect();
    if on.is_empty() {
        let same = stated.iter().find(|one| one.identity == waiver.on).map(|one| one.span);
        return (engine.whole).then(|| waiver_lapsed::by_value(waiver, same));
    }
    let mut acted = false;
    sink.accept(|finding| {
        let accepted =
            finding.rule.name == rule.name && finding.about.is_some_and(|about| on.contains(&about));
        acted = acted || accepted;
        accepted
    });
    (!acted).then(|| waiver_lapsed::needless(waiver))
}
