//! One entry of the catalogue, and every build that states it.

use serde::Serialize;

use super::form::{Brief, brief};
use super::hazard::Panel;
use super::machine::BuildName;
use super::row::letters;
use super::scope::{self, Anchors};
use super::text::sentence;
use crate::model::{BuildId, Entry, Model, SerialRange};
use crate::quantity::Kind;

/// One entry and every build that states it.
#[derive(Debug, Serialize)]
pub struct EntryView {
    /// What the trade calls it.
    pub title: String,
    /// Other names.
    pub aka: Vec<String>,
    /// Its group: letter, title, link.
    pub group: Option<(String, String, String)>,
    /// What it is a quantity of.
    pub kind: Option<&'static str>,
    /// Note of the catalogue.
    pub note: Option<String>,
    /// Hazards of measuring or setting it.
    pub panels: Vec<Panel>,
    /// Builds with their values.
    pub builds: Vec<EntryBuild>,
}

/// One build that states an entry.
#[derive(Debug, Serialize)]
pub struct EntryBuild {
    /// The build.
    pub name: BuildName,
    /// Machines that have it.
    pub machines: Vec<String>,
    /// Its statements.
    pub statements: Vec<EntryStatement>,
}

/// One statement in a list.
#[derive(Debug, Serialize)]
pub struct EntryStatement {
    /// Place and condition.
    pub scope: Vec<String>,
    /// The value in brief.
    pub value: Brief,
    /// False where it only says why there is none.
    pub has_value: bool,
    /// Its row.
    pub href: String,
}

impl EntryView {
    /// One entry and every build that states it; none if no build does.
    pub fn of(model: &Model, entry: &Entry) -> Option<Self> {
        let builds: Vec<EntryBuild> = model.builds.keys().filter_map(|id| entry_build(model, id, entry)).collect();
        if builds.is_empty() {
            return None;
        }
        let lettered = model.groups.iter().zip(letters());
        let group = lettered.into_iter().find(|(group, _)| group.entries.contains(&entry.id));
        Some(Self {
            title: entry.title.clone(),
            aka: entry.aka.clone(),
            group: group.map(|(group, letter)| {
                (letter, group.title.clone(), format!("groups.html#group-{}", scope::entry(&group.id)))
            }),
            kind: entry.kind.map(Kind::title),
            note: entry.note.as_deref().map(sentence),
            panels: Panel::several(model, &entry.hazards),
            builds,
        })
    }
}

fn entry_build(model: &Model, id: &BuildId, entry: &Entry) -> Option<EntryBuild> {
    let build = model.builds.get(id)?;
    let mut anchors = Anchors::default();
    let name = BuildName::of(model, id);
    let named = build.statements.iter().map(|one| (one, anchors.statement(&one.identity)));
    let statements: Vec<EntryStatement> = named
        .filter(|(one, _)| one.identity.of == entry.id)
        .map(|(one, anchor)| EntryStatement {
            scope: scope::in_words(&one.identity),
            value: brief(&one.form),
            has_value: one.has_value(),
            href: format!("{}#{anchor}", name.href),
        })
        .collect();
    let fits = model.fits.iter().filter(|fit| fit.build == *id);
    let machines = fits.map(|fit| {
        let machine = model.machines.get(&fit.machine).map_or_else(|| fit.machine.to_string(), |one| one.name.clone());
        match &fit.serial {
            SerialRange::All => format!("{machine} {}", fit.years),
            serial => format!("{machine} {}, {serial}", fit.years),
        }
    });
    (!statements.is_empty()).then(|| EntryBuild { machines: machines.collect(), name, statements })
}
