//! `never-used`: a source or a hazard that nothing names was forgotten where it belongs, or is no longer needed.

use crate::check::Subject;
use crate::check::left_out::all_is_read;
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;
use crate::model::{Source, SourceClass};
use crate::resolve::rules::link_not_understood;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "never_used",
    "never-used",
    Note,
    Reference,
    "a source or a hazard is defined, and nothing names it"
);

/// What may name a source.
const NAMING_SOURCES: [FileKind; 4] =
    [FileKind::Sources, FileKind::Engine, FileKind::Codes, FileKind::Rereads];
/// What may name a hazard.
const NAMING_HAZARDS: [FileKind; 4] =
    [FileKind::Catalogue, FileKind::Gauges, FileKind::Procedure, FileKind::Complaint];

/// Every source and every hazard.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if all_is_read(subject, &NAMING_SOURCES, sink) {
        sources(subject, sink);
    }
    if all_is_read(subject, &NAMING_HAZARDS, sink) && !sink.found(&[&link_not_understood::RULE], |_| true) {
        hazards(subject, sink);
    }
}

fn sources(subject: &Subject<'_>, sink: &mut Sink) {
    let unnamed = subject.model.unnamed.sources.iter().filter_map(|id| subject.model.sources.get(id));
    for source in unnamed.filter(|source| !has_another_finding(subject, source)) {
        let message = format!("nothing names the source `{}`: no value was read from it", source.id);
        let help = "name it where a value was read from it; if none was, it may be taken out";
        sink.push(Finding::new(&RULE, source.span, message, help));
    }
}

/// A bulletin to stop has a rule of its own; of a newer edition it is said at each value that was read from the older.
fn has_another_finding(subject: &Subject<'_>, source: &Source) -> bool {
    let mut cited = subject.statements().filter_map(|one| one.provenance.source.as_ref());
    source.class == SourceClass::Stop || cited.any(|id| source.supersedes.contains(id))
}

fn hazards(subject: &Subject<'_>, sink: &mut Sink) {
    for hazard in subject.model.unnamed.hazards.iter().filter_map(|id| subject.model.hazards.get(id)) {
        let message =
            format!("nothing names the hazard `{}`: no value, step or check warns of it", hazard.id);
        let help = "name it in `hazards` of whatever can hurt so, and at the step; if nothing can, it may be taken out";
        sink.push(Finding::new(&RULE, hazard.span, message, help));
    }
}
