//! `cause-never-shown`: the order of checks would end without ever finding it.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("cause_never_shown", "cause-never-shown", Error, Complaint, "no check shows a cause");

/// Every cause of every complaint but what is left over.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for complaint in subject.model.complaints.values() {
        // A check that shows nothing known was to show something, and has its finding already.
        let unread = subject.damaged.contains(&FileKind::Complaint)
            || complaint.checks.iter().any(|check| check.shows.is_empty());
        for cause in complaint.causes.iter().filter(|cause| !cause.residual && !unread) {
            if !complaint.checks.iter().any(|check| check.shows.contains(&cause.id)) {
                let message = format!("no check of `{}` can show the cause `{}`", complaint.id, cause.id);
                let help =
                    "name it in `shows` of a check, or say `residual = true` if it is what is left over";
                sink.push(Finding::new(&RULE, cause.span, message, help));
            }
        }
    }
}
