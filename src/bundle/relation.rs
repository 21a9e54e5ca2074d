//! `relations.json`: what must hold between values of one engine, by which the base was proved.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The relations in force.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Relations of a bundle")]
pub struct Relations {
    /// The relations, the base's own first.
    pub relations: Vec<Relation>,
}

/// Something that must hold between values of one engine that has them.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Relation {
    /// Its id.
    pub id: String,
    /// What holds, in words.
    pub title: String,
    /// What holds, as a formula over entries, facts of the layout and quantities.
    pub holds: String,
    /// The engines it holds for.
    pub fits: RelationFits,
    /// Where it comes from.
    pub source: String,
    /// Where to look when it does not hold.
    pub look: Option<String>,
    /// True where nothing but a wrong number can break it.
    pub arithmetic: bool,
}

/// Which engines a relation holds for: every part given must hold.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RelationFits {
    /// `four-stroke` or `two-stroke`.
    #[schemars(extend("enum" = ["four-stroke", "two-stroke", null]))]
    pub cycle: Option<String>,
    /// `petrol` or `diesel`.
    #[schemars(extend("enum" = ["petrol", "diesel", null]))]
    pub fuel: Option<String>,
    /// Ids of entries that the engine must have a value of.
    pub has: Vec<String>,
    /// Ids of entries that it must not have a value of.
    pub lacks: Vec<String>,
    /// Entries of words, each with words of which one must be in them.
    pub says: BTreeMap<String, Vec<String>>,
}
