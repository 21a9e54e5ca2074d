//! `superseded-source`: the maker took that edition back; its number may have changed.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "superseded_source",
    "superseded-source",
    Warning,
    Provenance,
    "a statement was read from a source that another supersedes"
);

/// Every statement, against the sources that take the place of its own.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Some(cited) = &statement.provenance.source else { continue };
        let newer = subject.model.sources.values().find(|source| source.supersedes.contains(cited));
        if let Some(newer) = newer {
            let message =
                format!("{} was read from `{cited}`, which `{}` supersedes", statement.identity, newer.id);
            let help = format!("read it again from `{}`, and name that source and its page", newer.id);
            let finding = Finding::new(&RULE, statement.span, message, help);
            sink.push(finding.with(newer.span, "the newer source is here").about(statement.span));
        }
    }
}
