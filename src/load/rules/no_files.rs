//! `no-files`: an empty base that passes would hide a wrong path.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("no_files", "no-files", Error, Form, "the directory holds no file of a spec base");

/// A directory without a single file that is read.
pub fn finding(span: Span) -> Finding {
    Finding::new(
        &RULE,
        span,
        "the directory holds no file of a spec base",
        "is it the right directory? a base begins with `base.toml`; name it with `--specs DIR`",
    )
}
