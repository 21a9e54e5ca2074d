//! Baybook.
pub mod load;
