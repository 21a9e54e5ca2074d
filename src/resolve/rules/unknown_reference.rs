//! `unknown-reference`: a reference into nowhere would lose what it was meant to say.

use crate::diag::nearest;
use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "unknown_reference",
    "unknown-reference",
    Error,
    Reference,
    "an id is used that nothing defines"
);

/// An id that nothing defines.
pub fn finding<'a>(
    span: Span,
    noun: &str,
    home: &str,
    id: &str,
    known: impl Iterator<Item = &'a str>,
) -> Finding {
    let help = nearest(id, known).map_or_else(
        || format!("define it in {home}, or name one that is defined there"),
        |near| format!("did you mean `{near}`?"),
    );
    let noun = noun.trim_start_matches("an ").trim_start_matches("a ");
    if id.is_empty() {
        return Finding::new(
            &RULE,
            span,
            format!("no {noun} is named here"),
            format!("name one, as defined in {home}"),
        );
    }
    Finding::new(&RULE, span, format!("there is no {noun} `{id}`"), help)
}
