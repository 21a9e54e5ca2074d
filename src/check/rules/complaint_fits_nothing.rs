//! `complaint-fits-nothing`: a guide that no machine ever leads to; an entry in `fits.has` is stated by no engine, or a
//! word is wrong.

use crate::check::Subject;
use crate::check::fitting::{builds_are_known, unmet};
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "complaint_fits_nothing",
    "complaint-fits-nothing",
    Warning,
    Complaint,
    "a complaint fits no build"
);

/// Every complaint, against every build.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if !builds_are_known(subject, sink) || subject.damaged.contains(&FileKind::Complaint) {
        return;
    }
    for complaint in subject.model.complaints.values() {
        if let Some(help) = unmet(subject, &complaint.fits, complaint.span.file, sink) {
            let message = format!("the complaint `{}` fits no build", complaint.id);
            sink.push(Finding::new(&RULE, complaint.span, message, help));
        }
    }
}
