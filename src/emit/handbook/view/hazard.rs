//! Caution panels with the signal words of ANSI Z535.6.

use serde::Serialize;

use super::text::sentence;
use crate::model::{HazardId, Model, SignalWord};

/// One panel.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Panel {
    /// Id of the hazard.
    pub id: String,
    /// The signal word.
    pub signal: &'static str,
    /// Its class in the style sheet.
    pub class: &'static str,
    /// True for all but NOTICE: the safety alert symbol stands for harm to people only.
    pub alert: bool,
    /// What can hurt.
    pub hazard: String,
    /// What happens.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
}

/// Several hazards under one signal word.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Hazards {
    /// The signal word.
    pub signal: &'static str,
    /// Its class in the style sheet.
    pub class: &'static str,
    /// True for all but NOTICE.
    pub alert: bool,
    /// The hazards, each once, in the order given.
    pub panels: Vec<Panel>,
}

impl Hazards {
    /// Several hazards by signal word, the gravest first.
    pub fn of<'a>(model: &Model, ids: impl IntoIterator<Item = &'a HazardId>) -> Vec<Self> {
        let mut words: Vec<Self> = Vec::new();
        for panel in Panel::several(model, ids) {
            match words.iter_mut().find(|word| word.signal == panel.signal) {
                Some(word) => word.panels.push(panel),
                None => {
                    let Panel { signal, class, alert, .. } = panel;
                    words.push(Self { signal, class, alert, panels: vec![panel] });
                }
            }
        }
        words
    }
}

impl Panel {
    /// The panel of a hazard; none if the model has no such hazard.
    pub fn of(model: &Model, id: &HazardId) -> Option<Self> {
        let hazard = model.hazards.get(id)?;
        Some(Self {
            id: id.to_string(),
            signal: hazard.signal.word(),
            class: hazard.signal.class(),
            alert: hazard.signal != SignalWord::Notice,
            hazard: sentence(&hazard.hazard),
            consequence: sentence(&hazard.consequence),
            avoid: sentence(&hazard.avoid),
        })
    }

    /// True for what will kill or maim: it stands in full at the head of a sheet.
    pub fn is_danger(&self) -> bool {
        self.class == SignalWord::Danger.class()
    }

    /// The panels of several hazards, each once, the gravest first, else in the order given.
    pub fn several<'a>(model: &Model, ids: impl IntoIterator<Item = &'a HazardId>) -> Vec<Self> {
        let mut seen: Vec<&HazardId> = Vec::new();
        for id in ids {
            if !seen.contains(&id) {
                seen.push(id);
            }
        }
        seen.sort_by_key(|id| model.hazards.get(*id).map(|hazard| hazard.signal));
        seen.into_iter().filter_map(|id| Self::of(model, id)).collect()
    }
}
