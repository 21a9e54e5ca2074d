//! `catalogue.json`: what can be specified.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Printed;

/// Service groups and their entries.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Catalogue of a bundle")]
pub struct Catalogue {
    /// Service groups in the order of a sheet.
    pub groups: Vec<Group>,
}

/// A service group.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Group {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its entries.
    pub entries: Vec<Entry>,
}

/// An entry.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Entry {
    /// Its id.
    pub id: String,
    /// What the trade calls it.
    pub title: String,
    /// Other names.
    pub aka: Vec<String>,
    /// Kind of its quantity; null where it has none.
    pub kind: Option<String>,
    /// Kind of the quantity a table of points is read at.
    pub input: Option<String>,
    /// Forms a statement may take.
    pub forms: Vec<String>,
    /// Places: axis and words.
    pub axes: BTreeMap<String, Vec<String>>,
    /// States: the words each can be; empty where it is a quantity.
    pub states: BTreeMap<String, State>,
    /// What must be so for any reading of it to say something: a thing, and how it must be.
    pub needs_state: BTreeMap<String, String>,
    /// Word for a reading below the window.
    pub below: String,
    /// Word for a reading above the window.
    pub above: String,
    /// Plausible span.
    pub plausible: Option<Printed>,
    /// Where the plausible span comes from.
    pub plausible_from: Option<String>,
    /// Ids of the hazards of measuring or setting it.
    pub hazards: Vec<String>,
    /// Id of the usual gauge.
    pub gauge: Option<String>,
    /// True where a wrong value can kill.
    pub critical: bool,
    /// The side of its limits on which the machine must not be run: `below`, `above` or `either`; null where there is
    /// none.
    pub stop: Option<String>,
    /// True for what stands on the bench card.
    pub card: bool,
    /// What the technician should know.
    pub note: Option<String>,
}

/// What a state can be.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct State {
    /// The words it can be; null where it is a quantity.
    pub words: Option<Vec<String>>,
    /// Kind of its quantity; null where it is a word.
    pub kind: Option<String>,
}
