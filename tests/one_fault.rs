//! Bases with one fault that every file by itself hides: each is found, by the rule that is for it, and its mended twin
//! is not.

mod shared;

use baybook::Examined;
use baybook::load::disk::Content;
use baybook::model::Confirmation;
use shared::{Base, replaced, with};

const ENGINE: &str = "engines/quarrick/engine-a.toml";
const REREADS: &str = "rereads/quarrick/engine-a.toml";

/// The names of the rules that find something, notes left out; every finding keeps what is promised of it.
fn rules(examined: &Examined) -> Vec<&'static str> {
    examined.findings.iter().for_each(|one| shared::hold_to_promises(one, &examined.sources));
    let grave = examined.findings.iter().filter(|one| one.severity() != baybook::diag::Severity::Note);
    grave.map(|one| one.rule.name).collect()
}

fn found(base: Base) -> Vec<&'static str> {
    rules(&shared::examine(base))
}

/// A head bolt, which is critical, read twice: what the two readers say, what is found, whether it is confirmed.
fn head_bolt(first: &str, by: &str, second: &str) -> (Vec<&'static str>, bool) {
    let spec = format!("[[spec]]\nof = \"torque.head-bolt\"\nstages = [\"20 N·m\", \"40 N·m\"]\n{first}");
    let again = format!(
        "engine = \"engine-a\"\nread_by = \"{by}\"\nsource = \"manual-a\"\n\n[[reread]]\nof = \"torque.head-bolt\"\n\
         stages = [\"20 N·m\", \"40 N·m\"]\n{second}"
    );
    let examined = shared::examine(with(with(shared::rule_base(), ENGINE, &spec), REREADS, &again));
    let confirmed = examined.checked.as_ref().is_some_and(|checked| {
        let engine = checked.model().engines.values().next().expect("it has one");
        let bolt = engine.statements.iter().find(|one| one.identity.of.as_str() == "torque.head-bolt");
        matches!(bolt.expect("stated").confirmation, Confirmation::Confirmed { .. })
    });
    (rules(&examined), confirmed)
}

#[test]
fn a_critical_value_is_confirmed_by_two_people_from_one_page_with_its_fastener() {
    let bolt = "page = \"27\"\nfastener = { thread = \"M8x1.25\", class = \"9.8\", threads = \"oiled\" }\n\
                pattern = [[-41, 38.5], [41, -38.5], [-41, -38.5], [41, 38.5]]\n";
    assert_eq!(head_bolt(bolt, "jl", bolt), (vec![], true));
    assert_eq!(head_bolt("page = \"27\"", "jl", "page = \"27\""), (vec![], true));
    // One person under other letters.
    for same in ["MK", "mk ", " M. K."] {
        assert_eq!(head_bolt(bolt, same, bolt), (vec!["reread-by-same-reader"], false), "{same}");
    }
    // Nobody says where.
    let nowhere = bolt.replace("page = \"27\"\n", "");
    assert_eq!(head_bolt(&nowhere, "jl", &nowhere), (vec!["page-missing", "reread-incomplete"], false));
    // The number stays, and what it is for does not.
    for (from, to) in [
        ("M8x1.25", "M8x1.0"),
        ("9.8", "10.9"),
        ("oiled", "dry"),
        ("[[-41, 38.5], [41, -38.5]", "[[41, -38.5], [-41, 38.5]"),
    ] {
        assert_eq!(head_bolt(&bolt.replace(from, to), "jl", bolt), (vec!["reread-differs"], false), "{to}");
    }
    assert_eq!(head_bolt(bolt, "jl", "page = \"27\""), (vec!["reread-incomplete"], false));
}

#[test]
fn who_is_unknown_is_no_second_person() {
    let base = replaced(shared::rule_base(), ENGINE, "read_by = \"mk\"\n", "");
    let again = "engine = \"engine-a\"\nread_by = \"mk\"\nsource = \"manual-a\"\n\n[[reread]]\nof = \"rotation.crank\"\n\
                 direction = \"clockwise\"\nseen_from = \"flywheel side\"\npage = \"11\"";
    assert_eq!(found(with(base.clone(), REREADS, again)), ["reread-incomplete"]);
    let named = replaced(base, ENGINE, "page = \"11\"", "page = \"11\"\nread_by = \"jl\"");
    assert_eq!(found(with(named, REREADS, again)), [""; 0]);
}

#[test]
fn a_second_reading_without_a_value_is_found() {
    let again =
        "engine = \"engine-a\"\nread_by = \"jl\"\n\n[[reread]]\nof = \"rotation.crank\"\npage = \"11\"";
    assert_eq!(found(with(shared::rule_base(), REREADS, again)), ["one-form-only"]);
}

/// A variant that sets the lash of the small machine's engine.
fn variant(id: &str, replaces: &str) -> String {
    format!(
        "[[variant]]\nid = \"{id}\"\napplies = [{{ machine = \"machine-a\" }}]\nreplaces = [{replaces}]\n\
         [[variant.spec]]\nof = \"lash.exhaust\"\nwindow = [\"0.20..0.30 mm\"]\npage = \"1\"\n"
    )
}

#[test]
fn variants_that_replace_each_other_are_found_once_a_circle() {
    let of = |all: &[(&str, &str)]| {
        let text: String = all.iter().map(|(id, replaces)| variant(id, replaces)).collect();
        found(with(shared::rule_base(), ENGINE, &text))
    };
    assert_eq!(of(&[("v1", "")]), [""; 0]);
    assert_eq!(of(&[("v1", ""), ("v2", "\"v1\"")]), [""; 0]);
    assert_eq!(of(&[("v1", "\"v1\"")]), ["variant-replaces-itself"]);
    assert_eq!(of(&[("v1", "\"v2\""), ("v2", "\"v1\"")]), ["variant-replaces-itself"]);
    let three = [("v1", "\"v2\""), ("v2", "\"v3\""), ("v3", "\"v1\"")];
    assert_eq!(of(&three), ["variant-replaces-itself"]);
}

/// What a recall of the lash finds; the base states 0.15..0.25 mm, cold.
fn recall(from: &str, to: &str) -> Vec<&'static str> {
    let text = "[[recall]]\nengine = \"engine-a\"\nof = \"lash.exhaust\"\nwhen = { engine = \"cold\" }\n\
                value = \"0.51..0.52 mm\"\nreleases = [\"2026.04\"]\nbecause = \"Two rows were mixed up\"";
    assert!(text.contains(from), "{from}");
    found(with(shared::rule_base(), "ids.toml", &text.replace(from, to)))
}

#[test]
fn a_recall_that_can_warn_nobody_is_found() {
    assert_eq!(recall("", ""), [""; 0]);
    let wrong = [
        ("0.51..0.52 mm", "rubbish"),
        ("0.51..0.52 mm", "14 V"),
        ("lash.exhaust", "lash.exh"),
        ("\"engine-a\"", "\"engine-q\""),
        ("when =", "where = { cylinder = \"middle\" }\nwhen ="),
        ("when =", "where = { bank = \"left\" }\nwhen ="),
        ("\"cold\"", "\"lukewarm\""),
        ("engine = \"cold\"", "air = \"3 V\""),
        ("engine = \"cold\"", "oil = \"hot\""),
    ];
    for (from, to) in wrong {
        assert_eq!(recall(from, to), ["recall-of-nothing"], "{to}");
    }
    // What is retired was stated once.
    let gone =
        "\n[[retired]]\nid = \"engine-q\"\nfate = \"withdrawn\"\nbecause = \"Sold\"\nrelease = \"2026.11\"";
    assert_eq!(
        recall("because = \"Two rows were mixed up\"", &format!("because = \"Mixed up\"{gone}")),
        [""; 0]
    );
}

#[test]
fn a_recalled_value_is_found_however_it_is_written() {
    let written = ["0.15..0.25 mm", "0.15 to 0.25 mm", "0.20 ± 0.05 mm", "0.150..0.250 mm", "150..250 µm"];
    for value in written {
        assert_eq!(recall("0.51..0.52 mm", value), ["recalled-value-stated"], "{value}");
    }
    for value in ["0.15..0.26 mm", "min 0.15 mm", "0.15..0.25 in"] {
        assert_eq!(recall("0.51..0.52 mm", value), [""; 0], "{value}");
    }
    let moved = "[[retired]]\nid = \"engine-z\"\nfate = \"moved\"\nto = [\"engine-a\"]\nbecause = \"Renamed\"\n\
                 release = \"2026.11\"\n\n[[recall]]\nengine = \"engine-z\"";
    let still = recall("[[recall]]\nengine = \"engine-a\"", moved);
    assert_eq!(still, [""; 0]);
    let base = with(
        shared::rule_base(),
        "ids.toml",
        &format!(
            "{moved}\nof = \"lash.exhaust\"\nwhen = {{ engine = \"cold\" }}\nvalue = \"0.20 ± 0.05 mm\"\n\
         releases = [\"2026.04\"]\nbecause = \"Two rows were mixed up\""
        ),
    );
    assert_eq!(found(base), ["recalled-value-stated"]);
}

const GAUGES: &str = "gauges.toml";

#[test]
fn a_gauge_that_nobody_has_is_found() {
    let wrong = [
        ("span = \"0.05..1.00 mm\"", "span = \"0.05..1.00 N·m\""),
        ("span = \"0.05..1.00 mm\"", "span = \"1.00 mm\""),
        ("error = \"0.005 mm\"", "error = \"-0.005 mm\""),
        ("error = \"0.005 mm\"", "error = \"0.005 N·m\""),
        ("error = \"0.005 mm\"", "error = \"0.1..0.2 mm\""),
        ("resolution = \"0.01 mm\"", "resolution = \"0 mm\""),
        ("resolution = \"0.01 mm\"", "resolution = \"-1 mm\""),
        ("resolution = \"0.01 mm\"", "resolution = \"0.01 psi\""),
    ];
    for (from, to) in wrong {
        let base = replaced(shared::rule_base(), GAUGES, from, to);
        assert_eq!(found(base), ["gauge-impossible"], "{to}");
    }
    let torque = replaced(shared::rule_base(), GAUGES, "kind = \"length\"", "kind = \"torque\"");
    assert_eq!(found(torque), ["gauge-impossible"; 3], "span, resolution and error");
    let other = "[[entry]]\nid = \"torque.cam-cap\"\ntitle = \"Cam cap bolt\"\nkind = \"torque\"\nforms = [\"setting\"]\n\
                 gauge = \"feeler\"";
    assert_eq!(found(with(shared::rule_base(), "catalogue/top-end.toml", other)), ["gauge-impossible"]);
    let right = "[[gauge]]\nid = \"probe\"\ntitle = \"Thermometer\"\nkind = \"temperature\"\nspan = \"-20..200 °C\"\n\
                 resolution = \"0.1 °C\"\nerror = \"1.5 %\"";
    assert_eq!(found(with(shared::rule_base(), GAUGES, right)), [""; 0]);
}

#[test]
fn units_that_no_statement_holds_are_of_their_kind_too() {
    let plausible =
        replaced(shared::rule_base(), "catalogue/top-end.toml", "0.03..0.45 mm", "0.03..0.45 N·m");
    assert_eq!(found(plausible), ["unit-of-another-kind"]);
    let shown = |unit: &str| {
        found(with(shared::rule_base(), "base.toml", &format!("units = {{ length = \"{unit}\" }}")))
    };
    assert_eq!(shown("N·m"), ["unit-of-another-kind"]);
    assert_eq!(shown("in"), [""; 0]);
}

fn stated(text: &str) -> Vec<&'static str> {
    found(with(shared::rule_base(), ENGINE, &format!("[[spec]]\n{text}\npage = \"8\"")))
}

#[test]
fn intervals_are_counted_and_more_than_nothing() {
    let of = |parts: &str| stated(&format!("of = \"oil.interval\"\ninterval = [{parts}]"));
    for right in
        ["\"50 h\", \"6 months\"", "\"50 h\", \"1000 km\", \"600 mi\"", "\"2 years\"", "\"300 cycles\""]
    {
        assert_eq!(of(right), [""; 0], "{right}");
    }
    assert_eq!(of("\"6 m\", \"50 mm\""), ["interval-impossible"; 2]);
    for wrong in
        ["\"0 h\"", "\"-5 h\"", "\"50 h\", \"60 h\"", "\"1 year\", \"6 months\"", "\"50 h\", \"5 N·m\""]
    {
        assert_eq!(of(wrong), ["interval-impossible"], "{wrong}");
    }
}

#[test]
fn a_cavity_expects_what_a_meter_shows() {
    let of = |expected: &str| {
        stated(&format!(
            "of = \"connector.coolant-sensor\"\npins = [{{ cavity = \"1\", function = \"signal\", expect = {{ \"key on\" = \"{expected}\" }} }}]"
        ))
    };
    for right in
        ["min 4.5 V", "nothing", "continuity", "46..56 Ω", "min 1.0 V peak", "5 pulses", "230 ± 10 V~"]
    {
        assert_eq!(of(right), [""; 0], "{right}");
    }
    for wrong in ["5 T", "min 4.5 Vv", "min 4.5 N·m"] {
        assert_eq!(of(wrong), ["pin-expects-no-reading"], "{wrong}");
    }
}

#[test]
fn tables_answer_each_question_once() {
    let parts = |by: &str, rows: &str| {
        stated(&format!("of = \"bearing.main-shell\"\nselection = {{ by = [{by}], rows = [{rows}] }}"))
    };
    let two = "\"case\", \"crank\"";
    assert_eq!(parts(two, "[\"A\", \"1\", \"x\"], [\"A\", \"2\", \"y\"]"), [""; 0]);
    assert_eq!(parts("\"bore\"", "[\"12.5..12.7 mm\", \"x\"], [\"12.7..12.9 mm\", \"y\"]"), [""; 0]);
    let wrong = [
        (two, "[\"A\", \"1\"], [\"A\", \"2\"]"),
        ("\"a\"", "[\"A\", \"1\", \"x\"]"),
        ("\"a\"", "[\"A\", \"x\"], [\"A\", \"y\"]"),
        ("\"bore\"", "[\"12.5..12.7 mm\", \"x\"], [\"12.6..12.9 mm\", \"y\"]"),
    ];
    for (by, rows) in wrong {
        assert_eq!(parts(by, rows), ["table-contradicts-itself"], "{rows}");
    }
    let points = |points: &str| stated(&format!("of = \"sensor.coolant\"\npoints = [{points}]"));
    assert_eq!(points("[\"20 °C\", \"2.45 kΩ\"], [\"80 °C\", \"318 Ω\"]"), [""; 0]);
    let wrong = [
        "[\"20 °C\", \"2.45 kΩ\"], [\"20 °C\", \"2.1 kΩ\"]",
        "[\"20 °C\", \"0 Ω\"], [\"80 °C\", \"318 Ω\"]",
        "[\"20 °C\", \"-5 Ω\"], [\"80 °C\", \"318 Ω\"]",
        "[\"20..30 °C\", \"2.45 kΩ\"], [\"80 °C\", \"318 Ω\"]",
    ];
    for one in wrong {
        assert_eq!(points(one), ["table-contradicts-itself"], "{one}");
    }
    let pins = "of = \"connector.coolant-sensor\"\npins = [{ cavity = \"1\", function = \"ground\" }, { cavity = \"1\", function = \"signal\" }]";
    assert_eq!(stated(pins), ["table-contradicts-itself"]);
}

#[test]
fn an_entry_has_two_sides_and_needs_a_state_that_it_has() {
    let of = |more: &str| {
        let entry = "[[entry]]\nid = \"lash.intake\"\ntitle = \"Intake valve lash\"\nkind = \"length\"\nforms = [\"window\"]";
        found(with(shared::rule_base(), "catalogue/top-end.toml", &format!("{entry}\n{more}")))
    };
    for right in ["below = \"tight\"\nabove = \"loose\"", "", "needs_state = { battery = \"charged\" }"] {
        assert_eq!(of(right), [""; 0], "{right}");
    }
    let states = "states = { engine = [\"cold\", \"hot\"] }";
    assert_eq!(of(&format!("{states}\nneeds_state = {{ engine = \"cold\" }}")), [""; 0]);
    for wrong in [
        "below = \"loose\"\nabove = \"loose\"",
        "below = \"high\"",
        &format!("{states}\nneeds_state = {{ engine = \"warm\" }}"),
    ] {
        assert_eq!(of(wrong), ["entry-contradicts-itself"], "{wrong}");
    }
}

#[test]
fn a_maker_that_no_file_defines_is_unknown_and_nothing_else() {
    let base = replaced(shared::rule_base(), ENGINE, "maker = \"quarrick\"", "maker = \"quarick\"");
    assert_eq!(found(base), ["unknown-reference"]);
}

#[test]
fn ids_are_no_longer_than_the_name_of_a_file() {
    let procedure = |id: &str| {
        let text = format!(
            "+++\nid = \"{id}\"\ntitle = \"Undo the mounts\"\nfits = {{ engines = [\"engine-a\"] }}\n+++\n\n1. Undo them."
        );
        let mut base = shared::rule_base();
        base.insert("procedures/mounts.md".to_owned(), Content::Bytes(text.into_bytes()));
        found(base)
    };
    assert_eq!(procedure(&"a".repeat(60)), [""; 0]);
    assert_eq!(procedure(&"a".repeat(61)), ["id-too-long"]);
    assert_eq!(procedure(&"a".repeat(300)), ["id-too-long"]);
}

#[test]
fn what_is_about_no_value_is_waived_in_the_file_of_the_base() {
    for rule in ["number-in-prose", "engine-not-fitted", "file-name-differs", "name-means-two-things"] {
        let waiver = format!(
            "[[waive]]\nrule = \"{rule}\"\non = {{ of = \"lash.exhaust\", when = {{ engine = \"cold\" }}, value = \"0.15..0.25 mm\" }}\n\
             because = \"So be it\"\nuntil = 2027-06-30"
        );
        let examined = shared::examine(with(shared::rule_base(), ENGINE, &waiver));
        assert_eq!(rules(&examined), ["waiver-not-allowed"]);
        let said = &examined.findings.first().expect("one").message;
        assert!(said.contains("about no value of an engine, and is waived in `base.toml`"), "{said}");
    }
}

/// As many second readings as `count`, each of a statement of its own, by `by`.
fn read_again(count: usize, by: &str, defaults: &str) -> Base {
    let places = ["front", "rear", "1", "2", "3"].iter().take(count);
    let one = |place: &&str| {
        format!(
            "of = \"lash.intake\"\nwhere = {{ cylinder = \"{place}\" }}\nwindow = [\"0.10..0.14 mm\"]\npage = \"12\"\n"
        )
    };
    let all: Vec<_> = places.map(one).collect();
    let listed = |heading: &str| all.iter().map(|one| format!("[[{heading}]]\n{one}\n")).collect::<String>();
    let head = format!("engine = \"engine-a\"\nread_by = \"{by}\"\nsource = \"manual-a\"\n\n");
    let entry = "[[entry]]\nid = \"lash.intake\"\ntitle = \"Intake valve lash\"\nkind = \"length\"\nforms = [\"window\"]\naxes = { cylinder = [\"front\", \"rear\", \"1\", \"2\", \"3\"] }";
    let base = replaced(shared::rule_base(), ENGINE, "read_by = \"mk\"", defaults);
    let base = with(base, "catalogue/top-end.toml", entry);
    with(with(base, ENGINE, &listed("spec")), REREADS, &(head + &listed("reread")))
}

#[test]
fn one_reader_of_a_whole_file_is_one_mistake() {
    assert_eq!(found(read_again(5, "jl", "read_by = \"mk\"")), [""; 0]);
    assert_eq!(found(read_again(5, "mk", "read_by = \"mk\"")), ["reread-by-same-reader"]);
    assert_eq!(found(read_again(2, "mk", "read_by = \"mk\"")), ["reread-by-same-reader"; 2]);
    assert_eq!(found(read_again(5, "jl", "")), ["reread-incomplete"]);
    let said = shared::examine(read_again(5, "mk", "read_by = \"mk\"")).findings;
    assert_eq!(said.first().expect("one").message, "`mk` read 5 values of `engine-a` both times");
}

#[test]
fn what_the_first_reading_misnames_is_said_there_and_nowhere_else() {
    let base = |from: &str, to: &str| replaced(read_again(5, "jl", "read_by = \"mk\""), ENGINE, from, to);
    let place = "where = { cylinder = \"rear\" }\nwindow = [\"0.10..0.14 mm\"]";
    assert_eq!(found(base(place, &place.replace("rear", "Rear"))), ["unknown-place"]);
    assert_eq!(found(base("source = \"manual-a\"", "source = \"manul-a\"")), ["unknown-reference"]);
    assert_eq!(found(base("of = \"lash.intake\"", "of = \"lash.inlet\"")), ["unknown-reference"; 5]);
    let lost = place.replace("where = { cylinder = \"rear\" }\n", "");
    assert_eq!(found(base(place, &lost)), ["reread-without-statement"], "a place that one reader lost is");
}

#[test]
fn the_sizes_of_an_engine_are_of_their_kind() {
    let base = |to: &str| found(replaced(shared::rule_base(), ENGINE, "bore = \"80.0 mm\"", to));
    assert_eq!(base("bore = \"80.0 mm\""), [""; 0]);
    assert_eq!(base("bore = \"80.0 cm³\""), ["unit-of-another-kind"]);
}

#[test]
fn a_key_in_the_wrong_table_is_sent_to_its_own() {
    let base = replaced(
        shared::rule_base(),
        ENGINE,
        "maker = \"quarrick\"",
        "maker = \"quarrick\"\nbore = \"80.0 mm\"",
    );
    let examined = shared::examine(base);
    assert_eq!(rules(&examined), ["unknown-key"]);
    assert_eq!(examined.findings.first().expect("one").help, "it is read under `[layout]`: move it there");
}
