//! `variant-changes-nothing`: a bulletin was to change a value, and the old one may have been copied.

use std::sync::Arc;

use crate::check::Subject;
use crate::check::alike::says_no_more;
use crate::check::left_out::misnames;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;
use crate::model::{Engine, Identity, SourceClass, Statement, Variant, Words};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "variant_changes_nothing",
    "variant-changes-nothing",
    Warning,
    Reference,
    "a variant states nothing that its engine does not state without it"
);

/// Every variant that is in force in some build.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let unread = [FileKind::Catalogue, FileKind::Sources];
    if unread.iter().any(|kind| subject.damaged.contains(kind)) {
        return;
    }
    for engine in subject.model.engines.values().filter(|engine| engine.whole) {
        if misnames(engine.span.file, sink) {
            continue;
        }
        let in_force = engine.variants.iter().filter(|one| in_force(subject, engine, one));
        in_force.filter_map(|one| idle(subject, engine, one)).for_each(|finding| sink.push(finding));
    }
}

/// False where it reaches no machine, which has its finding, or where another takes its place everywhere.
fn in_force(subject: &Subject<'_>, engine: &Engine, variant: &Variant) -> bool {
    let mut builds = subject.model.builds.values().filter(|build| build.engine == engine.id);
    builds.any(|build| build.variants.contains(&variant.id))
}

fn idle(subject: &Subject<'_>, engine: &Engine, variant: &Variant) -> Option<Finding> {
    let source = variant.source.as_ref().and_then(|id| subject.model.sources.get(id));
    let stops = source.is_some_and(|source| source.class == SourceClass::Stop);
    // One that replaces another takes away what that one changed.
    if stops || !variant.replaces.is_empty() {
        return None;
    }
    let Some(first) = variant.statements.first() else {
        return variant.note.is_none().then(|| empty(engine, variant));
    };
    let stated: Option<Vec<_>> =
        variant.statements.iter().map(|new| stated_already(&engine.statements, new)).collect();
    stated?.first().map(|old| restated(engine, variant, first, old))
}

fn empty(engine: &Engine, variant: &Variant) -> Finding {
    let message =
        format!("the variant `{}` of `{}` changes nothing: it states nothing", variant.id, engine.id);
    let help = "state under `[[variant.spec]]` what the bulletin changes; if that is no value, say in `note` what it asks for, or take the variant out";
    Finding::new(&RULE, variant.span, message, help)
}

fn restated(engine: &Engine, variant: &Variant, first: &Statement, old: &Statement) -> Finding {
    let more = match variant.statements.len() {
        0 | 1 => String::new(),
        2 => " and one more".to_owned(),
        count => format!(" and {} more", count - 1),
    };
    let message = format!(
        "the variant `{}` changes nothing: it states {}{more} as `{}` does without it",
        variant.id, first.identity, engine.id
    );
    let help = "look at the bulletin: the engine's own value may have been copied; if it says the same, take the variant out";
    let finding = Finding::new(&RULE, variant.span, message, help);
    let finding = finding.with(old.span, "the engine's own value is here");
    finding.with(first.span, "the variant's is here").about(first.span)
}

/// The engine's own statement that says all that one of a variant says, and holds where it does.
fn stated_already<'a>(own: &'a [Arc<Statement>], new: &Statement) -> Option<&'a Statement> {
    let mut taken_out = own.iter().filter(|old| new.identity.covers(&old.identity));
    if !taken_out.all(|old| says_no_more(new, old)) {
        return None;
    }
    if let Some(exact) = own.iter().find(|old| old.identity == new.identity) {
        return Some(exact);
    }
    let mut nearby = own.iter().filter(|old| meets(&old.identity, &new.identity));
    let wider = own.iter().find(|old| old.identity.covers(&new.identity))?;
    nearby.all(|old| says_no_more(new, old)).then_some(wider)
}

/// True if some place and condition is that of both.
fn meets(one: &Identity, other: &Identity) -> bool {
    let agree =
        |one: &Words, other: &Words| one.iter().all(|(key, word)| other.get(key).is_none_or(|it| it == word));
    one.of == other.of && agree(&one.place, &other.place) && agree(&one.when, &other.when)
}
