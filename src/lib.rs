//! Baybook.
pub mod check;
pub mod diag;
pub mod emit;
pub mod load;
pub mod model;
pub mod source;
