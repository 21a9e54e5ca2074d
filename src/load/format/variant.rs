//! What bulletins change in an engine, and the warnings that the lead accepts.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{DAY, ID, Located, SerialSpan, Spec, Text, Words, YEARS};

/// What a bulletin changes, and for which machines.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Variant {
    /// Id of the variant, unique in its engine.
    #[schemars(regex(pattern = ID), example = &"sb-22-04")]
    pub id: Text,
    /// Id of the bulletin.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"ox-sb-22-04")]
    pub source: Option<Text>,
    /// Who read it from the page: initials.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"mk")]
    pub read_by: Option<Text>,
    /// The machines it holds for.
    #[schemars(length(min = 1))]
    pub applies: Vec<Located<VariantReach>>,
    /// Ids of variants of this engine that it takes the place of.
    #[serde(default)]
    #[schemars(example = ["sb-21-09"])]
    pub replaces: Vec<Text>,
    /// Why, in the shop's words.
    #[serde(default)]
    #[schemars(example = &"Harder exhaust seats")]
    pub note: Option<Text>,
    /// The statements it sets or adds.
    #[serde(default)]
    pub spec: Vec<Located<Spec>>,
}

/// Machines a variant holds for.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct VariantReach {
    /// Id of the machine.
    #[schemars(regex(pattern = ID), example = &"tarnhawk-887")]
    pub machine: Text,
    /// Model years; all the engine was fitted in if left out.
    #[serde(default)]
    #[schemars(regex(pattern = YEARS), example = &"2022..2023")]
    pub years: Option<Text>,
    /// Serial numbers; all if left out.
    #[serde(default)]
    pub serial: Option<Located<SerialSpan>>,
}

/// A warning about a value that the lead accepts: one about no value is waived in `base.toml`. Errors cannot be waived.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Waiver {
    /// The rule that is waived.
    #[schemars(regex(pattern = ID), example = &"outside-plausible")]
    pub rule: Text,
    /// The statement and value it is waived for: the waiver lapses when the value changes.
    pub on: WaiverTarget,
    /// Why the value is right all the same.
    #[schemars(length(min = 1), example = &"aluminium pan")]
    pub because: Text,
    /// Last day the waiver holds.
    #[schemars(regex(pattern = DAY), example = &"2027-01-31")]
    pub until: Text,
}

/// The statement and value a waiver is for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WaiverTarget {
    /// Id of the entry.
    #[schemars(regex(pattern = ID), example = &"torque.drain-plug")]
    pub of: Text,
    /// Place of the statement.
    #[serde(default, rename = "where")]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "cylinder": "front" }))]
    pub place: Words,
    /// Condition of the statement.
    #[serde(default)]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "engine": "cold" }))]
    pub when: Words,
    /// A printed form of the value as it stands now; where none is printed, what the statement says.
    ///
    /// Of a `direction`, a `text` or an `absent` that is its word or words, of a `selection` a part that it chooses, of
    /// `pins` the function of one.
    #[schemars(length(min = 1), example = &"12 N·m")]
    pub value: Text,
}
