//! One entry of the catalogue, and every build that states it.

use serde::Serialize;

use super::atlas::Atlas;
use super::engine::letters;
use super::form::Brief;
use super::hazard::Panel;
use super::machine::BuildName;
use super::scope;
use super::standing::{self, Mark};
use super::text::sentence;
use crate::model::{Build, Entry, SerialRange};
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
    /// The mark of a value that nobody confirmed.
    pub mark: Option<Mark>,
    /// Its row.
    pub href: String,
}

impl EntryView {
    /// One entry and every build that states it; none if no build does.
    pub fn of(atlas: &Atlas<'_>, entry: &Entry) -> Option<Self> {
        let model = atlas.model;
        let builds: Vec<EntryBuild> =
            atlas.stating(&entry.id).iter().map(|build| entry_build(atlas, build, entry)).collect();
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

fn entry_build<'a>(atlas: &Atlas<'a>, build: &'a Build, entry: &Entry) -> EntryBuild {
    let name = atlas.name(&build.id);
    let of_entry = atlas.rows(build).filter(|(one, _)| one.identity.of == entry.id);
    let statements = of_entry.map(|(one, anchor)| EntryStatement {
        scope: scope::in_words(&one.identity),
        value: standing::brief(atlas.model, one),
        has_value: one.has_value() && !atlas.model.withholds(one),
        mark: standing::mark(atlas.model, one),
        href: format!("{}#{anchor}", name.href),
    });
    let statements = statements.collect();
    let machines = atlas.fits_of_build(&build.id).iter().map(|fit| {
        let machine = atlas.model.machines.get(&fit.machine);
        let machine = machine.map_or_else(|| fit.machine.to_string(), |one| one.name.clone());
        match &fit.serial {
            SerialRange::All => format!("{machine} {}", fit.years),
            serial => format!("{machine} {}, {serial}", fit.years),
        }
    });
    EntryBuild { machines: machines.collect(), name, statements }
}
