//! `step-unknown`: a branch into nowhere leaves the technician stranded.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Link, Piece, Procedure};

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
        left_open(procedure, count, sink);
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

/// What stands open is opened by a step that is there, and closed by a later one.
fn left_open(procedure: &Procedure, count: usize, sink: &mut Sink) {
    for one in &procedure.left_open {
        let closed = usize::try_from(one.until).is_ok_and(|until| until <= count);
        if one.from == 0 || one.from >= one.until || !closed {
            let message = format!("`{}` is open from step {} until step {}", one.what, one.from, one.until);
            let help = format!(
                "the steps of `{}` are numbered 1 to {count}; name the step that closes it, after the one that opens it",
                procedure.id
            );
            sink.push(Finding::new(&RULE, one.span, message, help));
        }
    }
}
