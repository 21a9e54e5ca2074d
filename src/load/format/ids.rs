//! `ids.toml`: what was published once and no longer holds, so that nothing dies silently: ids that went,
//! and values that are known to be wrong.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Located, Text, Words};
use crate::model::Fate;

/// Public ids that no longer live, and values withdrawn as wrong.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Retired ids and recalled values")]
pub struct IdsFile {
    /// The retired ids.
    #[serde(default)]
    pub retired: Vec<Located<RetiredId>>,
    /// Values that earlier releases stated and that are known to be wrong.
    #[serde(default)]
    pub recall: Vec<Located<Recall>>,
}

/// One retired id.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RetiredId {
    /// The id that was public.
    #[schemars(length(min = 1), example = &"ox-887~sb-21-09")]
    pub id: Text,
    /// What became of it.
    pub fate: Located<Fate>,
    /// Ids that took its place, for `moved` and `split`.
    #[serde(default)]
    #[schemars(example = ["ox-887~sb-22-04"])]
    pub to: Vec<Text>,
    /// Why.
    #[schemars(length(min = 1), example = &"The bulletin was replaced")]
    pub because: Text,
    /// Release in which it went.
    #[schemars(length(min = 1), example = &"2026.11")]
    pub release: Text,
}

/// A value that earlier releases stated and that is known to be wrong: whoever used it is to be told.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Recall {
    /// Id of the engine.
    #[schemars(length(min = 1), example = &"ox-887")]
    pub engine: Text,
    /// Id of the entry.
    #[schemars(length(min = 1), example = &"lash.exhaust")]
    pub of: Text,
    /// The place it was stated for.
    #[serde(default, rename = "where")]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "cylinder": "front" }))]
    pub place: Words,
    /// The state it was meant for.
    #[serde(default)]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "engine": "cold" }))]
    pub when: Words,
    /// The wrong value, as it stood.
    #[schemars(length(min = 1), example = &"0.32 ± 0.02 mm")]
    pub value: Text,
    /// Releases that stated it.
    #[schemars(length(min = 1), example = ["2026.04"])]
    pub releases: Vec<Text>,
    /// Why it is wrong, and what to do where it was used.
    #[schemars(length(min = 1), example = &"Two digits were swapped; measure again on every engine set to it")]
    pub because: Text,
}
