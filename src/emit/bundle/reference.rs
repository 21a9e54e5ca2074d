//! `sources.json`, `hazards.json` and `gauges.json`.

use super::quantity::form;
use crate::bundle as json;
use crate::model::{Gauge, Hazard, Model, Source};

/// The sources as JSON.
pub fn sources(model: &Model) -> json::Sources {
    let source = |one: &Source| json::Source {
        id: one.id.to_string(),
        title: one.title.clone(),
        short: one.short.clone(),
        edition: one.edition.clone(),
        date: one.date.map(|date| date.to_string()),
        class: one.class.word().to_owned(),
        supersedes: one.supersedes.iter().map(ToString::to_string).collect(),
        note: one.note.clone(),
    };
    json::Sources { sources: model.sources.values().map(source).collect() }
}

/// The hazards as JSON.
pub fn hazards(model: &Model) -> json::Hazards {
    let hazard = |one: &Hazard| json::Hazard {
        id: one.id.to_string(),
        signal: one.signal.word().to_owned(),
        hazard: one.hazard.clone(),
        consequence: one.consequence.clone(),
        avoid: one.avoid.clone(),
    };
    json::Hazards { hazards: model.hazards.values().map(hazard).collect() }
}

/// The gauges as JSON.
pub fn gauges(model: &Model) -> json::Gauges {
    let gauge = |one: &Gauge| json::Gauge {
        id: one.id.to_string(),
        title: one.title.clone(),
        kind: one.kind.name().to_owned(),
        span: form(&one.measures.value),
        resolution: one.resolution.as_ref().map(|one| form(&one.value)),
        error: form(&one.error.value),
        hazards: one.hazards.iter().map(ToString::to_string).collect(),
    };
    json::Gauges { gauges: model.gauges.values().map(gauge).collect() }
}
