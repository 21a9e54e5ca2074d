//! `not-utf8`: a sign in another encoding would be read as another sign.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!("not_utf8", "not-utf8", Error, Form, "a file is not UTF-8 text");

/// A file with bytes that are no UTF-8; the span is at the first of them.
pub fn finding(span: Span) -> Finding {
    Finding::new(
        &RULE,
        span,
        "the file is not UTF-8 text from here on",
        "save it as UTF-8; a `±`, `°` or `Ω` from an old editor is the usual reason",
    )
}
