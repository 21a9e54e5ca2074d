//! Drawings of a sheet: pure functions from places and words to SVG text.
//!
//! A drawing never decides anything and prints no number of its own: every label is a text that the
//! caller took from the model. Places are floats because they only say where a line falls.

pub mod bolts;
pub mod curve;
pub mod dimension;
pub mod divided;
pub mod rotation;
mod shared;
pub mod square;
pub mod stages;
mod svg;

pub use shared::{alert, shared};
pub use svg::{Drawing, escape, position};
