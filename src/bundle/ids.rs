//! `ids.json`: what was published once and no longer holds: ids that went, values withdrawn as wrong.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Retired ids and recalled values.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Retired ids and recalled values of a bundle")]
pub struct Ids {
    /// Public ids that no longer live.
    pub retired: Vec<Retired>,
    /// Values that earlier releases stated and that are known to be wrong.
    pub recall: Vec<Recall>,
}

/// A public id that no longer lives.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Retired {
    /// The id that was public.
    pub id: String,
    /// `moved`, `split` or `withdrawn`.
    #[schemars(extend("enum" = ["moved", "split", "withdrawn"]))]
    pub fate: String,
    /// Ids that took its place; empty if it was withdrawn.
    pub to: Vec<String>,
    /// Why.
    pub because: String,
    /// Release in which it went.
    pub release: String,
}

/// A value that earlier releases stated and that is known to be wrong.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Recall {
    /// Id of the engine.
    pub engine: String,
    /// Id of the entry.
    pub of: String,
    /// The place it was stated for.
    #[serde(rename = "where")]
    pub place: BTreeMap<String, String>,
    /// The state it was meant for.
    pub when: BTreeMap<String, String>,
    /// The value as it stood.
    pub value: String,
    /// Releases that stated it.
    pub releases: Vec<String>,
    /// Why it is wrong, and what may come of having used it.
    pub because: String,
}

impl Ids {
    /// The ids that stand in the place of an id now: the id itself if it was never retired; none if it
    /// was withdrawn; several if it was split.
    pub fn now(&self, id: &str) -> Vec<String> {
        let mut now = Vec::new();
        self.follow(id, &mut vec![id.to_owned()], &mut now);
        now
    }

    /// Follows one id, never through an id that was met before.
    fn follow(&self, id: &str, met: &mut Vec<String>, now: &mut Vec<String>) {
        let Some(retired) = self.retired.iter().find(|one| one.id == id) else {
            if !now.iter().any(|one| one == id) {
                now.push(id.to_owned());
            }
            return;
        };
        for next in &retired.to {
            if !met.contains(next) {
                met.push(next.clone());
                self.follow(next, met, now);
            }
        }
    }
}
