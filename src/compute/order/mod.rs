//! In which order the checks of a complaint are done, so that the cause is found soonest on average.
//!
//! One cause is present. A check shows any cause in its list, and clears them all by not showing; access is
//! opened once. Expected minutes are the sum, over the causes, of their share of past jobs times the minutes
//! gone when the first check that shows them is done. For independent checks the best order is by share over
//! minutes (Kadane and Simon 1975; Ottosen and Jensen, arXiv 1203.3502); where access or causes are shared no
//! such rule holds, and the order is proved by search.
//!
//! Invariant: the same question has one answer. Of orders equally good it is the one nearest the file's, and
//! checks with nothing left to show come last, as in the file.

mod heat;
mod job;
mod plan;
mod search;

pub use heat::{COOLING, Change, Heat, WARMING, Warmth, heat};
pub use job::{Access, Cause, Check, Findings, Job, Outcome};
pub use plan::{Order, Step, Why, order};
