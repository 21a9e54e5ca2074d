//! `missing-front-matter`: without front matter nobody knows which builds a procedure fits.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "missing_front_matter",
    "missing-front-matter",
    Error,
    Form,
    "a procedure does not begin with its front matter"
);

/// A procedure that does not begin with front matter between `+++` lines.
pub fn finding(span: Span, opened: bool) -> Finding {
    let message = if opened {
        "the front matter that begins here never ends"
    } else {
        "the procedure does not begin with front matter"
    };
    Finding::new(
        &RULE,
        span,
        message,
        "put its keys (`id`, `title`, `fits`) at the top, between two lines of `+++`",
    )
}
