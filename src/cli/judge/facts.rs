//! What `judge` needs to know of a build's entry, from a spec base or from a bundle alike.

use std::collections::BTreeMap;

use crate::compute::judge::{GaugeInHand, Limits};
use crate::model::Words;

/// An entry as stated for one build.
pub(super) struct Facts {
    /// Id of the entry.
    pub(super) of: String,
    /// Word for a reading below the limits.
    pub(super) below: String,
    /// Word for a reading above them.
    pub(super) above: String,
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
    fn facts(&self, build: &str, of: &str) -> Result<Facts, super::Failure>;
    /// A gauge.
    fn gauge(&self, id: &str) -> Result<GaugeInHand, super::Failure>;
}

/// An id that is not there, with the one that was perhaps meant.
pub(super) fn unknown<'a>(
    what: &str,
    id: &str,
    known: impl Iterator<Item = &'a str> + Clone,
) -> super::Failure {
    let help = crate::diag::nearest(id, known.clone())
        .map_or_else(|| format!("it has {}", listed(known)), |near| format!("did you mean `{near}`?"));
    super::Failure::Usage(format!("there is no {what} `{id}`"), help)
}

/// A name that the entry does not have.
pub(super) fn not_of<'a>(
    of: &str,
    what: &str,
    name: &str,
    known: impl Iterator<Item = &'a str> + Clone,
) -> super::Failure {
    match unknown(what, name, known) {
        super::Failure::Usage(_, help) => {
            super::Failure::Usage(format!("`{of}` has no {what} `{name}`"), help)
        }
        other => other,
    }
}

/// A few names, and how many more there are.
fn listed<'a>(names: impl Iterator<Item = &'a str> + Clone) -> String {
    const SHOWN: usize = 8;
    let more = names.clone().count().saturating_sub(SHOWN);
    let shown: Vec<_> = names.take(SHOWN).collect();
    match (shown.is_empty(), more) {
        (true, _) => "none".to_owned(),
        (_, 0) => shown.join(", "),
        _ => format!("{} and {more} more", shown.join(", ")),
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
