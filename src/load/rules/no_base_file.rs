//! `no-base-file`: title, release, date and notice stand on every sheet.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("no_base_file", "no-base-file", Error, Form, "the base has no base.toml");

/// A base without `base.toml`.
pub fn finding(span: Span) -> Finding {
    Finding::new(
        &RULE,
        span,
        "the base has no `base.toml`",
        "add one with `title`, `release`, `date`, `invented`, `licence` and `notice`",
    )
}
