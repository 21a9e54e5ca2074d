//! The table of units, by field of use; within a kind the commoner unit stands first.
//!
//! Sizes are exact: the international yard and pound of 1959, g_n = 9.80665 m/s², the conventional
//! columns of mercury and water (mercury 13595.1 kg/m³, water 1000 kg/m³ at g_n for the
//! millimetre; the inch of water by NIST SP 811 at 4 °C). Codes are UCUM and UNECE Rec 20.

mod electric;
mod force;
mod motion;
mod space;

use super::row::Row;

/// Every row, field by field.
pub(super) fn rows() -> impl Iterator<Item = &'static Row> {
    [space::ROWS, force::ROWS, motion::ROWS, electric::ROWS].into_iter().flatten()
}
