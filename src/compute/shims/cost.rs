//! Four aims and the order of the file as one whole number, so that a sum of costs is compared as the plans are.
//!
//! Invariant: of two plans the one with the smaller sum leaves fewer valves unsolved; else buys fewer shims;
//! else moves fewer; else comes nearer to the target in all; else takes, at the first valve where they
//! differ, the option that stands first.

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{One, Pow, Zero};

use super::options::{Choice, Source};

/// The weight of each aim.
pub(super) struct Weights {
    unsolved: BigInt,
    bought: BigInt,
    moved: BigInt,
    off: BigInt,
    /// What makes every distance from the target a whole number.
    scale: BigInt,
    /// How many options any valve has at most, and one more.
    ranks: BigInt,
    valves: usize,
}

impl Weights {
    pub(super) fn of(options: &[Vec<Choice>]) -> Self {
        let all = || options.iter().flatten();
        let scale = all().fold(BigInt::one(), |scale, choice| scale.lcm(choice.off.denom()));
        let valves = options.len();
        let most = options.iter().map(Vec::len).max().unwrap_or_default();
        let ranks = BigInt::from(most + 1);
        let furthest = all().map(|choice| (&choice.off * &scale).to_integer()).max().unwrap_or_default();
        let off: BigInt = Pow::pow(&ranks, valves);
        let moved = &off * (furthest * valves + 1);
        let bought = &moved * (valves + 1);
        let unsolved = &bought * (valves + 1);
        Self { unsolved, bought, moved, off, scale, ranks, valves }
    }

    /// What it costs that the valve at `valve` takes the option at `rank` of its own.
    pub(super) fn cost(&self, valve: usize, rank: usize, choice: &Choice) -> BigInt {
        let aim = match choice.source {
            Source::Kept => BigInt::zero(),
            Source::Engine(_) => self.moved.clone(),
            Source::Stock(_) => self.bought.clone(),
            Source::Unsolved => self.unsolved.clone(),
        };
        let place = self.valves.saturating_sub(valve + 1);
        let first: BigInt = Pow::pow(&self.ranks, place);
        aim + &self.off * (&choice.off * &self.scale).to_integer() + first * rank
    }
}
