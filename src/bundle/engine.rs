//! `engines/<id>.json`: one engine, its builds and their statements.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Fit, Printed, Serial, Spec};

/// One engine with its builds.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Engine of a bundle")]
pub struct Engine {
    /// Id of the engine.
    pub id: String,
    /// Title of the engine.
    pub title: String,
    /// Id of its maker.
    pub maker: String,
    /// How it is laid out.
    pub layout: Option<Layout>,
    /// Its variants, whether or not a build has them.
    pub variants: Vec<Variant>,
    /// What a technician looks up: the engine after its variants.
    pub builds: Vec<Build>,
}

/// How an engine is laid out.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Layout {
    /// `four-stroke` or `two-stroke`.
    #[schemars(extend("enum" = ["four-stroke", "two-stroke"]))]
    pub cycle: String,
    /// `petrol` or `diesel`.
    #[schemars(extend("enum" = ["petrol", "diesel"]))]
    pub fuel: String,
    /// Number of cylinders.
    pub cylinders: u32,
    /// Cylinder bore.
    pub bore: Option<Printed>,
    /// Piston stroke.
    pub stroke: Option<Printed>,
    /// Swept volume.
    pub displacement: Option<Printed>,
    /// The shop's words for it.
    pub words: Option<String>,
}

/// What a bulletin changes.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Variant {
    /// Id of the variant.
    pub id: String,
    /// Id of the bulletin.
    pub source: Option<String>,
    /// The machines it holds for; what comes of it, with other variants, is in the builds.
    pub applies: Vec<Reach>,
    /// Variants it takes the place of.
    pub replaces: Vec<String>,
    /// Why, in the shop's words.
    pub note: Option<String>,
}

/// Machines a variant holds for.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Reach {
    /// Id of the machine.
    pub machine: String,
    /// First model year; null for all that have the engine.
    pub from_year: Option<u16>,
    /// Last model year; null for all that have the engine.
    pub to_year: Option<u16>,
    /// Serial numbers; null for all.
    pub serial: Option<Serial>,
}

/// An engine after its variants.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Build {
    /// `engine~variant~variant`, the variants sorted.
    pub id: String,
    /// The variants in force.
    pub variants: Vec<String>,
    /// The machines, years and serial numbers that have it.
    pub fits: Vec<Fit>,
    /// Its statements, in the order of a sheet.
    pub specs: Vec<Spec>,
}
