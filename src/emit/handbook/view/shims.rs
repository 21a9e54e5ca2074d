//! The shim planner of an engine sheet: the windows of its valves, and the sizes its manual gives.
//!
//! Only an engine that adjusts its lash by shims has one, and a window that is withheld is left out.

use serde::Serialize;

use super::row::Row;
use super::scope::{attribute, in_words};
use super::sums_for::aim;
use super::text::{bind, words};
use crate::model::{Build, Form, Identity, Model, Piece, Procedure, Statement};
use crate::quantity::{Kind, Value};

/// The entry that gives the shims of an engine.
pub(super) const SHIM: &str = "lash.shim";
/// What the entries of a lash begin with.
const LASH: &str = "lash.";

/// The planner of one build.
#[derive(Debug, Serialize)]
pub struct ShimsView {
    /// The windows, each for one valve or more.
    pub windows: Vec<WindowView>,
    /// The sizes of the manual's table, as `255 = 2.55 mm`; none where the row says the same.
    pub sizes: Vec<String>,
    /// Anchor of that row.
    pub row: Option<String>,
}

/// One window of a lash.
#[derive(Debug, Serialize)]
pub struct WindowView {
    /// What it is for.
    pub title: String,
    /// Place and condition it holds in.
    pub scope: Vec<String>,
    /// What its valves are called, before their number: `Exhaust front`.
    pub name: String,
    /// Entry id.
    pub of: String,
    /// `data-where` of its row.
    pub place: String,
    /// The window as printed, or as meant.
    pub window: String,
    /// What the page prints in its place, if that is a misprint.
    pub misprint: Option<String>,
    /// What the maker asks for within it, as printed.
    pub set_to: Option<String>,
    /// The lash to aim at for that, where it is not the middle of the window: of two limits their middle.
    pub target: Option<String>,
}

impl ShimsView {
    /// The planner of a build; none if it has no shims to plan with.
    pub fn of(model: &Model, build: &Build) -> Option<Self> {
        let sizes = sizes(build)?;
        let windows = build.statements.iter().filter_map(|one| window(model, one));
        let windows: Vec<_> = windows.collect();
        (!windows.is_empty()).then_some(Self { windows, sizes, row: None })
    }

    /// Leaves the sizes to the row of the same sheet that prints them, where it does so word for word.
    pub fn leave_to(mut self, row: Option<&Row>) -> Self {
        let spaced = |text: &str| text.replace('\u{a0}', " ");
        let picks = row.and_then(|row| Some((row, row.picks.as_ref()?)));
        let printed = picks.map(|(row, picks)| {
            let pairs = picks.rows.iter().map(|(mark, size)| format!("{} = {}", spaced(mark), spaced(size)));
            (row, pairs.collect::<Vec<_>>())
        });
        if let Some((row, _)) = printed.filter(|(_, pairs)| *pairs == self.sizes) {
            self.row = Some(row.anchor.clone());
            self.sizes.clear();
        }
        self
    }

    /// True if a procedure reads a lash, so that a plan may follow from it.
    pub fn follows(procedure: &Procedure) -> bool {
        let links = procedure.body.iter().filter_map(|piece| match piece {
            Piece::Link { link, .. } => link.entry(),
            Piece::Markup { .. } => None,
        });
        links.into_iter().any(|(entry, _)| entry.as_str().starts_with(LASH))
    }
}

/// The sizes of the manual's table, thinnest first; none where the engine has no table of shims.
fn sizes(build: &Build) -> Option<Vec<String>> {
    let table = build.statements.iter().find(|one| one.identity.of.as_str() == SHIM)?;
    let Form::Selection(selection) = &table.form else { return None };
    let read = |(inputs, part): &(Vec<String>, String)| {
        let size = Value::parse(part).ok().filter(|value| value.unit().kind() == Kind::Length)?;
        Some((size.unit().to_si(size.nominal()?), format!("{} = {}", inputs.join(" "), size.text())))
    };
    let mut sizes: Vec<_> = selection.rows.iter().filter_map(read).collect();
    sizes.sort();
    Some(sizes.into_iter().map(|(_, text)| text).collect())
}

/// The entry without what every lash is called, then the place.
fn name(title: &str, identity: &Identity) -> String {
    let what = title.trim_end_matches(" lash").trim_end_matches(" valve");
    let places = identity.place.values().map(|place| words(place));
    std::iter::once(what.to_owned()).chain(places).collect::<Vec<_>>().join(" ")
}

fn window(model: &Model, statement: &Statement) -> Option<WindowView> {
    let Form::Window { printed, set_to } = &statement.form else { return None };
    let entry = model.entries.get(&statement.identity.of)?;
    let first = printed.first().filter(|one| one.value.unit().kind() == Kind::Length)?;
    let of = statement.identity.of.as_str();
    if !of.starts_with(LASH) || entry.kind != Some(Kind::Length) || model.withholds(statement) {
        return None;
    }
    let set_to = set_to.first().map(|one| &one.value);
    Some(WindowView {
        title: entry.title.clone(),
        name: name(&entry.title, &statement.identity),
        scope: in_words(&statement.identity),
        of: of.to_owned(),
        place: attribute(&statement.identity.place),
        window: first.value.text(),
        misprint: first.misprint(|wrong| bind(&wrong.text())),
        target: set_to.and_then(aim),
        set_to: set_to.map(Value::text),
    })
}
