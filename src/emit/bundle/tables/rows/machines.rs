//! Makers, machines, engines with their variants, builds, and which machine has which build.

use super::{Cell, Column, Holds, Reference, Table, places, printed_row, printed_table, row, table};
use crate::bundle::{Bundle, Engine, Serial};

/// Makers, machines, engines, builds, fits.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    let mut all = vec![makers(bundle), machines(bundle)];
    all.extend(engines(bundle));
    all.extend(variants(bundle));
    all.extend(builds(bundle));
    all.push(fits(bundle));
    all
}

fn makers(bundle: &Bundle) -> Table {
    let mut table = table! { "maker" "Makers" key("id") refers[] Text id '!' "Id"; Text name '!' "Name"; };
    table.rows = bundle.machines.makers.iter().map(|one| row![&one.id, &one.name]).collect();
    table
}

fn machines(bundle: &Bundle) -> Table {
    let mut table = table! { "machine" "Machines" key("id") refers[("maker" "maker" "id")]
    Text id '!' "Id"; Text maker '!' "Maker"; Text name '!' "Name"; Text sort '?' "What sort of machine";
    Text serial_at '?' "Where its serial number is found"; };
    let machines = bundle.machines.machines.iter();
    table.rows = machines
        .map(|one| row![&one.id, &one.maker, &one.name, one.sort.as_ref(), one.serial_at.as_ref()])
        .collect();
    table
}

fn engines(bundle: &Bundle) -> Vec<Table> {
    let mut engines = table! { "engine" "Engines" key("id") refers[("maker" "maker" "id")]
    Text id '!' "Id"; Text maker '!' "Maker"; Text title '!' "Title"; Text cycle '?' "four-stroke or two-stroke";
    Text fuel '?' "petrol or diesel"; Integer cylinders '?' "Number of cylinders";
    Text layout '?' "The shop's words for its layout"; };
    let mut values = printed_table(
        table! { "engine_value" "Bore, stroke and swept volume of engines" key("engine", "part") refers[("engine" "engine" "id")]
        Text engine '!' "Engine"; Text part '!' "bore, stroke or displacement"; },
    );
    for one in &bundle.engines {
        let layout = one.layout.as_ref();
        engines.rows.push(row![
            &one.id,
            &one.maker,
            &one.title,
            layout.map(|one| &one.cycle),
            layout.map(|one| &one.fuel),
            layout.map(|one| one.cylinders),
            layout.and_then(|one| one.words.as_ref()),
        ]);
        let parts =
            layout.map(|of| [("bore", &of.bore), ("stroke", &of.stroke), ("displacement", &of.displacement)]);
        let rows = parts.into_iter().flatten();
        values.rows.extend(rows.filter_map(|(part, form)| printed_row(&one.id, part, form.as_ref())));
    }
    vec![engines, values]
}

fn variants(bundle: &Bundle) -> Vec<Table> {
    let mut variants = table! { "variant" "What bulletins change in an engine" key("engine", "id") refers[("engine" "engine" "id") ("source" "source" "id")]
    Text engine '!' "Engine"; Text id '!' "Id in the engine"; Integer place '!' "Place in the engine";
    Text source '?' "Bulletin"; Text note '?' "Why, in the shop's words"; };
    let mut reach = table! { "variant_reach" "Machines that a variant holds for" key("engine", "variant", "place") refers[("engine" "engine" "id") ("machine" "machine" "id")]
    Text engine '!' "Engine"; Text variant '!' "Variant"; Integer place '!' "Place"; Text machine '!' "Machine";
    Integer from_year '?' "First model year; null for all"; Integer to_year '?' "Last model year; null for all";
    Text serial_prefix '?' "What the serial numbers start with; null for all"; Integer serial_from '?' "First running number";
    Integer serial_to '?' "Last running number"; };
    let mut replaced = table! { "variant_replaces" "Variants that a variant takes the place of" key("engine", "variant", "place") refers[("engine" "engine" "id")]
    Text engine '!' "Engine"; Text variant '!' "Variant"; Integer place '!' "Place"; Text replaces '!' "Variant it takes the place of"; };
    let all = bundle.engines.iter().flat_map(|engine| places(&engine.variants).map(move |one| (engine, one)));
    for (engine, (at, one)) in all {
        variants.rows.push(row![&engine.id, &one.id, at, one.source.as_ref(), one.note.as_ref()]);
        for (place, applies) in places(&one.applies) {
            let mut row =
                row![&engine.id, &one.id, place, &applies.machine, applies.from_year, applies.to_year,];
            row.extend(serial_cells(applies.serial.as_ref()));
            reach.rows.push(row);
        }
        replaced
            .rows
            .extend(places(&one.replaces).map(|(place, other)| row![&engine.id, &one.id, place, other]));
    }
    vec![variants, reach, replaced]
}

/// Prefix, first and last running number.
fn serial_cells(serial: Option<&Serial>) -> Vec<Cell> {
    row![serial.map(|one| &one.prefix), serial.and_then(|one| one.from), serial.and_then(|one| one.to),]
}

fn builds(bundle: &Bundle) -> Vec<Table> {
    let mut builds = table! { "build" "Engines after their variants: what a technician looks up" key("id") refers[("engine" "engine" "id")]
    Text id '!' "Id"; Text engine '!' "Engine"; Text variants '!' "Variants in force, with spaces between"; };
    let mut variants = table! { "build_variant" "Variants in force in a build" key("build", "place") refers[("build" "build" "id")]
    Text build '!' "Build"; Integer place '!' "Place"; Text variant '!' "Variant of its engine"; };
    let all = |engine: &'_ Engine| engine.builds.clone();
    for (engine, build) in
        bundle.engines.iter().flat_map(|one| all(one).into_iter().map(move |build| (one, build)))
    {
        builds.rows.push(row![&build.id, &engine.id, build.variants.join(" ")]);
        variants.rows.extend(places(&build.variants).map(|(place, variant)| row![&build.id, place, variant]));
    }
    vec![builds, variants]
}

fn fits(bundle: &Bundle) -> Table {
    let mut table = table! { "fit" "Which build a machine has, by year and serial number" key("id") refers[("machine" "machine" "id") ("build" "build" "id")]
    Integer id '!' "Number of the row"; Text machine '!' "Machine"; Integer from_year '!' "First model year";
    Integer to_year '!' "Last model year"; Text serial_prefix '?' "What the serial numbers start with";
    Integer serial_from '?' "First running number"; Integer serial_to '?' "Last running number";
    Boolean rest '!' "True for every serial number that no other span names"; Text build '!' "Build"; };
    for fit in bundle.machines.machines.iter().flat_map(|machine| &machine.fits) {
        let mut row = row![table.rows.len().saturating_add(1), &fit.machine, fit.from_year, fit.to_year];
        row.extend(serial_cells(fit.serial.as_ref()));
        row.extend(row![fit.rest, &fit.build]);
        table.rows.push(row);
    }
    table
}
