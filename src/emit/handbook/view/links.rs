//! Where each sheet lies, relative to the output; a template puts its way to the root before it.

use super::scope;
use crate::model::{
    BuildId, CodeSetId, ComplaintId, EngineId, EntryId, GaugeId, MachineId, ProcedureId, SourceId,
};

/// Paths of sheets.
#[derive(Clone, Copy, Debug)]
pub struct Links;

impl Links {
    /// The engine sheet of a build.
    pub fn engine(build: &BuildId) -> String {
        format!("builds/{build}/engine.html")
    }

    /// The bench card of a build.
    pub fn card(build: &BuildId) -> String {
        format!("builds/{build}/card.html")
    }

    /// The sheet of a build's drawings.
    pub fn drawings(build: &BuildId) -> String {
        format!("builds/{build}/drawings.html")
    }

    /// The scripts that bring the drawings of a service group to the engine sheet, but for their number.
    pub fn drawings_script(build: &BuildId, group: &str) -> String {
        format!("builds/{build}/drawings-{group}")
    }

    /// A file beside the sheets of a build.
    pub fn beside(build: &BuildId, file: &str) -> String {
        format!("builds/{build}/{file}")
    }

    /// The sheet of a procedure for a build.
    pub fn procedure(build: &BuildId, procedure: &ProcedureId) -> String {
        format!("builds/{build}/{procedure}.html")
    }

    /// The chooser of a machine.
    pub fn machine(machine: &MachineId) -> String {
        format!("machines/{machine}.html")
    }

    /// The chooser at one year.
    pub fn year(machine: &MachineId, year: u16) -> String {
        format!("machines/{machine}.html#year-{year}")
    }

    /// The list of builds that state an entry.
    pub fn entry(entry: &EntryId) -> String {
        format!("entries/{}.html", scope::entry(entry.as_str()))
    }

    /// The sheet of a complaint for a build.
    pub fn complaint(build: &BuildId, complaint: &ComplaintId) -> String {
        format!("builds/{build}/complaint-{complaint}.html")
    }

    /// The sheet of a set of fault codes.
    pub fn codes(set: &CodeSetId) -> String {
        format!("codes/{set}.html")
    }

    /// The coverage sheet of an engine.
    pub fn coverage(engine: &EngineId) -> String {
        format!("coverage/{engine}.html")
    }

    /// The sheet of a manual or bulletin.
    pub fn source_sheet(source: &SourceId) -> String {
        format!("sources/{source}.html")
    }

    /// The sheet of a manual or bulletin, at a page.
    pub fn source(source: &SourceId, page: Option<&str>) -> String {
        format!("{}#{}", Self::source_sheet(source), scope::page(page))
    }

    /// A gauge in the list of gauges.
    pub fn gauge(gauge: &GaugeId) -> String {
        format!("gauges.html#gauge-{gauge}")
    }
}
