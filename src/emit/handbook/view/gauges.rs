//! The list of gauges: what each measures, and how far it may be off.

use serde::Serialize;

use super::hazard::Panel;
use super::text::Figure;
use crate::model::{Gauge, Model, Printed};

/// All gauges.
#[derive(Debug, Serialize)]
pub struct GaugesView {
    /// The gauges, in order of title.
    pub gauges: Vec<GaugeView>,
    /// Hazards of using them, each once.
    pub panels: Vec<Panel>,
}

/// One gauge.
#[derive(Debug, Serialize)]
pub struct GaugeView {
    /// Anchor.
    pub anchor: String,
    /// What the shop calls it.
    pub title: String,
    /// What it measures.
    pub kind: &'static str,
    /// Span it measures over.
    pub span: Figure,
    /// Smallest difference it shows.
    pub resolution: Option<Figure>,
    /// Limit of error, k = 2.
    pub error: Figure,
    /// Its hazards in words: signal word and hazard.
    pub hazards: Vec<(&'static str, String)>,
}

impl GaugesView {
    /// All gauges.
    pub fn of(model: &Model) -> Self {
        let mut gauges: Vec<&Gauge> = model.gauges.values().collect();
        gauges.sort_by(|one, other| one.title.cmp(&other.title));
        let panels = Panel::several(model, gauges.iter().flat_map(|gauge| &gauge.hazards));
        Self { panels, gauges: gauges.into_iter().map(|gauge| gauge_view(model, gauge)).collect() }
    }
}

fn gauge_view(model: &Model, gauge: &Gauge) -> GaugeView {
    let figure = |printed: &Printed| Figure::of(&printed.value);
    let panels = Panel::several(model, &gauge.hazards);
    GaugeView {
        anchor: format!("gauge-{}", gauge.id),
        title: gauge.title.clone(),
        kind: gauge.kind.title(),
        span: figure(&gauge.measures),
        resolution: gauge.resolution.as_ref().map(figure),
        error: figure(&gauge.error),
        hazards: panels.into_iter().map(|panel| (panel.signal, panel.hazard)).collect(),
    }
}

/// Every gauge for scripts, as `{id: {title, kind, span, resolution, error}}` with values as printed.
pub fn gauge_data(model: &Model) -> serde_json::Value {
    let text = |printed: &Printed| printed.value.text();
    let data = |gauge: &Gauge| {
        serde_json::json!({
            "title": gauge.title,
            "kind": gauge.kind.name(),
            "span": text(&gauge.measures),
            "resolution": gauge.resolution.as_ref().map(text),
            "error": text(&gauge.error),
        })
    };
    let all = model.gauges.iter().map(|(id, gauge)| (id.to_string(), data(gauge)));
    serde_json::Value::Object(all.collect())
}
