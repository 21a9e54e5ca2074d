//! `sources.toml`, `hazards.toml` and `gauges.toml`: what statements and procedures refer to.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{DAY, ID, Located, Text};
use crate::model::{SignalWord, SourceClass};

/// The manuals and bulletins that values were read from.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Sources")]
pub struct SourcesFile {
    /// The sources.
    #[serde(default)]
    pub source: Vec<Located<Source>>,
}

/// One manual or bulletin.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Id of the source.
    #[schemars(regex(pattern = ID), example = &"ox-887-manual")]
    pub id: Text,
    /// Title as printed on it.
    #[schemars(length(min = 1), example = &"Oxbarrow 887 workshop manual")]
    pub title: Text,
    /// What the shop calls it, where the title is long: it stands beside each value read from it.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"887 manual")]
    pub short: Option<Text>,
    /// Edition or revision as printed on it.
    #[serde(default)]
    #[schemars(example = &"3")]
    pub edition: Option<Text>,
    /// Date of publication.
    #[serde(default)]
    #[schemars(regex(pattern = DAY), example = &"2024-02-01")]
    pub date: Option<Text>,
    /// `manual`, `bulletin`, or `stop`: a bulletin that says not to run the machine.
    #[serde(default)]
    pub class: SourceClass,
    /// Ids of the sources this one takes the place of.
    #[serde(default)]
    #[schemars(example = ["ox-887-manual-2"])]
    pub supersedes: Vec<Text>,
    /// What the technician should know of it; a `stop` bulletin says here what must not be done.
    #[serde(default)]
    #[schemars(example = &"Do not run the engine until the drain plug is changed")]
    pub note: Option<Text>,
}

/// The hazards that cautions are made from.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Hazards")]
pub struct HazardsFile {
    /// The hazards.
    #[serde(default)]
    pub hazard: Vec<Located<Hazard>>,
}

/// One hazard with its ANSI Z535.6 signal word.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Hazard {
    /// Id of the hazard.
    #[schemars(regex(pattern = ID), example = &"hot-parts")]
    pub id: Text,
    /// Signal word of ANSI Z535.6.
    pub signal: Located<SignalWord>,
    /// What can hurt.
    #[schemars(length(min = 1), example = &"Hot engine parts")]
    pub hazard: Text,
    /// What happens if it is not avoided.
    #[schemars(length(min = 1), example = &"Burns")]
    pub consequence: Text,
    /// How to avoid it.
    #[schemars(length(min = 1), example = &"Let the engine cool before touching it")]
    pub avoid: Text,
}

/// The gauges of the shop.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Gauges")]
pub struct GaugesFile {
    /// The gauges.
    #[serde(default)]
    pub gauge: Vec<Located<Gauge>>,
}

/// One gauge: what it measures and how well.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// Id of the gauge.
    #[schemars(regex(pattern = ID), example = &"feeler")]
    pub id: Text,
    /// What the shop calls it.
    #[schemars(length(min = 1), example = &"Feeler gauge set")]
    pub title: Text,
    /// Kind of the quantity it measures.
    #[schemars(regex(pattern = ID), example = &"length")]
    pub kind: Text,
    /// Span it measures over.
    #[schemars(example = &"0.05..1.00 mm")]
    pub span: Text,
    /// Smallest difference it shows.
    #[serde(default)]
    #[schemars(example = &"0.01 mm")]
    pub resolution: Option<Text>,
    /// Limit of error: expanded uncertainty, k = 2; a quantity or a share of the reading.
    #[schemars(example = &"0.005 mm")]
    pub error: Text,
    /// Hazards of using it.
    #[serde(default)]
    #[schemars(example = ["fuel-pressure"])]
    pub hazards: Vec<Text>,
}
