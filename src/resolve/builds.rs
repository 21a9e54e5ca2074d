//! Builds: the statements of an engine after the variants of a cell.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::fitted::{self, Fitted};
use super::names::Names;
use super::values::Reader;
use crate::diag::Sink;
use crate::load::Loaded;
use crate::load::format::Located;
use crate::model::{
    Build, BuildId, Engine, EngineId, EntryId, Fit, MachineId, ServiceGroup, Statement, VariantId,
};

/// Every engine fitted to every machine, as typed in `machines/`.
pub fn fitted(loaded: &Loaded, names: &Names, open_year: u16, sink: &mut Sink) -> Vec<(EngineId, Fitted)> {
    let mut all = Vec::new();
    for file in &loaded.machines {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        for machine in file.data.machine.iter().map(Located::get) {
            for raw in machine.fitted.iter().map(Located::get) {
                let known = names.engines.knows(reader.file, &raw.engine, reader.sink);
                let years = reader.years(&raw.years, open_year);
                let serial = raw.serial.as_ref().map(|span| reader.serial(span));
                let (Some(years), true, false) = (years, known, matches!(serial, Some(None))) else {
                    continue;
                };
                let machine = MachineId::new(machine.id.as_str());
                all.push((
                    EngineId::new(raw.engine.as_str()),
                    Fitted { machine, years, serial: serial.flatten() },
                ));
            }
        }
    }
    all
}

/// The builds that some machine has, and which machine, year and serial number has which.
pub fn builds(
    engines: &BTreeMap<EngineId, Engine>,
    fitted: &[(EngineId, Fitted)],
    groups: &[ServiceGroup],
) -> (BTreeMap<BuildId, Build>, Vec<Fit>) {
    let order: BTreeMap<&EntryId, usize> =
        groups.iter().flat_map(|group| &group.entries).enumerate().map(|(at, entry)| (entry, at)).collect();
    let mut builds = BTreeMap::new();
    let mut fits = BTreeSet::new();
    for (id, fitted) in fitted {
        let Some(engine) = engines.get(id) else { continue };
        for cell in fitted::cells(fitted, &engine.variants) {
            let build = build_id(engine, &cell.variants);
            fits.insert(Fit {
                machine: fitted.machine.clone(),
                years: cell.years,
                serial: cell.serial,
                build: build.clone(),
            });
            builds.entry(build.clone()).or_insert_with(|| Build {
                id: build,
                engine: engine.id.clone(),
                statements: statements(engine, &cell.variants, &order),
                variants: cell.variants.into_iter().collect(),
            });
        }
    }
    (builds, fits.into_iter().collect())
}

fn build_id(engine: &Engine, variants: &BTreeSet<VariantId>) -> BuildId {
    let parts: Vec<_> =
        std::iter::once(engine.id.as_str()).chain(variants.iter().map(VariantId::as_str)).collect();
    BuildId::new(parts.join("~"))
}

/// The engine's statements, those a variant sets anew taken out and the variant's put in, in the order
/// of a sheet.
fn statements(
    engine: &Engine,
    variants: &BTreeSet<VariantId>,
    order: &BTreeMap<&EntryId, usize>,
) -> Vec<Arc<Statement>> {
    let mut all = engine.statements.clone();
    for variant in engine.variants.iter().filter(|one| variants.contains(&one.id)) {
        all.retain(|old| !variant.statements.iter().any(|new| new.identity.covers(&old.identity)));
        all.extend(variant.statements.iter().cloned());
    }
    let place = |one: &Statement| order.get(&one.identity.of).copied().unwrap_or(usize::MAX);
    all.sort_by(|a, b| (place(a), &a.identity).cmp(&(place(b), &b.identity)));
    all
}
