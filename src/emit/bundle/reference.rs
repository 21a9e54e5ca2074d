//! `sources.json`, `hazards.json` and `gauges.json`.

use schemars::JsonSchema;
use serde::Serialize;

use super::quantity::{PrintedJson, form};
use crate::model::{Gauge, Hazard, Model, Source};

/// The manuals and bulletins.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Sources of a bundle")]
pub struct SourcesJson {
    /// The sources.
    pub sources: Vec<SourceJson>,
}

/// One manual or bulletin.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SourceJson {
    /// Its id.
    pub id: String,
    /// Title.
    pub title: String,
    /// Edition.
    pub edition: Option<String>,
    /// Date of publication, ISO 8601.
    pub date: Option<String>,
    /// `manual`, `bulletin` or `stop`.
    pub class: &'static str,
    /// Sources it takes the place of.
    pub supersedes: Vec<String>,
    /// What the technician should know of it.
    pub note: Option<String>,
}

/// The sources as JSON.
pub fn sources(model: &Model) -> SourcesJson {
    let source = |one: &Source| SourceJson {
        id: one.id.to_string(),
        title: one.title.clone(),
        edition: one.edition.clone(),
        date: one.date.map(|date| date.to_string()),
        class: one.class.word(),
        supersedes: one.supersedes.iter().map(ToString::to_string).collect(),
        note: one.note.clone(),
    };
    SourcesJson { sources: model.sources.values().map(source).collect() }
}

/// The hazards.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Hazards of a bundle")]
pub struct HazardsJson {
    /// The hazards.
    pub hazards: Vec<HazardJson>,
}

/// One hazard.
#[derive(Debug, Serialize, JsonSchema)]
pub struct HazardJson {
    /// Its id.
    pub id: String,
    /// Signal word of ANSI Z535.6.
    pub signal: &'static str,
    /// What can hurt.
    pub hazard: String,
    /// What happens.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
}

/// The hazards as JSON.
pub fn hazards(model: &Model) -> HazardsJson {
    let hazard = |one: &Hazard| HazardJson {
        id: one.id.to_string(),
        signal: one.signal.word(),
        hazard: one.hazard.clone(),
        consequence: one.consequence.clone(),
        avoid: one.avoid.clone(),
    };
    HazardsJson { hazards: model.hazards.values().map(hazard).collect() }
}

/// The gauges.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Gauges of a bundle")]
pub struct GaugesJson {
    /// The gauges.
    pub gauges: Vec<GaugeJson>,
}

/// One gauge.
#[derive(Debug, Serialize, JsonSchema)]
pub struct GaugeJson {
    /// Its id.
    pub id: String,
    /// What the shop calls it.
    pub title: String,
    /// Kind of the quantity it measures.
    pub kind: &'static str,
    /// Span it measures over.
    pub span: PrintedJson,
    /// Smallest difference it shows.
    pub resolution: Option<PrintedJson>,
    /// Limit of error, expanded, k = 2.
    pub error: PrintedJson,
    /// Hazards of using it.
    pub hazards: Vec<String>,
}

/// The gauges as JSON.
pub fn gauges(model: &Model) -> GaugesJson {
    let gauge = |one: &Gauge| GaugeJson {
        id: one.id.to_string(),
        title: one.title.clone(),
        kind: one.kind.name(),
        span: form(&one.measures.value),
        resolution: one.resolution.as_ref().map(|one| form(&one.value)),
        error: form(&one.error.value),
        hazards: one.hazards.iter().map(ToString::to_string).collect(),
    };
    GaugesJson { gauges: model.gauges.values().map(gauge).collect() }
}
