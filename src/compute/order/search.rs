//! The best order, proved by search over what is left and what is open.
//!
//! What a further order costs depends only on the causes left and the access opened, so that each such state
//! is worked out once. A check that shares neither causes nor access with another useful one is never worth
//! delaying behind another such of a lower share for its minutes: of all of these only the first is tried.

use std::collections::HashMap;

use num_bigint::BigInt;
use num_traits::Zero as _;

use super::job::{Job, Set, bit};

/// The most states that are worked out; a complaint that needs more is ordered without proof.
const MOST_STATES: usize = 30_000;

/// What is left to find, and what is open.
#[derive(Clone, Copy, Debug, Eq, Hash, PartialEq)]
pub(super) struct State {
    pub(super) left: Set,
    pub(super) open: Set,
}

/// A check that would show something.
#[derive(Clone, Debug)]
pub(super) struct Useful {
    pub(super) check: usize,
    /// What it would show of what is left.
    pub(super) shows: Set,
    /// Access it would have to open.
    pub(super) opens: Set,
    /// Minutes with that access.
    pub(super) minutes: BigInt,
}

pub(super) struct Search<'a> {
    job: &'a Job,
    /// The checks that may still be done.
    to_do: Set,
    best: HashMap<State, BigInt>,
}

impl<'a> Search<'a> {
    pub(super) fn new(job: &'a Job, to_do: Set) -> Self {
        Self { job, to_do, best: HashMap::new() }
    }

    /// The useful checks in the best order, and whether it is proved.
    pub(super) fn sequence(&mut self, start: State) -> (Vec<usize>, bool) {
        let proved = self.cost(start).is_some();
        let mut sequence = Vec::new();
        let mut state = start;
        loop {
            let useful = self.useful(state);
            let next = if proved { self.next(state, &useful) } else { quickest(self.job, &useful) };
            let Some(next) = next else { return (sequence, proved) };
            sequence.push(next.check);
            state = after(state, next);
        }
    }

    /// The least that the rest costs: weight times minutes; none if that takes more states than are allowed.
    fn cost(&mut self, state: State) -> Option<BigInt> {
        let useful = self.useful(state);
        let key = needed(state, &useful);
        if let Some(known) = self.best.get(&key) {
            return Some(known.clone());
        }
        let weight = self.job.weight(state.left);
        let mut least: Option<BigInt> = None;
        for one in candidates(self.job, &useful) {
            let cost = &one.minutes * &weight + self.cost(after(state, one))?;
            least = Some(least.map_or_else(|| cost.clone(), |least| least.min(cost.clone())));
        }
        if self.best.len() >= MOST_STATES {
            return None;
        }
        let least = least.unwrap_or_default();
        self.best.insert(key, least.clone());
        Some(least)
    }

    /// The first check in file order with which the best is still reached.
    fn next<'u>(&mut self, state: State, useful: &'u [Useful]) -> Option<&'u Useful> {
        let least = self.cost(state)?;
        let weight = self.job.weight(state.left);
        let reaches = |search: &mut Self, one: &Useful| {
            search.cost(after(state, one)).is_some_and(|rest| &one.minutes * &weight + rest == least)
        };
        candidates(self.job, useful).into_iter().find(|one| reaches(self, one))
    }

    /// The checks that would show something of what is left, in file order.
    fn useful(&self, state: State) -> Vec<Useful> {
        let may = |at: usize| self.to_do & bit(at) != 0;
        let useful = self.job.each().filter(|(at, shows, ..)| may(*at) && shows & state.left != 0);
        let useful = useful.map(|(check, shows, needs, minutes)| {
            let opens = needs & !state.open;
            Useful { check, shows: shows & state.left, opens, minutes: minutes + self.job.opening(opens) }
        });
        useful.collect()
    }
}

/// The state reached when a check has shown nothing.
pub(super) const fn after(state: State, done: &Useful) -> State {
    State { left: state.left & !done.shows, open: state.open | done.opens }
}

/// The state, but for access that no useful check needs: that is as good as shut.
fn needed(state: State, useful: &[Useful]) -> State {
    // What a useful check needs and has open does not count any more; what it would open does.
    State { left: state.left, open: useful.iter().fold(0, |all, one| all | one.opens) }
}

/// The checks that may come first in a best order, in file order.
fn candidates<'u>(job: &Job, useful: &'u [Useful]) -> Vec<&'u Useful> {
    let alone = |one: &Useful| {
        let shares = |other: &Useful| {
            other.check != one.check && (other.shows & one.shows != 0 || other.opens & one.opens != 0)
        };
        !one.minutes.is_zero() && !useful.iter().any(shares)
    };
    let first = quickest(job, useful.iter().filter(|one| alone(one)));
    useful.iter().filter(|one| !alone(one) || first.is_some_and(|first| first.check == one.check)).collect()
}

/// The check of the largest share for its minutes; of equal ones the first in the file.
fn quickest<'u>(job: &Job, useful: impl IntoIterator<Item = &'u Useful>) -> Option<&'u Useful> {
    let rate = |one: &'u Useful| (job.weight(one.shows), &one.minutes, one);
    let better = |best: (BigInt, &'u BigInt, &'u Useful), one: (BigInt, &'u BigInt, &'u Useful)| {
        if &one.0 * best.1 > &best.0 * one.1 { one } else { best }
    };
    useful.into_iter().map(rate).reduce(better).map(|(.., one)| one)
}
