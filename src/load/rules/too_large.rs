//! `too-large`: a bound keeps a wrong file from stopping the machine.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("too_large", "too-large", Error, Form, "a file is larger than any spec file should be");

/// A file over the bound, which is not read.
pub fn finding(span: Span, size: u64, bound: u64) -> Finding {
    Finding::new(
        &RULE,
        span,
        format!("the file has {size} bytes, over the bound of {bound}, and is not read"),
        "split it, or take it out of the base",
    )
}
