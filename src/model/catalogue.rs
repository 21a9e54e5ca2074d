//! What can be specified.

use std::collections::BTreeMap;

use super::{EntryId, FormName, GaugeId, HazardId, Printed, StopSide, Words};
use crate::quantity::Kind;
use crate::source::Span;

/// A service group: a lettered section of an engine sheet.
#[derive(Debug)]
pub struct ServiceGroup {
    /// Id, as `top-end`.
    pub id: String,
    /// Title.
    pub title: String,
    /// Its entries, in file order.
    pub entries: Vec<EntryId>,
}

/// One measurable or statable thing.
#[derive(Debug)]
pub struct Entry {
    /// Its id.
    pub id: EntryId,
    /// Where its id is typed.
    pub span: Span,
    /// What the trade calls it.
    pub title: String,
    /// Other names.
    pub aka: Vec<String>,
    /// Kind of its quantity, if it has one.
    pub kind: Option<Kind>,
    /// Kind of the quantity a table of points is read at.
    pub input: Option<Kind>,
    /// Forms a statement may take.
    pub forms: Vec<FormName>,
    /// Places: axis and words.
    pub axes: BTreeMap<String, Vec<String>>,
    /// Conditions: state and what it can be.
    pub states: BTreeMap<String, Domain>,
    /// What must be so for any reading of it to say something: a thing, and how it must be.
    pub needs_state: Words,
    /// Word for a reading below the window.
    pub below: String,
    /// Word for a reading above the window.
    pub above: String,
    /// Plausible span.
    pub plausible: Option<Printed>,
    /// Where the plausible span comes from.
    pub plausible_from: Option<String>,
    /// Hazards of measuring or setting it.
    pub hazards: Vec<HazardId>,
    /// Usual gauge.
    pub gauge: Option<GaugeId>,
    /// True where a wrong value can kill.
    pub critical: bool,
    /// Beyond which of its limits the machine must not be run, if it must not.
    pub stop: Option<StopSide>,
    /// True for what stands on the bench card.
    pub card: bool,
    /// What the technician should know.
    pub note: Option<String>,
    /// False if a part of it was not understood: then nothing is said to be missing from it.
    pub whole: bool,
}

/// What a state can be.
#[derive(Debug)]
pub enum Domain {
    /// One of these words.
    Words(Vec<String>),
    /// A quantity of this kind.
    Kind(Kind),
}
