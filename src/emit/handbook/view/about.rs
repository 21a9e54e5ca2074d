//! The page of rules, and the page about the handbook.

use serde::Serialize;

use super::hazard::Panel;
use super::home::counts;
use super::links::Links;
use super::text::sentence;
use crate::model::Model;

/// Every rule.
#[derive(Debug, Serialize)]
pub struct RulesView {
    /// Rules by what they are about.
    pub groups: Vec<RuleGroup>,
    /// How many.
    pub counts: String,
}

/// Rules about one thing.
#[derive(Debug, Serialize)]
pub struct RuleGroup {
    /// Heading.
    pub title: &'static str,
    /// The rules.
    pub rules: Vec<RuleView>,
}

/// One rule.
#[derive(Debug, Serialize)]
pub struct RuleView {
    /// Its name, and its anchor.
    pub name: &'static str,
    /// `error`, `warning` or `note`.
    pub severity: &'static str,
    /// One sentence.
    pub summary: String,
    /// Its page, rendered.
    pub page: String,
    /// The findings of its wrong example.
    pub printed: &'static str,
}

/// What the handbook is, and every caution.
#[derive(Debug, Serialize)]
pub struct AboutView {
    /// Every hazard, the gravest first.
    pub panels: Vec<Panel>,
    /// Counts in words.
    pub counts: Vec<String>,
    /// Bulletins and manuals: title, edition, date.
    pub sources: Vec<SourceLine>,
    /// What the handbook takes on a device: `3.2 MB`.
    pub size: String,
}

/// A manual or bulletin in a list.
#[derive(Debug, Serialize)]
pub struct SourceLine {
    /// Title.
    pub title: String,
    /// Its sheet.
    pub href: String,
    /// Edition and date.
    pub edition: Vec<String>,
    /// Titles of those it takes the place of.
    pub supersedes: Vec<String>,
    /// What the technician should know of it.
    pub note: Option<String>,
}

impl AboutView {
    /// The page about a handbook of a size.
    pub fn of(model: &Model, size: String) -> Self {
        let sources = model.sources.values().map(|source| SourceLine {
            title: source.title.clone(),
            href: Links::source_sheet(&source.id),
            edition: [
                source.edition.as_ref().map(|edition| format!("edition {edition}")),
                source.date.map(|date| date.to_string()),
            ]
            .into_iter()
            .flatten()
            .collect(),
            supersedes: source
                .supersedes
                .iter()
                .filter_map(|id| model.sources.get(id))
                .map(|one| one.title.clone())
                .collect(),
            note: source.note.as_deref().map(sentence),
        });
        Self {
            panels: Panel::several(model, model.hazards.keys()),
            counts: counts(model),
            sources: sources.collect(),
            size,
        }
    }
}
