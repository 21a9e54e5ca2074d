//! Findings: what is wrong in a spec base, as data.
//!
//! Every phase reports into a [`Sink`] and goes on. How a finding looks is decided in [`human`],
//! [`narrated`], [`json`], [`github`] and [`sarif`], never where it arises.

mod finding;
pub mod github;
pub mod human;
pub mod json;
pub mod narrated;
mod near;
mod rule;
pub mod sarif;

pub use finding::{Finding, Related, Sink};
pub use near::nearest;
pub use rule::{Group, Rule, Severity};
