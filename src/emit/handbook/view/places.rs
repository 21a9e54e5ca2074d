//! Where every statement stands: the builds that hold it, and its row on the engine sheet of each.

use std::collections::BTreeMap;

use serde::Serialize;

use super::atlas::Atlas;
use super::links::Links;
use crate::model::{Build, BuildId, EngineId, EntryId, Model, Statement};
use crate::source::Span;

/// A link to a row, named by its build.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct RowLink {
    /// Id of the build.
    pub build: String,
    /// The row on its engine sheet.
    pub href: String,
}

/// The rows of every statement, by where the statement is typed.
#[derive(Debug)]
pub struct Places {
    rows: BTreeMap<Span, Vec<RowLink>>,
    builds: BTreeMap<EngineId, usize>,
}

impl Places {
    /// Every row of every build.
    pub fn of(atlas: &Atlas<'_>) -> Self {
        let mut places = Self { rows: BTreeMap::new(), builds: BTreeMap::new() };
        for build in atlas.model.builds.values() {
            let number = places.builds.entry(build.engine.clone()).or_default();
            *number = number.saturating_add(1);
            for (statement, href) in rows(atlas, build) {
                let link = RowLink { build: build.id.to_string(), href };
                places.rows.entry(statement.span).or_default().push(link);
            }
        }
        places
    }

    /// The rows of a statement, in order of build.
    pub fn rows(&self, statement: &Statement) -> &[RowLink] {
        self.rows.get(&statement.span).map(Vec::as_slice).unwrap_or_default()
    }

    /// True if every build of the engine has this row.
    pub fn in_every_build(&self, engine: &EngineId, statement: &Statement) -> bool {
        self.builds.get(engine) == Some(&self.rows(statement).len())
    }
}

fn rows<'a, 'b>(
    atlas: &'b Atlas<'a>,
    build: &'a Build,
) -> impl Iterator<Item = (&'a Statement, String)> + use<'a, 'b> {
    let sheet = Links::engine(&build.id);
    atlas.rows(build).map(move |(one, anchor)| (one, format!("{sheet}#{anchor}")))
}

/// The first row of an entry in a build.
pub fn first_row<'a>(atlas: &Atlas<'a>, build: &'a Build, of: &EntryId) -> Option<String> {
    rows(atlas, build).find(|(one, _)| one.identity.of == *of).map(|(_, href)| href)
}

/// The builds of some engines, in order.
pub fn builds_of<'a>(
    model: &'a Model,
    engines: &'a [EngineId],
) -> impl Iterator<Item = (&'a BuildId, &'a Build)> {
    model.builds.iter().filter(|(_, build)| engines.contains(&build.engine))
}
