//! Catalogue, hazards, sources, gauges and machines: what statements refer to.

use std::collections::BTreeMap;

use super::names::Names;
use super::values::Reader;
use crate::diag::Sink;
use crate::load::format::{self, OneOrMany, Text};
use crate::load::{Decoded, Loaded};
use crate::model::{
    Domain, Entry, EntryId, Gauge, GaugeId, Hazard, HazardId, Machine, MachineId, Maker, MakerId,
    ServiceGroup, Source, SourceId,
};
use crate::quantity::Kind;

/// The service groups in the order of a sheet, and every entry.
pub fn catalogue(
    loaded: &Loaded,
    names: &Names,
    sink: &mut Sink,
) -> (Vec<ServiceGroup>, BTreeMap<EntryId, Entry>) {
    let mut files: Vec<&Decoded<format::CatalogueFile>> = loaded.catalogue.iter().collect();
    files.sort_by(|a, b| (a.data.order, a.data.group.as_str()).cmp(&(b.data.order, b.data.group.as_str())));
    let mut groups = Vec::new();
    let mut entries = BTreeMap::new();
    for file in files {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        let mut ids = Vec::new();
        for raw in &file.data.entry {
            let entry = entry(raw.get(), names, &mut reader);
            if names.entries.span(entry.id.as_str()) == Some(entry.span) {
                ids.push(entry.id.clone());
                entries.insert(entry.id.clone(), entry);
            }
        }
        groups.push(ServiceGroup {
            id: file.data.group.as_str().to_owned(),
            title: file.data.title.as_str().to_owned(),
            entries: ids,
        });
    }
    (groups, entries)
}

fn entry(raw: &format::Entry, names: &Names, reader: &mut Reader<'_>) -> Entry {
    let words = |all: &[Text]| all.iter().map(|one| one.as_str().to_owned()).collect::<Vec<_>>();
    let axes = raw.axes.iter().map(|(axis, places)| (axis.as_str().to_owned(), words(places)));
    let axes = axes.collect();
    let mut states = BTreeMap::new();
    for (state, domain) in &raw.states {
        let domain = match &domain.0 {
            OneOrMany::Many(all) => Some(Domain::Words(words(all))),
            OneOrMany::One(kind) => reader.kind(kind).map(Domain::Kind),
        };
        states.extend(domain.map(|domain| (state.as_str().to_owned(), domain)));
    }
    let word = |given: Option<&Text>, usual: &str| given.map_or(usual, Text::as_str).to_owned();
    let (kind, input) = (optional_kind(raw.kind.as_ref(), reader), optional_kind(raw.input.as_ref(), reader));
    let gauge = raw.gauge.as_ref().filter(|id| names.gauges.knows(reader.file, id, reader.sink));
    Entry {
        id: EntryId::new(raw.id.as_str()),
        span: reader.span(&raw.id),
        title: raw.title.as_str().to_owned(),
        aka: words(&raw.aka),
        whole: kind.is_ok() && input.is_ok(),
        kind: kind.unwrap_or_default(),
        input: input.unwrap_or_default(),
        forms: raw.forms.iter().map(|form| *form.get()).collect(),
        axes,
        states,
        needs_state: raw
            .needs_state
            .iter()
            .map(|(key, word)| (key.as_str().into(), word.as_str().into()))
            .collect(),
        below: word(raw.below.as_ref(), "low"),
        above: word(raw.above.as_ref(), "high"),
        plausible: raw.plausible.as_ref().and_then(|text| reader.printed(text)),
        plausible_from: owned(raw.plausible_from.as_ref()),
        hazards: known_hazards(&raw.hazards, names, reader),
        gauge: gauge.map(|id| GaugeId::new(id.as_str())),
        critical: raw.critical,
        stop: raw.stop,
        card: raw.card,
        note: owned(raw.note.as_ref()),
    }
}

/// A kind that may be left out; an error if it is given and not understood.
fn optional_kind(text: Option<&Text>, reader: &mut Reader<'_>) -> Result<Option<Kind>, ()> {
    text.map_or(Ok(None), |text| reader.kind(text).map(Some).ok_or(()))
}

/// The text of an optional key.
pub fn owned(text: Option<&Text>) -> Option<String> {
    text.map(|text| text.as_str().to_owned())
}

/// The hazards of a list of ids, unknown ones reported and left out.
pub fn known_hazards(ids: &[Text], names: &Names, reader: &mut Reader<'_>) -> Vec<HazardId> {
    let known = ids.iter().filter(|id| names.hazards.knows(reader.file, id, reader.sink));
    known.map(|id| HazardId::new(id.as_str())).collect()
}

/// Every hazard.
pub fn hazards(loaded: &Loaded) -> BTreeMap<HazardId, Hazard> {
    let mut all = BTreeMap::new();
    for file in &loaded.hazards {
        for raw in file.data.hazard.iter().map(format::Located::get) {
            let id = HazardId::new(raw.id.as_str());
            all.entry(id.clone()).or_insert_with(|| Hazard {
                id,
                span: crate::source::Span::new(file.file, raw.id.range()),
                signal: *raw.signal.get(),
                hazard: raw.hazard.as_str().to_owned(),
                consequence: raw.consequence.as_str().to_owned(),
                avoid: raw.avoid.as_str().to_owned(),
            });
        }
    }
    all
}

/// Every manual and bulletin.
pub fn manuals(loaded: &Loaded, names: &Names, sink: &mut Sink) -> BTreeMap<SourceId, Source> {
    let mut all = BTreeMap::new();
    for file in &loaded.manuals {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        for raw in file.data.source.iter().map(format::Located::get) {
            let id = SourceId::new(raw.id.as_str());
            let supersedes =
                raw.supersedes.iter().filter(|id| names.manuals.knows(reader.file, id, reader.sink));
            let supersedes = supersedes.map(|id| SourceId::new(id.as_str())).collect();
            let source = Source {
                id: id.clone(),
                span: reader.span(&raw.id),
                title: raw.title.as_str().to_owned(),
                short: owned(raw.short.as_ref()),
                edition: owned(raw.edition.as_ref()),
                date: raw.date.as_ref().and_then(|text| reader.day(text)),
                class: raw.class,
                supersedes,
                note: owned(raw.note.as_ref()),
            };
            all.entry(id).or_insert(source);
        }
    }
    all
}

/// Every gauge whose span and error are understood.
pub fn gauges(loaded: &Loaded, names: &Names, sink: &mut Sink) -> BTreeMap<GaugeId, Gauge> {
    let mut all = BTreeMap::new();
    for file in &loaded.gauges {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        for raw in file.data.gauge.iter().map(format::Located::get) {
            let kind = reader.kind(&raw.kind);
            let span = reader.printed(&raw.span);
            let error = reader.printed(&raw.error);
            let resolution = raw.resolution.as_ref().and_then(|text| reader.printed(text));
            let hazards = known_hazards(&raw.hazards, names, &mut reader);
            if let (Some(kind), Some(measures), Some(error)) = (kind, span, error) {
                let id = GaugeId::new(raw.id.as_str());
                let title = raw.title.as_str().to_owned();
                let span = reader.span(&raw.id);
                let gauge = Gauge { id: id.clone(), span, title, kind, measures, resolution, error, hazards };
                all.entry(id).or_insert(gauge);
            }
        }
    }
    all
}

/// Makers and machines.
pub fn machines(loaded: &Loaded) -> (BTreeMap<MakerId, Maker>, BTreeMap<MachineId, Machine>) {
    let (mut makers, mut machines) = (BTreeMap::new(), BTreeMap::new());
    for file in &loaded.machines {
        let maker = MakerId::new(file.data.maker.as_str());
        let name = file.data.name.as_str().to_owned();
        makers.entry(maker.clone()).or_insert_with(|| Maker { id: maker.clone(), name });
        for raw in file.data.machine.iter().map(format::Located::get) {
            let id = MachineId::new(raw.id.as_str());
            machines.entry(id.clone()).or_insert_with(|| Machine {
                id,
                span: crate::source::Span::new(file.file, raw.id.range()),
                maker: maker.clone(),
                name: raw.name.as_str().to_owned(),
                sort: owned(raw.sort.as_ref()),
                serial_at: owned(raw.serial_at.as_ref()),
            });
        }
    }
    (makers, machines)
}
