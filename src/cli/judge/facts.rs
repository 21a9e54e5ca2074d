//! What `judge` needs to know of a build's entry, from a spec base or from a bundle alike.

use std::collections::BTreeMap;

use super::super::{Failure, unknown};
use crate::compute::judge::{GaugeInHand, Limits};
use crate::model::{StopSide, Words};

/// An entry as stated for one build.
pub(super) struct Facts {
    /// Id of the entry.
    pub(super) of: String,
    /// Word for a reading below the limits.
    pub(super) below: String,
    /// Word for a reading above them.
    pub(super) above: String,
    /// Beyond which of its limits the machine must not be run.
    pub(super) stop: Option<StopSide>,
    /// The places it may be stated for: axis and words.
    pub(super) axes: BTreeMap<String, Vec<String>>,
    /// The states it may be stated for.
    pub(super) states: Vec<String>,
    /// What must be so for any reading of it.
    pub(super) needs_state: Words,
    /// What is stated, in the order of a sheet.
    pub(super) stated: Vec<Stated>,
}

/// One statement.
pub(super) struct Stated {
    /// The place it holds for.
    pub(super) place: Words,
    /// The state it is meant for.
    pub(super) when: Words,
    /// What it says.
    pub(super) held: Held,
}

/// What a statement says of limits.
pub(super) enum Held {
    /// Limits.
    Limits(Limits),
    /// None that a reading can be held against, and why.
    Nothing(String),
}

/// Where builds, entries and gauges are looked up.
pub(super) trait Shelf {
    /// The entry `of` as stated for `build`.
    fn facts(&self, build: &str, of: &str) -> Result<Facts, Failure>;
    /// A gauge.
    fn gauge(&self, id: &str) -> Result<GaugeInHand, Failure>;
}

/// A name that the entry does not have.
pub(super) fn not_of<'a>(
    of: &str,
    what: &str,
    name: &str,
    known: impl Iterator<Item = &'a str> + Clone,
) -> Failure {
    match unknown(what, name, known) {
        Failure::Usage(_, help) => Failure::Usage(format!("`{of}` has no {what} `{name}`"), help),
        other => other,
    }
}

/// Why a statement of another form holds no limits.
pub(super) fn no_limits(form: &str) -> Held {
    Held::Nothing(match form {
        "not-given" => "the maker gives none".to_owned(),
        "not-applicable" => "the engine has no such thing".to_owned(),
        "not-read" => "nobody has read it yet".to_owned(),
        form => format!("it is stated as `{form}`, which has no limits"),
    })
}
