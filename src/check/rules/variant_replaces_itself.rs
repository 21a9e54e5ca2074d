//! `variant-replaces-itself`: of variants that replace each other none is left, and nobody knows which holds.

use std::collections::BTreeSet;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Variant, VariantId};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "variant_replaces_itself",
    "variant-replaces-itself",
    Error,
    Reference,
    "a variant replaces itself, at once or by way of others"
);

/// Every variant of every engine: following what it replaces must not lead back to it. A circle is said once, at the
/// first variant of it.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for engine in subject.model.engines.values() {
        let mut said: BTreeSet<&VariantId> = BTreeSet::new();
        for variant in &engine.variants {
            if said.contains(&variant.id) {
                continue;
            }
            if let Some(way) = way_back(&engine.variants, variant) {
                let by_way: Vec<_> = way.iter().skip(1).map(|one| format!("`{}`", one.id)).collect();
                let message = if by_way.is_empty() {
                    format!("`{}` replaces itself", variant.id)
                } else {
                    let by_way = by_way.join(", which replaces ");
                    format!("`{}` replaces {by_way}, which replaces it", variant.id)
                };
                let help =
                    "take one `replaces` out: the newer bulletin replaces the older, never the other way";
                let finding = Finding::new(&RULE, variant.span, message, help);
                let others = way.iter().skip(1);
                sink.push(others.fold(finding, |found, one| found.with(one.span, "the other is here")));
                said.extend(way.iter().map(|one| &one.id));
            }
        }
    }
}

/// The variants on the way from one back to itself, it first.
fn way_back<'a>(all: &'a [Variant], start: &'a Variant) -> Option<Vec<&'a Variant>> {
    let mut ways = vec![vec![start]];
    let mut seen = BTreeSet::new();
    while let Some(way) = ways.pop() {
        let last = way.last()?;
        for next in all.iter().filter(|one| last.replaces.contains(&one.id)) {
            if next.id == start.id {
                return Some(way);
            }
            if seen.insert(&next.id) {
                ways.push(way.iter().copied().chain([next]).collect());
            }
        }
    }
    None
}
