//! Which bench sums a build gives values to: the sums that a technician reaches from its engine sheet.
//!
//! A sum is offered where the build states, with a value, an entry that the sum asks for.

use crate::model::Build;

/// Sums by the entries that give them values: whole ids, or the start of ids up to a point.
const ASKED: &[(&str, &[&str])] = &[
    ("adapter", &["torque."]),
    ("wrench", &["torque."]),
    ("advance", &["torque.head-bolt", "torque.rod-cap"]),
    ("size", &["lash.shim"]),
    ("turn", &["torque.lash-locknut"]),
    ("resistance", &["sensor.coolant", "sensor.air", "sensor.head"]),
    ("temperature", &["sensor.coolant", "sensor.air", "sensor.head"]),
    ("soak", &["sensor.coolant", "sensor.air", "sensor.head"]),
    ("voltage", &["sensor.manifold"]),
    ("pressure", &["sensor.manifold"]),
    ("copper", &["stator.resistance", "coil.primary", "pickup.resistance", "exciter.resistance"]),
    ("rest", &["battery."]),
    ("load", &["battery.cca", "battery.capacity"]),
    ("refill", &["battery.capacity"]),
    ("drain", &["idle.drain"]),
    ("rise", &["charge.volts"]),
    ("net", &["stator.power"]),
    ("altitude", &["compression.cranking"]),
    ("spread", &["compression.spread"]),
    ("leak", &["leakdown"]),
    ("flow", &["injector.flow"]),
    ("balance", &["vacuum.spread"]),
    ("premix", &["premix"]),
    ("hertz", &["generator.frequency"]),
    ("droop", &["generator.frequency"]),
    ("slip", &["drive.ratio"]),
    ("belt", &["pulley.centres"]),
    ("wear", &["disc.thickness", "pad.thickness", "belt.width", "plate.thickness"]),
    ("coolant", &["coolant.mix"]),
];

/// Ids of the sums that the build gives a value to, with a point between two; the sheet of sums lists them
/// when it is opened with them.
pub(super) fn sums_for(build: &Build) -> String {
    let states = |wanted: &str| {
        let mut valued = build.statements.iter().filter(|one| one.has_value());
        valued.any(|one| {
            let id = one.identity.of.as_str();
            id == wanted || wanted.ends_with('.') && id.starts_with(wanted)
        })
    };
    let given = ASKED.iter().filter(|(_, entries)| entries.iter().any(|entry| states(entry)));
    let ids: Vec<&str> = given.map(|(id, _)| *id).collect();
    ids.join(".")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::compute::sums::find;

    #[test]
    fn every_sum_that_is_named_is_in_the_table_of_sums_once() {
        let mut seen = Vec::new();
        for (id, entries) in ASKED {
            assert!(find(id).is_some() && !entries.is_empty() && !seen.contains(id), "{id}");
            seen.push(id);
        }
    }
}
