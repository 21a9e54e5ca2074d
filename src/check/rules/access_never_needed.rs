//! `access-never-needed`: a check that opens something and does not say so counts too few minutes.

use crate::check::Subject;
use crate::check::left_out::misnames;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;
use crate::model::{Access, Complaint};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "access_never_needed",
    "access-never-needed",
    Warning,
    Complaint,
    "no check needs an access step"
);

/// Every access step of every complaint. Of steps that come before an unneeded one nothing is said: they are needed
/// once it is.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if subject.damaged.contains(&FileKind::Complaint) {
        return;
    }
    for complaint in subject.model.complaints.values() {
        if misnames(complaint.span.file, sink) {
            continue;
        }
        for step in complaint.access.iter().filter(|step| !is_needed(complaint, step)) {
            let message = format!(
                "no check of `{}` needs the access step `{}`: its minutes are never counted",
                complaint.id, step.id
            );
            let help = "name it in `needs` of the check it opens the way for, or take it out";
            sink.push(Finding::new(&RULE, step.span, message, help));
        }
    }
}

fn is_needed(complaint: &Complaint, step: &Access) -> bool {
    let checks = complaint.checks.iter().map(|check| &check.needs);
    let steps = complaint.access.iter().map(|other| &other.needs);
    checks.chain(steps).any(|needs| needs.contains(&step.id))
}
