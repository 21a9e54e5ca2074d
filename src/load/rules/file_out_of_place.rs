//! `file-out-of-place`: a file nobody reads is knowledge that is silently missing.

use crate::diag::nearest;
use crate::diag::{Finding, Rule};
use crate::load::place::FileKind;
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "file_out_of_place",
    "file-out-of-place",
    Warning,
    Form,
    "a file stands where nothing reads it"
);

/// A file at a path where no kind of file stands.
pub fn finding(span: Span, path: &str, link: bool) -> Finding {
    if link {
        return Finding::new(
            &RULE,
            span,
            format!("`{path}` is a link, and links are not followed"),
            "put the file itself here",
        );
    }
    let places: Vec<_> = FileKind::ALL.iter().filter_map(|kind| kind.pattern()).collect();
    let near = nearest_place(path);
    let help = near.map_or_else(
        || format!("files are read from {}; move it to one of these, or out of the base", places.join(", ")),
        |pattern| format!("did you mean a place like `{pattern}`?"),
    );
    Finding::new(&RULE, span, format!("`{path}` is not read: no kind of file stands there"), help)
}

/// The pattern whose first folder is nearest to that of the path.
fn nearest_place(path: &str) -> Option<&'static str> {
    let folder = path.split('/').next()?;
    let first = |pattern: &'static str| pattern.split('/').next().unwrap_or(pattern);
    let patterns = || FileKind::ALL.iter().filter_map(|kind| kind.pattern());
    let folders = patterns().map(first);
    let near = folders.clone().find(|one| *one == folder).or_else(|| nearest(folder, folders))?;
    patterns().find(|pattern| first(pattern) == near)
}
