//! The title block of a build's sheets: which machines, which engine, why this build fits.

use serde::Serialize;

use super::atlas::Atlas;
use super::links::Links;
use super::text::{Figure, bind, count};
use crate::model::{Build, Layout, Model, Printed, SerialRange, SourceClass};

/// The title block.
#[derive(Clone, Debug, Serialize)]
pub struct TitleBlock {
    /// Machines that have this build.
    pub machines: Vec<MachineCell>,
    /// Title of the engine.
    pub engine: String,
    /// Its layout in words.
    pub layout: Vec<String>,
    /// Bulletins in force; empty is as built.
    pub because: Vec<Because>,
    /// Id of the build.
    pub build: String,
    /// Hash of what the build states.
    pub hash: String,
    /// Bulletins that say not to run the machine.
    pub stops: Vec<Stop>,
}

/// A machine that has the build.
#[derive(Clone, Debug, Serialize)]
pub struct MachineCell {
    /// Its name.
    pub name: String,
    /// Its chooser.
    pub href: String,
    /// Years, and serial numbers where they decide.
    pub spans: Vec<(String, Option<String>)>,
}

/// A bulletin in force.
#[derive(Clone, Debug, Serialize)]
pub struct Because {
    /// What the shop calls the bulletin.
    pub name: String,
    /// Its title, where that says more.
    pub title: Option<String>,
    /// `sets 2 values`.
    pub sets: String,
    /// The statements it sets: title and anchor on the engine sheet.
    pub statements: Vec<(String, String)>,
    /// Why, in the shop's words.
    pub note: Option<String>,
}

/// A bulletin that says not to run the machine.
#[derive(Clone, Debug, Serialize)]
pub struct Stop {
    /// Its title.
    pub title: String,
    /// Its date.
    pub date: Option<String>,
    /// What it asks for.
    pub note: Option<String>,
}

impl TitleBlock {
    /// The title block of a build.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, hash: &str) -> Self {
        let model = atlas.model;
        let engine = model.engines.get(&build.engine);
        Self {
            machines: machines(atlas, build),
            engine: engine.map_or_else(|| build.engine.to_string(), |engine| engine.title.clone()),
            layout: engine.and_then(|engine| engine.layout.as_ref()).map(layout_words).unwrap_or_default(),
            because: because(atlas, build),
            build: build.id.to_string(),
            hash: hash.chars().take(12).collect(),
            stops: stops(model, build),
        }
    }
}

fn machines(atlas: &Atlas<'_>, build: &Build) -> Vec<MachineCell> {
    let mut cells: Vec<MachineCell> = Vec::new();
    for fit in atlas.fits_of_build(&build.id) {
        let href = Links::machine(&fit.machine);
        let span = match &fit.serial {
            SerialRange::All => (fit.years.to_string(), None),
            serial => (fit.years.to_string(), Some(serial.to_string())),
        };
        if let Some(cell) = cells.iter_mut().find(|cell| cell.href == href) {
            cell.spans.push(span);
        } else {
            let machine = atlas.model.machines.get(&fit.machine);
            let name = machine.map_or_else(|| fit.machine.to_string(), |one| one.name.clone());
            cells.push(MachineCell { name, href, spans: vec![span] });
        }
    }
    cells
}

/// `four-stroke, petrol`, `2 cylinders, 80.0 mm × 66.0 mm`, `663 cm³`, then the shop's words.
pub fn layout_words(layout: &Layout) -> Vec<String> {
    let cylinders = usize::try_from(layout.cylinders).unwrap_or(usize::MAX);
    let mut words =
        vec![format!("{}, {}, {}", layout.cycle, layout.fuel, count(cylinders, "cylinder", "cylinders"))];
    words.extend(layout.words.as_deref().map(bind));
    let figure = |printed: &Printed| Figure::of(&printed.value).plain();
    let size = match (&layout.bore, &layout.stroke) {
        (Some(bore), Some(stroke)) => Some(format!("bore {} × stroke {}", figure(bore), figure(stroke))),
        (Some(bore), None) => Some(format!("bore {}", figure(bore))),
        (None, Some(stroke)) => Some(format!("stroke {}", figure(stroke))),
        (None, None) => None,
    };
    let swept = layout.displacement.as_ref().map(figure);
    let sizes: Vec<String> = size.into_iter().chain(swept).collect();
    if !sizes.is_empty() {
        words.push(sizes.join(" · "));
    }
    words
}

fn because<'a>(atlas: &Atlas<'a>, build: &'a Build) -> Vec<Because> {
    let model = atlas.model;
    let Some(engine) = model.engines.get(&build.engine) else { return Vec::new() };
    let in_force = engine.variants.iter().filter(|variant| build.variants.contains(&variant.id));
    in_force
        .map(|variant| {
            let set = atlas.rows(build).filter(|(one, _)| one.variant.as_ref() == Some(&variant.id));
            let statements = set.filter_map(|(one, anchor)| {
                let entry = model.entries.get(&one.identity.of)?;
                Some((entry.title.clone(), anchor.to_owned()))
            });
            let statements: Vec<_> = statements.collect();
            let source = variant.source.as_ref().and_then(|id| model.sources.get(id));
            Because {
                name: source.map_or_else(|| variant.id.to_string(), |source| source.name().to_owned()),
                title: source.filter(|one| one.short.is_some()).map(|one| one.title.clone()),
                sets: format!("sets {}", count(statements.len(), "value", "values")),
                statements,
                note: variant.note.as_deref().map(super::text::sentence),
            }
        })
        .collect()
}

/// The bulletins that say not to run a machine with this build: of its variants, or cited by a value.
pub fn stops(model: &Model, build: &Build) -> Vec<Stop> {
    let variants = model.engines.get(&build.engine).map(|engine| engine.variants.as_slice());
    let of_variants = variants.unwrap_or_default().iter().filter(|one| build.variants.contains(&one.id));
    let cited = build.statements.iter().filter_map(|one| one.provenance.source.as_ref());
    let mut ids: Vec<_> = cited.chain(of_variants.filter_map(|one| one.source.as_ref())).collect();
    ids.sort();
    ids.dedup();
    let sources = ids.into_iter().filter_map(|id| model.sources.get(id));
    sources
        .filter(|source| source.class == SourceClass::Stop)
        .map(|source| Stop {
            title: source.title.clone(),
            date: source.date.map(|date| date.to_string()),
            note: source.note.as_deref().map(super::text::sentence),
        })
        .collect()
}
