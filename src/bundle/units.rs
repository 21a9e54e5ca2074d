//! `units.json`: every unit of the bundle, with its codes and its exact size.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::ExactText;

/// The units.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Units of a bundle")]
pub struct Units {
    /// Every unit that a value can be printed in.
    pub units: Vec<UnitFacts>,
}

/// One unit.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UnitFacts {
    /// As written in this bundle.
    pub symbol: String,
    /// Its name in full, in the plural.
    pub spoken: String,
    /// Kind of its quantity.
    pub kind: String,
    /// In UCUM, where UCUM has it.
    pub ucum: Option<String>,
    /// In UNECE Recommendation 20, where it has it.
    pub unece: Option<String>,
    /// A number of it in the `si` unit of its kind is number × factor + offset.
    pub factor: ExactText,
    /// What is added, for temperatures; else 0.
    pub offset: ExactText,
}
