//! What is written from a proved spec base: the handbook and the bundle.
//!
//! Emitters return a map of path → bytes and touch no disk; `disk` is the one place that writes.

pub mod drawing;
pub mod handbook;

use std::collections::BTreeMap;

/// Files to write, by path relative to the output, with `/`.
pub type Tree = BTreeMap<String, Vec<u8>>;
