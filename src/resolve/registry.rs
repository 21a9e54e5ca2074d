//! Names and what they stand for: where an id is defined, and whether all definitions were read.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use super::rules::{duplicate_id, unknown_reference};
use crate::diag::Sink;
use crate::load::format::Text;
use crate::source::{FileId, Span};

/// The ids of one kind of thing.
#[derive(Debug)]
pub struct Registry {
    /// What the things are called, as `a source`.
    noun: &'static str,
    /// Where they are defined, as `sources.toml`.
    home: &'static str,
    spans: BTreeMap<String, Span>,
    /// False if a file that may define some could not be read: then nothing is said to be unknown.
    complete: bool,
    /// Every id that something refers to, defined or not.
    named: RefCell<BTreeSet<String>>,
}

impl Registry {
    /// An empty registry.
    pub const fn new(noun: &'static str, home: &'static str, complete: bool) -> Self {
        Self { noun, home, spans: BTreeMap::new(), complete, named: RefCell::new(BTreeSet::new()) }
    }

    /// Defines an id; false, with a finding, if it is taken.
    pub fn define(&mut self, file: FileId, id: &Text, sink: &mut Sink) -> bool {
        let span = Span::new(file, id.range());
        if let Some(first) = self.spans.get(id.as_str()) {
            sink.push(duplicate_id::finding(span, *first, self.noun, id.as_str()));
            return false;
        }
        self.spans.insert(id.as_str().to_owned(), span);
        true
    }

    /// True if the id is defined; a finding, with what was probably meant, if it is not.
    pub fn knows(&self, file: FileId, id: &Text, sink: &mut Sink) -> bool {
        self.knows_at(Span::new(file, id.range()), id.as_str(), sink)
    }

    /// As [`Registry::knows`], for an id at a span of its own.
    pub fn knows_at(&self, span: Span, id: &str, sink: &mut Sink) -> bool {
        let known = self.spans.contains_key(id);
        self.named.borrow_mut().insert(id.to_owned());
        if !known && self.complete {
            let ids = self.spans.keys().map(String::as_str);
            sink.push(unknown_reference::finding(span, self.noun, self.home, id, ids));
        }
        known
    }

    /// The ids that nothing has referred to so far; none where something refers to one that is not defined, as it may
    /// mean any of them.
    pub fn unnamed(&self) -> Vec<&str> {
        let named = self.named.borrow();
        if named.iter().any(|id| !self.spans.contains_key(id)) {
            return Vec::new();
        }
        self.spans.keys().map(String::as_str).filter(|id| !named.contains(*id)).collect()
    }

    /// Where an id is defined.
    pub fn span(&self, id: &str) -> Option<Span> {
        self.spans.get(id).copied()
    }
}
