//! What changed between two bundles, and how far a program that reads them must take notice.
//!
//! Flow: ids that moved are followed first, so that a renamed thing is compared with what it was; then
//! statements build by build ([`statement`]), then everything else ([`things`]). Invariants: two bundles
//! with the same data give no change, whatever their releases; limits are compared as exact numbers; the
//! worst change comes first.
//!
//! A change that is the same in every one of several builds of an engine stands once, with `build` null.
//! Else it stands once for each build it is in, with its id; so does one of an engine's only build.
//! A new build is also compared with the old one it comes from (the one with the most of its variants),
//! for that is what its machines had before.

mod engines;
mod ids;
mod kind;
mod statement;
mod things;
mod value;

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Bundle;
pub use kind::{ChangeKind, Step};

/// Everything that changed.
#[derive(Clone, Debug, Deserialize, Eq, JsonSchema, PartialEq, Serialize)]
pub struct Comparison {
    /// The changes, the worst first.
    pub changes: Vec<Change>,
    /// The highest step of any change; `patch` where nothing changed.
    pub step: Step,
}

/// `changes.json`: what changed since an older release.
#[derive(Clone, Debug, Deserialize, Eq, JsonSchema, PartialEq, Serialize)]
#[schemars(title = "Changes of a bundle")]
pub struct Changes {
    /// The release it is compared with.
    pub since: Since,
    /// The highest step of any change; `patch` where nothing changed.
    pub step: Step,
    /// The changes, the worst first.
    pub changes: Vec<Change>,
}

/// The release that changes are counted from.
#[derive(Clone, Debug, Deserialize, Eq, JsonSchema, PartialEq, Serialize)]
pub struct Since {
    /// Its name.
    pub release: String,
    /// Its date, ISO 8601.
    pub date: String,
    /// Its content hash; null if it was compared as a spec base.
    pub content_hash: Option<String>,
}

/// One change.
#[derive(Clone, Debug, Deserialize, Eq, JsonSchema, Ord, PartialEq, PartialOrd, Serialize)]
pub struct Change {
    /// What sort of change.
    pub kind: ChangeKind,
    /// Id of the engine; null where it is of none.
    pub engine: Option<String>,
    /// Id of the build; null where it is the same in every build of the engine, or of none.
    pub build: Option<String>,
    /// Id of the entry; of a change in anything else, its id: a hazard, a procedure, a machine.
    pub of: Option<String>,
    /// The place; empty is everywhere.
    #[serde(rename = "where")]
    pub place: BTreeMap<String, String>,
    /// The state the value is meant for; empty is any.
    pub when: BTreeMap<String, String>,
    /// What stood there; null if nothing did.
    pub before: Option<String>,
    /// What stands there now; null if nothing does.
    pub after: Option<String>,
}

impl Change {
    /// A change of one kind; whose it is, is filled in by who makes it.
    fn new(kind: ChangeKind, before: Option<String>, after: Option<String>) -> Self {
        Self {
            kind,
            engine: None,
            build: None,
            of: None,
            place: BTreeMap::new(),
            when: BTreeMap::new(),
            before,
            after,
        }
    }

    /// The same change in the thing of an id.
    fn of(self, id: &str) -> Self {
        Self { of: Some(id.to_owned()), ..self }
    }

    /// The same change in an engine.
    fn in_engine(self, id: &str) -> Self {
        Self { engine: Some(id.to_owned()), ..self }
    }
}

impl Comparison {
    /// True if a limit, a setting or the condition it holds for is not what it was.
    pub fn changes_limits(&self) -> bool {
        self.changes.iter().any(|change| change.kind.is_of_limits())
    }
}

/// What changed since an older release, as a bundle says it.
pub fn changes_since(old: &Bundle, new: &Bundle) -> Changes {
    let Comparison { changes, step } = compare(old, new);
    let head = &old.head;
    let content_hash = Some(head.content_hash.clone()).filter(|hash| !hash.is_empty());
    let since = Since { release: head.release.clone(), date: head.date.clone(), content_hash };
    Changes { since, step, changes }
}

/// Compares two bundles.
pub fn compare(old: &Bundle, new: &Bundle) -> Comparison {
    let renamed = ids::renamed(old, new);
    let mut changes = ids::changes(&renamed, new);
    changes.extend(engines::changes(&renamed, new));
    changes.extend(things::changes(&renamed, new));
    changes.sort();
    changes.dedup();
    let step = changes.iter().map(|change| change.kind.step()).min().unwrap_or(Step::Patch);
    Comparison { changes, step }
}
