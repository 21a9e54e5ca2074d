//! `engine-not-fitted`: no technician will ever find what nothing leads to.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "engine_not_fitted",
    "engine-not-fitted",
    Warning,
    Reference,
    "an engine is fitted to no machine"
);

/// Every engine, against the machines.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    if !super::fittings_are_known(subject) {
        return;
    }
    for engine in subject.model.engines.values() {
        if !subject.model.builds.values().any(|build| build.engine == engine.id) {
            let message = format!("no machine has the engine `{}`", engine.id);
            let help = format!(
                "add `[[machine.fitted]]` with `engine = \"{}\"` to the machine it is built into",
                engine.id
            );
            sink.push(Finding::new(&RULE, engine.span, message, help));
        }
    }
}
