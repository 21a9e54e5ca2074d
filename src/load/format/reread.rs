//! `rereads/<maker>/<engine>.toml`: the second, independent reading of the same pages.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{DAY, Fastener, ID, Located, Pin, Selection, Stage, Text, Words};
use crate::model::{Absence, Direction};

/// The second reading of one engine's values, by another person, from the page.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Rereads of an engine")]
pub struct RereadsFile {
    /// Id of the engine.
    #[schemars(regex(pattern = ID), example = &"ox-887")]
    pub engine: Text,
    /// Who read: initials, not those of the first reader.
    #[schemars(length(min = 1), example = &"jl")]
    pub read_by: Text,
    /// Day of the reading.
    #[serde(default)]
    #[schemars(regex(pattern = DAY), example = &"2026-10-02")]
    pub date: Option<Text>,
    /// Source of every reread that does not give its own.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"ox-887-manual")]
    pub source: Option<Text>,
    /// The readings.
    #[serde(default)]
    pub reread: Vec<Located<Reread>>,
}

/// One value as read the second time.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = super::engine::exactly_one_form()))]
pub struct Reread {
    /// Id of the entry.
    #[schemars(regex(pattern = ID), example = &"lash.exhaust")]
    pub of: Text,
    /// Id of the variant, where the value is a bulletin's.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"sb-22-04")]
    pub variant: Option<Text>,
    /// Place as read.
    #[serde(default, rename = "where")]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "cylinder": "front" }))]
    pub place: Words,
    /// Condition as read.
    #[serde(default)]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "engine": "cold" }))]
    pub when: Words,
    /// Limits as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["0.20 ± 0.05 mm"])]
    pub window: Option<Vec<Text>>,
    /// Set-to as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["0.22 mm"])]
    pub set_to: Option<Vec<Text>>,
    /// Fit of new parts as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["0.20..0.35 mm"])]
    pub new: Option<Vec<Text>>,
    /// End of use as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["max 0.60 mm"])]
    pub wear_limit: Option<Vec<Text>>,
    /// Setting as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["20 N·m"])]
    pub setting: Option<Vec<Text>>,
    /// Stages as read.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub stages: Option<Vec<Stage>>,
    /// Table as read.
    #[serde(default)]
    #[schemars(length(min = 1), inner(length(equal = 2)), example = [["20 °C", "2.45 kΩ ± 10 %"]])]
    pub points: Option<Vec<Vec<Text>>>,
    /// Direction as read.
    #[serde(default)]
    pub direction: Option<Located<Direction>>,
    /// Where one stands, as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"clutch side")]
    pub seen_from: Option<Text>,
    /// Interval as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["50 h", "6 months"])]
    pub interval: Option<Vec<Text>>,
    /// First interval as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["10 h"])]
    pub first: Option<Vec<Text>>,
    /// Severe interval as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["25 h"])]
    pub severe: Option<Vec<Text>>,
    /// Selection as read.
    #[serde(default)]
    pub selection: Option<Selection>,
    /// Pins as read.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub pins: Option<Vec<Pin>>,
    /// Words as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"RON 95, no more than 10 % ethanol")]
    pub text: Option<Text>,
    /// Absence as read.
    #[serde(default)]
    pub absent: Option<Located<Absence>>,
    /// Fastener as read: without it, the torque of a critical one is not confirmed.
    #[serde(default)]
    pub fastener: Option<Located<Fastener>>,
    /// Bolt centres as read, in tightening order: without them, the torque of a critical pattern is not confirmed.
    #[serde(default)]
    #[schemars(length(min = 1), inner(length(equal = 2)), example = [[-45, 40], [45, 40]])]
    pub pattern: Option<Vec<Located<Vec<f64>>>>,
    /// Source as read, if not the file's.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"ox-887-manual")]
    pub source: Option<Text>,
    /// Page as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"5-12")]
    pub page: Option<Text>,
    /// Row as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"Exhaust")]
    pub row: Option<Text>,
    /// Column as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"Clearance, cold")]
    pub column: Option<Text>,
    /// Footnote as read.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"Not for engines with the heavy flywheel")]
    pub footnote: Option<Text>,
}
