//! The table of units, by field of use; within a kind the commoner unit stands first.
//!
//! Sizes are exact: the international yard and pound of 1959, `g_n` = 9.80665 m/s², and columns of
//! mercury of 13595.1 kg/m³ and water of 1000 kg/m³ under `g_n` (the conventional values). Codes are
//! those of UCUM and of UNECE Recommendation 20; where a test condition or "absolute" is part of
//! the unit, UCUM has it as an annotation in braces.

mod electric;
mod force;
mod motion;
mod space;

use super::row::Row;

/// Every row, field by field.
pub(super) fn rows() -> impl Iterator<Item = &'static Row> {
    [space::ROWS, force::ROWS, motion::ROWS, electric::ROWS].into_iter().flatten()
}
