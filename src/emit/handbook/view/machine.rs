//! The chooser: machine → year → serial number → build, and where the builds differ.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::atlas::Atlas;
use super::form::brief;
use super::links::Links;
use super::scope;
use super::standing::{self, Mark};
use super::text::{bind, sentence};
use super::title_block::{layout_words, stops};
use crate::model::{Build, BuildId, EntryId, Fit, Identity, Machine, Model, SerialRange, Statement};

/// The chooser of one machine.
#[derive(Debug, Serialize)]
pub struct MachineView {
    /// Its name.
    pub name: String,
    /// Its maker.
    pub maker: String,
    /// What sort of machine.
    pub sort: Option<String>,
    /// Where its serial number is found.
    pub serial_at: Option<String>,
    /// Years, the newest first.
    pub years: Vec<YearView>,
    /// Sets of builds that share a year, and where they differ.
    pub differ: Vec<DifferView>,
}

/// One model year.
#[derive(Debug, Serialize)]
pub struct YearView {
    /// The year.
    pub year: u16,
    /// Its anchor.
    pub anchor: String,
    /// Serial numbers and their builds.
    pub rows: Vec<FitRow>,
    /// Anchor of the differences, where there is more than one build.
    pub differ: Option<String>,
}

/// Serial numbers and the build they have.
#[derive(Clone, Debug, Serialize)]
pub struct FitRow {
    /// The serial numbers in words.
    pub serial: String,
    /// `span`, `rest` or `all`.
    pub kind: &'static str,
    /// What a serial number of the span starts with.
    pub prefix: String,
    /// First running number.
    pub from: Option<u32>,
    /// Last running number.
    pub to: Option<u32>,
    /// The build.
    pub build: BuildName,
}

/// A build by name.
#[derive(Clone, Debug, Serialize)]
pub struct BuildName {
    /// Its id.
    pub id: String,
    /// Its engine sheet.
    pub href: String,
    /// Its bench card.
    pub card: String,
    /// Title of its engine.
    pub engine: String,
    /// Its bulletins; `as built` if none is in force.
    pub variants: Vec<String>,
    /// The engine's layout in words.
    pub layout: Vec<String>,
    /// Why: the notes of its variants.
    pub why: Vec<String>,
    /// True if a bulletin says not to run a machine with this build.
    pub stop: bool,
}

/// Where the builds of a year differ.
#[derive(Debug, Serialize)]
pub struct DifferView {
    /// Anchor.
    pub anchor: String,
    /// The years that have this choice.
    pub years: String,
    /// The builds.
    pub builds: Vec<BuildName>,
    /// One entry a difference.
    pub differences: Vec<Difference>,
}

/// A statement in which builds differ.
#[derive(Debug, Serialize)]
pub struct Difference {
    /// Title of the entry.
    pub title: String,
    /// Place and condition.
    pub scope: Vec<String>,
    /// What each build states, in the order of the builds.
    pub cells: Vec<Cell>,
}

/// What one build states.
#[derive(Debug, Serialize)]
pub struct Cell {
    /// Engine and bulletins.
    pub build: String,
    /// The value in brief.
    pub value: super::form::Brief,
    /// The mark of a value that nobody confirmed.
    pub mark: Option<Mark>,
    /// Link to the row, if it is stated.
    pub href: String,
}

impl BuildName {
    /// The name of a build.
    pub fn of(model: &Model, id: &BuildId) -> Self {
        let build = model.builds.get(id);
        let engine = build.and_then(|build| model.engines.get(&build.engine));
        let variants = engine.map(|engine| engine.variants.as_slice()).unwrap_or_default();
        let in_force = build.map(|build| build.variants.as_slice()).unwrap_or_default();
        let in_force: Vec<_> = variants.iter().filter(|one| in_force.contains(&one.id)).collect();
        let titles = in_force.iter().map(|variant| {
            let source = variant.source.as_ref().and_then(|id| model.sources.get(id));
            source.map_or_else(|| variant.id.to_string(), |source| source.name().to_owned())
        });
        let titles: Vec<String> = titles.collect();
        Self {
            id: id.to_string(),
            href: Links::engine(id),
            card: Links::card(id),
            engine: engine.map_or_else(|| id.to_string(), |engine| engine.title.clone()),
            variants: if titles.is_empty() { vec!["as built".to_owned()] } else { titles },
            layout: engine.and_then(|engine| engine.layout.as_ref()).map(layout_words).unwrap_or_default(),
            why: in_force.iter().filter_map(|variant| variant.note.as_deref()).map(sentence).collect(),
            stop: build.is_some_and(|build| !stops(model, build).is_empty()),
        }
    }

    fn plain(&self) -> String {
        format!("{}: {}", self.engine, self.variants.join("; "))
    }
}

impl MachineView {
    /// The chooser of a machine.
    pub fn of(atlas: &Atlas<'_>, machine: &Machine) -> Self {
        let (model, fits) = (atlas.model, atlas.fits_of_machine(&machine.id));
        let years: BTreeSet<u16> = fits.iter().flat_map(|fit| fit.years.from..=fit.years.to).collect();
        let mut sets: Vec<(Vec<BuildId>, Vec<u16>)> = Vec::new();
        let mut views = Vec::new();
        for year in years {
            let of_year: Vec<&Fit> = fits.iter().copied().filter(|fit| fit.years.contains(year)).collect();
            let differ = remember(&mut sets, &of_year, year);
            let rows = in_order(&of_year).into_iter().map(|fit| fit_row(atlas, fit)).collect();
            views.push(YearView { year, anchor: format!("year-{year}"), rows, differ });
        }
        views.reverse();
        let differ = sets
            .iter()
            .zip(1_usize..)
            .map(|((builds, years), number)| differ_view(atlas, builds, years, number));
        Self {
            name: machine.name.clone(),
            maker: model
                .makers
                .get(&machine.maker)
                .map_or_else(|| machine.maker.to_string(), |maker| maker.name.clone()),
            sort: machine.sort.clone(),
            serial_at: machine.serial_at.as_deref().map(bind),
            years: views,
            differ: differ.collect(),
        }
    }
}

/// Notes which builds a year has; gives the anchor of their differences if there are several.
fn remember(sets: &mut Vec<(Vec<BuildId>, Vec<u16>)>, fits: &[&Fit], year: u16) -> Option<String> {
    let builds: BTreeSet<BuildId> = fits.iter().map(|fit| fit.build.clone()).collect();
    let builds: Vec<BuildId> = builds.into_iter().collect();
    if builds.len() < 2 {
        return None;
    }
    let at = sets.iter().position(|(known, _)| *known == builds);
    match at.and_then(|at| sets.get_mut(at)) {
        Some((_, years)) => years.push(year),
        None => sets.push((builds, vec![year])),
    }
    Some(format!("differ-{}", at.unwrap_or(sets.len().saturating_sub(1)).saturating_add(1)))
}

/// Named spans first, the rest last.
fn in_order<'a>(fits: &[&'a Fit]) -> Vec<&'a Fit> {
    let mut fits = fits.to_vec();
    fits.sort_by_key(|fit| !matches!(fit.serial, SerialRange::Span { .. }));
    fits
}

fn fit_row(atlas: &Atlas<'_>, fit: &Fit) -> FitRow {
    let (kind, prefix, from, to) = match &fit.serial {
        SerialRange::Span { prefix, from, to } => ("span", prefix.clone(), *from, *to),
        SerialRange::Rest => ("rest", String::new(), None, None),
        SerialRange::All => ("all", String::new(), None, None),
    };
    FitRow { serial: fit.serial.to_string(), kind, prefix, from, to, build: atlas.name(&fit.build) }
}

fn differ_view(atlas: &Atlas<'_>, ids: &[BuildId], years: &[u16], number: usize) -> DifferView {
    let builds: Vec<&Build> = ids.iter().filter_map(|id| atlas.model.builds.get(id)).collect();
    let years: Vec<String> = years.iter().map(u16::to_string).collect();
    DifferView {
        anchor: format!("differ-{number}"),
        years: years.join(", "),
        builds: ids.iter().map(|id| atlas.name(id)).collect(),
        differences: differences(atlas, &builds),
    }
}

/// Every statement that is not the same in all builds, in the order of a sheet.
fn differences<'a>(atlas: &Atlas<'a>, builds: &[&'a Build]) -> Vec<Difference> {
    let model = atlas.model;
    let mut of_identity: BTreeMap<&Identity, Vec<Option<&Statement>>> = BTreeMap::new();
    for (at, build) in builds.iter().enumerate() {
        for statement in &build.statements {
            let cells = of_identity.entry(&statement.identity).or_insert_with(|| vec![None; builds.len()]);
            if let Some(cell) = cells.get_mut(at) {
                *cell = Some(statement);
            }
        }
    }
    let rank: BTreeMap<&str, usize> =
        model.groups.iter().flat_map(|group| &group.entries).map(EntryId::as_str).zip(0..).collect();
    let mut different: Vec<_> = of_identity.into_iter().filter(|(_, cells)| !all_alike(cells)).collect();
    different.sort_by_key(|(identity, _)| rank.get(identity.of.as_str()).copied());
    let view = |(identity, cells): (&Identity, Vec<Option<&Statement>>)| Difference {
        title: model
            .entries
            .get(&identity.of)
            .map_or_else(|| identity.of.to_string(), |entry| entry.title.clone()),
        scope: scope::in_words(identity),
        cells: cells.into_iter().zip(builds).map(|(cell, build)| cell_of(atlas, build, cell)).collect(),
    };
    different.into_iter().map(view).collect()
}

/// Two statements say the same if all they say of the value is the same.
fn all_alike(cells: &[Option<&Statement>]) -> bool {
    let said = |statement: &Statement| {
        format!(
            "{:?}",
            (brief(&statement.form), &statement.fastener, &statement.pattern, form_text(statement))
        )
    };
    let mut texts = cells.iter().map(|cell| cell.map(said));
    let first = texts.next();
    texts.all(|text| Some(&text) == first.as_ref())
}

/// Everything printed in the form, where [`brief`] leaves some of it out.
fn form_text(statement: &Statement) -> Vec<String> {
    use crate::model::Form;
    let printed = |one: &crate::model::Printed| one.value.text();
    match &statement.form {
        Form::Points(points) => {
            points.iter().flat_map(|one| [printed(&one.at), printed(&one.reads)]).collect()
        }
        Form::Selection(table) => vec![format!("{table:?}")],
        Form::Pins(pins) => vec![format!("{pins:?}")],
        Form::Interval { regular, first, severe } => {
            [regular, first, severe].into_iter().flatten().map(printed).collect()
        }
        form => form.alternatives().into_iter().flatten().map(printed).collect(),
    }
}

fn cell_of<'a>(atlas: &Atlas<'a>, build: &'a Build, statement: Option<&Statement>) -> Cell {
    let name = atlas.name(&build.id);
    let anchor = statement.and_then(|wanted| {
        atlas.rows(build).find(|(one, _)| one.identity == wanted.identity).map(|(_, anchor)| anchor)
    });
    Cell {
        build: name.plain(),
        value: statement.map_or_else(super::form::Brief::unstated, |one| standing::brief(atlas.model, one)),
        mark: statement.and_then(|one| standing::mark(atlas.model, one)),
        href: anchor.map_or_else(|| name.href.clone(), |anchor| format!("{}#{anchor}", name.href)),
    }
}
