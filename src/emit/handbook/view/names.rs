//! Every name from A to Z, and by service group, each with the way to what states it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::atlas::Atlas;
use super::engine::letters;
use super::links::Links;
use super::scope;
use super::text::count;
use crate::model::Entry;

/// Every name from A to Z.
#[derive(Debug, Serialize)]
pub struct AzView {
    /// Initials that have a name.
    pub letters: Vec<LetterView>,
}

/// The names of one initial.
#[derive(Debug, Serialize)]
pub struct LetterView {
    /// The initial, `#` for figures.
    pub letter: String,
    /// Anchor.
    pub anchor: String,
    /// Names.
    pub names: Vec<NameLink>,
}

/// One name.
#[derive(Clone, Debug, Serialize)]
pub struct NameLink {
    /// The name.
    pub name: String,
    /// What the sheet calls it, where this is another name.
    pub see: Option<String>,
    /// The list of builds that state it.
    pub href: String,
    /// `3 builds`.
    pub builds: String,
}

/// Entries by service group.
#[derive(Debug, Serialize)]
pub struct GroupsView {
    /// The groups.
    pub groups: Vec<GroupNames>,
}

/// One service group.
#[derive(Debug, Serialize)]
pub struct GroupNames {
    /// Its letter.
    pub letter: String,
    /// Title.
    pub title: String,
    /// Anchor.
    pub anchor: String,
    /// Its entries.
    pub names: Vec<NameLink>,
}

fn name_link(entry: &Entry, name: &str, builds: usize) -> NameLink {
    NameLink {
        name: name.to_owned(),
        see: (name != entry.title).then(|| entry.title.clone()),
        href: Links::entry(&entry.id),
        builds: count(builds, "build", "builds"),
    }
}

impl AzView {
    /// Every name of every entry that some build states.
    pub fn of(atlas: &Atlas<'_>) -> Self {
        let model = atlas.model;
        let mut by_letter: BTreeMap<String, Vec<NameLink>> = BTreeMap::new();
        for entry in model.entries.values() {
            let builds = atlas.stating(&entry.id).len();
            for name in std::iter::once(&entry.title).chain(&entry.aka).filter(|_| builds > 0) {
                by_letter.entry(initial(name)).or_default().push(name_link(entry, name, builds));
            }
        }
        let view = |(letter, mut names): (String, Vec<NameLink>)| {
            names.sort_by_cached_key(|one| (one.name.to_lowercase(), one.href.clone()));
            let anchor = if letter == "#" {
                "letter-0".to_owned()
            } else {
                format!("letter-{}", letter.to_lowercase())
            };
            LetterView { letter, anchor, names }
        };
        Self { letters: by_letter.into_iter().map(view).collect() }
    }
}

/// The initial of a name in capitals; figures and the rest share `#`.
fn initial(name: &str) -> String {
    let first = name.chars().next().map(|c| c.to_ascii_uppercase()).filter(char::is_ascii_uppercase);
    first.map_or_else(|| "#".to_owned(), String::from)
}

impl GroupsView {
    /// Every entry that some build states, by service group.
    pub fn of(atlas: &Atlas<'_>) -> Self {
        let model = atlas.model;
        let groups = model.groups.iter().zip(letters()).map(|(group, letter)| {
            let entries = group.entries.iter().filter_map(|id| model.entries.get(id));
            let names = entries.filter_map(|entry| {
                let builds = atlas.stating(&entry.id).len();
                (builds > 0).then(|| name_link(entry, &entry.title, builds))
            });
            GroupNames {
                letter,
                title: group.title.clone(),
                anchor: format!("group-{}", scope::entry(&group.id)),
                names: names.collect(),
            }
        });
        Self { groups: groups.filter(|group| !group.names.is_empty()).collect() }
    }
}
