//! Fault codes and blink patterns.

use super::{CodeSetId, ComplaintId, EngineId, EntryId, SourceId};
use crate::source::Span;

/// The fault codes of some engines.
#[derive(Debug)]
pub struct CodeSet {
    /// Its id.
    pub id: CodeSetId,
    /// Where its id is typed.
    pub span: Span,
    /// Its title.
    pub title: String,
    /// Engines that give the codes.
    pub engines: Vec<EngineId>,
    /// How they are read.
    pub read: String,
    /// How they are cleared.
    pub clear: String,
    /// The manual.
    pub source: Option<SourceId>,
    /// True if it names a source that is not known: then it is not said to name none.
    pub source_unknown: bool,
    /// Its page.
    pub page: Option<String>,
    /// The codes, in file order.
    pub codes: Vec<Code>,
}

/// One fault code.
#[derive(Debug)]
pub struct Code {
    /// Its id, unique in the set.
    pub id: String,
    /// Where its id is typed.
    pub span: Span,
    /// What it says.
    pub title: String,
    /// When it is set.
    pub set_when: String,
    /// Where that is typed.
    pub set_when_span: Span,
    /// Causes it raises: complaint and cause.
    pub raises: Vec<(ComplaintId, String)>,
    /// Entries to measure.
    pub measure: Vec<EntryId>,
}
