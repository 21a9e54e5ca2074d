//! Findings of second readings that have one cause where they are many: who read.

use super::super::rules::{reread_by_same_reader, reread_incomplete};
use super::super::values::Reader;
use crate::diag::Finding;
use crate::load::Decoded;
use crate::load::format::RereadsFile;
use crate::model::{Engine, EngineId};
use crate::source::Span;

/// Findings that have one cause where they are many: who read.
#[derive(Default)]
pub(super) struct Alike {
    /// By one who read both times.
    pub(super) same: Vec<Finding>,
    /// Where nobody is named who read first.
    pub(super) nameless: Vec<Finding>,
}

/// How many findings of one cause are shown one by one.
const FEW: usize = 3;

impl Alike {
    /// One finding where the reader of the whole file is what is wrong, unless some are waived one by one.
    pub(super) fn report(self, file: &Decoded<RereadsFile>, engine: &Engine, reader: &mut Reader<'_>) {
        let by = &file.data.read_by;
        let span = reader.span(by);
        let waived = |all: &[Finding]| {
            all.iter().any(|one| engine.waivers.iter().any(|waiver| waiver.rule == one.rule.name))
        };
        for (all, whole) in [
            (self.same, reread_by_same_reader::of_all as fn(Span, &EngineId, &str, usize) -> Finding),
            (self.nameless, reread_incomplete::of_all),
        ] {
            if all.len() > FEW && !waived(&all) {
                reader.sink.push(whole(span, &engine.id, by.as_str(), all.len()));
            } else {
                all.into_iter().for_each(|one| reader.sink.push(one));
            }
        }
    }
}
