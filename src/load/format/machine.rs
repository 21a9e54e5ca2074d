//! `machines/*.toml`: machines by maker, and which engine they were built with.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{ID, Located, Text, YEARS};

/// The machines of one maker.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Machines of a maker")]
pub struct MachinesFile {
    /// Id of the maker.
    #[schemars(regex(pattern = ID), example = &"quarrick")]
    pub maker: Text,
    /// Name of the maker.
    #[schemars(length(min = 1), example = &"Quarrick")]
    pub name: Text,
    /// The machines.
    #[serde(default)]
    pub machine: Vec<Located<Machine>>,
}

/// One model of machine.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Machine {
    /// Id of the machine.
    #[schemars(regex(pattern = ID), example = &"tarnhawk-887")]
    pub id: Text,
    /// Name of the machine.
    #[schemars(length(min = 1), example = &"Tarnhawk 887")]
    pub name: Text,
    /// What sort of machine it is.
    #[serde(default)]
    #[schemars(example = &"side-by-side")]
    pub sort: Option<Text>,
    /// Where its serial number is found.
    #[serde(default)]
    #[schemars(example = &"Plate on the left frame rail, behind the front wheel")]
    pub serial_at: Option<Text>,
    /// The engines it was built with.
    #[schemars(length(min = 1))]
    pub fitted: Vec<Located<Fitted>>,
}

/// An engine fitted to a machine over some years and serial numbers.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fitted {
    /// Id of the engine.
    #[schemars(regex(pattern = ID), example = &"ox-887")]
    pub engine: Text,
    /// Model years.
    #[schemars(regex(pattern = YEARS), example = &"2020..2024")]
    pub years: Text,
    /// Serial numbers, where the years alone do not decide.
    #[serde(default)]
    pub serial: Option<Located<SerialSpan>>,
}

/// Serial numbers that start with a prefix and go on with a number from one end to the other.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SerialSpan {
    /// What the serial number starts with, up to its running number.
    #[schemars(length(min = 1), example = &"TH22-")]
    pub prefix: Text,
    /// First running number; open if left out.
    #[serde(default)]
    #[schemars(example = 400)]
    pub from: Option<Located<u32>>,
    /// Last running number; open if left out.
    #[serde(default)]
    #[schemars(example = 1999)]
    pub to: Option<Located<u32>>,
}
