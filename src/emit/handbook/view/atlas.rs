//! What many sheets ask of the model, worked out once: anchors and names of builds, what fits where,
//! and which builds state an entry.

use std::collections::BTreeMap;

use super::machine::BuildName;
use super::scope::Anchors;
use crate::model::{Build, BuildId, EntryId, Fit, MachineId, Model, Statement};

/// The model, with its cross-references at hand.
#[derive(Debug)]
pub struct Atlas<'a> {
    /// The model.
    pub model: &'a Model,
    anchors: BTreeMap<&'a BuildId, Vec<String>>,
    names: BTreeMap<&'a BuildId, BuildName>,
    of_build: BTreeMap<&'a BuildId, Vec<&'a Fit>>,
    of_machine: BTreeMap<&'a MachineId, Vec<&'a Fit>>,
    stating: BTreeMap<&'a EntryId, Vec<&'a Build>>,
}

impl<'a> Atlas<'a> {
    /// The atlas of a model.
    pub fn of(model: &'a Model) -> Self {
        let mut atlas = Self {
            model,
            anchors: model.builds.values().map(|build| (&build.id, anchors(build))).collect(),
            names: model.builds.keys().map(|id| (id, BuildName::of(model, id))).collect(),
            of_build: BTreeMap::new(),
            of_machine: BTreeMap::new(),
            stating: BTreeMap::new(),
        };
        for fit in &model.fits {
            atlas.of_build.entry(&fit.build).or_default().push(fit);
            atlas.of_machine.entry(&fit.machine).or_default().push(fit);
        }
        for build in model.builds.values() {
            for statement in &build.statements {
                let builds = atlas.stating.entry(&statement.identity.of).or_default();
                if builds.last().is_none_or(|last| last.id != build.id) {
                    builds.push(build);
                }
            }
        }
        atlas
    }

    /// The statements of a build in the order of its sheet, each with the anchor of its row.
    pub fn rows<'b>(&'b self, build: &'a Build) -> impl Iterator<Item = (&'a Statement, &'b str)> {
        let anchors = self.anchors.get(&build.id).into_iter().flatten();
        build.statements.iter().map(|one| &**one).zip(anchors.map(String::as_str))
    }

    /// The name of a build.
    pub fn name(&self, id: &BuildId) -> BuildName {
        self.names.get(id).cloned().unwrap_or_else(|| BuildName::of(self.model, id))
    }

    /// The machines, years and serial numbers that have a build.
    pub fn fits_of_build(&self, id: &BuildId) -> &[&'a Fit] {
        self.of_build.get(id).map(Vec::as_slice).unwrap_or_default()
    }

    /// What a machine has, by year and serial number.
    pub fn fits_of_machine(&self, id: &MachineId) -> &[&'a Fit] {
        self.of_machine.get(id).map(Vec::as_slice).unwrap_or_default()
    }

    /// The builds that state an entry, in order of their id.
    pub fn stating(&self, id: &EntryId) -> &[&'a Build] {
        self.stating.get(id).map(Vec::as_slice).unwrap_or_default()
    }
}

fn anchors(build: &Build) -> Vec<String> {
    let mut anchors = Anchors::default();
    build.statements.iter().map(|one| anchors.statement(&one.identity)).collect()
}
