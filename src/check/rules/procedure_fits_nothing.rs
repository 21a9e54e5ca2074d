//! `procedure-fits-nothing`: nobody will ever see it: an entry in `fits.has` is stated by no engine, or a word is wrong.

use crate::check::Subject;
use crate::check::fitting::{builds_are_known, unmet};
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "procedure_fits_nothing",
    "procedure-fits-nothing",
    Warning,
    Procedure,
    "a procedure fits no build"
);

/// Every procedure, against every build.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if !builds_are_known(subject, sink) || subject.damaged.contains(&FileKind::Procedure) {
        return;
    }
    for procedure in subject.model.procedures.values() {
        if let Some(help) = unmet(subject, &procedure.fits, procedure.span.file, sink) {
            let message = format!("the procedure `{}` fits no build", procedure.id);
            sink.push(Finding::new(&RULE, procedure.span, message, help));
        }
    }
}
