//! Home, indexes, rules and about.

use std::collections::BTreeMap;

use serde::Serialize;

use super::complaint::ComplaintsView;
use super::form::Brief;
use super::hazard::Panel;
use super::links::Links;
use super::machine::BuildName;
use super::row::letters;
use super::scope::{self, Anchors};
use super::standing::{self, Mark};
use super::text::{count, sentence};
use crate::model::{Entry, Machine, Model};

/// The first page.
#[derive(Debug, Serialize)]
pub struct HomeView {
    /// Machines by maker.
    pub makers: Vec<MakerView>,
    /// Counts in words.
    pub counts: Vec<String>,
    /// Complaints: title and place in their list.
    pub complaints: Vec<(String, String)>,
    /// True if an engine gives fault codes.
    pub codes: bool,
}

/// A maker and its machines.
#[derive(Debug, Serialize)]
pub struct MakerView {
    /// Its name.
    pub name: String,
    /// Its machines.
    pub machines: Vec<MachineLink>,
}

/// A machine in a list.
#[derive(Debug, Serialize)]
pub struct MachineLink {
    /// Its name.
    pub name: String,
    /// Its chooser.
    pub href: String,
    /// What sort of machine.
    pub sort: Option<String>,
    /// First and last year.
    pub years: String,
    /// Each year with its link, the newest first.
    pub each: Vec<(u16, String)>,
}

/// All machines, year by year.
#[derive(Debug, Serialize)]
pub struct MachinesView {
    /// Machines by maker.
    pub makers: Vec<MakerView>,
}

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

fn counts(model: &Model) -> Vec<String> {
    let values = model.builds.values().map(|build| build.statements.len()).sum();
    vec![
        count(model.machines.len(), "machine", "machines"),
        count(model.engines.len(), "engine", "engines"),
        count(model.builds.len(), "build", "builds"),
        count(values, "value", "values"),
        count(model.procedures.len(), "procedure", "procedures"),
    ]
}

fn makers(model: &Model) -> Vec<MakerView> {
    let of_maker = |id| {
        let mut machines: Vec<&Machine> = model.machines.values().filter(|one| one.maker == id).collect();
        machines.sort_by(|one, other| one.name.cmp(&other.name));
        machines
    };
    let views = model.makers.values().map(|maker| MakerView {
        name: maker.name.clone(),
        machines: of_maker(maker.id.clone()).into_iter().filter_map(|machine| machine_link(model, machine)).collect(),
    });
    let mut views: Vec<MakerView> = views.filter(|view| !view.machines.is_empty()).collect();
    views.sort_by(|one, other| one.name.cmp(&other.name));
    views
}

/// A machine of no year has no engine, and so nothing to open.
fn machine_link(model: &Model, machine: &Machine) -> Option<MachineLink> {
    let fits = model.fits.iter().filter(|fit| fit.machine == machine.id);
    let mut years: Vec<u16> = fits.flat_map(|fit| fit.years.from..=fit.years.to).collect();
    years.sort_unstable();
    years.dedup();
    let (first, last) = (*years.first()?, *years.last()?);
    Some(MachineLink {
        name: machine.name.clone(),
        href: Links::machine(&machine.id),
        sort: machine.sort.clone(),
        years: crate::model::Years { from: first, to: last }.to_string(),
        each: years.iter().rev().map(|year| (*year, Links::year(&machine.id, *year))).collect(),
    })
}

impl HomeView {
    /// The first page.
    pub fn of(model: &Model) -> Self {
        let complaints = ComplaintsView::of(model).complaints.into_iter();
        Self {
            makers: makers(model),
            counts: counts(model),
            complaints: complaints.map(|one| (one.title, format!("complaints.html#{}", one.anchor))).collect(),
            codes: !model.codes.is_empty(),
        }
    }
}

impl MachinesView {
    /// All machines.
    pub fn of(model: &Model) -> Self {
        Self { makers: makers(model) }
    }
}

/// How many builds state each entry; entries that none states have no page.
fn stated(model: &Model) -> BTreeMap<&str, usize> {
    let mut builds: BTreeMap<&str, usize> = BTreeMap::new();
    for build in model.builds.values() {
        let mut of: Vec<&str> = build.statements.iter().map(|one| one.identity.of.as_str()).collect();
        of.sort_unstable();
        of.dedup();
        for entry in of {
            let number = builds.entry(entry).or_default();
            *number = number.saturating_add(1);
        }
    }
    builds
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
    pub fn of(model: &Model) -> Self {
        let stated = stated(model);
        let mut by_letter: BTreeMap<String, Vec<NameLink>> = BTreeMap::new();
        for entry in model.entries.values() {
            let Some(builds) = stated.get(entry.id.as_str()) else { continue };
            for name in std::iter::once(&entry.title).chain(&entry.aka) {
                by_letter.entry(initial(name)).or_default().push(name_link(entry, name, *builds));
            }
        }
        let view = |(letter, mut names): (String, Vec<NameLink>)| {
            names.sort_by_cached_key(|one| (one.name.to_lowercase(), one.href.clone()));
            let anchor = if letter == "#" { "letter-0".to_owned() } else { format!("letter-{}", letter.to_lowercase()) };
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
    pub fn of(model: &Model) -> Self {
        let stated = stated(model);
        let groups = model.groups.iter().zip(letters()).map(|(group, letter)| {
            let entries = group.entries.iter().filter_map(|id| model.entries.get(id));
            let names = entries.filter_map(|entry| {
                let builds = stated.get(entry.id.as_str())?;
                Some(name_link(entry, &entry.title, *builds))
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
            kind: entry.kind.map(crate::quantity::Kind::title),
            note: entry.note.as_deref().map(sentence),
            panels: Panel::several(model, &entry.hazards),
            builds,
        })
    }
}

fn entry_build(model: &Model, id: &crate::model::BuildId, entry: &Entry) -> Option<EntryBuild> {
    let build = model.builds.get(id)?;
    let mut anchors = Anchors::default();
    let name = BuildName::of(model, id);
    let named = build.statements.iter().map(|one| (one, anchors.statement(&one.identity)));
    let statements: Vec<EntryStatement> = named
        .filter(|(one, _)| one.identity.of == entry.id)
        .map(|(one, anchor)| EntryStatement {
            scope: scope::in_words(&one.identity),
            value: standing::brief(model, one),
            has_value: one.has_value() && !model.withholds(one),
            mark: standing::mark(model, one),
            href: format!("{}#{anchor}", name.href),
        })
        .collect();
    let fits = model.fits.iter().filter(|fit| fit.build == *id);
    let machines = fits.map(|fit| {
        let machine = model.machines.get(&fit.machine).map_or_else(|| fit.machine.to_string(), |one| one.name.clone());
        match &fit.serial {
            crate::model::SerialRange::All => format!("{machine} {}", fit.years),
            serial => format!("{machine} {}, {serial}", fit.years),
        }
    });
    (!statements.is_empty()).then(|| EntryBuild { machines: machines.collect(), name, statements })
}

impl AboutView {
    /// The page about the handbook.
    pub fn of(model: &Model) -> Self {
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
            supersedes: source.supersedes.iter().filter_map(|id| model.sources.get(id)).map(|one| one.title.clone()).collect(),
            note: source.note.as_deref().map(sentence),
        });
        Self { panels: Panel::several(model, model.hazards.keys()), counts: counts(model), sources: sources.collect() }
    }
}
