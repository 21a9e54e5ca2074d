//! What an earlier phase left out with a finding of its own: whatever only seems to be missing for that is not said.

use super::Subject;
use crate::diag::{Rule, Sink};
use crate::load::place::FileKind;
use crate::load::rules::file_out_of_place;
use crate::resolve::rules::{duplicate_id, statement_twice, unknown_reference};
use crate::source::FileId;

/// Rules of `resolve` whose findings take what names something out of the model.
const TAKEN_OUT: [&Rule; 3] = [&duplicate_id::RULE, &statement_twice::RULE, &unknown_reference::RULE];

/// True if a file names what is not there, or defines twice: what seems to be named by nothing may be meant there.
pub fn misnames(file: FileId, sink: &Sink) -> bool {
    sink.found(&TAKEN_OUT, |span| span.file == file)
}

/// True if all files of some kinds were read, none that may be one of them stands where nothing reads it, and nothing
/// that may name others is left out as it is defined twice.
pub fn all_is_read(subject: &Subject<'_>, kinds: &[FileKind], sink: &Sink) -> bool {
    let may_be_of_the_base = |file| {
        let path = subject.sources.path(file);
        [".toml", ".md"].iter().any(|ending| path.ends_with(ending))
    };
    !kinds.iter().any(|kind| subject.damaged.contains(kind))
        && !sink.found(&[&file_out_of_place::RULE], |span| may_be_of_the_base(span.file))
        && !sink.found(&[&duplicate_id::RULE], |_| true)
}
