//! `source-missing`: a number nobody can look up again cannot be trusted or corrected.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Absence, Form};

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("source_missing", "source-missing", Error, Provenance, "a statement names no source");

/// Every statement that was read from somewhere.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let unread = matches!(statement.form, Form::Absent(Absence::NotApplicable | Absence::NotRead));
        if statement.provenance.source.is_none() && !statement.source_unknown && !unread {
            let message = format!("{} names no source", statement.identity);
            let help = "add `source`, or `[defaults] source` for the whole engine";
            sink.push(Finding::new(&RULE, statement.span, message, help).about(statement.span));
        }
    }
}
