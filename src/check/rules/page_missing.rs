//! `page-missing`: a second reader must find the same line without searching the manual.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Form;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("page_missing", "page-missing", Warning, Provenance, "a statement names no page");

/// Every statement with a source.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let unread = matches!(statement.form, Form::Absent(_));
        if let (Some(source), None, false) =
            (&statement.provenance.source, &statement.provenance.page, unread)
        {
            let message = format!("{} names no page of `{source}`", statement.identity);
            let help = "add `page`, and `row` and `column` where the page has a table";
            sink.push(Finding::new(&RULE, statement.span, message, help).about(statement.span));
        }
    }
}
