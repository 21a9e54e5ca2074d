//! `catalogue.json`: what can be specified.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::quantity::{PrintedJson, form};
use crate::model::{Domain, Entry, EntryId, Model};
use crate::quantity::Kind;

/// Service groups and their entries.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Catalogue of a bundle")]
pub struct CatalogueJson {
    /// Service groups in the order of a sheet.
    pub groups: Vec<GroupJson>,
}

/// A service group.
#[derive(Debug, Serialize, JsonSchema)]
pub struct GroupJson {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its entries.
    pub entries: Vec<EntryJson>,
}

/// An entry.
#[derive(Debug, Serialize, JsonSchema)]
pub struct EntryJson {
    /// Its id.
    pub id: String,
    /// What the trade calls it.
    pub title: String,
    /// Other names.
    pub aka: Vec<String>,
    /// Kind of its quantity; null where it has none.
    pub kind: Option<&'static str>,
    /// Kind of the quantity a table of points is read at.
    pub input: Option<&'static str>,
    /// Forms a statement may take.
    pub forms: Vec<&'static str>,
    /// Places: axis and words.
    pub axes: BTreeMap<String, Vec<String>>,
    /// States: the words each can be; empty where it is a quantity.
    pub states: BTreeMap<String, StateJson>,
    /// What must be so for any reading of it to say something: a thing, and how it must be.
    pub needs_state: BTreeMap<String, String>,
    /// Word for a reading below the window.
    pub below: String,
    /// Word for a reading above the window.
    pub above: String,
    /// Plausible span.
    pub plausible: Option<PrintedJson>,
    /// Where the plausible span comes from.
    pub plausible_from: Option<String>,
    /// Ids of the hazards of measuring or setting it.
    pub hazards: Vec<String>,
    /// Id of the usual gauge.
    pub gauge: Option<String>,
    /// True where a wrong value can kill.
    pub critical: bool,
    /// True for what stands on the bench card.
    pub card: bool,
    /// What the technician should know.
    pub note: Option<String>,
}

/// What a state can be.
#[derive(Debug, Serialize, JsonSchema)]
pub struct StateJson {
    /// The words it can be; null where it is a quantity.
    pub words: Option<Vec<String>>,
    /// Kind of its quantity; null where it is a word.
    pub kind: Option<&'static str>,
}

/// The catalogue as JSON.
pub fn catalogue(model: &Model) -> CatalogueJson {
    let entries = |ids: &[EntryId]| ids.iter().filter_map(|id| model.entries.get(id)).map(entry).collect();
    let groups = model.groups.iter().map(|group| GroupJson {
        id: group.id.clone(),
        title: group.title.clone(),
        entries: entries(&group.entries),
    });
    CatalogueJson { groups: groups.collect() }
}

fn entry(entry: &Entry) -> EntryJson {
    EntryJson {
        id: entry.id.to_string(),
        title: entry.title.clone(),
        aka: entry.aka.clone(),
        kind: entry.kind.map(Kind::name),
        input: entry.input.map(Kind::name),
        forms: entry.forms.iter().map(|form| form.key()).collect(),
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
        card: entry.card,
        note: entry.note.clone(),
    }
}

fn state_json(domain: &Domain) -> StateJson {
    match domain {
        Domain::Words(words) => StateJson { words: Some(words.clone()), kind: None },
        Domain::Kind(kind) => StateJson { words: None, kind: Some(kind.name()) },
    }
}
