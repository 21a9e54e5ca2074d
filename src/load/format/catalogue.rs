//! `catalogue/*.toml`: what can be specified, by service group.

use std::collections::BTreeMap;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;

use super::{ID, Located, OneOrMany, Text, Words};
use crate::model::{FormName, StopSide};

/// One service group of the catalogue and the things that can be specified in it.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Catalogue group")]
pub struct CatalogueFile {
    /// Id of the service group.
    #[schemars(regex(pattern = ID), example = &"top-end")]
    pub group: Text,
    /// Title of the service group, as headed on the engine sheet.
    #[schemars(length(min = 1), example = &"Top end")]
    pub title: Text,
    /// Place among the groups on a sheet; equal places stand in order of id.
    #[serde(default)]
    #[schemars(example = 10)]
    pub order: u32,
    /// The entries of this group.
    #[serde(default)]
    pub entry: Vec<Located<Entry>>,
}

/// One measurable or statable thing.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Id of the entry, unique in the whole catalogue.
    #[schemars(regex(pattern = ID), example = &"lash.exhaust")]
    pub id: Text,
    /// What the trade calls it.
    #[schemars(length(min = 1), example = &"Exhaust valve lash")]
    pub title: Text,
    /// Other names it goes by.
    #[serde(default)]
    #[schemars(example = ["exhaust valve clearance", "exhaust tappet gap"])]
    pub aka: Vec<Text>,
    /// Kind of its quantity; left out where it has none (a direction, a text, pins).
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"length")]
    pub kind: Option<Text>,
    /// Kind of the quantity a table of points is read at.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"temperature")]
    pub input: Option<Text>,
    /// The forms a statement of it may take.
    #[schemars(length(min = 1))]
    pub forms: Vec<Located<FormName>>,
    /// Places it may be stated for: an axis and its words.
    #[serde(default)]
    #[schemars(example = serde_json::json!({ "cylinder": ["front", "rear"] }))]
    pub axes: BTreeMap<Text, Vec<Text>>,
    /// Conditions it may be stated for: a state and its words, or the kind of its quantity.
    #[serde(default)]
    #[schemars(example = serde_json::json!({ "engine": ["cold", "hot"], "air": "temperature" }))]
    pub states: BTreeMap<Text, StateDomain>,
    /// What must be so for any reading of it to say something, beside the condition of the statement.
    #[serde(default)]
    #[schemars(example = serde_json::json!({ "battery": "charged" }))]
    pub needs_state: Words,
    /// The trade's word for a reading below the window; `low` if left out.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"tight")]
    pub below: Option<Text>,
    /// The trade's word for a reading above the window; `high` if left out.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"loose")]
    pub above: Option<Text>,
    /// Span of values that an experienced eye finds plausible.
    #[serde(default)]
    #[schemars(example = &"0.03..0.45 mm")]
    pub plausible: Option<Text>,
    /// Where the plausible span comes from: a source, a formula, or "common practice, no source".
    #[serde(default)]
    #[schemars(example = &"common practice, no source")]
    pub plausible_from: Option<Text>,
    /// Hazards of measuring or setting it.
    #[serde(default)]
    #[schemars(example = ["hot-parts"])]
    pub hazards: Vec<Text>,
    /// The gauge it is usually measured with.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"feeler")]
    pub gauge: Option<Text>,
    /// True where a wrong value can kill: withheld until a second reading confirms it.
    #[serde(default)]
    pub critical: bool,
    /// The side of its limits on which the machine must not be run: `below`, `above` or `either`. A reading out of
    /// spec there says "Do not run".
    #[serde(default)]
    #[schemars(example = &"below")]
    pub stop: Option<StopSide>,
    /// True for what stands on the bench card: the one page read at arm's length. Where no entry of the
    /// catalogue says so, the card takes what comes first on the engine sheet.
    #[serde(default)]
    pub card: bool,
    /// What the technician should know of it.
    #[serde(default)]
    #[schemars(example = &"Measured with the cam lobe away from the bucket")]
    pub note: Option<Text>,
}

/// What a state can be: one of its words, or a quantity of a kind.
#[derive(Clone, Debug, Deserialize)]
#[serde(transparent)]
pub struct StateDomain(pub OneOrMany);

impl JsonSchema for StateDomain {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> std::borrow::Cow<'static, str> {
        "StateDomain".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["array", "string"],
            "items": { "type": "string", "minLength": 1 },
            "minItems": 1,
            "minLength": 1,
            "description": "The words of this state, or the kind of its quantity.",
            "examples": [["cold", "hot"], "temperature"]
        })
    }
}
