//! Relations: what must hold between values of one engine. Their formulas are text here; `check` understands them.

use std::collections::BTreeMap;

use super::{EntryId, RelationId};
use crate::source::Span;

/// Something that must hold between values of one engine.
#[derive(Clone, Debug)]
pub struct Relation {
    /// Its id.
    pub id: RelationId,
    /// What holds, in words.
    pub title: String,
    /// What holds, as a formula.
    pub holds: Holds,
    /// The engines it holds for.
    pub fits: RelationFits,
    /// Where it comes from.
    pub source: String,
    /// Where to look when it does not hold.
    pub look: Option<String>,
    /// True where nothing but a wrong number can break it.
    pub arithmetic: bool,
}

/// The formula of a relation.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Holds {
    /// The formula.
    pub text: String,
    /// Its string in a file of the base; none for a relation that Baybook carries.
    pub span: Option<Span>,
}

/// Which engines a relation holds for: every part given must hold.
#[derive(Clone, Debug, Default, Eq, PartialEq)]
pub struct RelationFits {
    /// `four-stroke` or `two-stroke`.
    pub cycle: Option<String>,
    /// `petrol` or `diesel`.
    pub fuel: Option<String>,
    /// Entries that the engine must have a value of.
    pub has: Vec<EntryId>,
    /// Entries that it must not have a value of.
    pub lacks: Vec<EntryId>,
    /// Entries of words, each with a word that must not be in them.
    pub unless: BTreeMap<EntryId, String>,
}
