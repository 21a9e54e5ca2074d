//! `compare`: a table of edits of the demo base, each with the kinds of change it must make, and no others.
//!
//! The edits of a table are made together: every change that is found must belong to one of them, so that
//! an edit that makes a change too many fails as much as one that makes none.

mod shared;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use baybook::bundle::Bundle;
use baybook::bundle::compare::{Change, ChangeKind, Comparison, Step, compare};
use baybook::emit::bundle::{Withheld, data};
use baybook::load::disk::Content;
use shared::{Base, examine, printed, read};

fn demo() -> Base {
    read(&shared::tests("../specs"))
}

fn bundle_of(base: Base) -> Bundle {
    let examined = examine(base);
    match &examined.checked {
        Some(checked) => data(checked.model(), Withheld::Kept),
        None => panic!("the edited base has errors:\n{}", printed(&examined.findings, &examined.sources)),
    }
}

static OLD: LazyLock<Bundle> = LazyLock::new(|| bundle_of(demo()));

fn text(base: &Base, path: &str) -> String {
    match &base[path] {
        Content::Bytes(bytes) => String::from_utf8(bytes.clone()).expect("UTF-8"),
        other => panic!("{path}: {other:?}"),
    }
}

/// Replaces one place of a file; of an engine, also of its second reading if it says the same there.
fn edit(base: &mut Base, file: &str, from: &str, to: &str) {
    let path = match file.split_once('-') {
        Some((maker, _)) if MAKERS.contains_key(maker) => format!("engines/{}/{file}.toml", MAKERS[maker]),
        _ => file.to_owned(),
    };
    let before = text(base, &path);
    assert_eq!(before.matches(from).count(), 1, "{path} has not one place with {from:?}");
    base.insert(path.clone(), Content::Bytes(before.replacen(from, to, 1).into_bytes()));
    let second = path.replacen("engines/", "rereads/", 1);
    if second != path {
        let before = text(base, &second);
        base.insert(second, Content::Bytes(before.replacen(from, to, 1).into_bytes()));
    }
}

static MAKERS: LazyLock<BTreeMap<&str, &str>> =
    LazyLock::new(|| [("fg", "fellgate"), ("ox", "oxbarrow"), ("qk", "quarrick"), ("sd", "sundrift")].into());

/// File (an engine by its id), what stands there, what is put there, what changes, and how.
type Edit = (&'static str, &'static str, &'static str, &'static str, &'static str);

/// What is known about a value and where it holds.
const VALUES: &[Edit] = &[
    (
        "fg-413",
        "[\"0.06..0.10 mm\", \"0.0024..0.0039 in\"]",
        "[\"0.07..0.09 mm\", \"0.0028..0.0035 in\"]",
        "lash.intake",
        "tightened",
    ),
    ("fg-413", "[\"0.28..0.42 mm\"]", "[\"0.26..0.44 mm\"]", "decompressor.gap", "loosened"),
    (
        "fg-413",
        "[\"880..1080 kPa\", \"128..157 psi\"]",
        "[\"890..1090 kPa\", \"129..158 psi\"]",
        "compression.cranking",
        "shifted",
    ),
    ("fg-413", "[\"max 18 %\"]", "[\"8..18 %\"]", "leakdown", "limit-added"),
    ("fg-413", "[\"max 1.0 mA\"]", "[\"under 1.0 mA\"]", "idle.drain", "tightened"),
    ("fg-413", "[\"1400 ± 100 rpm\"]", "[\"max 1500 rpm\"]", "idle.speed", "limit-removed"),
    (
        "fg-413",
        "[\"3..5 mm\", \"0.12..0.20 in\"]",
        "[\"4 ± 1 mm\", \"0.12..0.20 in\"]",
        "throttle.play",
        "digits-only",
    ),
    (
        "fg-413",
        "[\"0.65..0.75 mm\", \"0.026..0.030 in\"]",
        "[\"0.65..0.75 mm\", \"0.026..0.029 in\"]",
        "plug.gap",
        "tightened",
    ),
    (
        "fg-413",
        "new = [\"36.4 mm\"]\nwear_limit = [\"min 35.2 mm\"]",
        "new = [\"36.4 mm\"]",
        "valve.spring-length",
        "limit-removed",
    ),
    ("fg-413", "wear_limit = [\"max 0.06 mm\"]", "wear_limit = [\"max 0.07 mm\"]", "head.warp", "loosened"),
    ("fg-413", "[\"1.75 turns\"]", "[\"2 turns\"]", "pilot-screw", "setting"),
    ("fg-413", "[\"14 A·h\"]", "[\"14.0 A·h\"]", "battery.capacity", "digits-only"),
    ("fg-413", "[\"7600 rpm\"]", "[\"7650 rpm\"]", "limiter", "setting"),
    (
        "fg-413",
        "[[\"15 N·m\", \"11 lbf·ft\"], [\"33 N·m\", \"24 lbf·ft\"]]",
        "[[\"15 N·m\", \"11 lbf·ft\"], [\"34 N·m\", \"25 lbf·ft\"]]",
        "torque.head-bolt",
        "stages",
    ),
    (
        "sd-327",
        "pattern = [[0, -44], [0, 44], [-38, 22], [38, -22], [-38, -22], [38, 22]]",
        "pattern = [[0, 44], [0, -44], [-38, 22], [38, -22], [-38, -22], [38, 22]]",
        "torque.head-bolt",
        "stages",
    ),
    ("fg-413", "threads = \"locked\"", "threads = \"oiled\"", "torque.cam-sprocket", "condition"),
    (
        "fg-413",
        "seen_from = \"recoil starter side\"",
        "seen_from = \"clutch side\"",
        "rotation.crank",
        "direction",
    ),
    (
        "sd-773",
        "[\"60 °C\", \"784 Ω ± 9 %\"], [\"90 °C\", \"339 Ω ± 9 %\"]",
        "[\"60 °C\", \"790 Ω ± 9 %\"], [\"90 °C\", \"339 Ω ± 9 %\"]",
        "sensor.coolant",
        "points",
    ),
    (
        "fg-413",
        "interval = [\"30 h\", \"480 km\"]",
        "interval = [\"25 h\", \"480 km\"]",
        "airfilter.interval",
        "setting",
    ),
    (
        "fg-413",
        "[\"0..900 m\", \"-30..0 °C\", \"138\"]",
        "[\"0..900 m\", \"-30..0 °C\", \"140\"]",
        "jet.main",
        "setting",
    ),
    ("fg-413", "wire = \"orange\"", "wire = \"green\"", "connector.igniter", "setting"),
    (
        "fg-413",
        "text = \"Third groove from the top\"",
        "text = \"Second groove from the top\"",
        "needle.clip",
        "text",
    ),
    (
        "fg-413",
        "note = \"Needle bearing: the service book judges it by the side play and by feel.\"",
        "note = \"Needle bearing: judged by the side play and by feel.\"",
        "rod.big-end-clearance",
        "text",
    ),
    (
        "fg-413",
        "when = { speed = \"4000 rpm\" }",
        "when = { speed = \"4500 rpm\" }",
        "charge.volts",
        "condition",
    ),
    (
        "fg-413",
        "when = { starter = \"cranking\" }\nwindow = [\"min 155 V peak\"]",
        "window = [\"min 160 V peak\"]",
        "spark.peak-volts",
        "condition tightened",
    ),
    (
        "fg-413",
        "absent = \"not-given\"\npage = \"2.4\"",
        "absent = \"not-applicable\"\npage = \"2.4\"",
        "oil.pressure",
        "absence",
    ),
    (
        "fg-413",
        "[\"0.50..0.80 mm\"]\npage = \"6.2\"",
        "[\"0.50..0.80 mm\"]\npage = \"6.3\"",
        "pickup.gap",
        "source-only",
    ),
    (
        "fg-413",
        "row = \"Plug\"\ncolumn = \"Torque\"",
        "row = \"Spark plug\"\ncolumn = \"Torque\"",
        "torque.spark-plug",
        "source-only",
    ),
];

/// What is printed in other units, said to be absent, gone or new; other parts of the base.
const REST: &[Edit] = &[
    ("fg-413", "[\"5.6..7.4 kΩ\"]", "[\"5600..7400 Ω\"]", "coil.secondary", "units-only"),
    ("fg-413", "[\"14.5 L\", \"3.83 US gal\"]", "[\"14.5 L\"]", "fuel.tank", "units-only"),
    ("fg-413", "[\"8.18 mm\"]", "[\"0.322 in\"]", "valve.lift", "setting"),
    ("fg-413", "[\"1.8 L\", \"1.90 US qt\"]", "[\"1.8 L\", \"1.9 US qt\"]", "oil.with-filter", "digits-only"),
    ("fg-413", "setting = [\"175 A CCA\"]", "absent = \"not-given\"", "battery.cca", "withdrawn absence"),
    (
        "fg-413",
        "absent = \"not-given\"\npage = \"4.6\"",
        "new = [\"0.008..0.018 mm\"]\npage = \"4.6\"",
        "rod.big-end-clearance",
        "added",
    ),
    (
        "hazards.toml",
        "id = \"capacitor\"\nsignal = \"WARNING\"",
        "id = \"capacitor\"\nsignal = \"DANGER\"",
        "capacitor",
        "hazard-raised",
    ),
    (
        "hazards.toml",
        "id = \"electric-shock\"\nsignal = \"WARNING\"",
        "id = \"electric-shock\"\nsignal = \"CAUTION\"",
        "electric-shock",
        "hazard-lowered",
    ),
    (
        "hazards.toml",
        "It has no smell and kills within minutes in a closed room",
        "It has no smell and kills within minutes",
        "carbon-monoxide",
        "text",
    ),
    (
        "complaints/pump-will-not-start.toml",
        "[\"ignition-voltage\", \"spark-beside-fuel\",",
        "[\"ignition-voltage\",",
        "pump-will-not-start",
        "hazard-lowered",
    ),
    (
        "complaints/starts-badly-cold.toml",
        "\"battery-gas\"]",
        "\"battery-gas\", \"hot-parts\"]",
        "starts-badly-cold",
        "hazard-raised",
    ),
    ("gauges.toml", "span = \"0.00..10.00 mm\"", "span = \"0.00..12.00 mm\"", "dial-gauge", "condition"),
    (
        "gauges.toml",
        "title = \"Outside micrometer set\"",
        "title = \"Outside micrometers\"",
        "micrometer-large",
        "text",
    ),
    ("machines/fellgate.toml", "years = \"2018..2023\"", "years = \"2018..2024\"", "corriehare-597", "added"),
    ("machines/fellgate.toml", "from = 1, to = 2999", "from = 1, to = 2899", "scarpmule-413", "condition"),
    (
        "machines/fellgate.toml",
        "Plate on the right side of the tunnel",
        "Plate on the left side of the tunnel",
        "corriehare-597",
        "text",
    ),
    ("procedures/valve-lash.md", "minutes = 40", "minutes = 45", "valve-lash", "text"),
    ("procedures/key-off-drain.md", "state = \"any\"", "state = \"cold\"", "key-off-drain", "condition"),
    (
        "catalogue/electrical.toml",
        "needs_state = { battery = \"charged\" }",
        "needs_state = { battery = \"full\" }",
        "starter.draw",
        "condition",
    ),
    (
        "catalogue/relations-fuel-and-fluids.toml",
        "title = \"a filter holds 0.02 to 1.0 L\"",
        "title = \"a filter takes 0.02 to 1.0 L\"",
        "oil-in-filter",
        "text",
    ),
    ("catalogue/fluids.toml", "stop = \"below\"", "stop = \"either\"", "oil.pressure", "hazard-raised"),
    ("catalogue/fuel.toml", "stop = \"below\"\n", "", "fuel.hold", "hazard-lowered"),
    ("codes/oxbarrow-blink.toml", "Crank sensor: signal lost", "Crank sensor: no signal", "13", "text"),
    ("fg-413", "displacement = \"413 cm³\"", "displacement = \"413.1 cm³\"", "", "setting"),
    ("fg-413", "title = \"Fellgate 413\"", "title = \"Fellgate 413 carburettor\"", "", "text"),
];

/// Makes the edits together, and holds what changed to what the table says; what is left over comes back.
fn hold(edits: &[Edit], follows: &[(&str, &str)]) -> Comparison {
    let mut base = demo();
    let mut expected: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (file, from, to, of, kinds) in edits {
        edit(&mut base, file, from, to);
        expected.entry((*of).to_owned()).or_default().extend(kinds.split(' ').map(ToOwned::to_owned));
    }
    for (of, kind) in follows {
        expected.entry((*of).to_owned()).or_default().insert((*kind).to_owned());
    }
    let comparison = compare(&OLD, &bundle_of(base));
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for change in &comparison.changes {
        let of = change.of.clone().unwrap_or_default();
        found.entry(of).or_default().insert(change.kind.word().to_owned());
    }
    for (of, kinds) in &found {
        let wanted = expected.get(of).cloned().unwrap_or_default();
        let of_it = comparison.changes.iter().filter(|one| one.of.as_deref().unwrap_or_default() == of);
        assert_eq!(*kinds, wanted, "{of}: {:#?}", of_it.collect::<Vec<_>>());
    }
    assert_eq!(found.keys().collect::<Vec<_>>(), expected.keys().collect::<Vec<_>>());
    comparison
}

#[test]
fn edits_of_values_make_their_kinds_of_change() {
    let comparison = hold(VALUES, &[]);
    assert_eq!(comparison.step, Step::Major);
    assert!(comparison.changes_limits());
    let of = |entry: &str| -> Vec<&Change> {
        comparison.changes.iter().filter(|one| one.of.as_deref() == Some(entry)).collect()
    };
    let [lash] = of("lash.intake")[..] else { panic!("one change in every build: {:?}", of("lash.intake")) };
    assert_eq!((lash.engine.as_deref(), lash.build.as_deref()), (Some("fg-413"), None));
    assert_eq!(lash.before.as_deref(), Some("0.06..0.10 mm; 0.0024..0.0039 in"));
    assert_eq!(lash.after.as_deref(), Some("0.07..0.09 mm; 0.0028..0.0035 in"));
    assert_eq!(lash.when["engine"], "cold");
    let [head] = of("sensor.coolant")[..] else { panic!("one build has it") };
    assert_eq!(head.build.as_deref(), Some("sd-773"), "an engine of one build names it");
    let kinds: Vec<_> = comparison.changes.iter().map(|one| one.kind).collect();
    assert!(kinds.is_sorted(), "the worst first");
}

#[test]
fn edits_of_everything_else_make_their_kinds_of_change() {
    // A build that no longer states what a procedure measures no longer has the procedure.
    hold(REST, &[("battery-and-charging", "withdrawn")]);
}

#[test]
fn every_pinned_kind_is_made_by_some_edit() {
    let tables = VALUES.iter().chain(REST);
    let mut made: BTreeSet<_> = tables.clone().flat_map(|(.., kinds)| kinds.split(' ')).collect();
    // These have a test of their own below.
    made.extend(["confirmed", "unconfirmed", "id-moved"]);
    let all: BTreeSet<_> = ChangeKind::ALL.iter().map(|kind| kind.word()).collect();
    assert_eq!(made, all);
    assert!(tables.count() >= 40);
}

#[test]
fn the_steps_are_as_pinned() {
    let of = |step| -> Vec<&str> {
        let mut words: Vec<_> =
            ChangeKind::ALL.iter().filter(|kind| kind.step() == step).map(|kind| kind.word()).collect();
        words.sort_unstable();
        words
    };
    let major = "condition direction hazard-lowered limit-added limit-removed loosened points setting shifted stages tightened withdrawn";
    assert_eq!(of(Step::Major).join(" "), major);
    assert_eq!(of(Step::Minor).join(" "), "absence added confirmed hazard-raised id-moved unconfirmed");
    assert_eq!(of(Step::Patch).join(" "), "digits-only source-only text units-only");
    let mut refused: Vec<_> =
        ChangeKind::ALL.iter().filter(|kind| kind.is_of_limits()).map(|kind| kind.word()).collect();
    refused.sort_unstable();
    let but = ["withdrawn", "hazard-lowered"];
    let wanted: Vec<_> = major.split(' ').filter(|word| !but.contains(word)).collect();
    assert_eq!(refused, wanted, "every major kind but {but:?}");
}

#[test]
fn the_same_base_and_a_comment_make_no_change() {
    let mut base = demo();
    edit(&mut base, "fg-413", "# Top end", "# Everything above the crankcase");
    edit(&mut base, "base.toml", "release = \"2026.11\"", "release = \"2026.12\"");
    let comparison = compare(&OLD, &bundle_of(base));
    assert_eq!(comparison.changes, []);
    assert_eq!(comparison.step, Step::Patch);
    assert_eq!(compare(&OLD, &OLD).changes, []);
}

/// The kinds of change between the demo base and the same with an edit.
fn kinds_after(change: impl FnOnce(&mut Base)) -> Vec<String> {
    let mut base = demo();
    change(&mut base);
    let comparison = compare(&OLD, &bundle_of(base));
    comparison
        .changes
        .iter()
        .map(|one| format!("{} {}", one.kind.word(), one.of.as_deref().unwrap_or("-")))
        .collect()
}

#[test]
fn a_second_reading_that_goes_or_comes_changes_the_confirmation() {
    let mut without = demo();
    let path = "rereads/fellgate/fg-413.toml";
    let reading = text(&without, path).replacen("of = \"lash.intake\"", "of = \"lash.exhaust\"", 0);
    let start = reading.find("[[reread]]\nof = \"plug.gap\"").expect("it was read twice");
    let end = reading[start + 1..].find("[[reread]]").map_or(reading.len(), |at| start + 1 + at);
    let shorter = format!("{}{}", &reading[..start], &reading[end..]);
    without.insert(path.to_owned(), Content::Bytes(shorter.into_bytes()));
    let less = bundle_of(without);
    let one = |comparison: Comparison| -> (String, Step) {
        assert_eq!(comparison.changes.len(), 1, "{:#?}", comparison.changes);
        (comparison.changes[0].kind.word().to_owned(), comparison.step)
    };
    assert_eq!(one(compare(&OLD, &less)), ("unconfirmed".to_owned(), Step::Minor));
    assert_eq!(one(compare(&less, &OLD)), ("confirmed".to_owned(), Step::Minor));
}

/// Writes an id anew wherever it stands whole, in files and in their paths.
fn rename(base: &mut Base, from: &str, to: &str) {
    let part = |c: char| c.is_ascii_alphanumeric() || "-.~_".contains(c);
    let whole = |text: &str| -> String {
        let mut made = String::new();
        let mut rest = text;
        while let Some(at) = rest.find(from) {
            let (before, after) = (&rest[..at], &rest[at + from.len()..]);
            // The ending of a file is no part of an id.
            let stem = after.trim_start_matches(".toml").trim_start_matches(".md");
            let alone = !before.ends_with(part) && !stem.starts_with(|c| part(c) && c != '~');
            made += before;
            made += if alone { to } else { from };
            rest = after;
        }
        made + rest
    };
    *base = std::mem::take(base)
        .into_iter()
        .map(|(path, content)| match content {
            Content::Bytes(bytes) if path.ends_with(".toml") || path.ends_with(".md") => {
                let text = whole(&String::from_utf8(bytes).expect("UTF-8"));
                (whole(&path), Content::Bytes(text.into_bytes()))
            }
            other => (path, other),
        })
        .collect();
}

/// Adds what became of an id.
fn retire(base: &mut Base, id: &str, to: &str) {
    let ids = text(base, "ids.toml");
    let entry = format!(
        "\n[[retired]]\nid = \"{id}\"\nfate = \"moved\"\nto = [\"{to}\"]\nbecause = \"Other word\"\nrelease = \"2026.11\"\n"
    );
    base.insert("ids.toml".to_owned(), Content::Bytes(format!("{ids}{entry}").into_bytes()));
}

#[test]
fn an_id_of_any_sort_that_moved_is_followed_and_is_the_only_change() {
    // What is renamed, and whether an engine is told beside it.
    for (sort, from, to) in [
        ("entry", "plug.cap", "plug.boot"),
        ("entry", "idle.drain", "standing.drain"),
        ("entry that relations name", "oil.with-filter", "oil.and-filter"),
        ("hazard", "electric-shock", "mains-shock"),
        ("gauge", "dial-gauge", "dial-indicator"),
        ("source", "fg-413-manual", "fg-413-book"),
        ("procedure", "valve-lash", "lash-check"),
        ("complaint", "loses-charge", "goes-flat"),
        ("set of codes", "oxbarrow-blink", "oxbarrow-lamp"),
        ("machine", "corriehare-597", "corriehare-600"),
        ("maker", "fellgate", "fellgate-works"),
    ] {
        let kinds = kinds_after(|base| {
            rename(base, from, to);
            retire(base, from, to);
        });
        assert_eq!(kinds, [format!("id-moved {from}")], "{sort}");
    }
}

#[test]
fn an_engine_that_moved_takes_its_builds_along() {
    let builds: Vec<String> = OLD
        .engines
        .iter()
        .filter(|engine| engine.id == "fg-413")
        .flat_map(|engine| engine.builds.iter().map(|build| build.id.clone()))
        .collect();
    assert!(builds.len() > 1, "an engine of several builds");
    let kinds = kinds_after(|base| {
        rename(base, "fg-413", "fg-413r");
        retire(base, "fg-413", "fg-413r");
    });
    assert_eq!(kinds, ["id-moved fg-413"]);
    // And with an entry for each of its builds, as `id-vanished` asks for.
    let mut told: Vec<_> = kinds_after(|base| {
        rename(base, "fg-413", "fg-413r");
        retire(base, "fg-413", "fg-413r");
        for build in builds.iter().filter(|one| *one != "fg-413") {
            retire(base, build, &build.replacen("fg-413", "fg-413r", 1));
        }
    });
    let mut wanted: Vec<_> = builds.iter().map(|one| format!("id-moved {one}")).collect();
    wanted.extend((!builds.contains(&"fg-413".to_owned())).then(|| "id-moved fg-413".to_owned()));
    told.sort();
    wanted.sort();
    assert_eq!(told, wanted);
}

#[test]
fn an_id_that_moved_twice_is_followed_to_the_end() {
    let kinds = kinds_after(|base| {
        rename(base, "plug.cap", "plug.boot");
        retire(base, "plug.cap", "plug.cover");
        retire(base, "plug.cover", "plug.boot");
    });
    assert_eq!(kinds, ["id-moved plug.cap", "id-moved plug.cover"]);
}
