//! Quantities in JSON: the number as text, its unit in three codes, its exact value in SI.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::ExactText;

/// One number with its unit.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Quantity {
    /// The number as printed, or as it follows exactly from what is printed.
    pub text: String,
    /// The unit as written in this bundle.
    pub unit: String,
    /// The unit in UCUM, where UCUM has it.
    pub ucum: Option<String>,
    /// The unit in UNECE Recommendation 20, where it has it.
    pub unece: Option<String>,
    /// The exact value in the unit of `bundle.json`'s `si` table for its kind: a decimal, or `n/d`.
    pub si: ExactText,
}

/// One printed form.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Printed {
    /// The whole form in canonical spelling, digits as printed.
    pub text: String,
    /// Lower limit, or the value itself; null if there is none.
    pub min: Option<Quantity>,
    /// Upper limit, or the value itself; null if there is none.
    pub max: Option<Quantity>,
    /// The middle of a tolerance as printed; null for any other form.
    pub nominal: Option<Quantity>,
    /// False where the lower limit itself is outside.
    pub min_inclusive: bool,
    /// False where the upper limit itself is outside.
    pub max_inclusive: bool,
}

/// A limit of the maker's own form, and every printed form.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Range {
    /// Lower limit in the maker's own unit; null if there is none.
    pub min: Option<Quantity>,
    /// Upper limit in the maker's own unit; null if there is none.
    pub max: Option<Quantity>,
    /// Every form the manual prints, the maker's own first.
    pub printed: Vec<Printed>,
}
