//! The sheet of changes: what is not as it was in the release before, the worst first.

use serde::Serialize;

use super::links::Links;
use super::text::{count, words};
use crate::bundle::compare::{Change, ChangeKind, Changes};
use crate::model::{Build, Model};

/// The sheet of changes.
#[derive(Debug, Serialize)]
pub struct ChangesView {
    /// Release it is compared with.
    pub since: String,
    /// Date of that release.
    pub date: String,
    /// How many, in words.
    pub summary: String,
    /// Kinds of change that there are.
    pub kinds: Vec<KindView>,
}

/// Changes of one kind.
#[derive(Debug, Serialize)]
pub struct KindView {
    /// Its word, which is its anchor too.
    pub word: &'static str,
    /// Its heading.
    pub title: String,
    /// How grave it is, in words.
    pub step: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// The changes.
    pub changes: Vec<ChangeView>,
}

/// One change.
#[derive(Debug, Serialize)]
pub struct ChangeView {
    /// What it is in.
    pub what: String,
    /// Sheet that shows it.
    pub href: Option<String>,
    /// Build, place and condition.
    pub scope: Vec<String>,
    /// What stood there.
    pub before: Option<String>,
    /// What stands there now.
    pub after: Option<String>,
}

impl ChangesView {
    /// The sheet of changes.
    pub fn of(model: &Model, changes: &Changes) -> Self {
        let kind = |kind: &ChangeKind| {
            let own = changes.changes.iter().filter(|one| one.kind == *kind);
            KindView {
                word: kind.word(),
                title: heading(kind.word()),
                step: kind.step().word(),
                meaning: kind.meaning(),
                changes: own.map(|one| change(model, one)).collect(),
            }
        };
        let kinds = ChangeKind::ALL.iter().map(kind).filter(|kind| !kind.changes.is_empty());
        Self {
            since: changes.since.release.clone(),
            date: changes.since.date.clone(),
            summary: count(changes.changes.len(), "change", "changes"),
            kinds: kinds.collect(),
        }
    }
}

/// A kebab-case word as a heading.
fn heading(word: &str) -> String {
    let said = words(word);
    let (first, rest) = said.split_at(said.chars().next().map_or(0, char::len_utf8));
    format!("{}{rest}", first.to_uppercase())
}

fn change(model: &Model, change: &Change) -> ChangeView {
    let engine = change.engine.as_deref();
    let title = engine.map(|id| model.engines.get(id).map_or_else(|| id.to_owned(), |one| one.title.clone()));
    let of = change.of.as_deref().map(|of| name(model, of));
    let what = [title, of].into_iter().flatten().collect::<Vec<_>>().join(": ");
    let mut scope: Vec<String> = match (&change.build, engine) {
        (Some(build), _) => vec![format!("build {build}")],
        (None, Some(_)) if change.of.is_some() => vec!["every build".to_owned()],
        _ => Vec::new(),
    };
    scope.extend(change.place.iter().chain(&change.when).map(|(key, word)| format!("{key} {word}")));
    let of_engine = |build: &&Build| engine == Some(build.engine.as_str());
    let shown = match &change.build {
        Some(build) => model.builds.get(build.as_str()),
        None => model.builds.values().find(of_engine),
    };
    ChangeView {
        what: if what.is_empty() { "The base itself".to_owned() } else { what },
        href: shown.map(|build| Links::engine(&build.id)),
        scope,
        before: change.before.clone(),
        after: change.after.clone(),
    }
}

/// The title of the thing of an id.
fn name(model: &Model, id: &str) -> String {
    let entry = model.entries.get(id).map(|one| &one.title);
    let hazard = || model.hazards.get(id).map(|one| &one.hazard);
    let procedure = || model.procedures.get(id).map(|one| &one.title);
    let complaint = || model.complaints.get(id).map(|one| &one.title);
    let machine = || model.machines.get(id).map(|one| &one.name);
    let source = || model.sources.get(id).map(|one| &one.title);
    let gauge = || model.gauges.get(id).map(|one| &one.title);
    let guides = entry.or_else(hazard).or_else(procedure).or_else(complaint);
    guides.or_else(machine).or_else(source).or_else(gauge).map_or_else(|| id.to_owned(), Clone::clone)
}
