//! The bench card: one page of what a technician needs standing at the machine, readable at arm's length.
//!
//! The catalogue says what stands on it. The page holds so much and no more: what is left over is named, and
//! stands on the engine sheet.

use serde::Serialize;

use super::atlas::Atlas;
use super::hazard::Hazards;
use super::links::Links;
use super::row::Row;
use super::text::count;
use super::title_block::TitleBlock;
use crate::emit::drawing::{Drawing, square};
use crate::model::{Build, Entry, Form, Statement};
use crate::quantity::Kind;

/// Lines of a page at the largest lettering, in both columns; each step smaller holds more.
const LINES: [(usize, &str); 5] = [(26, "large"), (34, "wide"), (43, "even"), (52, "close"), (62, "tight")];
/// More lines than this do not fit a page that is still readable.
const MOST_LINES: usize = 62;

/// The bench card of a build.
#[derive(Debug, Serialize)]
pub struct CardView {
    /// Title block.
    pub block: TitleBlock,
    /// Which way the engine turns.
    pub turns: Vec<Row>,
    /// Values by service group.
    pub groups: Vec<CardGroup>,
    /// How close the lines stand: a class of the style sheet.
    pub spacing: &'static str,
    /// What did not fit.
    pub left: Option<String>,
    /// Cautions of what stands on it.
    pub cautions: Vec<Hazards>,
    /// Where the engine sheet is served, and its code for a phone.
    pub address: Option<(String, Option<Drawing>)>,
}

/// The values of one service group.
#[derive(Debug, Serialize)]
pub struct CardGroup {
    /// Title.
    pub title: String,
    /// Values.
    pub rows: Vec<Row>,
}

impl CardView {
    /// The card of a build.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, hash: &str) -> Self {
        let model = atlas.model;
        let marked = model.entries.values().any(|entry| entry.card);
        let chosen = atlas.rows(build).filter_map(|(statement, anchor)| {
            let entry = model.entries.get(&statement.identity.of)?;
            let wanted = if marked { entry.card } else { is_short(statement) };
            let stated = !matches!(statement.form, Form::Absent(_));
            (wanted && stated).then_some((entry, statement, anchor))
        });
        let chosen: Vec<(&Entry, &Statement, &str)> = chosen.collect();
        let hazards = chosen.iter().flat_map(|(entry, ..)| &entry.hazards);
        let cautions = Hazards::of(model, hazards);
        let mut lines = cautions.iter().map(|word| word.panels.len().saturating_mul(2)).sum::<usize>();
        let (mut turns, mut groups, mut left): (_, Vec<CardGroup>, usize) = (Vec::new(), Vec::new(), 0);
        for (entry, statement, anchor) in &chosen {
            let mut row = Row::of(model, entry, statement, (*anchor).to_owned(), false);
            row.scope
                .extend(falls_with_height(entry, statement).then(|| "less high above the sea".to_owned()));
            if matches!(statement.form, Form::Direction { .. }) {
                turns.push(row);
                continue;
            }
            let title = model.groups.iter().find(|group| group.entries.contains(&entry.id));
            let title = title.map(|group| group.title.clone()).unwrap_or_default();
            let needs = height(&row);
            if lines.saturating_add(needs) > MOST_LINES {
                left = left.saturating_add(1);
                continue;
            }
            lines = lines.saturating_add(needs);
            match groups.last_mut() {
                Some(group) if group.title == title => group.rows.push(row),
                _ => groups.push(CardGroup { title, rows: vec![row] }),
            }
        }
        let spacing = LINES.iter().find(|(most, _)| lines <= *most).map_or("tight", |(_, class)| class);
        Self {
            block: TitleBlock::of(atlas, build, hash),
            turns,
            groups,
            spacing,
            left: (left > 0).then(|| count(left, "more value", "more values")),
            cautions,
            address: model.base.base_url.as_deref().map(|base| address(base, build)),
        }
    }
}

/// Where the engine sheet of a build is served, with its code.
fn address(base: &str, build: &Build) -> (String, Option<Drawing>) {
    let url = format!("{}/{}", base.trim_end_matches('/'), Links::engine(&build.id));
    let code = square::draw(&url, "code of the address beside it");
    (url, code)
}

/// True for a gauge pressure that goes by the air, where the maker names no height: a compression.
fn falls_with_height(entry: &Entry, statement: &Statement) -> bool {
    let altitude = |name: &str| name == "altitude";
    entry.kind == Some(Kind::Pressure)
        && entry.states.keys().any(|name| altitude(name))
        && !statement.identity.when.keys().any(|name| altitude(name))
}

/// True for a form that a glance takes in.
const fn is_short(statement: &Statement) -> bool {
    matches!(
        statement.form,
        Form::Window { .. } | Form::Setting(_) | Form::Fit { .. } | Form::Stages(_) | Form::Direction { .. }
    )
}

/// About how many lines a row takes.
fn height(row: &Row) -> usize {
    let values = row.lines.len().max(1).saturating_add(row.stages.len() / 3);
    let words = row.text.as_ref().map_or(0, |text| text.chars().count() / 30);
    let picks = row.picks.as_ref().map_or(0, |picks| picks.rows.len() / 2);
    values.saturating_add(words).saturating_add(picks)
}
