//! The front matter of `procedures/*.md`.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{ID, Located, Text};
use crate::model::ProcedureState;

/// What a procedure says of itself, before its steps.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Procedure front matter")]
pub struct ProcedureHead {
    /// Id of the procedure.
    #[schemars(regex(pattern = ID), example = &"valve-lash")]
    pub id: Text,
    /// What is done.
    #[schemars(length(min = 1), example = &"Check the valve lash")]
    pub title: Text,
    /// Minutes it takes.
    #[serde(default)]
    #[schemars(range(min = 1, max = 10000), example = 40)]
    pub minutes: Option<Located<u32>>,
    /// The builds it fits.
    pub fits: Located<Fits>,
    /// Tools, gauges and access it needs; an id of `gauges.toml` stands for that gauge.
    #[serde(default)]
    #[schemars(example = ["feeler", "seat off"])]
    pub needs: Vec<Text>,
    /// Hazards it declares; those of its links, of the gauges it needs and of those its readings are usually taken with
    /// must be among them.
    #[serde(default)]
    #[schemars(example = ["hot-parts"])]
    pub hazards: Vec<Text>,
    /// State of the engine it is done in.
    #[serde(default)]
    pub state: ProcedureState,
    /// What is drained, unplugged or loosened on the way, and must be closed again before the end.
    #[serde(default)]
    pub left_open: Vec<LeftOpen>,
    /// What shows that the work holds.
    #[serde(default)]
    #[schemars(example = &"Turn the crank two full turns and measure again")]
    pub proof: Option<Text>,
}

/// Something that stands open between two steps.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LeftOpen {
    /// What stands open.
    #[schemars(length(min = 1), example = &"Spark plugs out")]
    pub what: Text,
    /// The step that opens it, counted through the whole procedure from 1.
    #[schemars(range(min = 1, max = 1000), example = 4)]
    pub from: Located<u32>,
    /// The step that closes it.
    #[schemars(range(min = 1, max = 1000), example = 15)]
    pub until: Located<u32>,
}

/// Which builds a procedure fits: every key given must hold.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fits {
    /// Entries that the build must have a value of.
    #[serde(default)]
    #[schemars(example = ["lash.exhaust"])]
    pub has: Vec<Text>,
    /// Engines.
    #[serde(default)]
    #[schemars(example = ["ox-887"])]
    pub engines: Vec<Text>,
    /// `four-stroke` or `two-stroke`.
    #[serde(default)]
    #[schemars(regex(pattern = "^(four-stroke|two-stroke)$"), example = &"four-stroke")]
    pub cycle: Option<Text>,
    /// `petrol` or `diesel`.
    #[serde(default)]
    #[schemars(regex(pattern = "^(petrol|diesel)$"), example = &"petrol")]
    pub fuel: Option<Text>,
}
