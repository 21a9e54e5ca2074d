//! Baybook.
pub mod load;
pub mod quantity;
