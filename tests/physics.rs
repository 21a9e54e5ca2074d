//! The physics of a base: every relation that Baybook carries finds a value that breaks it, and clean data breaks none.

mod shared;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::LazyLock;

use baybook::Examined;
use baybook::load::disk::Content;
use shared::Base;

/// The demo base without its spans of plausible values, so that what a relation finds is not found by them first.
static DEMO: LazyLock<Base> = LazyLock::new(|| {
    let mut base = shared::read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("specs"));
    for (path, content) in &mut base {
        if path.starts_with("catalogue/") && !path.starts_with("catalogue/relations") {
            let lines = text(content).lines().filter(|line| !line.starts_with("plausible"));
            *content = bytes(&lines.collect::<Vec<_>>().join("\n"));
        }
    }
    base
});

fn text(content: &Content) -> &str {
    match content {
        Content::Bytes(bytes) => std::str::from_utf8(bytes).expect("UTF-8"),
        other => panic!("{other:?}"),
    }
}

fn bytes(text: &str) -> Content {
    Content::Bytes(text.as_bytes().to_vec())
}

/// The file of an engine of the demo base.
fn engine_file(engine: &str) -> &'static str {
    let found =
        DEMO.keys().find(|path| path.starts_with("engines/") && path.ends_with(&format!("/{engine}.toml")));
    found.unwrap_or_else(|| panic!("there is no engine {engine}"))
}

/// The demo base with one engine alone, which is `typed`.
fn alone(engine: &str, typed: &str) -> Base {
    let kept = |path: &str| path.starts_with("catalogue/") || !path.contains('/');
    let mut base: Base =
        DEMO.iter().filter(|(path, _)| kept(path) && *path != "ids.toml").map(copied).collect();
    base.insert(engine_file(engine).to_owned(), bytes(typed));
    base
}

fn copied((path, content): (&String, &Content)) -> (String, Content) {
    (path.clone(), bytes(text(content)))
}

/// The text of an engine with `old`, the first after the first statement of `of`, replaced.
fn changed(engine: &str, of: &str, old: &str, new: &str) -> String {
    let typed = text(&DEMO[engine_file(engine)]);
    let from = if of.is_empty() {
        0
    } else {
        typed.find(&format!("of = \"{of}\"")).unwrap_or_else(|| panic!("{engine} has no {of}"))
    };
    let at = typed[from..].find(old).unwrap_or_else(|| panic!("{engine}, {of}: there is no {old}")) + from;
    format!("{}{new}{}", &typed[..at], &typed[at + old.len()..])
}

/// A relation of the files that Baybook carries.
struct Carried {
    id: String,
    title: String,
}

static CARRIED: LazyLock<Vec<Carried>> = LazyLock::new(|| {
    let files = DEMO.iter().filter(|(path, _)| path.starts_with("catalogue/relations"));
    let tables = files.map(|(_, content)| text(content).parse::<toml::Table>().expect("TOML"));
    let relations = tables.flat_map(|table| table["relation"].as_array().expect("relations").clone());
    let word = |relation: &toml::Value, key: &str| relation[key].as_str().expect("a text").to_owned();
    relations.map(|relation| Carried { id: word(&relation, "id"), title: word(&relation, "title") }).collect()
});

/// The ids of the relations that are broken.
fn broken(examined: &Examined) -> BTreeSet<String> {
    let rules = ["relation-broken", "arithmetic-broken"];
    let found = examined.findings.iter().filter(|finding| rules.contains(&finding.rule.name));
    found
        .map(|finding| {
            let carried = CARRIED.iter().find(|one| finding.message.starts_with(&format!("{}: ", one.title)));
            carried.unwrap_or_else(|| panic!("no relation begins {}", finding.message)).id.clone()
        })
        .collect()
}

/// Relation, engine, entry, what it says, what it would say by a slip that breaks the relation.
const SLIPS: &[(&str, &str, &str, &str, &str)] = &[
    ("displacement", "ox-887", "", "887 cm³", "878 cm³"),
    ("stroke-to-bore", "ox-887", "", "66.7 mm", "166.7 mm"),
    ("bore-as-laid-out", "ox-887", "bore.diameter", "92.000..92.014 mm", "93.000..93.014 mm"),
    ("piston-clearance", "ox-887", "piston.clearance", "0.035..0.059 mm", "0.035..0.049 mm"),
    ("piston-clearance-four-stroke", "ox-887", "piston.clearance", "0.035..0.059 mm", "0.035..0.195 mm"),
    ("piston-clearance-two-stroke", "fg-597", "piston.clearance", "0.078..0.104 mm", "0.018..0.104 mm"),
    ("ring-gap", "ox-887", "ring.end-gap", "0.25..0.40 mm", "0.025..0.40 mm"),
    ("ring-gap-limit", "ox-887", "ring.end-gap", "max 0.70 mm", "max 7.0 mm"),
    ("ring-side-clearance", "ox-887", "ring.side-clearance", "0.03..0.07 mm", "0.03..0.17 mm"),
    ("stem-clearance", "ox-887", "valve.stem-clearance", "0.010..0.037 mm", "0.020..0.037 mm"),
    ("stem-clearance-exhaust", "ox-887", "valve.stem-clearance", "0.025..0.052 mm", "0.005..0.032 mm"),
    ("stem-clearance-span", "ox-887", "valve.stem-clearance", "0.010..0.037 mm", "0.010..0.137 mm"),
    ("exhaust-lash", "ox-887", "lash.intake", "0.13 ± 0.02 mm", "0.31 ± 0.02 mm"),
    ("intake-lash-span", "ox-887", "lash.intake", "0.13 ± 0.02 mm", "0.013 ± 0.002 mm"),
    ("exhaust-lash-span", "ox-887", "lash.exhaust", "0.23 ± 0.02 mm", "0.53 ± 0.02 mm"),
    ("lift", "ox-887", "valve.lift", "8.67 mm", "8.27 mm"),
    ("lift-by-rocker", "fg-413", "valve.lift", "8.18 mm", "6.18 mm"),
    ("lift-to-valve", "ox-887", "valve.head-diameter", "35.9..36.1 mm", "15.9..16.1 mm"),
    ("spring-fitted", "ox-887", "valve.spring-fitted", "35.2 mm", "53.2 mm"),
    ("spring-bind", "ox-887", "valve.spring-bind", "24.6 mm", "26.8 mm"),
    ("spring-limit", "ox-887", "valve.spring-length", "min 41.1 mm", "min 31.1 mm"),
    ("seat-width", "ox-887", "valve.seat-width", "0.9..1.1 mm", "0.9..3.1 mm"),
    ("intake-duration", "ox-887", "valve.duration", "240°", "204°"),
    ("exhaust-duration", "ox-887", "valve.timing", "48°", "84°"),
    ("compression-petrol", "ox-887", "compression.cranking", "1150..1400 kPa", "115..140 kPa"),
    ("compression-two-stroke", "fg-597", "compression.cranking", "760..930 kPa", "76..93 kPa"),
    ("compression-diesel", "qk-1021", "compression.cranking", "2650..3250 kPa", "265..325 kPa"),
    ("ratio-petrol", "ox-887", "compression.ratio", "11.2:1", "2.11:1"),
    ("ratio-diesel", "qk-1021", "compression.ratio", "22.4:1", "42.2:1"),
    ("ratio-two-stroke", "fg-597", "compression.ratio", "7.2:1", "72:1"),
    ("leakdown", "ox-887", "leakdown", "max 14 %", "max 41 %"),
    ("head-warp", "ox-887", "head.warp", "max 0.05 mm", "max 0.50 mm"),
    ("crank-runout", "ox-887", "crank.runout", "max 0.05 mm", "max 0.50 mm"),
    ("big-end-clearance", "ox-887", "rod.big-end-clearance", "0.024..0.050 mm", "0.24..0.50 mm"),
    ("big-end-limit", "ox-887", "rod.big-end-clearance", "max 0.080 mm", "max 0.80 mm"),
    ("rod-side-clearance", "ox-887", "rod.side-clearance", "0.15..0.38 mm", "1.5..3.8 mm"),
    ("rod-side-limit", "ox-887", "rod.side-clearance", "max 0.60 mm", "max 6.0 mm"),
    ("oil-with-filter", "ox-887", "oil.change", "2.6 L", "6.2 L"),
    ("oil-in-filter", "ox-887", "oil.with-filter", "2.8 L", "8.2 L"),
    ("oil-dry", "ox-887", "oil.dry", "3.3 L", "2.3 L"),
    ("oil-dry-to-change", "qk-213", "oil.dry", "0.68 US qt", "0.58 US qt"),
    ("oil-to-displacement", "ox-887", "oil.change", "2.6 L", "0.26 L"),
    ("dry-oil-to-displacement", "ox-887", "oil.dry", "3.3 L", "33 L"),
    ("oil-pressure-by-speed", "ox-887", "oil.pressure", "360..480 kPa", "36..48 kPa"),
    ("oil-pressure-cold", "ox-887", "oil.pressure", "490..650 kPa", "49..65 kPa"),
    ("thermostat", "ox-887", "thermostat.full", "93 °C", "39 °C"),
    ("fan", "ox-887", "fan.off", "92 ± 2 °C", "72 ± 2 °C"),
    ("fan-after-thermostat", "ox-887", "fan.on", "98 ± 2 °C", "68 ± 2 °C"),
    ("lamp-after-fan", "ox-887", "coolant.lamp", "112 ± 3 °C", "92 ± 3 °C"),
    ("lamp-below-boiling", "ox-887", "coolant.lamp", "112 ± 3 °C", "142 ± 3 °C"),
    ("cooling-test-pressure", "ox-887", "cooling.test-pressure", "95 kPa", "195 kPa"),
    ("fuel-pressure-running", "ox-887", "fuel.pressure-running", "330..370 kPa", "33..37 kPa"),
    ("fuel-pressure-prime", "ox-887", "fuel.pressure-prime", "335..375 kPa", "33..37 kPa"),
    ("fuel-pressure-pulse", "fg-597", "fuel.pressure-pulse", "14..26 kPa", "140..260 kPa"),
    ("fuel-hold", "ox-887", "fuel.hold", "min 255 kPa", "min 455 kPa"),
    ("fuel-prime-as-running", "ox-887", "fuel.pressure-prime", "335..375 kPa", "535..575 kPa"),
    ("pump-flow", "ox-887", "pump.flow", "min 760 mL/min", "min 76 mL/min"),
    ("injector-flow", "ox-887", "injector.flow", "255..285 mL/min", "25..28 mL/min"),
    ("injector-resistance", "ox-887", "injector.resistance", "11.4..12.8 Ω", "5.4..6.8 Ω"),
    ("idle-below-governor", "ox-743", "governed.speed", "3750 ± 75 rpm", "375 ± 75 rpm"),
    ("coolant-mix", "ox-887", "coolant.mix", "50 ± 5 %", "90 ± 5 %"),
    ("premix", "sd-327", "premix", "50:1", "5:1"),
    ("throttle-sensor-opens", "ox-887", "sensor.throttle", "0.64 ± 0.04 V", "4.64 ± 0.04 V"),
    ("throttle-sensor-supply", "ox-887", "sensor.throttle", "4.00 ± 0.15 V", "6.00 ± 0.15 V"),
    ("throttle-sensor-span", "ox-887", "sensor.throttle", "0.64 ± 0.04 V", "0.06 ± 0.04 V"),
    ("throttle-sensor-tracks", "ox-1163", "sensor.throttle", "4.30 ± 0.15 V", "3.40 ± 0.15 V"),
    ("plug-gap", "ox-887", "plug.gap", "0.75 ± 0.05 mm", "7.5 ± 0.5 mm"),
    ("coil", "ox-887", "coil.secondary", "11.2..13.8 kΩ", "11.2..13.8 Ω"),
    ("advance", "ox-887", "timing.idle", "9 ± 2°", "39 ± 2°"),
    ("advance-idle", "ox-887", "timing.idle", "9 ± 2°", "29 ± 2°"),
    ("advance-full", "ox-887", "timing.full", "34 ± 2°", "54 ± 2°"),
    ("stator-phases-1-2-3", "fg-413", "stator.resistance", "0.52..0.72 Ω", "0.25..0.27 Ω"),
    ("stator-phases-1-3", "ox-887", "stator.resistance", "0.16..0.26 Ω", "0.61..0.62 Ω"),
    ("stator-volts-by-speed", "ox-887", "stator.volts", "38..50 V~", "28..30 V~"),
    ("charge-current", "ox-887", "charge.current", "max 27 A", "max 72 A"),
    ("charge-current-least", "ox-887", "charge.current", "max 27 A", "max 2.7 A"),
    ("stator-of-injection", "fg-413i", "stator.power", "320 W", "32.0 W"),
    ("charge-volts", "ox-887", "charge.volts", "14.2 ± 0.4 V", "12.4 ± 0.4 V"),
    ("charge-above-rest", "ox-887", "battery.rest", "12.75..13.05 V", "17.25..17.35 V"),
    ("cranking-current", "ox-887", "battery.cca", "315 A CCA", "31 A CCA"),
    ("starter-draw", "ox-887", "starter.draw", "95..150 A", "950..1500 A"),
    ("main-fuse", "ox-1163", "fuses", "60 A", "6 A"),
    ("main-fuse-span", "fg-597", "fuses", "30 A", "3.0 A"),
    ("engagement-above-idle", "ox-887", "clutch.engagement", "1900..2150 rpm", "1190..1215 rpm"),
    ("full-shift-above-engagement", "ox-887", "clutch.full-shift", "7000..7300 rpm", "1700..1730 rpm"),
    ("limiter-above-full-shift", "ox-887", "limiter", "8200 rpm", "2800 rpm"),
    ("belt-limit", "ox-887", "belt.width", "min 32.1 mm", "min 23.1 mm"),
    ("belt-used", "ox-887", "belt.deflection", "28..33 mm", "18..23 mm"),
    ("chain-pins", "qk-498", "chain.length", "238.1 mm", "231.8 mm"),
    ("chain-limit", "qk-498", "chain.length", "max 241.5 mm", "max 251.4 mm"),
    ("disc-limit", "ox-887", "disc.thickness", "min 4.4 mm", "min 2.4 mm"),
    ("toe", "ox-743", "toe.measured-at", "573 mm", "57.3 mm"),
    ("generator-speed", "qk-341", "generator.speed", "3120 ± 30 rpm", "2130 ± 30 rpm"),
    ("generator-droop", "qk-341", "generator.frequency", "52.0 ± 0.5 Hz", "62.0 ± 0.5 Hz"),
    ("suction-lift", "sd-61", "pump.suction-lift", "6.2 m", "9.2 m"),
    ("suction-lift-by-altitude", "sd-61", "pump.suction-lift", "4.9 m", "7.9 m"),
    ("pump-head", "sd-61", "pump.head", "98 m", "68 m"),
    ("pump-power", "sd-61", "pump.delivery", "min 210 L/min", "min 2100 L/min"),
];

/// Relations that no engine of the demo base has the values for, with statements that break them.
const ADDED: &[(&str, &str, &str)] = &[
    (
        "stator-volts-phases",
        "fg-413",
        r#"
[[spec]]
of = "stator.volts"
where = { phase = "1-2" }
window = ["30..36 V~"]
[[spec]]
of = "stator.volts"
where = { phase = "2-3" }
window = ["20..24 V~"]
"#,
    ),
    (
        "stator-volts-third-phase",
        "fg-413",
        r#"
[[spec]]
of = "stator.volts"
where = { phase = "1-2" }
window = ["30..36 V~"]
[[spec]]
of = "stator.volts"
where = { phase = "1-3" }
window = ["3.0..3.6 V~"]
"#,
    ),
];

#[test]
fn every_relation_finds_a_value_that_breaks_it() {
    let mut seen = BTreeSet::new();
    for (relation, engine, of, old, new) in SLIPS {
        let examined = shared::examine(alone(engine, &changed(engine, of, old, new)));
        let found = broken(&examined);
        assert!(found.contains(*relation), "{relation}: `{new}` for `{old}` in {engine} breaks {found:?}");
        seen.insert((*relation).to_owned());
    }
    for (relation, engine, added) in ADDED {
        let found = broken(&shared::examine(alone(engine, &with(engine, added))));
        assert!(found.contains(*relation), "{relation}: breaks {found:?}");
        seen.insert((*relation).to_owned());
    }
    let carried: BTreeSet<String> = CARRIED.iter().map(|one| one.id.clone()).collect();
    assert_eq!(seen, carried, "relations with a case on the left, relations that are carried on the right");
}

/// The text of an engine with statements put before its variants.
fn with(engine: &str, added: &str) -> String {
    let typed = text(&DEMO[engine_file(engine)]);
    let at = typed.find("\n[[variant]]").unwrap_or(typed.len());
    format!("{}{added}{}", &typed[..at], &typed[at..])
}

#[test]
fn no_relation_finds_anything_in_the_demo_base() {
    let found = shared::examine(DEMO.iter().map(copied).collect());
    let shown = shared::printed(&found.findings, &found.sources);
    assert!(
        found.findings.iter().all(|finding| finding.severity() == baybook::diag::Severity::Note),
        "{shown}"
    );
}

#[test]
fn ids_and_titles_of_relations_are_their_own() {
    let ids: BTreeSet<&str> = CARRIED.iter().map(|one| one.id.as_str()).collect();
    let titles: BTreeSet<&str> = CARRIED.iter().map(|one| one.title.as_str()).collect();
    assert_eq!((ids.len(), titles.len()), (CARRIED.len(), CARRIED.len()));
}

#[test]
fn a_base_without_relations_is_held_to_the_carried_ones() {
    let mut base = alone("ox-887", &changed("ox-887", "lash.intake", "0.13 ± 0.02 mm", "0.31 ± 0.02 mm"));
    base.retain(|path, _| !path.starts_with("catalogue/relations"));
    let examined = shared::examine(base);
    assert!(broken(&examined).contains("exhaust-lash"));
    let found =
        examined.findings.iter().find(|finding| finding.rule.name == "relation-broken").expect("found");
    assert!(
        !found.related.iter().any(|related| related.message.contains("relation")),
        "it has no place in the base"
    );
}

#[test]
fn a_relation_can_be_replaced_and_switched_off() {
    let slip = changed("ox-887", "lash.intake", "0.13 ± 0.02 mm", "0.31 ± 0.02 mm");
    let off = "[[off]]\nrelation = \"exhaust-lash\"\nbecause = \"hollow exhaust stems\"\n";
    let mut base = alone("ox-887", &slip);
    base.insert("catalogue/relations-own.toml".to_owned(), bytes(off));
    assert!(!broken(&shared::examine(base)).contains("exhaust-lash"));
    let mut base = alone("ox-887", &slip);
    base.retain(|path, _| !path.starts_with("catalogue/relations"));
    let own = "[[relation]]\nid = \"exhaust-lash\"\ntitle = \"exhaust lash is no tighter than intake lash\"\n\
               holds = \"lash.exhaust + 0.2 mm >= lash.intake\"\nsource = \"common practice, no source\"\n";
    base.insert("catalogue/relations-own.toml".to_owned(), bytes(own));
    assert!(!broken(&shared::examine(base)).contains("exhaust-lash"));
}

#[test]
fn a_variant_is_held_to_the_values_it_stands_beside() {
    let slip = changed("ox-887", "lash.interval", "0.30 ± 0.02 mm", "0.03 ± 0.02 mm");
    let machines = "machines/oxbarrow.toml".to_owned();
    let mut base = alone("ox-887", &slip);
    base.insert(machines.clone(), bytes(text(&DEMO[&machines])));
    let examined = shared::examine(base);
    let found =
        examined.findings.iter().filter(|finding| finding.rule.name == "relation-broken").collect::<Vec<_>>();
    assert!(
        found.iter().any(|finding| finding.message.contains("0.03 ± 0.02 mm is less than 0.13 ± 0.02 mm")),
        "{found:?}"
    );
}

/// What is broken in a formula is underlined there.
#[test]
fn a_formula_that_is_not_understood_is_found_where_it_breaks() {
    let cases: BTreeMap<&str, (&str, &str)> = BTreeMap::from([
        ("lash.exhuast >= lash.intake", ("lash.exhuast", "did you mean `lash.exhaust`?")),
        ("lash.exhaust >= bore * bore", ("lash.exhaust >= bore * bore", "one kind only")),
        ("fuel.hold + bore < 5 mm", ("fuel.hold + bore", "one kind only")),
        ("coolant.mix in 30..60", ("30..60", "bare number")),
        ("lash.exhaust[hott] > 0 mm", ("hott", "did you mean `hot`?")),
        ("lash.exhaust[any altitude] > 0 mm", ("any altitude", "name one of its axes or states")),
        ("ring.end-gap.new > 0 mm", ("ring.end-gap.new", "name an entry of the catalogue")),
        ("lash.exhaust.wear_limit > 0 mm", ("lash.exhaust.wear_limit", "name another value of it")),
        ("lash.exhaust > 5 furlongs", ("furlongs", "write a unit of the table")),
        ("lash.exhaust", ("t", "a comparison")),
        ("lash.exhaust rises with engine", ("lash.exhaust", "name a state of the entry that is a quantity")),
        ("lash.exhaust < (bore", ("e", "`)` is expected")),
        ("bore in 5..2 mm", ("5..2 mm", "turn them round")),
        ("bore < stroke ± 5 %", ("5 %", "write the bound itself")),
        (
            "thermostat.opens + thermostat.full > 0 °C",
            ("thermostat.opens + thermostat.full", "one kind only"),
        ),
        ("oil.grade > 5", ("oil.grade", "let the entry take that form")),
        ("bore^4 > 0", ("^", "write `^2` or `^3`")),
    ]);
    for (holds, (underlined, help)) in cases {
        let mut base = alone("ox-887", text(&DEMO[engine_file("ox-887")]));
        let own = format!(
            "[[relation]]\nid = \"own\"\ntitle = \"something holds\"\nholds = \"{holds}\"\nsource = \"none\"\n"
        );
        base.insert("catalogue/relations-own.toml".to_owned(), bytes(&own));
        let examined = shared::examine(base);
        let found = examined.findings.iter().find(|finding| finding.rule.name == "relation-not-understood");
        let found = found.unwrap_or_else(|| panic!("{holds} is understood"));
        shared::hold_to_promises(found, &examined.sources);
        let shown = examined.sources.slice(found.span);
        assert!(
            shown.contains(underlined) && found.help.contains(help),
            "{holds}: {shown}: {}: {}",
            found.message,
            found.help
        );
    }
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig {
        failure_persistence: None,
        ..proptest::prelude::ProptestConfig::with_cases(40)
    })]

    /// Whatever is typed as a formula is a finding or a relation, and its finding lies within the text.
    #[test]
    fn no_formula_is_a_fault_of_the_machine(
        parts in proptest::collection::vec(
            proptest::sample::select(vec![
                "lash.exhaust", "bore", "valve.lift.middle[intake]", "[", "]", "(", ")", "5", "0.25 mm", "20 °C", "π", "+", "-", "*", "/", "^2", "²",
                "=", "<", ">=", "within", "in", "1..2", "..", "±", "5 %", "is whole", "rises with", "speed", "or", "sin", "µ", ",", "in proportion to",
                "oil.pressure", "stator.volts", "0", "99999999999999999999", "cylinders",
            ]),
            1..12,
        ),
    ) {
        let own = format!("[[relation]]\nid = \"own\"\ntitle = \"own\"\nholds = \"{}\"\nsource = \"none\"\n", parts.join(" "));
        let mut base = alone("ox-887", text(&DEMO[engine_file("ox-887")]));
        base.insert("catalogue/relations-own.toml".to_owned(), bytes(&own));
        let examined = shared::examine(base);
        for finding in examined.findings.iter().filter(|finding| examined.sources.path(finding.span.file).ends_with("own.toml")) {
            shared::hold_to_promises(finding, &examined.sources);
        }
    }
}
