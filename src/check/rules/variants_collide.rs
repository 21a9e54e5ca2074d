//! `variants-collide`: which of two bulletins holds would be left to chance.

use std::collections::BTreeSet;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Statement, Variant};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "variants_collide",
    "variants-collide",
    Error,
    Reference,
    "two variants set one statement for one machine"
);

/// Every build with more than one variant: no two may set the same statement.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let mut seen = BTreeSet::new();
    for build in subject.model.builds.values() {
        let Some(engine) = subject.model.engines.get(&build.engine) else { continue };
        let active: Vec<_> = engine.variants.iter().filter(|one| build.variants.contains(&one.id)).collect();
        for (index, first) in active.iter().enumerate() {
            for second in active.iter().skip(index + 1) {
                for (one, other) in colliding(first, second) {
                    if seen.insert((one.span, other.span)) {
                        sink.push(finding(first, second, one, other));
                    }
                }
            }
        }
    }
}

/// Statements of two variants of which one takes in the other.
fn colliding<'a>(first: &'a Variant, second: &'a Variant) -> Vec<(&'a Statement, &'a Statement)> {
    let pairs =
        first.statements.iter().flat_map(|one| second.statements.iter().map(move |other| (one, other)));
    let collide = pairs
        .filter(|(one, other)| one.identity.covers(&other.identity) || other.identity.covers(&one.identity));
    collide.map(|(one, other)| (one.as_ref(), other.as_ref())).collect()
}

fn finding(first: &Variant, second: &Variant, one: &Statement, other: &Statement) -> Finding {
    let message = format!(
        "the variants `{}` and `{}` both set {} for one machine",
        first.id, second.id, other.identity
    );
    let help = format!(
        "if `{1}` takes the place of `{0}`, say `replaces = [\"{0}\"]` in it, or the other way round; if each has its own machines, narrow `applies`",
        first.id, second.id
    );
    Finding::new(&RULE, other.span, message, help).with(one.span, format!("`{}` sets it here", first.id))
}
