//! Fault codes, with the causes they raise and the entries to measure looked up.

use std::collections::{BTreeMap, BTreeSet};

use super::names::Names;
use super::reference::owned;
use super::registry::Registry;
use super::rules::unknown_reference;
use super::values::Reader;
use crate::diag::Sink;
use crate::load::format::{self, Located, Text};
use crate::load::{Decoded, Loaded};
use crate::model::{Code, CodeSet, CodeSetId, Complaint, ComplaintId, EngineId, EntryId, SourceId};

/// Every set of fault codes.
pub fn codes(
    loaded: &Loaded,
    names: &Names,
    complaints: &BTreeMap<ComplaintId, Complaint>,
    sink: &mut Sink,
) -> BTreeMap<CodeSetId, CodeSet> {
    let mut all = BTreeMap::new();
    for file in &loaded.codes {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        let set = code_set(file, names, complaints, &mut reader);
        all.entry(set.id.clone()).or_insert(set);
    }
    all
}

fn code_set(
    file: &Decoded<format::CodesFile>,
    names: &Names,
    complaints: &BTreeMap<ComplaintId, Complaint>,
    reader: &mut Reader<'_>,
) -> CodeSet {
    let raw = &file.data;
    let engines = raw.engines.iter().filter(|id| names.engines.knows(reader.file, id, reader.sink));
    let engines = engines.map(|id| EngineId::new(id.as_str())).collect();
    let source = raw.source.as_ref().filter(|id| names.manuals.knows(reader.file, id, reader.sink));
    let mut ids = Registry::new("a code", "this file", file.whole);
    let mut codes = Vec::new();
    for one in raw.code.iter().map(Located::get) {
        if ids.define(reader.file, &one.id, reader.sink) {
            codes.push(code(one, names, complaints, reader));
        }
    }
    CodeSet {
        id: CodeSetId::new(raw.id.as_str()),
        span: reader.span(&raw.id),
        title: raw.title.as_str().to_owned(),
        engines,
        read: raw.read.as_str().to_owned(),
        clear: raw.clear.as_str().to_owned(),
        source: source.map(|id| SourceId::new(id.as_str())),
        source_unknown: raw.source.is_some() && source.is_none(),
        page: owned(raw.page.as_ref()),
        codes,
    }
}

fn code(
    raw: &format::Code,
    names: &Names,
    complaints: &BTreeMap<ComplaintId, Complaint>,
    reader: &mut Reader<'_>,
) -> Code {
    let measure = raw.measure.iter().filter(|id| names.entries.knows(reader.file, id, reader.sink));
    let measure = measure.map(|id| EntryId::new(id.as_str())).collect();
    Code {
        id: raw.id.as_str().to_owned(),
        span: reader.span(&raw.id),
        title: raw.title.as_str().to_owned(),
        set_when: raw.set_when.as_str().to_owned(),
        set_when_span: reader.span(&raw.set_when),
        raises: raw.raises.iter().filter_map(|one| raised(one, names, complaints, reader)).collect(),
        measure,
    }
}

/// `complaint/cause`, both looked up.
fn raised(
    text: &Text,
    names: &Names,
    complaints: &BTreeMap<ComplaintId, Complaint>,
    reader: &mut Reader<'_>,
) -> Option<(ComplaintId, String)> {
    let span = reader.span(text);
    let (complaint, cause) = text.as_str().split_once('/').unwrap_or((text.as_str(), ""));
    if !names.complaints.knows_at(span, complaint, reader.sink) {
        return None;
    }
    let known: BTreeSet<&str> =
        complaints.get(complaint)?.causes.iter().map(|cause| cause.id.as_str()).collect();
    if !known.contains(cause) {
        let known = known.into_iter();
        reader.sink.push(unknown_reference::finding(
            span,
            "a cause",
            "the complaint, and write `complaint/cause`",
            cause,
            known,
        ));
        return None;
    }
    Some((ComplaintId::new(complaint), cause.to_owned()))
}
