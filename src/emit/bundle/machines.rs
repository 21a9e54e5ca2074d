//! `machines.json`: makers, machines, and which build each has by year and serial number.

use schemars::JsonSchema;
use serde::Serialize;

use crate::model::{Fit, Model, SerialRange};

/// Makers and their machines.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Machines of a bundle")]
pub struct MachinesJson {
    /// The makers.
    pub makers: Vec<MakerJson>,
    /// The machines.
    pub machines: Vec<MachineJson>,
}

/// A maker.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MakerJson {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
}

/// A machine.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MachineJson {
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
    pub fits: Vec<FitJson>,
}

/// Years and serial numbers of a machine that have one build.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FitJson {
    /// Id of the machine.
    pub machine: String,
    /// First model year.
    pub from_year: u16,
    /// Last model year.
    pub to_year: u16,
    /// Serial numbers that begin with a prefix; null where the years decide, or where `rest` is true.
    pub serial: Option<SerialJson>,
    /// True for every serial number that no other span of these years names.
    pub rest: bool,
    /// Id of the build.
    pub build: String,
}

/// A span of serial numbers.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SerialJson {
    /// What they start with.
    pub prefix: String,
    /// First running number; null if open.
    pub from: Option<u32>,
    /// Last running number; null if open.
    pub to: Option<u32>,
}

/// One fit as JSON.
pub fn fit(fit: &Fit) -> FitJson {
    let serial = match &fit.serial {
        SerialRange::Span { prefix, from, to } => {
            Some(SerialJson { prefix: prefix.clone(), from: *from, to: *to })
        }
        SerialRange::Rest | SerialRange::All => None,
    };
    FitJson {
        machine: fit.machine.to_string(),
        from_year: fit.years.from,
        to_year: fit.years.to,
        serial,
        rest: fit.serial == SerialRange::Rest,
        build: fit.build.to_string(),
    }
}

/// Makers and machines as JSON.
pub fn machines(model: &Model) -> MachinesJson {
    let maker = |one: &crate::model::Maker| MakerJson { id: one.id.to_string(), name: one.name.clone() };
    let machine = |one: &crate::model::Machine| MachineJson {
        id: one.id.to_string(),
        name: one.name.clone(),
        maker: one.maker.to_string(),
        sort: one.sort.clone(),
        serial_at: one.serial_at.clone(),
        fits: model.fits.iter().filter(|fit| fit.machine == one.id).map(fit).collect(),
    };
    MachinesJson {
        makers: model.makers.values().map(maker).collect(),
        machines: model.machines.values().map(machine).collect(),
    }
}
