//! `catalogue/relations*.toml`: what must hold between values of one engine.
//!
//! A relation is data, so that whoever keeps a base can read all of them, add to them, put one in the place of one that
//! Baybook carries, or switch one off and say why.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use super::{ID, Located, Text};

/// Relations between values: what an experienced eye checks.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Relations")]
pub struct RelationsFile {
    /// The relations. One with the id of a relation that Baybook carries takes its place.
    #[serde(default)]
    pub relation: Vec<Located<Relation>>,
    /// Relations that are not to be held, and why.
    #[serde(default)]
    pub off: Vec<Located<RelationOff>>,
}

/// Something that must hold between values of one engine.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Relation {
    /// Id of the relation.
    #[schemars(regex(pattern = ID), example = &"exhaust-lash")]
    pub id: Text,
    /// What holds, in words: how a finding begins.
    #[schemars(length(min = 1), example = &"exhaust lash is no tighter than intake lash")]
    pub title: Text,
    /// What holds, as a formula over entries, facts of the layout (`bore`, `stroke`, `displacement`, `cylinders`) and
    /// quantities. Minus and plus stand between spaces.
    #[schemars(length(min = 1))]
    #[schemars(example = &"lash.exhaust >= lash.intake", example = &"piston.clearance within bore.diameter - piston.diameter")]
    #[schemars(example = &"ring.end-gap.wear_limit[not oil] / bore in 0.002..0.013", example = &"oil.pressure[hot] rises with speed")]
    pub holds: Text,
    /// The engines it holds for; all if left out.
    #[serde(default)]
    pub fits: Option<Located<RelationFits>>,
    /// Where it comes from: a standard, a handbook, or "common practice, no source".
    #[schemars(length(min = 1), example = &"common practice, no source")]
    pub source: Text,
    /// Where to look when it does not hold.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"look whether the rows for intake and exhaust were swapped")]
    pub look: Option<Text>,
    /// True where nothing but a wrong number can break it: then it is an error, not a warning.
    #[serde(default)]
    pub arithmetic: bool,
}

/// Which engines a relation holds for: every key given must hold.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RelationFits {
    /// `four-stroke` or `two-stroke`.
    #[serde(default)]
    #[schemars(regex(pattern = "^(four-stroke|two-stroke)$"), example = &"four-stroke")]
    pub cycle: Option<Text>,
    /// `petrol` or `diesel`.
    #[serde(default)]
    #[schemars(regex(pattern = "^(petrol|diesel)$"), example = &"petrol")]
    pub fuel: Option<Text>,
    /// Entries that the engine must have a value of.
    #[serde(default)]
    #[schemars(example = ["rocker.ratio"])]
    pub has: Vec<Text>,
    /// Entries that the engine must not have a value of.
    #[serde(default)]
    #[schemars(example = ["decompressor.gap"])]
    pub lacks: Vec<Text>,
    /// Entries of words, each with a word that must not be in them.
    #[serde(default)]
    #[schemars(with = "BTreeMap<String, String>", example = serde_json::json!({ "battery.kind": "lithium" }))]
    pub unless: BTreeMap<Text, Text>,
}

/// A relation that is not to be held.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RelationOff {
    /// Id of the relation.
    #[schemars(regex(pattern = ID), example = &"plug-torque")]
    pub relation: Text,
    /// Why it does not hold for this shop.
    #[schemars(length(min = 1), example = &"Every engine of ours has rockers of another ratio")]
    pub because: Text,
}
