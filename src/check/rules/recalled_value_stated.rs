//! `recalled-value-stated`: what is known to be wrong must not go out again.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Recall, Statement};
use crate::quantity::Value;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "recalled_value_stated",
    "recalled-value-stated",
    Error,
    Reference,
    "a value that is recalled as wrong is still stated"
);

/// Every recalled value.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for recall in &subject.model.recalls {
        let Some(engine) = subject.model.engines.values().find(|one| one.id.as_str() == recall.engine) else {
            continue;
        };
        let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
        for statement in engine.statements.iter().chain(varied).filter(|one| states(one, recall)) {
            let message =
                format!("{} is still `{}`, which is recalled as wrong", statement.identity, recall.value);
            let help = "correct the statement; if it is right after all, take the recall out";
            let finding = Finding::new(&RULE, recall.value_span, message, help);
            sink.push(finding.with(statement.span, "the statement is here"));
        }
    }
}

/// A recalled value stands as it stood, in whatever spelling: values are compared, not their texts.
fn states(statement: &Statement, recall: &Recall) -> bool {
    let identity = &statement.identity;
    let value = Value::parse(&recall.value).ok();
    identity.of.as_str() == recall.of
        && identity.place == recall.place
        && identity.when == recall.when
        && statement
            .form
            .printed()
            .iter()
            .any(|one| one.typed == recall.value || value.as_ref() == Some(&one.value))
}
