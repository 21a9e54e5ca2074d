//! The spec base as understood: references resolved, values parsed, builds worked out.
//!
//! Everything here is plain data without a way to read or write files. An id in the model always
//! exists in it: only `resolve` makes ids, and only from the thing they name.

mod base;
mod build;
mod catalogue;
mod code;
mod complaint;
mod engine;
mod id;
mod procedure;
mod reference;
mod relation;
mod retired;
mod serial;
mod statement;
mod vocabulary;
mod waiver;

use std::collections::{BTreeMap, BTreeSet};

pub use base::{Base, Date, Publish, Release};
pub use build::{Build, Fit, SerialRange, Years};
pub use catalogue::{Domain, Entry, ServiceGroup};
pub use code::{Code, CodeSet};
pub use complaint::{Access, Cause, Check, Complaint};
pub use engine::{Engine, Layout, Reach, Variant};
pub use id::{
    BuildId, CodeSetId, ComplaintId, EngineId, EntryId, GaugeId, HazardId, MachineId, MakerId, ProcedureId,
    RelationId, SourceId, VariantId,
};
pub use procedure::{Fitting, LeftOpen, Link, Need, Piece, Procedure};
pub use reference::{Gauge, Hazard, Machine, Maker, Source};
pub use relation::{Holds, Relation, RelationFits};
pub use retired::{Recall, Retired};
pub use serial::{SerialRow, row_of};
pub use statement::{
    Confirmation, Fastener, Form, Identity, Misprint, Pin, Point, Printed, Provenance, Selection, Statement,
    Words,
};
pub use vocabulary::{
    Absence, Direction, Fate, FormName, Hand, ProcedureState, Reuse, SignalWord, SourceClass, StopSide,
    VoidedState,
};
pub use waiver::{OnText, OnValue, Waiver, same_words};

/// A whole spec base as understood.
#[derive(Debug)]
pub struct Model {
    /// What the base says of itself.
    pub base: Base,
    /// Service groups in the order of a sheet, each with its entries in file order.
    pub groups: Vec<ServiceGroup>,
    /// Every entry of the catalogue.
    pub entries: BTreeMap<EntryId, Entry>,
    /// Relations in force, the base's own first.
    pub relations: Vec<Relation>,
    /// Every hazard.
    pub hazards: BTreeMap<HazardId, Hazard>,
    /// Every manual and bulletin.
    pub sources: BTreeMap<SourceId, Source>,
    /// Every gauge.
    pub gauges: BTreeMap<GaugeId, Gauge>,
    /// Makers by id.
    pub makers: BTreeMap<MakerId, Maker>,
    /// Every machine.
    pub machines: BTreeMap<MachineId, Machine>,
    /// Every engine.
    pub engines: BTreeMap<EngineId, Engine>,
    /// Every build that some machine has.
    pub builds: BTreeMap<BuildId, Build>,
    /// Which machine, year and serial number has which build; in order of machine, year, serial.
    pub fits: Vec<Fit>,
    /// Every procedure.
    pub procedures: BTreeMap<ProcedureId, Procedure>,
    /// Every complaint.
    pub complaints: BTreeMap<ComplaintId, Complaint>,
    /// Every set of fault codes.
    pub codes: BTreeMap<CodeSetId, CodeSet>,
    /// Public ids that no longer live, in file order.
    pub retired: Vec<Retired>,
    /// Values withdrawn as wrong, in file order.
    pub recalls: Vec<Recall>,
    /// What nothing refers to.
    pub unnamed: Unnamed,
}

/// What is defined and nothing in the base refers to. It is empty where a reference of that kind is not understood.
#[derive(Debug)]
pub struct Unnamed {
    /// Hazards.
    pub hazards: BTreeSet<HazardId>,
    /// Manuals and bulletins.
    pub sources: BTreeSet<SourceId>,
}

impl Model {
    /// The waivers that act on a statement.
    pub fn waivers_on<'a>(&'a self, statement: &'a Statement) -> impl Iterator<Item = &'a Waiver<OnValue>> {
        let own = self.engines.values().filter(|engine| engine.span.file == statement.span.file);
        own.flat_map(|engine| &engine.waivers).filter(|waiver| waiver.on.is(statement))
    }

    /// True if a statement is not to be shown: a wrong value could kill, and nobody confirmed it; or the
    /// base publishes nothing that was read only once.
    pub fn withholds(&self, statement: &Statement) -> bool {
        let unconfirmed =
            matches!(statement.confirmation, Confirmation::ReadOnce | Confirmation::Differs { .. });
        let critical = self.entries.get(&statement.identity.of).is_some_and(|entry| entry.critical);
        unconfirmed && (critical || !self.base.publish.unconfirmed)
    }

    /// True if what has this fitting, a procedure or a complaint, fits a build.
    pub fn fits_build(&self, fits: &Fitting, build: &Build) -> bool {
        let layout = self.engines.get(&build.engine).and_then(|engine| engine.layout.as_ref());
        let is =
            |wanted: &Option<String>, found: Option<&String>| wanted.is_none() || wanted.as_ref() == found;
        fits.has.iter().all(|of| build.of(of).any(|one| one.has_value()))
            && (fits.engines.is_empty() || fits.engines.contains(&build.engine))
            && is(&fits.cycle, layout.map(|layout| &layout.cycle))
            && is(&fits.fuel, layout.map(|layout| &layout.fuel))
    }
}
