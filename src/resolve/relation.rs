//! Relations in force: the base's own, and those Baybook carries that the base neither replaces nor switches off.

use std::collections::BTreeSet;

use super::names::Names;
use super::reference::owned;
use super::registry::Registry;
use super::rules::unknown_reference;
use crate::diag::Sink;
use crate::load::format::{self, Text};
use crate::load::place::FileKind;
use crate::load::{Loaded, carried};
use crate::model::{EntryId, Holds, Relation, RelationFits, RelationId};
use crate::source::{FileId, Span};

/// What findings call it, and where it is defined.
const NOUN: &str = "a relation";
const HOME: &str = "`catalogue/relations*.toml`";

/// The relations in force, the base's own first.
pub fn relations(loaded: &Loaded, names: &Names, sink: &mut Sink) -> Vec<Relation> {
    let mut ids = Registry::new(NOUN, HOME, true);
    let mut all = Vec::new();
    for file in &loaded.relations {
        for raw in file.data.relation.iter().map(format::Located::get) {
            if ids.define(file.file, &raw.id, sink) {
                let known = |id: &Text| names.entries.knows(file.file, id, sink);
                all.push(relation(raw, Some(file.file), known));
            }
        }
    }
    let own: BTreeSet<RelationId> = all.iter().map(|one| one.id.clone()).collect();
    let carried = carried::relations().iter().flat_map(|file| &file.relation);
    let carried = carried.map(|raw| relation(raw.get(), None, |_| true)).filter(|one| !own.contains(&one.id));
    all.extend(carried);
    let off = switched_off(loaded, &all, sink);
    all.retain(|one| !off.contains(one.id.as_str()));
    all
}

/// The ids of relations that are not to be held; one that is not there is a finding.
fn switched_off(loaded: &Loaded, all: &[Relation], sink: &mut Sink) -> BTreeSet<String> {
    let mut off = BTreeSet::new();
    for file in &loaded.relations {
        for raw in file.data.off.iter().map(format::Located::get) {
            let id = raw.relation.as_str();
            let known = all.iter().any(|one| one.id.as_str() == id);
            if !known && !loaded.damaged.contains(&FileKind::Relations) {
                let span = Span::new(file.file, raw.relation.range());
                let ids = all.iter().map(|one| one.id.as_str());
                sink.push(unknown_reference::finding(span, NOUN, HOME, id, ids));
            }
            off.insert(id.to_owned());
        }
    }
    off
}

/// One relation; entries it names that are not known are left out.
fn relation(raw: &format::Relation, file: Option<FileId>, mut known: impl FnMut(&Text) -> bool) -> Relation {
    let fits = raw.fits.as_ref().map(format::Located::get);
    let mut entries = |ids: &[Text]| {
        let ids = ids.iter().filter(|id| known(id));
        ids.map(|id| EntryId::new(id.as_str())).collect::<Vec<_>>()
    };
    let fits = fits.map_or_else(RelationFits::default, |fits| RelationFits {
        cycle: owned(fits.cycle.as_ref()),
        fuel: owned(fits.fuel.as_ref()),
        has: entries(&fits.has),
        lacks: entries(&fits.lacks),
        unless: fits
            .unless
            .iter()
            .filter_map(|(id, word)| {
                let id = entries(std::slice::from_ref(id)).pop();
                id.map(|id| (id, word.as_str().to_owned()))
            })
            .collect(),
    });
    Relation {
        id: RelationId::new(raw.id.as_str()),
        title: raw.title.as_str().to_owned(),
        holds: Holds {
            text: raw.holds.as_str().to_owned(),
            span: file.map(|file| Span::new(file, raw.holds.range())),
        },
        fits,
        source: raw.source.as_str().to_owned(),
        look: owned(raw.look.as_ref()),
        arithmetic: raw.arithmetic,
    }
}
