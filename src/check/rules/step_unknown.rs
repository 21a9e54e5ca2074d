//! `step-unknown`: a branch into nowhere leaves the technician stranded.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Link, Piece};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "step_unknown",
    "step-unknown",
    Error,
    Procedure,
    "a link points at a step that is not there"
);

/// Every link to a step, against the numbered steps of its procedure.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        let count = procedure.steps();
        for piece in &procedure.body {
            let Piece::Link { link: Link::Step(step), span, .. } = piece else { continue };
            let known = step.parse::<usize>().is_ok_and(|number| (1..=count).contains(&number));
            if !known {
                let message = format!("`{}` has no step `{step}`", procedure.id);
                sink.push(Finding::new(
                    &RULE,
                    *span,
                    message,
                    format!("its steps are numbered 1 to {count}; write `step:` and a number"),
                ));
            }
        }
    }
}
