//! Baybook.
pub mod check;
pub mod diag;
pub mod emit;
pub mod load;
pub mod model;
pub mod quantity;
pub mod resolve;
pub mod source;
