//! `machines.json`: makers, machines, and which build each has by year and serial number.

use crate::bundle as json;
use crate::model::{Fit, Model, SerialRange};

/// One fit as JSON.
pub fn fit(fit: &Fit) -> json::Fit {
    json::Fit {
        machine: fit.machine.to_string(),
        from_year: fit.years.from,
        to_year: fit.years.to,
        serial: serial(&fit.serial),
        rest: fit.serial == SerialRange::Rest,
        build: fit.build.to_string(),
    }
}

/// A span of serial numbers as JSON; none where every one is meant, or every other.
pub fn serial(range: &SerialRange) -> Option<json::Serial> {
    match range {
        SerialRange::Span { prefix, from, to } => {
            Some(json::Serial { prefix: prefix.clone(), from: *from, to: *to })
        }
        SerialRange::Rest | SerialRange::All => None,
    }
}

/// Makers and machines as JSON.
pub fn machines(model: &Model) -> json::Machines {
    let maker = |one: &crate::model::Maker| json::Maker { id: one.id.to_string(), name: one.name.clone() };
    let machine = |one: &crate::model::Machine| json::Machine {
        id: one.id.to_string(),
        name: one.name.clone(),
        maker: one.maker.to_string(),
        sort: one.sort.clone(),
        serial_at: one.serial_at.clone(),
        fits: model.fits.iter().filter(|fit| fit.machine == one.id).map(fit).collect(),
    };
    json::Machines {
        makers: model.makers.values().map(maker).collect(),
        machines: model.machines.values().map(machine).collect(),
    }
}
