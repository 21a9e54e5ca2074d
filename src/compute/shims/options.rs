//! What each valve could take: its own shim, one that another gives up, one from stock, or none.
//!
//! Invariant: the options of a valve stand in the order in which the file decides between plans that are
//! equally good: its own shim, those of other valves in their order, those of the stock in its order, none.

use num_traits::Signed;

use super::job::{Head, Seat};
use crate::quantity::Exact;

/// Where the shim of a valve comes from.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Source {
    /// It stays as it is, in its window.
    Kept,
    /// From the valve at this place.
    Engine(usize),
    /// From this place of the stock.
    Stock(usize),
    /// None fits, or none can be worked out: it stays as it is, and is not solved.
    Unsolved,
}

/// One option of a valve.
#[derive(Clone, Debug)]
pub(super) struct Choice {
    pub(super) source: Source,
    /// How far the lash comes from the target, in metres; zero for a valve that is not solved.
    pub(super) off: Exact,
}

/// The options of each valve.
pub(super) fn options(head: &Head) -> Vec<Vec<Choice>> {
    (0..head.seats.len()).filter_map(|place| Some(of(head, place, head.seats.get(place)?))).collect()
}

fn of(head: &Head, place: usize, seat: &Seat) -> Vec<Choice> {
    let unsolved = Choice { source: Source::Unsolved, off: Exact::default() };
    let Some(lash) = seat.lash.as_ref().filter(|_| seat.known) else { return vec![unsolved] };
    let gap = lash + &seat.shim;
    let choice = |source: Source, shim: &Exact| {
        let after = &gap - shim;
        seat.aim.allows(&after).then(|| Choice { source, off: (after - &seat.aim.target).abs() })
    };
    let own = choice(Source::Kept, &seat.shim);
    let others = head.seats.iter().enumerate().filter(|(other, _)| *other != place);
    let others = others.filter_map(|(other, seat)| choice(Source::Engine(other), &seat.shim));
    let stock = head.stock.iter().enumerate().filter(|(_, (_, pieces))| *pieces != Some(0));
    let stock = stock.filter_map(|(other, (size, _))| choice(Source::Stock(other), size));
    own.into_iter().chain(others).chain(stock).chain([unsolved]).collect()
}
