//! The sheet of changes: what is not as it was in the release before, the worst first.

use serde::Serialize;

use super::links::Links;
use super::text::{bind, count, words};
use crate::bundle::compare::{Change, ChangeKind, Changes};
use crate::model::Model;

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
    /// How many.
    pub count: usize,
    /// True where before and now say no more than the heading.
    pub named: bool,
    /// The changes, engine by engine.
    pub groups: Vec<GroupView>,
}

/// Changes of one kind in one engine, or in what belongs to none.
#[derive(Debug, Serialize)]
pub struct GroupView {
    /// Title of the engine.
    pub engine: Option<String>,
    /// Its sheet.
    pub href: Option<String>,
    /// The changes.
    pub changes: Vec<ChangeView>,
}

/// One change.
#[derive(Debug, Serialize)]
pub struct ChangeView {
    /// What it is in.
    pub what: String,
    /// Sheet of the build, where it is in one of several.
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
            let own: Vec<&Change> = changes.changes.iter().filter(|one| one.kind == *kind).collect();
            KindView {
                word: kind.word(),
                title: heading(kind.word()),
                step: kind.step().word(),
                meaning: kind.meaning(),
                count: own.len(),
                named: matches!(kind, ChangeKind::Confirmed | ChangeKind::Unconfirmed),
                groups: own
                    .chunk_by(|one, next| one.engine == next.engine)
                    .map(|of_engine| group(model, of_engine))
                    .collect(),
            }
        };
        let kinds = ChangeKind::ALL.iter().map(kind).filter(|kind| kind.count > 0);
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

fn group(model: &Model, changes: &[&Change]) -> GroupView {
    let engine = changes.first().and_then(|one| one.engine.as_deref());
    let build = model.builds.values().find(|build| engine == Some(build.engine.as_str()));
    GroupView {
        engine: engine.map(|id| model.engines.get(id).map_or_else(|| id.to_owned(), |one| one.title.clone())),
        href: build.map(|build| Links::engine(&build.id)),
        changes: changes.iter().map(|one| change(model, one)).collect(),
    }
}

fn change(model: &Model, change: &Change) -> ChangeView {
    let build = change.build.as_deref();
    let mut scope: Vec<String> = build.map(|build| format!("build {build}")).into_iter().collect();
    scope.extend(change.place.iter().chain(&change.when).map(|(key, word)| bind(&format!("{key} {word}"))));
    let whole = if change.engine.is_some() { "The engine itself" } else { "The base itself" };
    ChangeView {
        what: change.of.as_deref().map_or_else(|| whole.to_owned(), |of| name(model, of)),
        href: build.and_then(|build| model.builds.get(build)).map(|build| Links::engine(&build.id)),
        scope,
        before: change.before.as_deref().map(bind),
        after: change.after.as_deref().map(bind),
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
