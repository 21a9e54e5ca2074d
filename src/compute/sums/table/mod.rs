//! The table of sums, by the field they belong to.

mod battery;
mod compression;
mod drive;
mod fuel;
mod sensor;
mod timing;
mod torque;
mod wear;

use super::{Group, Sum};

/// Every sum, in the order of the sheet.
pub fn all() -> impl Iterator<Item = &'static Sum> {
    let fields = [
        torque::SUMS,
        sensor::SUMS,
        battery::SUMS,
        compression::SUMS,
        fuel::SUMS,
        timing::SUMS,
        drive::SUMS,
        wear::SUMS,
    ];
    fields.into_iter().flatten()
}

/// The sums of a command.
pub fn of_group(group: Group) -> impl Iterator<Item = &'static Sum> {
    all().filter(move |sum| sum.group == group)
}

/// The sum of an id.
pub fn find(id: &str) -> Option<&'static Sum> {
    all().find(|sum| sum.id == id)
}
