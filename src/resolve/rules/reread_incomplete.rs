//! `reread-incomplete`: two equal numbers confirm nothing if it is not known who read what, and where.

use crate::diag::{Finding, Rule};
use crate::model::{EngineId, Statement};
use crate::resolve::reread::Lacking;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "reread_incomplete",
    "reread-incomplete",
    Warning,
    Provenance,
    "a second reading lacks what would confirm the value"
);

/// A second reading that agrees, and does not confirm.
pub fn finding(span: Span, first: &Statement, by: &str, lacking: &[Lacking]) -> Finding {
    let said = |what: &Lacking| match what {
        Lacking::FirstReader => format!("nobody is named who read it first, and it may have been `{by}`"),
        Lacking::Page => "neither reading names a page".to_owned(),
        Lacking::Fastener => "its fastener was not read again".to_owned(),
        Lacking::Pattern => "the order of its bolts was not read again".to_owned(),
    };
    let mend = |what: &Lacking| match what {
        Lacking::FirstReader => "name the first reader with `read_by` in the engine file",
        Lacking::Page => "add `page` to both readings",
        Lacking::Fastener => "add `fastener` to this reading, as the page gives it",
        Lacking::Pattern => "add `pattern` to this reading, as the page draws it",
    };
    let message = format!(
        "{} counts as read once: {}",
        first.identity,
        lacking.iter().map(said).collect::<Vec<_>>().join(", and ")
    );
    let help = lacking.iter().map(mend).collect::<Vec<_>>().join("; ");
    Finding::new(&RULE, span, message, help).with(first.span, "first read here").about(first.span)
}

/// Many second readings of an engine whose file names no first reader.
pub fn of_all(span: Span, engine: &EngineId, by: &str, count: usize) -> Finding {
    let message = format!(
        "`{engine}` has {count} values that count as read once: nobody is named who read them first, and it may have been `{by}`"
    );
    let help = "name the first reader with `read_by` under `[defaults]` in the engine file";
    Finding::new(&RULE, span, message, help)
}
