//! What the bench works out: pure sums in exact numbers, the same here and in the browser.
//!
//! Invariant: nothing here knows of files, clocks or the command line; a sum is given everything it needs
//! and gives the same digits on every machine. `tests/vectors` holds it and its twin in `site/compute`
//! together.

pub mod formula;
pub mod judge;
pub mod order;
mod reading;
pub mod real;
mod refusal;
pub mod shims;
pub mod sums;

pub use reading::{Reading, reading};
pub use refusal::Refusal;
