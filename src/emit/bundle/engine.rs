//! `engines/<id>.json`: one engine, its builds and their statements.

use schemars::JsonSchema;
use serde::Serialize;

use super::quantity::{PrintedJson, form};
use super::statement::{SpecJson, spec};
use crate::model::{Build, Engine, Layout, Model, Printed, Variant};

/// One engine with its builds.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Engine of a bundle")]
pub struct EngineJson {
    /// Id of the engine.
    pub id: String,
    /// Title of the engine.
    pub title: String,
    /// Id of its maker.
    pub maker: String,
    /// How it is laid out.
    pub layout: Option<LayoutJson>,
    /// Its variants, whether or not a build has them.
    pub variants: Vec<VariantJson>,
    /// What a technician looks up: the engine after its variants.
    pub builds: Vec<BuildJson>,
}

/// How an engine is laid out.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LayoutJson {
    /// `four-stroke` or `two-stroke`.
    pub cycle: String,
    /// `petrol` or `diesel`.
    pub fuel: String,
    /// Number of cylinders.
    pub cylinders: u32,
    /// Cylinder bore.
    pub bore: Option<PrintedJson>,
    /// Piston stroke.
    pub stroke: Option<PrintedJson>,
    /// Swept volume.
    pub displacement: Option<PrintedJson>,
    /// The shop's words for it.
    pub words: Option<String>,
}

/// What a bulletin changes.
#[derive(Debug, Serialize, JsonSchema)]
pub struct VariantJson {
    /// Id of the variant.
    pub id: String,
    /// Id of the bulletin.
    pub source: Option<String>,
    /// Variants it takes the place of.
    pub replaces: Vec<String>,
    /// Why, in the shop's words.
    pub note: Option<String>,
}

/// An engine after its variants.
#[derive(Debug, Serialize, JsonSchema)]
pub struct BuildJson {
    /// `engine~variant~variant`, the variants sorted.
    pub id: String,
    /// The variants in force.
    pub variants: Vec<String>,
    /// The machines, years and serial numbers that have it.
    pub fits: Vec<super::machines::FitJson>,
    /// Its statements, in the order of a sheet.
    pub specs: Vec<SpecJson>,
}

/// One engine as JSON.
pub fn engine(model: &Model, engine: &Engine) -> EngineJson {
    let builds = model.builds.values().filter(|build| build.engine == engine.id);
    EngineJson {
        id: engine.id.to_string(),
        title: engine.title.clone(),
        maker: engine.maker.to_string(),
        layout: engine.layout.as_ref().map(layout),
        variants: engine.variants.iter().map(variant).collect(),
        builds: builds.map(|one| build(model, one)).collect(),
    }
}

fn layout(layout: &Layout) -> LayoutJson {
    let value = |printed: &Option<Printed>| printed.as_ref().map(|one| form(&one.value));
    LayoutJson {
        cycle: layout.cycle.clone(),
        fuel: layout.fuel.clone(),
        cylinders: layout.cylinders,
        bore: value(&layout.bore),
        stroke: value(&layout.stroke),
        displacement: value(&layout.displacement),
        words: layout.words.clone(),
    }
}

fn variant(variant: &Variant) -> VariantJson {
    VariantJson {
        id: variant.id.to_string(),
        source: variant.source.as_ref().map(ToString::to_string),
        replaces: variant.replaces.iter().map(ToString::to_string).collect(),
        note: variant.note.clone(),
    }
}

fn build(model: &Model, build: &Build) -> BuildJson {
    let fits = model.fits.iter().filter(|fit| fit.build == build.id);
    BuildJson {
        id: build.id.to_string(),
        variants: build.variants.iter().map(ToString::to_string).collect(),
        fits: fits.map(super::machines::fit).collect(),
        specs: build.statements.iter().map(|one| spec(model, one)).collect(),
    }
}
