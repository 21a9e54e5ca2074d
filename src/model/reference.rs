//! What statements and procedures refer to: machines, makers, sources, hazards, gauges.

use super::{Date, GaugeId, HazardId, MachineId, MakerId, Printed, SignalWord, SourceClass, SourceId};
use crate::quantity::Kind;
use crate::source::Span;

/// A maker of machines or engines.
#[derive(Debug)]
pub struct Maker {
    /// Its id.
    pub id: MakerId,
    /// Its name.
    pub name: String,
}

/// One model of machine.
#[derive(Debug)]
pub struct Machine {
    /// Its id.
    pub id: MachineId,
    /// Where its id is typed.
    pub span: Span,
    /// Its maker.
    pub maker: MakerId,
    /// Its name.
    pub name: String,
    /// What sort of machine.
    pub sort: Option<String>,
    /// Where its serial number is found.
    pub serial_at: Option<String>,
}

/// A manual or bulletin.
#[derive(Debug)]
pub struct Source {
    /// Its id.
    pub id: SourceId,
    /// Where its id is typed.
    pub span: Span,
    /// Title.
    pub title: String,
    /// What the shop calls it.
    pub short: Option<String>,
    /// Edition.
    pub edition: Option<String>,
    /// Date of publication.
    pub date: Option<Date>,
    /// What sort of source.
    pub class: SourceClass,
    /// Sources it takes the place of.
    pub supersedes: Vec<SourceId>,
    /// What the technician should know of it.
    pub note: Option<String>,
}

impl Source {
    /// What it is called beside a value: its short name, or else its title.
    pub fn name(&self) -> &str {
        self.short.as_deref().unwrap_or(&self.title)
    }
}

/// A hazard: what a caution panel says.
#[derive(Debug)]
pub struct Hazard {
    /// Its id.
    pub id: HazardId,
    /// Where its id is typed.
    pub span: Span,
    /// Signal word of ANSI Z535.6.
    pub signal: SignalWord,
    /// What can hurt.
    pub hazard: String,
    /// What happens.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
}

/// A gauge.
#[derive(Debug)]
pub struct Gauge {
    /// Its id.
    pub id: GaugeId,
    /// Where its id is typed.
    pub span: Span,
    /// What the shop calls it.
    pub title: String,
    /// What it measures.
    pub kind: Kind,
    /// Span it measures over.
    pub measures: Printed,
    /// Smallest difference it shows.
    pub resolution: Option<Printed>,
    /// Limit of error, k = 2: of its kind, or in percent of the reading.
    pub error: Printed,
    /// Hazards of using it.
    pub hazards: Vec<HazardId>,
}
