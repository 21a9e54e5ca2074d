//! What was published once and no longer holds: ids that went, and values withdrawn as wrong.

use std::collections::BTreeSet;

use super::{
    BuildId, CodeSetId, ComplaintId, EngineId, EntryId, Fate, GaugeId, HazardId, MachineId, MakerId, Model,
    ProcedureId, SourceId, Words,
};
use crate::source::Span;

/// A public id that no longer lives.
#[derive(Clone, Debug)]
pub struct Retired {
    /// The id that was public.
    pub id: String,
    /// Where it is typed.
    pub span: Span,
    /// What became of it.
    pub fate: Fate,
    /// Where its fate is typed.
    pub fate_span: Span,
    /// Ids that took its place, and where each is typed.
    pub to: Vec<(String, Span)>,
    /// Why.
    pub because: String,
    /// Release in which it went.
    pub release: String,
}

/// A value that earlier releases stated and that is known to be wrong.
///
/// It names its engine and entry as they were then: they may be retired since.
#[derive(Clone, Debug)]
pub struct Recall {
    /// Id of the engine.
    pub engine: String,
    /// Where the engine is typed.
    pub engine_span: Span,
    /// Id of the entry.
    pub of: String,
    /// Where the entry is typed.
    pub of_span: Span,
    /// The place it was stated for.
    pub place: Words,
    /// The state it was meant for.
    pub when: Words,
    /// The wrong value, as it stood.
    pub value: String,
    /// Where the value is typed.
    pub value_span: Span,
    /// Where each word of place and state is typed: its name, and the span of the word.
    pub typed: Vec<(String, Span)>,
    /// Releases that stated it.
    pub releases: Vec<String>,
    /// Why it is wrong.
    pub because: String,
}

impl Model {
    /// An id and every id that `ids.toml` leads to from it.
    pub fn led_to<'a>(&'a self, id: &'a str) -> BTreeSet<&'a str> {
        let (mut met, mut open) = (BTreeSet::from([id]), vec![id]);
        while let Some(here) = open.pop() {
            for (next, _) in self.retired.iter().filter(|one| one.id == here).flat_map(|one| &one.to) {
                if met.insert(next) {
                    open.push(next);
                }
            }
        }
        met
    }

    /// Every id that a bundle makes public; those of causes, checks and codes behind what they belong to:
    /// `starts-badly-cold/lash-tight`.
    pub fn public_ids(&self) -> BTreeSet<String> {
        let engines = self.engines.keys().map(EngineId::as_str);
        let builds = self.builds.keys().map(BuildId::as_str);
        let entries = self.entries.keys().map(EntryId::as_str);
        let machines = self.machines.keys().map(MachineId::as_str);
        let makers = self.makers.keys().map(MakerId::as_str);
        let references = self.sources.keys().map(SourceId::as_str);
        let hazards = self.hazards.keys().map(HazardId::as_str);
        let gauges = self.gauges.keys().map(GaugeId::as_str);
        let procedures = self.procedures.keys().map(ProcedureId::as_str);
        let complaints = self.complaints.keys().map(ComplaintId::as_str);
        let codes = self.codes.keys().map(CodeSetId::as_str);
        let fitted = engines.chain(builds).chain(entries).chain(machines).chain(makers);
        let cited = fitted.chain(references).chain(hazards).chain(gauges);
        let all = cited.chain(procedures).chain(complaints).chain(codes).map(ToOwned::to_owned);
        let guides = self.complaints.values().flat_map(|one| {
            let parts = one.causes.iter().map(|part| &part.id).chain(one.checks.iter().map(|part| &part.id));
            parts.map(|part| format!("{}/{part}", one.id))
        });
        let faults = self.codes.values();
        let faults = faults.flat_map(|one| one.codes.iter().map(|part| format!("{}/{}", one.id, part.id)));
        all.chain(guides).chain(faults).collect()
    }
}
