//! What an earlier phase left out with a finding of its own: whatever only seems to be missing for that is not said.

use crate::diag::{Rule, Sink};
use crate::resolve::rules::{duplicate_id, statement_twice, unknown_reference};
use crate::source::FileId;

/// Rules of `resolve` whose findings take what names something out of the model.
const TAKEN_OUT: [&Rule; 3] = [&duplicate_id::RULE, &statement_twice::RULE, &unknown_reference::RULE];

/// True if a file names what is not there, or defines twice: what seems to be named by nothing may be meant there.
pub fn misnames(file: FileId, sink: &Sink) -> bool {
    sink.found(&TAKEN_OUT, |span| span.file == file)
}
