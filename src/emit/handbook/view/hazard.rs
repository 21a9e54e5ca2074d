//! Caution panels with the signal words of ANSI Z535.6.

use serde::Serialize;

use super::text::sentence;
use crate::model::{Build, HazardId, Model, Procedure, ProcedureId, SignalWord};

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

/// What can hurt in a procedure that another one leads to, by name: its own sheet says the rest.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Named {
    /// `There`, or the words of the link where a text leads to several procedures.
    pub place: String,
    /// The hazards that the procedure which leads there does not declare itself; never none.
    pub hazards: Vec<Panel>,
}

impl Named {
    /// The hazards of the procedures that a text of `reader` leads to, each with the words of its link, in its order. One
    /// that does not fit the build has no sheet to lead to.
    pub fn of<'a>(
        model: &Model,
        build: &Build,
        reader: &Procedure,
        led_to: impl IntoIterator<Item = (&'a ProcedureId, &'a str)>,
    ) -> Vec<Self> {
        let mut all: Vec<(&Procedure, &str)> = Vec::new();
        for (id, words) in led_to {
            let fitting = model.procedures.get(id).filter(|one| model.fits_build(&one.fits, build));
            if let Some(procedure) = fitting
                && !all.iter().any(|(one, _)| one.id == procedure.id)
            {
                all.push((procedure, if words.is_empty() { &procedure.title } else { words }));
            }
        }
        let alone = all.len() == 1;
        let named = all.into_iter().map(|(procedure, words)| Self {
            place: if alone { "There".to_owned() } else { words.to_owned() },
            hazards: Panel::several(
                model,
                procedure.hazards.iter().filter(|id| !reader.hazards.contains(id)),
            ),
        });
        named.filter(|one| !one.hazards.is_empty()).collect()
    }

    /// The line as text: `There: WARNING Hot coolant under pressure. CAUTION Hot oil.`
    pub fn plain(&self) -> String {
        let hazard = |one: &Panel| format!(" {} {}", one.signal, one.hazard);
        format!("{}:{}", self.place, self.hazards.iter().map(hazard).collect::<String>())
    }
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
