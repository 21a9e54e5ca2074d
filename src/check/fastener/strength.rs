//! Property classes and their proof strength.

use super::{Thread, constant};
use crate::quantity::Exact;

/// A property class as marked on the head.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Class {
    /// Of ISO 898-1, by its mark: proof strength in `MPa` up to M16, and above.
    Metric(u16, u16),
    /// Of SAE J429, by its grade: proof strength in psi.
    Sae(u32),
}

impl Class {
    /// The strongest class in use: what any bolt can at most be.
    pub const STRONGEST: Self = Self::Metric(970, 970);

    /// Reads a mark: `10.9`, `grade 8`; none where it is not understood.
    pub fn parse(text: &str) -> Option<Self> {
        // 4.6 to 6.8: ISO 898-1, values from memory; 8.8 and up: distributors' sheets of ISO 898-1.
        let metric = [
            ("4.6", (225, 225)),
            ("4.8", (310, 310)),
            ("5.6", (280, 280)),
            ("5.8", (380, 380)),
            ("6.8", (440, 440)),
            ("8.8", (580, 600)),
            ("9.8", (650, 650)),
            ("10.9", (830, 830)),
            ("12.9", (970, 970)),
        ];
        let text = text.trim().to_lowercase();
        if let Some((_, (small, large))) = metric.iter().find(|(mark, _)| *mark == text) {
            return Some(Self::Metric(*small, *large));
        }
        let grade = text.trim_start_matches("sae").trim().trim_start_matches("grade").trim();
        match grade {
            "2" => Some(Self::Sae(55_000)),
            "5" => Some(Self::Sae(85_000)),
            "8" => Some(Self::Sae(120_000)),
            _ => None,
        }
    }
}

/// Proof strength in `MPa`.
pub fn proof_strength(class: Class, thread: &Thread) -> Exact {
    match class {
        Class::Metric(small, large) => {
            let strength = if thread.diameter() > &constant("16") { large } else { small };
            Exact::from_integer(strength.into())
        }
        // One psi is 0.006894757… MPa.
        Class::Sae(psi) => {
            Exact::from_integer(psi.into()) * constant("8896443230521") / constant("1290320000000000")
        }
    }
}
