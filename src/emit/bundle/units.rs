//! `units.json`: every unit, with its codes and its exact size.

use num_traits::Zero;

use crate::bundle as json;
use crate::quantity::{Exact, Unit};

/// The units as JSON, in order of their symbols.
pub fn units() -> json::Units {
    let mut units: Vec<_> = Unit::all().map(unit).collect();
    units.sort_by(|one, other| (&one.symbol, &one.kind).cmp(&(&other.symbol, &other.kind)));
    json::Units { units }
}

fn unit(unit: Unit) -> json::UnitFacts {
    json::UnitFacts {
        symbol: unit.symbol().to_owned(),
        spoken: unit.spoken().to_owned(),
        kind: unit.kind().name().to_owned(),
        ucum: unit.ucum().map(ToOwned::to_owned),
        unece: unit.unece().map(ToOwned::to_owned),
        factor: unit.factor().into(),
        offset: unit.to_si(&Exact::zero()).into(),
    }
}
