//! `source-missing`: a number nobody can look up again cannot be trusted or corrected.

use std::sync::Arc;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Absence, Form, Statement};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("source_missing", "source-missing", Error, Provenance, "a statement names no source");

/// Every statement that was read from somewhere. Where no statement of an engine names a source, bulletins
/// aside, it is one thing that is lacking, and is found once.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for engine in subject.model.engines.values() {
        let read = |all: &[Arc<Statement>]| all.iter().filter(|one| was_read(one)).count();
        let own: Vec<_> = engine.statements.iter().filter(|one| lacks(one)).collect();
        if let [first, _, ..] = own.as_slice()
            && own.len() == read(&engine.statements)
        {
            let message =
                format!("{} and every other statement of `{}` name no source", first.identity, engine.id);
            let help = "add `source` under `[defaults]`, or to each statement where they come from several";
            sink.push(Finding::new(&RULE, first.span, message, help));
            continue;
        }
        let varied = engine.variants.iter().flat_map(|variant| &variant.statements).filter(|one| lacks(one));
        for one in own.into_iter().chain(varied) {
            let message = format!("{} names no source", one.identity);
            let help = "add `source`, or `[defaults] source` for the whole engine";
            sink.push(Finding::new(&RULE, one.span, message, help).about(one.span));
        }
    }
}

fn lacks(statement: &Statement) -> bool {
    was_read(statement) && statement.provenance.source.is_none() && !statement.source_unknown
}

/// False where there is nothing to read: no such thing, or not read yet.
fn was_read(statement: &Statement) -> bool {
    !matches!(statement.form, Form::Absent(Absence::NotApplicable | Absence::NotRead))
        || !statement.understood
}
