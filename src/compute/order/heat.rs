//! What heat costs between the checks of an order: warming before one that wants the engine hot, cooling
//! before one that wants it cold.
//!
//! The engine is cold at first. A check done hot leaves it hot; one that voids the cold state, as starting the
//! engine does, leaves a cold engine warm, neither cold nor hot. A check that wants it cold when it is not
//! costs [`COOLING`] first, one that wants it hot when it is not costs [`WARMING`]. Of the checks that are done
//! nobody has said in which order: one done hot leaves the engine hot, else one that voids the cold state leaves
//! it warm.
//!
//! Invariant: these minutes stand beside the order and never change it; those of [`super::order`] are without them.

use crate::model::{Check, ProcedureState};

/// Minutes from cold to hot: common practice, no source.
pub const WARMING: u32 = 12;
/// Minutes until a hot engine is cold right through: common practice, no source.
pub const COOLING: u32 = 180;

/// What a check asks of the engine's heat, and does to it.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Warmth {
    /// The state it is done in.
    pub state: ProcedureState,
    /// True if the engine is no longer cold after it.
    pub voids_cold: bool,
}

/// What comes before a check, and what it voids.
#[derive(Clone, Debug, Default, Eq, PartialEq)]
pub struct Heat {
    /// What the engine must first become.
    pub first: Option<Change>,
    /// Places in the order of the later checks whose cold engine this one takes away.
    pub voids: Vec<usize>,
}

/// A change of the engine's heat.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Change {
    /// It is run warm.
    Warm,
    /// It is left to cool.
    Cool,
}

impl Change {
    /// Minutes it takes.
    pub const fn minutes(self) -> u32 {
        match self {
            Self::Warm => WARMING,
            Self::Cool => COOLING,
        }
    }

    /// What is done, to go on with how long it takes.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Warm => "run the engine warm",
            Self::Cool => "let the engine cool right through",
        }
    }
}

#[derive(Clone, Copy, Eq, PartialEq)]
enum Now {
    Cold,
    Warm,
    Hot,
}

impl Warmth {
    /// Of a check of a base.
    pub const fn of(check: &Check) -> Self {
        Self { state: check.state, voids_cold: check.voids_cold }
    }

    /// How a check leaves an engine that it found so.
    fn leaves(self, found: Now) -> Now {
        match self.state {
            ProcedureState::Hot => Now::Hot,
            _ if self.voids_cold && found == Now::Cold => Now::Warm,
            _ => found,
        }
    }
}

/// What heat costs along an order, after the checks that are done.
pub fn heat(done: &[Warmth], ahead: &[Warmth]) -> Vec<Heat> {
    let mut now = if done.iter().any(|one| one.state == ProcedureState::Hot) {
        Now::Hot
    } else if done.iter().any(|one| one.voids_cold) {
        Now::Warm
    } else {
        Now::Cold
    };
    let mut all = Vec::with_capacity(ahead.len());
    for (at, check) in ahead.iter().enumerate() {
        let first = match check.state {
            ProcedureState::Cold if now != Now::Cold => Some(Change::Cool),
            ProcedureState::Hot if now != Now::Hot => Some(Change::Warm),
            _ => None,
        };
        let found = match first {
            Some(Change::Cool) => Now::Cold,
            Some(Change::Warm) => Now::Hot,
            None => now,
        };
        let left = check.leaves(found);
        let takes = now_or_made_cold(now, found) && left != Now::Cold;
        let later = ahead.iter().enumerate().skip(at + 1);
        let cold = later.filter(|(_, one)| takes && one.state == ProcedureState::Cold);
        all.push(Heat { first, voids: cold.map(|(at, _)| at).collect() });
        now = left;
    }
    all
}

/// True if there was a cold engine to lose, before the check or once it had cooled for it.
fn now_or_made_cold(before: Now, found: Now) -> bool {
    before == Now::Cold || found == Now::Cold
}
