//! How far a value is to be trusted: withheld, read once, confirmed, or let past a warning.
//!
//! Invariant: every sheet takes the value of a statement from here, so that one that is withheld shows
//! on none: no figure, no drawing, no fastener, no note.

use serde::Serialize;

use super::form::{self, Brief};
use super::text::{bind, sentence};
use crate::model::{Confirmation, Model, Statement};

/// What stands beside a value.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Standing {
    /// Why it is not shown, in full sentences.
    pub withheld: Option<String>,
    /// The mark of a value that nobody confirmed.
    pub mark: Option<Mark>,
    /// `again by jl on 2026-10-02`.
    pub again: Option<String>,
    /// Warnings that the lead accepts.
    pub waived: Vec<String>,
}

/// A mark on a value.
#[derive(Clone, Debug, Serialize)]
pub struct Mark {
    /// What it says.
    pub words: &'static str,
    /// What it means.
    pub title: &'static str,
}

impl Standing {
    /// What stands beside the value of a statement.
    pub fn of(model: &Model, statement: &Statement) -> Self {
        let withheld = model.withholds(statement).then(|| refusal(model, statement));
        let waived = model.waivers_on(statement).filter(|_| withheld.is_none()).map(|waiver| {
            sentence(&format!("waived: {} until {}, because {}", waiver.rule, waiver.until, waiver.because))
        });
        Self {
            mark: mark(model, statement),
            again: again(&statement.confirmation),
            waived: waived.collect(),
            withheld,
        }
    }
}

/// The mark of a value that nobody confirmed; one that is withheld says more than a mark.
pub fn mark(model: &Model, statement: &Statement) -> Option<Mark> {
    let mark = match statement.confirmation {
        Confirmation::ReadOnce => {
            Mark { words: "read once", title: "Nobody has read this value a second time." }
        }
        Confirmation::Differs { .. } => Mark {
            words: "read once: a second reading differs",
            title: "A second reader found another value, or found it elsewhere.",
        },
        Confirmation::Confirmed { .. } | Confirmation::NotNeeded => return None,
    };
    (!model.withholds(statement)).then_some(mark)
}

fn again(confirmation: &Confirmation) -> Option<String> {
    let Confirmation::Confirmed { by, on } = confirmation else { return None };
    Some(on.map_or_else(|| format!("again by {by}"), |day| format!("again by {by} on {day}")))
}

/// The value of a statement in brief, or that it is withheld.
pub fn brief(model: &Model, statement: &Statement) -> Brief {
    if !model.withholds(statement) {
        return form::brief(&statement.form);
    }
    Brief::words(match statement.confirmation {
        Confirmation::Differs { .. } => "withheld: two readings of it differ",
        _ => "withheld until it is read a second time",
    })
}

/// `Withheld: read once by mk, and a wrong value here can kill. Let somebody else read page 134 of … again.`
fn refusal(model: &Model, statement: &Statement) -> String {
    let provenance = &statement.provenance;
    let by = provenance.read_by.as_ref().map(|reader| format!(" by {reader}")).unwrap_or_default();
    let found = match statement.confirmation {
        Confirmation::Differs { .. } => "two readings of it differ".to_owned(),
        _ => format!("read once{by}"),
    };
    let why = if is_critical(model, statement) {
        "a wrong value here can kill"
    } else {
        "this handbook shows only what two people have read alike"
    };
    let source = provenance.source.as_ref().and_then(|id| model.sources.get(id));
    let place = match (&provenance.page, source) {
        (Some(page), Some(source)) => format!("page\u{a0}{page} of {}", source.title),
        (Some(page), None) => format!("page\u{a0}{page}"),
        (None, Some(source)) => source.title.clone(),
        (None, None) => "it".to_owned(),
    };
    bind(&format!("Withheld: {found}, and {why}. Let somebody else read {place} again."))
}

fn is_critical(model: &Model, statement: &Statement) -> bool {
    model.entries.get(&statement.identity.of).is_some_and(|entry| entry.critical)
}
