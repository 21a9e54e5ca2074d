//! `procedure-fits-nothing`: nobody will ever see it: an entry in `fits.has` is stated by no engine, or a word is wrong.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;
use crate::model::EntryId;

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
    let unread = [FileKind::Engine, FileKind::Catalogue, FileKind::Procedure];
    let read =
        super::fittings_are_known(subject) && subject.model.engines.values().all(|engine| engine.whole);
    if !read || unread.iter().any(|kind| subject.damaged.contains(kind)) {
        return;
    }
    for procedure in subject.model.procedures.values() {
        if !subject.model.builds.values().any(|build| subject.model.fits_build(&procedure.fits, build)) {
            let message = format!("the procedure `{}` fits no build", procedure.id);
            let stated = |of: &&EntryId| {
                subject.model.builds.values().any(|build| build.of(of).any(|one| one.has_value()))
            };
            let help = procedure.fits.has.iter().find(|of| !stated(of)).map_or_else(
                || "look at `fits`: no build has all that it asks for".to_owned(),
                |of| format!("no build has a value of `{of}`, which `fits.has` asks for"),
            );
            sink.push(Finding::new(&RULE, procedure.span, message, help));
        }
    }
}
