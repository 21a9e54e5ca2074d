//! `codes/*.toml`: fault codes and blink patterns.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{ID, Located, Text};

/// The fault codes of some engines.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Fault codes")]
pub struct CodesFile {
    /// Id of the set of codes.
    #[schemars(regex(pattern = ID), example = &"oxbarrow-blink")]
    pub id: Text,
    /// Title of the set of codes.
    #[schemars(length(min = 1), example = &"Oxbarrow blink codes")]
    pub title: Text,
    /// Engines that give them.
    #[schemars(length(min = 1), example = ["ox-887"])]
    pub engines: Vec<Text>,
    /// How they are read.
    #[schemars(length(min = 1), example = &"Key on, count long flashes for tens, short for ones")]
    pub read: Text,
    /// How they are cleared.
    #[schemars(length(min = 1), example = &"Key off for a minute")]
    pub clear: Text,
    /// Id of the source.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"ox-887-manual")]
    pub source: Option<Text>,
    /// Page of the source.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"9-1")]
    pub page: Option<Text>,
    /// The codes.
    #[schemars(length(min = 1))]
    pub code: Vec<Located<Code>>,
}

/// One fault code or blink pattern.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Code {
    /// Id of the code, unique in its set.
    #[schemars(regex(pattern = ID), example = &"21")]
    pub id: Text,
    /// What it says.
    #[schemars(length(min = 1), example = &"Coolant sensor open")]
    pub title: Text,
    /// When it is set.
    #[schemars(length(min = 1), example = &"Signal above its span for two seconds")]
    pub set_when: Text,
    /// Causes it raises, as `complaint/cause`.
    #[serde(default)]
    #[schemars(example = ["starts-badly-cold/coolant-sensor"])]
    pub raises: Vec<Text>,
    /// Entries to measure.
    #[serde(default)]
    #[schemars(example = ["sensor.coolant"])]
    pub measure: Vec<Text>,
}
