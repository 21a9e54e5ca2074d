//! `file-name-differs`: whoever looks for an engine opens the file of its name.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Engine;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "file_name_differs",
    "file-name-differs",
    Warning,
    Reference,
    "an engine stands in a file of another name"
);

/// Every engine, against the path of its file; one of a maker that is not known has its finding already.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let known = |engine: &&Engine| subject.model.makers.contains_key(&engine.maker);
    for engine in subject.model.engines.values().filter(known) {
        let path = subject.sources.path(engine.span.file);
        let wanted = format!("engines/{}/{}.toml", engine.maker, engine.id);
        if path != wanted {
            let message = format!("the engine `{}` of `{}` stands in `{path}`", engine.id, engine.maker);
            let help =
                format!("move the file to `{wanted}`, or mend `id` or `maker` if one of them is mistyped");
            sink.push(Finding::new(&RULE, engine.span, message, help));
        }
    }
}
