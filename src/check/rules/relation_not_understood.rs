//! `relation-not-understood`: a relation that says nothing checks nothing, and nobody would miss it.

use crate::check::Subject;
use crate::check::relation::bind;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "relation_not_understood",
    "relation-not-understood",
    Error,
    Physics,
    "the formula of a relation cannot be worked out"
);

/// Every relation of the base's own; those that Baybook carries are held to the catalogue as far as it goes.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if subject.damaged.contains(&FileKind::Catalogue) {
        return;
    }
    for relation in &subject.model.relations {
        let Some(span) = relation.holds.span else { continue };
        if let Err(problem) = bind(&relation.holds.text, subject.model, false) {
            let at = subject.sources.inside(span, &relation.holds.text, problem.range);
            let message = format!("`{}` is not understood: {}", relation.id, problem.message);
            sink.push(Finding::new(&RULE, at, message, problem.help));
        }
    }
}
