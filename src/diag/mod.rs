//! Findings: what is wrong in a spec base, as data.
//!
//! Every phase reports into a [`Sink`] and goes on. How a finding looks is decided in [`human`] and
//! [`json`], never where it arises.

mod finding;
pub mod human;
pub mod json;
mod near;
mod rule;

pub use finding::{Finding, Related, Sink};
pub use near::nearest;
pub use rule::{Group, Rule, Severity};
