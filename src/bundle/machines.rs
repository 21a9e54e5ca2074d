//! `machines.json`: makers, machines, and which build each has by year and serial number.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::model::{SerialRange, SerialRow, row_of};

/// Makers and their machines.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Machines of a bundle")]
pub struct Machines {
    /// The makers.
    pub makers: Vec<Maker>,
    /// The machines.
    pub machines: Vec<Machine>,
}

/// A maker.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Maker {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
}

/// A machine.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Machine {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Id of its maker.
    pub maker: String,
    /// What sort of machine.
    pub sort: Option<String>,
    /// Where its serial number is found.
    pub serial_at: Option<String>,
    /// Which build it has, by year and serial number.
    pub fits: Vec<Fit>,
}

impl Machine {
    /// The builds that a machine of a year and serial number may have: one, unless the number is not known or
    /// leaves it open; none where the year or number belongs to no machine of this name.
    pub fn builds(&self, year: u16, serial: Option<&str>) -> Vec<&Fit> {
        let of_year: Vec<&Fit> =
            self.fits.iter().filter(|fit| (fit.from_year..=fit.to_year).contains(&year)).collect();
        let Some(serial) = serial else { return of_year };
        let ranges: Vec<SerialRange> = of_year.iter().map(|fit| fit.range()).collect();
        match row_of(&ranges, serial) {
            SerialRow::Found(at) => of_year.get(at).copied().into_iter().collect(),
            SerialRow::Unsure => of_year,
            SerialRow::NotFound => Vec::new(),
        }
    }
}

impl Fit {
    fn range(&self) -> SerialRange {
        match &self.serial {
            Some(Serial { prefix, from, to }) => {
                SerialRange::Span { prefix: prefix.clone(), from: *from, to: *to }
            }
            None if self.rest => SerialRange::Rest,
            None => SerialRange::All,
        }
    }
}

/// Years and serial numbers of a machine that have one build.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Fit {
    /// Id of the machine.
    pub machine: String,
    /// First model year.
    pub from_year: u16,
    /// Last model year.
    pub to_year: u16,
    /// Serial numbers that begin with a prefix; null where the years decide, or where `rest` is true.
    pub serial: Option<Serial>,
    /// True for every serial number that no other span of these years names.
    pub rest: bool,
    /// Id of the build.
    pub build: String,
}

/// A span of serial numbers.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Serial {
    /// What they start with.
    pub prefix: String,
    /// First running number; null if open.
    pub from: Option<u32>,
    /// Last running number; null if open.
    pub to: Option<u32>,
}
