//! A bundle as typed data: what the compiler writes, and what any Rust program reads back.
//!
//! These types are the one definition of the bundle's JSON: the compiler fills and writes them, the
//! schemas in `schemas/bundle` and the TypeScript and Python types are made from them, and
//! [`Bundle::read`] reads them. Numbers are exact; keys that a newer Baybook adds are passed over.

use std::collections::{BTreeMap, BTreeSet};

mod catalogue;
pub mod compare;
mod engine;
mod exact_text;
mod guides;
pub mod hash;
mod head;
mod ids;
mod machines;
mod procedure;
mod quantity;
mod read;
mod reference;
mod relation;
pub mod sign;
mod statement;
mod units;
pub mod verify;

pub use catalogue::{Catalogue, Entry, Group, State};
pub use engine::{Build, Engine, Layout, Reach, Variant};
pub use exact_text::ExactText;
pub use guides::{Access, Cause, Check, Code, CodeSet, Codes, Complaint, Complaints, Raised};
pub use head::{Counts, Head, Publish};
pub use ids::{Ids, Recall, Retired};
pub use machines::{Fit, Machine, Machines, Maker, Serial};
pub use procedure::{Block, BlockSort, Fitting, LeftOpen, Part, PartSort, Procedure, Procedures};
pub use quantity::{Printed, Quantity, Range};
pub use read::{BundleError, is_data, root_of};
pub use reference::{Gauge, Gauges, Hazard, Hazards, Source, Sources};
pub use relation::{Relation, RelationFits, Relations};
pub use statement::{
    Choice, Confirmation, Fastener, Misprint, Pin, Point, Selection, SourceRef, Spec, Waiver,
};
pub use units::{UnitFacts, Units};

/// Everything a bundle states.
///
/// `find.json` is not among it: it states nothing of its own, and is what the handbook's find and `lookup` work
/// by, the `Index` of the module `find`.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Bundle {
    /// What it says of itself.
    pub head: Head,
    /// Every unit, with its codes and its exact size.
    pub units: Units,
    /// What can be specified.
    pub catalogue: Catalogue,
    /// What must hold between values of one engine.
    pub relations: Relations,
    /// Makers, machines, and which build each has.
    pub machines: Machines,
    /// Manuals and bulletins.
    pub sources: Sources,
    /// Cautions.
    pub hazards: Hazards,
    /// Gauges.
    pub gauges: Gauges,
    /// Procedures.
    pub procedures: Procedures,
    /// Complaints.
    pub complaints: Complaints,
    /// Fault codes.
    pub codes: Codes,
    /// Retired ids and recalled values.
    pub ids: Ids,
    /// Engines in order of id, each with its builds and their statements.
    pub engines: Vec<Engine>,
    /// What changed since an older release; none where it was compared with none.
    pub changes: Option<compare::Changes>,
}

impl Bundle {
    /// The engine and build of a build's id; an id that was moved leads to the one it is now.
    pub fn build(&self, id: &str) -> Option<(&Engine, &Build)> {
        let now = self.ids.now(id);
        let [id] = now.as_slice() else { return None };
        let builds =
            self.engines.iter().flat_map(|engine| engine.builds.iter().map(move |one| (engine, one)));
        builds.into_iter().find(|(_, build)| build.id == *id)
    }

    /// The entry of an id; an id that was moved leads to the one it is now.
    pub fn entry(&self, id: &str) -> Option<&Entry> {
        let now = self.ids.now(id);
        let [id] = now.as_slice() else { return None };
        self.catalogue.groups.iter().flat_map(|group| &group.entries).find(|entry| entry.id == *id)
    }
}

impl Bundle {
    /// Every id that it makes public.
    pub fn public_ids(&self) -> BTreeSet<String> {
        let builds = self.engines.iter().flat_map(|one| &one.builds).map(|one| &one.id);
        let entries = self.catalogue.groups.iter().flat_map(|one| &one.entries).map(|one| &one.id);
        let engines = self.engines.iter().map(|one| &one.id);
        let machines = self.machines.machines.iter().map(|one| &one.id);
        let makers = self.machines.makers.iter().map(|one| &one.id);
        let sources = self.sources.sources.iter().map(|one| &one.id);
        let hazards = self.hazards.hazards.iter().map(|one| &one.id);
        let gauges = self.gauges.gauges.iter().map(|one| &one.id);
        let procedures = self.procedures.procedures.iter().map(|one| &one.id);
        let complaints = self.complaints.complaints.iter().map(|one| &one.id);
        let codes = self.codes.sets.iter().map(|one| &one.id);
        let fitted = engines.chain(builds).chain(entries).chain(machines).chain(makers);
        let cited = fitted.chain(sources).chain(hazards).chain(gauges);
        let all = cited.chain(procedures).chain(complaints).chain(codes).cloned();
        let guides = self.complaints.complaints.iter().flat_map(|one| {
            let parts = one.causes.iter().map(|part| &part.id).chain(one.checks.iter().map(|part| &part.id));
            parts.map(|part| format!("{}/{part}", one.id))
        });
        let faults = self.codes.sets.iter();
        let faults = faults.flat_map(|one| one.codes.iter().map(|part| format!("{}/{}", one.id, part.id)));
        // Who still holds one that went long ago is told by the same file.
        let retired = self.ids.retired.iter().map(|one| one.id.clone());
        all.chain(guides).chain(faults).chain(retired).collect()
    }
}

impl Build {
    /// Its statements of one entry.
    pub fn of<'a>(&'a self, entry: &'a str) -> impl Iterator<Item = &'a Spec> {
        self.specs.iter().filter(move |spec| spec.of == entry)
    }

    /// The statements that a value or reading of a procedure means in this build: those of the entry whose
    /// place and state do not contradict the words that narrow it; those that have a value, if any has.
    pub fn meant<'a>(&'a self, entry: &str, narrow: &BTreeMap<String, String>) -> Vec<&'a Spec> {
        let word = |spec: &'a Spec, key: &str| spec.place.get(key).or_else(|| spec.when.get(key));
        let all = || self.specs.iter().filter(|spec| spec.of == entry);
        let within = all().filter(|spec| {
            spec.absent.is_none()
                && narrow.iter().all(|(key, wanted)| word(spec, key).is_none_or(|said| said == wanted))
        });
        let within: Vec<&Spec> = within.collect();
        if within.is_empty() { all().collect() } else { within }
    }
}
