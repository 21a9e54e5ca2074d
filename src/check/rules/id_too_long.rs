//! `id-too-long`: an id becomes the name of a file, and no file system takes one of any length.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "id_too_long",
    "id-too-long",
    Error,
    Reference,
    "an id is longer than the name of a file can be"
);

/// The longest id, in letters.
const LONGEST: usize = 60;
/// The longest id of a build, in letters: file systems take 255 bytes.
const LONGEST_BUILD: usize = 200;

/// Every id that a sheet or a file of the bundle is called by, and every build.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let model = subject.model;
    let variants = model.engines.values().flat_map(|engine| &engine.variants);
    let engines = model.engines.values().map(|one| (one.id.as_str(), one.span));
    let all = engines
        .chain(variants.map(|one| (one.id.as_str(), one.span)))
        .chain(model.entries.values().map(|one| (one.id.as_str(), one.span)))
        .chain(model.machines.values().map(|one| (one.id.as_str(), one.span)))
        .chain(model.sources.values().map(|one| (one.id.as_str(), one.span)))
        .chain(model.gauges.values().map(|one| (one.id.as_str(), one.span)))
        .chain(model.hazards.values().map(|one| (one.id.as_str(), one.span)))
        .chain(model.procedures.values().map(|one| (one.id.as_str(), one.span)))
        .chain(model.complaints.values().map(|one| (one.id.as_str(), one.span)))
        .chain(model.codes.values().map(|one| (one.id.as_str(), one.span)));
    for (id, span) in all.filter(|(id, _)| id.len() > LONGEST) {
        sink.push(finding("an id", id.len(), LONGEST, span));
    }
    for build in model.builds.values().filter(|build| build.id.as_str().len() > LONGEST_BUILD) {
        let Some(engine) = model.engines.get(&build.engine) else { continue };
        let (what, letters) =
            (format!("the build of {} variants", build.variants.len()), build.id.as_str().len());
        sink.push(finding(&what, letters, LONGEST_BUILD, engine.span));
    }
}

fn finding(what: &str, letters: usize, longest: usize, span: Span) -> Finding {
    let message = format!("{what} has {letters} letters, and at most {longest} make the name of a file");
    Finding::new(&RULE, span, message, "give it a shorter one; what it is belongs into its title")
}
