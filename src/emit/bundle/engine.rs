//! `engines/<id>.json`: one engine, its builds and their statements.

use super::Withheld;
use super::machines::serial;
use super::quantity::form;
use super::statement::spec;
use crate::bundle as json;
use crate::model::{Build, Engine, Layout, Model, Printed, Reach, Variant};

/// One engine as JSON.
pub fn engine(model: &Model, engine: &Engine, withheld: Withheld) -> json::Engine {
    let builds = model.builds.values().filter(|build| build.engine == engine.id);
    json::Engine {
        id: engine.id.to_string(),
        title: engine.title.clone(),
        maker: engine.maker.to_string(),
        layout: engine.layout.as_ref().map(layout),
        variants: engine.variants.iter().map(variant).collect(),
        builds: builds.map(|one| build(model, one, withheld)).collect(),
    }
}

fn layout(layout: &Layout) -> json::Layout {
    let value = |printed: &Option<Printed>| printed.as_ref().map(|one| form(&one.value));
    json::Layout {
        cycle: layout.cycle.clone(),
        fuel: layout.fuel.clone(),
        cylinders: layout.cylinders,
        bore: value(&layout.bore),
        stroke: value(&layout.stroke),
        displacement: value(&layout.displacement),
        words: layout.words.clone(),
    }
}

fn variant(variant: &Variant) -> json::Variant {
    json::Variant {
        id: variant.id.to_string(),
        source: variant.source.as_ref().map(ToString::to_string),
        applies: variant.reach.iter().map(reach).collect(),
        replaces: variant.replaces.iter().map(ToString::to_string).collect(),
        note: variant.note.clone(),
    }
}

fn reach(reach: &Reach) -> json::Reach {
    json::Reach {
        machine: reach.machine.to_string(),
        from_year: reach.years.map(|years| years.from),
        to_year: reach.years.map(|years| years.to),
        serial: reach.serial.as_ref().and_then(serial),
    }
}

fn build(model: &Model, build: &Build, withheld: Withheld) -> json::Build {
    let fits = model.fits.iter().filter(|fit| fit.build == build.id);
    json::Build {
        id: build.id.to_string(),
        variants: build.variants.iter().map(ToString::to_string).collect(),
        fits: fits.map(super::machines::fit).collect(),
        specs: build.statements.iter().map(|one| spec(model, one, withheld)).collect(),
    }
}
