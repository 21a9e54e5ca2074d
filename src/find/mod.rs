//! Finding by words: what a technician types, and the lines that answer it, best first.
//!
//! Two sides are looked up apart and then joined: *things* (entries with place and condition,
//! procedures, complaints), which grow with the catalogue, and *machines* (names, years, serial
//! numbers), which grow with the base. Invariant: scores are whole numbers, and nothing is asked of
//! the index but what a shard of it can answer, so that `site/find` gives the same list.

mod ask;
mod held;
mod index;
mod line;
mod machines;
mod matching;
mod rows;
mod said;
mod search;
mod shards;
mod sizes;
mod stated;
mod values;
mod words;

pub use index::{Fitted, Fixed, Index, Line, Span, Stated, Thing, Things};
pub use rows::Row;
pub use search::{Answer, Found, search};
pub use shards::shards;
pub use values::{Buckets, Printing};
