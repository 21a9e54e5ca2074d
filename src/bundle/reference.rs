//! `sources.json`, `hazards.json` and `gauges.json`.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Printed;

/// The manuals and bulletins.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Sources of a bundle")]
pub struct Sources {
    /// The sources.
    pub sources: Vec<Source>,
}

/// One manual or bulletin.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Source {
    /// Its id.
    pub id: String,
    /// Title.
    pub title: String,
    /// What the shop calls it, where its title is long.
    pub short: Option<String>,
    /// Edition.
    pub edition: Option<String>,
    /// Date of publication, ISO 8601.
    pub date: Option<String>,
    /// `manual`, `bulletin` or `stop`.
    #[schemars(extend("enum" = ["manual", "bulletin", "stop"]))]
    pub class: String,
    /// Sources it takes the place of.
    pub supersedes: Vec<String>,
    /// What the technician should know of it.
    pub note: Option<String>,
}

/// The hazards.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Hazards of a bundle")]
pub struct Hazards {
    /// The hazards.
    pub hazards: Vec<Hazard>,
}

/// One hazard.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Hazard {
    /// Its id.
    pub id: String,
    /// Signal word of ANSI Z535.6.
    #[schemars(extend("enum" = ["DANGER", "WARNING", "CAUTION", "NOTICE"]))]
    pub signal: String,
    /// What can hurt.
    pub hazard: String,
    /// What happens.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
}

/// The gauges.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Gauges of a bundle")]
pub struct Gauges {
    /// The gauges.
    pub gauges: Vec<Gauge>,
}

/// One gauge.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Gauge {
    /// Its id.
    pub id: String,
    /// What the shop calls it.
    pub title: String,
    /// Kind of the quantity it measures.
    pub kind: String,
    /// Span it measures over.
    pub span: Printed,
    /// Smallest difference it shows.
    pub resolution: Option<Printed>,
    /// Limit of error, expanded, k = 2.
    pub error: Printed,
    /// Hazards of using it.
    pub hazards: Vec<String>,
}
