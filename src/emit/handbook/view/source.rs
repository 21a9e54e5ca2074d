//! The sheet of a manual or bulletin: every value read from it, page by page, for whoever reads it again.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use serde::Serialize;

use super::links::Links;
use super::places::{Places, RowLink};
use super::row::Row;
use super::scope;
use super::text::{bind, count, sentence};
use crate::model::{Engine, Model, Source, SourceClass, SourceId, Statement};

/// The sheet of a source.
#[derive(Debug, Serialize)]
pub struct SourceView {
    /// What it is.
    pub head: SourceHead,
    /// Sources it takes the place of.
    pub supersedes: Vec<(String, String)>,
    /// Sources that take its place.
    pub superseded_by: Vec<(String, String)>,
    /// Sets of fault codes read from it.
    pub codes: Vec<(String, String)>,
    /// Its pages, in the order of the book.
    pub pages: Vec<PageView>,
}

/// A source in a list.
#[derive(Debug, Serialize)]
pub struct SourceHead {
    /// Title.
    pub title: String,
    /// Its sheet.
    pub href: String,
    /// `manual`, `bulletin` or `bulletin that says not to run the machine`.
    pub class: &'static str,
    /// Edition and date.
    pub edition: Vec<String>,
    /// What the technician should know of it.
    pub note: Option<String>,
    /// `12 values`.
    pub values: String,
    /// True if another takes its place.
    pub superseded: bool,
}

/// One page.
#[derive(Debug, Serialize)]
pub struct PageView {
    /// `Page 5-12`.
    pub title: String,
    /// The page alone, for the list of pages.
    pub short: String,
    /// Anchor.
    pub anchor: String,
    /// Values read there.
    pub values: Vec<ReadValue>,
}

/// One value as it was read.
#[derive(Debug, Serialize)]
pub struct ReadValue {
    /// The statement, without drawings and converted figures.
    pub row: Row,
    /// Title of the engine.
    pub engine: String,
    /// The row in every build that holds it; only one of them where all do.
    pub builds: Vec<RowLink>,
    /// True if every build of the engine holds it.
    pub every: bool,
}

/// All sources.
#[derive(Debug, Serialize)]
pub struct SourcesView {
    /// Sources by class.
    pub classes: Vec<(&'static str, Vec<SourceHead>)>,
    /// How many.
    pub count: String,
}

type Read<'a> = (&'a Engine, &'a Statement);

/// Every statement read from a source, in the order of the engines' files.
fn read_from<'a>(model: &'a Model, id: &SourceId) -> Vec<Read<'a>> {
    let all = model.engines.values().flat_map(|engine| {
        let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
        engine.statements.iter().chain(varied).map(move |one| (engine, &**one))
    });
    all.filter(|(_, one)| one.provenance.source.as_ref() == Some(id)).collect()
}

impl SourceHead {
    fn of(model: &Model, source: &Source) -> Self {
        let edition = source.edition.as_ref().map(|edition| format!("edition {edition}"));
        Self {
            title: source.title.clone(),
            href: Links::source_sheet(&source.id),
            class: match source.class {
                SourceClass::Manual => "manual",
                SourceClass::Bulletin => "bulletin",
                SourceClass::Stop => "bulletin that says not to run the machine",
            },
            edition: edition.into_iter().chain(source.date.map(|date| date.to_string())).collect(),
            note: source.note.as_deref().map(sentence),
            values: count(read_from(model, &source.id).len(), "value", "values"),
            superseded: model.sources.values().any(|other| other.supersedes.contains(&source.id)),
        }
    }
}

impl SourceView {
    /// The sheet of a source.
    pub fn of(model: &Model, places: &Places, source: &Source) -> Self {
        let named = |other: &Source| (title(other), Links::source_sheet(&other.id));
        let after = model.sources.values().filter(|other| other.supersedes.contains(&source.id));
        let codes = model.codes.values().filter(|set| set.source.as_ref() == Some(&source.id));
        Self {
            head: SourceHead::of(model, source),
            supersedes: source.supersedes.iter().filter_map(|id| model.sources.get(id)).map(named).collect(),
            superseded_by: after.map(named).collect(),
            codes: codes.map(|set| (set.title.clone(), Links::codes(&set.id))).collect(),
            pages: pages(model, places, &source.id),
        }
    }
}

/// Title and edition: a new edition often has the title of the old one.
fn title(source: &Source) -> String {
    source
        .edition
        .as_ref()
        .map_or_else(|| source.title.clone(), |edition| format!("{}, edition {edition}", source.title))
}

fn pages(model: &Model, places: &Places, source: &SourceId) -> Vec<PageView> {
    let mut by_page: BTreeMap<Option<&str>, Vec<Read<'_>>> = BTreeMap::new();
    for read in read_from(model, source) {
        by_page.entry(read.1.provenance.page.as_deref()).or_default().push(read);
    }
    let mut by_page: Vec<_> = by_page.into_iter().collect();
    by_page.sort_by(|(one, _), (other, _)| match (one, other) {
        (Some(one), Some(other)) => in_the_book(one, other),
        (one, other) => other.is_some().cmp(&one.is_some()),
    });
    let view = |(page, values): (Option<&str>, Vec<Read<'_>>)| PageView {
        title: page.map_or_else(|| "No page given".to_owned(), |page| format!("Page\u{a0}{page}")),
        short: page.unwrap_or("none").to_owned(),
        anchor: scope::page(page),
        values: values.into_iter().filter_map(|read| read_value(model, places, read)).collect(),
    };
    by_page.into_iter().map(view).collect()
}

fn read_value(model: &Model, places: &Places, (engine, statement): Read<'_>) -> Option<ReadValue> {
    let entry = model.entries.get(&statement.identity.of)?;
    let every = places.in_every_build(&engine.id, statement);
    let rows = places.rows(statement);
    Some(ReadValue {
        row: Row::of(model, entry, statement, String::new(), false).only_printed(),
        engine: bind(&engine.title),
        builds: if every { rows.iter().take(1).cloned().collect() } else { rows.to_vec() },
        every,
    })
}

/// 4-2 before 4-18: figures count as numbers, what stands between them as text.
fn in_the_book(one: &str, other: &str) -> Ordering {
    pieces(one).cmp(&pieces(other)).then_with(|| one.cmp(other))
}

/// Runs of digits as (length, digits) without leading zeros, other runs as (0, text).
fn pieces(page: &str) -> Vec<(usize, &str)> {
    let mut pieces = Vec::new();
    let mut rest = page;
    while let Some(first) = rest.chars().next() {
        let digits = first.is_ascii_digit();
        let end = rest.find(|c: char| c.is_ascii_digit() != digits).unwrap_or(rest.len());
        let (piece, after) = rest.split_at(end);
        let number = piece.trim_start_matches('0');
        pieces.push(if digits { (number.len().saturating_add(1), number) } else { (0, piece) });
        rest = after;
    }
    pieces
}

impl SourcesView {
    /// All sources.
    pub fn of(model: &Model) -> Self {
        const CLASSES: [(SourceClass, &str); 3] = [
            (SourceClass::Stop, "Bulletins that say not to run the machine"),
            (SourceClass::Manual, "Manuals"),
            (SourceClass::Bulletin, "Bulletins"),
        ];
        let of_class = |(class, heading): (SourceClass, &'static str)| {
            let mut heads: Vec<SourceHead> = model
                .sources
                .values()
                .filter(|source| source.class == class)
                .map(|source| SourceHead::of(model, source))
                .collect();
            heads.sort_by(|one, other| (&one.title, &one.edition).cmp(&(&other.title, &other.edition)));
            (heading, heads)
        };
        let classes = CLASSES.into_iter().map(of_class).filter(|(_, heads)| !heads.is_empty());
        Self {
            classes: classes.collect(),
            count: count(model.sources.len(), "manual or bulletin", "manuals and bulletins"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_stand_in_the_order_of_the_book() {
        let mut pages = ["4-18", "10-1", "A-3", "4-2", "12", "4", "07-30", "7-4", "A-12"];
        pages.sort_by(|one, other| in_the_book(one, other));
        assert_eq!(pages, ["A-3", "A-12", "4", "4-2", "4-18", "7-4", "07-30", "10-1", "12"]);
    }
}
