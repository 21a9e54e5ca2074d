//! `catalogue.json`: what can be specified.

use super::quantity::form;
use crate::bundle as json;
use crate::model::{Domain, Entry, EntryId, Model};
use crate::quantity::Kind;

/// The catalogue as JSON.
pub fn catalogue(model: &Model) -> json::Catalogue {
    let entries = |ids: &[EntryId]| ids.iter().filter_map(|id| model.entries.get(id)).map(entry).collect();
    let groups = model.groups.iter().map(|group| json::Group {
        id: group.id.clone(),
        title: group.title.clone(),
        entries: entries(&group.entries),
    });
    json::Catalogue { groups: groups.collect() }
}

fn entry(entry: &Entry) -> json::Entry {
    json::Entry {
        id: entry.id.to_string(),
        title: entry.title.clone(),
        aka: entry.aka.clone(),
        kind: entry.kind.map(name),
        input: entry.input.map(name),
        forms: entry.forms.iter().map(|form| form.key().to_owned()).collect(),
        axes: entry.axes.clone(),
        states: entry.states.iter().map(|(state, domain)| (state.clone(), state_json(domain))).collect(),
        needs_state: entry.needs_state.clone(),
        below: entry.below.clone(),
        above: entry.above.clone(),
        plausible: entry.plausible.as_ref().map(|one| form(&one.value)),
        plausible_from: entry.plausible_from.clone(),
        hazards: entry.hazards.iter().map(ToString::to_string).collect(),
        gauge: entry.gauge.as_ref().map(ToString::to_string),
        critical: entry.critical,
        stop: entry.stop.map(|stop| stop.word().to_owned()),
        card: entry.card,
        note: entry.note.clone(),
    }
}

fn name(kind: Kind) -> String {
    kind.name().to_owned()
}

fn state_json(domain: &Domain) -> json::State {
    match domain {
        Domain::Words(words) => json::State { words: Some(words.clone()), kind: None },
        Domain::Kind(kind) => json::State { words: None, kind: Some(name(*kind)) },
    }
}
