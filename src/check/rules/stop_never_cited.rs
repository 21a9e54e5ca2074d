//! `stop-never-cited`: a machine that must not be run would look like any other.

use crate::check::Subject;
use crate::check::left_out::{all_is_read, misnames};
use crate::diag::{Finding, Rule, Sink};
use crate::load::place::FileKind;
use crate::model::{Source, SourceClass, SourceId};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "stop_never_cited",
    "stop-never-cited",
    Warning,
    Reference,
    "a bulletin that says not to run the machine is named by no variant and no statement"
);

/// Every source of class `stop` that no other takes the place of.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let engines = || subject.model.engines.values();
    if !all_is_read(subject, &[FileKind::Engine, FileKind::Catalogue], sink)
        || engines().any(|engine| misnames(engine.span.file, sink))
    {
        return;
    }
    let of_variants = engines().flat_map(|engine| &engine.variants).filter_map(|one| one.source.as_ref());
    let of_statements = subject.statements().filter_map(|one| one.provenance.source.as_ref());
    let cited: Vec<&SourceId> = of_variants.chain(of_statements).collect();
    let replaced = |id: &SourceId| subject.model.sources.values().any(|newer| newer.supersedes.contains(id));
    let stops = subject.model.sources.values().filter(|source| source.class == SourceClass::Stop);
    stops
        .filter(|stop| !cited.contains(&&stop.id) && !replaced(&stop.id))
        .for_each(|stop| sink.push(finding(stop)));
}

fn finding(stop: &Source) -> Finding {
    let message = format!(
        "`{}` says not to run the machine, and no variant or statement names it: it heads no sheet",
        stop.id
    );
    let help = "name it as `source` of a `[[variant]]` that applies to the machines it is for";
    Finding::new(&RULE, stop.span, message, help)
}
