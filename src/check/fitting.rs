//! What fits no build, a procedure or a complaint: nobody would ever see it.

use std::sync::Arc;

use super::Subject;
use super::left_out::misnames;
use super::rules::fittings_are_known;
use crate::diag::Sink;
use crate::load::place::FileKind;
use crate::model::{Build, BuildId, Engine, EntryId, Fitting, Variant};
use crate::source::FileId;

/// True if all was read and understood that says which builds there are and what they state.
pub fn builds_are_known(subject: &Subject<'_>, sink: &Sink) -> bool {
    let unread = [FileKind::Engine, FileKind::Catalogue];
    let whole = |engine: &Engine| engine.whole && !misnames(engine.span.file, sink);
    fittings_are_known(subject)
        && subject.model.engines.values().all(whole)
        && !unread.iter().any(|kind| subject.damaged.contains(kind))
}

/// How to mend what a file asks for in `fits`, if no build has it; none too if that has a finding already: a name that is
/// not known, an engine that no machine has, a variant that reaches none.
pub fn unmet(subject: &Subject<'_>, fits: &Fitting, file: FileId, sink: &Sink) -> Option<String> {
    let model = subject.model;
    let met = |build: &Build| model.fits_build(fits, build);
    let mut unreached = model.engines.values().filter_map(|engine| unreached(subject, engine));
    let asks = *fits != Fitting::default();
    if !asks || misnames(file, sink) || model.builds.values().any(met) || unreached.any(|build| met(&build)) {
        return None;
    }
    let stated = |of: &EntryId| model.builds.values().any(|build| build.of(of).any(|one| one.has_value()));
    let lacking = fits.has.iter().find(|of| !stated(of));
    Some(lacking.map_or_else(
        || "look at `fits`: no build has all that it asks for".to_owned(),
        |of| format!("no build has a value of `{of}`, which `fits.has` asks for"),
    ))
}

/// An engine as it would be if its variants that are in no build were in force; none if all of it is in some build.
fn unreached(subject: &Subject<'_>, engine: &Engine) -> Option<Build> {
    let builds: Vec<_> = subject.model.builds.values().filter(|build| build.engine == engine.id).collect();
    let in_none = |variant: &&Variant| !builds.iter().any(|build| build.variants.contains(&variant.id));
    let lost: Vec<&Variant> = engine.variants.iter().filter(in_none).collect();
    let varied = lost.iter().flat_map(|variant| &variant.statements);
    (builds.is_empty() || !lost.is_empty()).then(|| Build {
        id: BuildId::new(engine.id.as_str()),
        engine: engine.id.clone(),
        variants: lost.iter().map(|variant| variant.id.clone()).collect(),
        statements: engine.statements.iter().chain(varied).map(Arc::clone).collect(),
    })
}
