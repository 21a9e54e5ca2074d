//! The coverage sheet of an engine, for the lead: what is stated, confirmed, absent and not read yet.

use serde::Serialize;

use super::engine::letters;
use super::links::Links;
use super::places::Places;
use super::scope;
use crate::emit::coverage::{GroupCoverage, coverage};
use crate::model::{Confirmation, Engine, EntryId, Model, Statement};

/// The coverage sheet of an engine.
#[derive(Debug, Serialize)]
pub struct CoverageView {
    /// Title of the engine.
    pub engine: String,
    /// Sums over all groups.
    pub sums: Sums,
    /// The groups.
    pub groups: Vec<GroupLine>,
}

/// How many of each sort.
#[derive(Clone, Copy, Debug, Default, Serialize)]
pub struct Sums {
    /// Statements with a value.
    pub stated: usize,
    /// Of these, confirmed by a second reading.
    pub confirmed: usize,
    /// Of these, read once or read differently.
    pub unconfirmed: usize,
    /// Entries not given by the maker, or not on the engine.
    pub absent: usize,
    /// Entries that nobody has read yet.
    pub unread: usize,
}

/// One service group.
#[derive(Debug, Serialize)]
pub struct GroupLine {
    /// Its letter.
    pub letter: String,
    /// Title.
    pub title: String,
    /// Anchor.
    pub anchor: String,
    /// How many of each sort.
    pub sums: Sums,
    /// Values read once.
    pub unconfirmed: Vec<Unconfirmed>,
    /// Titles of entries not given or not on the engine.
    pub absent: Vec<String>,
    /// Titles of entries that nobody has read yet.
    pub unread: Vec<String>,
}

/// A value that nobody confirmed.
#[derive(Debug, Serialize)]
pub struct Unconfirmed {
    /// Title of the entry.
    pub title: String,
    /// Place and condition.
    pub scope: Vec<String>,
    /// True if a second reading differs.
    pub differs: bool,
    /// True if it is withheld until it is confirmed.
    pub withheld: bool,
    /// Title and page of the source.
    pub source: Option<(String, String)>,
    /// Its row in the first build that holds it.
    pub href: Option<String>,
}

/// An engine in the list.
#[derive(Debug, Serialize)]
pub struct CoverageLink {
    /// Title.
    pub engine: String,
    /// Its sheet.
    pub href: String,
    /// How many of each sort.
    pub sums: Sums,
}

/// All engines.
#[derive(Debug, Serialize)]
pub struct CoveragesView {
    /// The engines.
    pub engines: Vec<CoverageLink>,
}

impl Sums {
    fn of(group: &GroupCoverage<'_>) -> Self {
        Self {
            stated: group.stated,
            confirmed: group.confirmed,
            unconfirmed: group.unconfirmed.len(),
            absent: group.absent.len(),
            unread: group.unread.len(),
        }
    }

    fn plus(self, other: Self) -> Self {
        Self {
            stated: self.stated.saturating_add(other.stated),
            confirmed: self.confirmed.saturating_add(other.confirmed),
            unconfirmed: self.unconfirmed.saturating_add(other.unconfirmed),
            absent: self.absent.saturating_add(other.absent),
            unread: self.unread.saturating_add(other.unread),
        }
    }

    fn over(groups: &[GroupCoverage<'_>]) -> Self {
        groups.iter().map(Self::of).fold(Self::default(), Self::plus)
    }
}

impl CoverageView {
    /// The coverage sheet of an engine.
    pub fn of(model: &Model, places: &Places, engine: &Engine) -> Self {
        let groups = coverage(model, engine);
        Self {
            engine: engine.title.clone(),
            sums: Sums::over(&groups),
            groups: groups
                .iter()
                .zip(letters())
                .map(|(group, letter)| group_line(model, places, group, letter))
                .collect(),
        }
    }
}

fn group_line(model: &Model, places: &Places, group: &GroupCoverage<'_>, letter: String) -> GroupLine {
    let title = |id: &&EntryId| entry_title(model, id);
    GroupLine {
        letter,
        title: group.group.title.clone(),
        anchor: format!("group-{}", scope::entry(&group.group.id)),
        sums: Sums::of(group),
        unconfirmed: group.unconfirmed.iter().map(|one| unconfirmed(model, places, one)).collect(),
        absent: group.absent.iter().map(title).collect(),
        unread: group.unread.iter().map(title).collect(),
    }
}

fn entry_title(model: &Model, id: &EntryId) -> String {
    model.entries.get(id).map_or_else(|| id.to_string(), |entry| entry.title.clone())
}

fn unconfirmed(model: &Model, places: &Places, statement: &Statement) -> Unconfirmed {
    let page = statement.provenance.page.as_deref();
    let source = statement.provenance.source.as_ref().and_then(|id| model.sources.get(id));
    let shown = page.map(|page| format!(", page\u{a0}{page}")).unwrap_or_default();
    Unconfirmed {
        title: entry_title(model, &statement.identity.of),
        scope: scope::in_words(&statement.identity),
        differs: matches!(statement.confirmation, Confirmation::Differs { .. }),
        withheld: model.withholds(statement),
        source: source.map(|source| (format!("{}{shown}", source.title), Links::source(&source.id, page))),
        href: places.rows(statement).first().map(|row| row.href.clone()),
    }
}

impl CoveragesView {
    /// All engines.
    pub fn of(model: &Model) -> Self {
        let link = |engine: &Engine| CoverageLink {
            engine: engine.title.clone(),
            href: Links::coverage(&engine.id),
            sums: Sums::over(&coverage(model, engine)),
        };
        Self { engines: model.engines.values().map(link).collect() }
    }
}
