//! `missing-in-build`: the technician would stand at that step without the number.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Build, Identity, Piece, Procedure, Words};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "missing_in_build",
    "missing-in-build",
    Error,
    Reference,
    "a procedure uses a statement that a build it fits does not have"
);

/// Every link of every procedure, in every build it fits.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        let fitting: Vec<_> = subject
            .model
            .builds
            .values()
            .filter(|build| subject.model.fits_build(&procedure.fits, build))
            .collect();
        for piece in &procedure.body {
            let Piece::Link { link, span, .. } = piece else { continue };
            let Some((of, narrow)) = link.entry() else { continue };
            let lacks = fitting
                .iter()
                .find(|build| subject.engine_is_whole(build) && build.values(of, narrow).next().is_none());
            if let Some(build) = lacks {
                let of = Identity { of: of.clone(), place: narrow.clone(), when: Words::new() };
                sink.push(finding(procedure, build, &of, *span));
            }
        }
    }
}

fn finding(procedure: &Procedure, build: &Build, of: &Identity, span: Span) -> Finding {
    let message =
        format!("the procedure `{}` fits the build `{}`, which has no value of {of}", procedure.id, build.id);
    let help = format!(
        "state {of} for that engine, or add `{}` to `fits.has`, so that the procedure fits only builds that have it",
        of.of
    );
    Finding::new(&RULE, span, message, help)
}
