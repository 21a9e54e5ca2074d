//! Load: every file of a spec base to its typed form, with spans; nothing is resolved yet.
//!
//! All files are read even when one is broken. A part that breaks its schema is reported and cut
//! out; [`Loaded::damaged`] then keeps later phases from reporting what only follows from that.

pub mod carried;
mod day;
mod decode;
pub mod disk;
pub mod format;
pub mod import;
pub mod job_record;
mod markdown;
pub mod place;
pub mod rules;
pub mod schema;
mod shape;
pub mod tidy;
mod toml_slip;
mod tree;

use std::collections::BTreeSet;
use std::ops::Range;

use pulldown_cmark::Event;
use serde::de::DeserializeOwned;

pub use decode::{Decoded, string};
pub use markdown::SCHEMES;

use crate::diag::Sink;
use crate::source::{FileId, Sources, Span};
use disk::{Content, Found};
use format::{
    BaseFile, CatalogueFile, CodesFile, ComplaintFile, EngineFile, GaugesFile, HazardsFile, IdsFile,
    MachinesFile, ProcedureHead, RelationsFile, RereadsFile, SourcesFile,
};
use markdown::NoFrontMatter;
use place::FileKind;
use rules::{file_out_of_place, missing_front_matter, no_base_file, no_files, not_utf8, too_large};

/// A spec base as typed.
#[derive(Debug, Default)]
pub struct Loaded {
    /// The texts.
    pub sources: Sources,
    /// `base.toml`.
    pub base: Option<Decoded<BaseFile>>,
    /// The catalogue.
    pub catalogue: Vec<Decoded<CatalogueFile>>,
    /// Relations between values.
    pub relations: Vec<Decoded<RelationsFile>>,
    /// Hazards.
    pub hazards: Vec<Decoded<HazardsFile>>,
    /// Manuals and bulletins.
    pub manuals: Vec<Decoded<SourcesFile>>,
    /// Gauges.
    pub gauges: Vec<Decoded<GaugesFile>>,
    /// Machines.
    pub machines: Vec<Decoded<MachinesFile>>,
    /// Engines.
    pub engines: Vec<Decoded<EngineFile>>,
    /// Fault codes.
    pub codes: Vec<Decoded<CodesFile>>,
    /// Procedures.
    pub procedures: Vec<ProcedureDocument>,
    /// Complaints.
    pub complaints: Vec<Decoded<ComplaintFile>>,
    /// Second readings.
    pub rereads: Vec<Decoded<RereadsFile>>,
    /// Retired ids.
    pub ids: Option<Decoded<IdsFile>>,
    /// Kinds of which a file, or a part of one, could not be read.
    pub damaged: BTreeSet<FileKind>,
}

/// A procedure as typed: front matter and Markdown events with their bytes in the file.
#[derive(Debug)]
pub struct ProcedureDocument {
    /// Its front matter.
    pub head: Decoded<ProcedureHead>,
    /// Its body.
    pub events: Vec<(Event<'static>, Range<usize>)>,
}

/// Reads what was found in a spec base.
pub fn load(found: Vec<Found>, sink: &mut Sink) -> Loaded {
    let mut loaded = Loaded::default();
    let mut read_any = false;
    let mut strangers = Vec::new();
    for Found { path, content } in found {
        let kind = FileKind::at(&path);
        read_any = read_any || kind.is_some();
        match (kind, content) {
            (Some(kind), Content::Bytes(bytes)) => loaded.text(kind, path, bytes, sink),
            (Some(kind), Content::TooLarge(size)) => {
                loaded.damaged.insert(kind);
                let span = loaded.placeholder(path);
                sink.push(too_large::finding(span, size, disk::LARGEST_FILE));
            }
            (kind, content) => {
                if let Some(kind) = kind {
                    loaded.damaged.insert(kind);
                }
                if !is_companion(&path) {
                    let span = loaded.placeholder(path.clone());
                    strangers.push(file_out_of_place::finding(span, &path, matches!(content, Content::Link)));
                }
            }
        }
    }
    // In a directory that is no base every file is out of place: that is one mistake.
    strangers.into_iter().filter(|_| read_any).for_each(|one| sink.push(one));
    if !read_any {
        let span = loaded.placeholder("base.toml".to_owned());
        sink.push(no_files::finding(span));
    } else if loaded.base.is_none() && !loaded.damaged.contains(&FileKind::Base) {
        let span = loaded.placeholder("base.toml".to_owned());
        sink.push(no_base_file::finding(span));
    }
    loaded
}

/// Reads one file on its own, which belongs to no base. Every break is a finding; none is returned only if
/// nothing sound is left.
pub fn load_alone<T: DeserializeOwned>(
    kind: FileKind,
    found: Found,
    sources: &mut Sources,
    sink: &mut Sink,
) -> Option<Decoded<T>> {
    let placeholder = |sources: &mut Sources, path| Span::new(sources.add(path, String::new()), 0..0);
    let bytes = match found.content {
        Content::Bytes(bytes) => bytes,
        Content::TooLarge(size) => {
            let span = placeholder(sources, found.path);
            sink.push(too_large::finding(span, size, disk::LARGEST_FILE));
            return None;
        }
        Content::Link => {
            let span = placeholder(sources, found.path.clone());
            sink.push(file_out_of_place::finding(span, &found.path, true));
            return None;
        }
    };
    let (file, text) = add_text(sources, found.path, bytes, sink);
    decode::decode(kind, file, &text?, sink)
}

/// Keeps the text of a file; none, and a finding, if its bytes are no text.
fn add_text(
    sources: &mut Sources,
    path: String,
    bytes: Vec<u8>,
    sink: &mut Sink,
) -> (FileId, Option<String>) {
    match String::from_utf8(bytes) {
        Ok(text) => (sources.add(path, text.clone()), Some(text)),
        Err(error) => {
            let good = error.utf8_error().valid_up_to();
            let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
            let file = sources.add(path, text);
            sink.push(not_utf8::finding(Span::new(file, good..good.saturating_add(3))));
            (file, None)
        }
    }
}

/// Files that people expect beside any data and that are not part of the base.
fn is_companion(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path).to_uppercase();
    ["README", "LICENSE", "LICENCE", "CHANGELOG"].iter().any(|known| name.starts_with(known))
}

impl Loaded {
    /// A span for a file whose text is not held.
    fn placeholder(&mut self, path: String) -> Span {
        Span::new(self.sources.add(path, String::new()), 0..0)
    }

    fn text(&mut self, kind: FileKind, path: String, bytes: Vec<u8>, sink: &mut Sink) {
        let (file, text) = add_text(&mut self.sources, path, bytes, sink);
        let Some(text) = text else {
            self.damaged.insert(kind);
            return;
        };
        let whole = match kind {
            FileKind::Base => keep_one(&mut self.base, decode::decode(kind, file, &text, sink)),
            FileKind::Ids => keep_one(&mut self.ids, decode::decode(kind, file, &text, sink)),
            FileKind::Catalogue => read(&mut self.catalogue, kind, file, &text, sink),
            FileKind::Relations => read(&mut self.relations, kind, file, &text, sink),
            FileKind::Hazards => read(&mut self.hazards, kind, file, &text, sink),
            FileKind::Sources => read(&mut self.manuals, kind, file, &text, sink),
            FileKind::Gauges => read(&mut self.gauges, kind, file, &text, sink),
            FileKind::Machines => read(&mut self.machines, kind, file, &text, sink),
            FileKind::Engine => read(&mut self.engines, kind, file, &text, sink),
            FileKind::Codes => read(&mut self.codes, kind, file, &text, sink),
            FileKind::Complaint => read(&mut self.complaints, kind, file, &text, sink),
            FileKind::Rereads => read(&mut self.rereads, kind, file, &text, sink),
            FileKind::Procedure => self.procedure(file, &text, sink),
            // It has no place in a base, so none is ever found there.
            FileKind::Shims => true,
        };
        if !whole {
            self.damaged.insert(kind);
        }
    }

    fn procedure(&mut self, file: FileId, text: &str, sink: &mut Sink) -> bool {
        let parts = match markdown::split(text) {
            Ok(parts) => parts,
            Err(problem) => {
                let (range, opened) = match problem {
                    NoFrontMatter::NotOpened => (decode::first_line(text), false),
                    NoFrontMatter::NotClosed(line) => (line, true),
                };
                sink.push(missing_front_matter::finding(Span::new(file, range), opened));
                return false;
            }
        };
        let Some(head) = decode::decode(FileKind::Procedure, file, &parts.head, sink) else { return false };
        let whole = head.whole;
        let events = markdown::events(text, parts.body_start);
        self.procedures.push(ProcedureDocument { head, events });
        whole
    }
}

fn keep_one<T>(slot: &mut Option<Decoded<T>>, decoded: Option<Decoded<T>>) -> bool {
    let whole = decoded.as_ref().is_some_and(|one| one.whole);
    *slot = decoded;
    whole
}

fn read<T: DeserializeOwned>(
    all: &mut Vec<Decoded<T>>,
    kind: FileKind,
    file: FileId,
    text: &str,
    sink: &mut Sink,
) -> bool {
    let Some(decoded) = decode::decode(kind, file, text, sink) else { return false };
    let whole = decoded.whole;
    all.push(decoded);
    whole
}
