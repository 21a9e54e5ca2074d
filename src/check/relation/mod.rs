//! Relations held: what an experienced eye checks between the values of one engine.
//!
//! A relation is a formula (`parse`, `tree`) whose names are understood against the catalogue (`bind`, `narrow`) and
//! whose sums and comparisons keep kinds apart (`sort`, `sorts`). For every build, statements of the same place and
//! condition are taken together (`occasion`), worked out as exact extents that carry the doubt of the last printed
//! digit (`worth`, `extent`), and compared (`judge`, `trend`). What is broken is put into words (`words`, `solve`).
//!
//! Invariant: no floating point, and no finding that some value printed the same would clear.

mod bind;
mod extent;
mod held;
mod judge;
mod narrow;
mod occasion;
mod parse;
mod solve;
mod sort;
mod sorts;
mod token;
mod tree;
mod trend;
mod words;
mod worth;

pub use bind::bind;
pub use extent::{End, Extent};
pub use held::{Breach, Use, breaches};
pub use token::Problem;
pub use worth::extent;
