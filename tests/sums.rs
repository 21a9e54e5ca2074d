//! The bench sums: every formula of the table reads, published values come out, and vectors for the browser and
//! for the independent check in `tests/outside/sums`.
//!
//! The committed file must equal what the code works out. After a wanted change write it anew with
//! `BLESS=1 cargo test --test sums`, and run the independent check.

use std::collections::BTreeMap;
use std::path::Path;

use baybook::compute::formula;
use baybook::compute::sums::{Outcome, Sort, Sum, SumError, all, find, work};
use baybook::quantity::{Unit, Value};
use serde_json::{Value as Json, json};

const FILE: &str = "tests/vectors/sums.json";

fn run(sum: &Sum, typed: &BTreeMap<String, String>) -> Result<Outcome, SumError> {
    work(sum, &|key| typed.get(key).cloned())
}

fn typed(pairs: &[(&str, &str)]) -> BTreeMap<String, String> {
    pairs.iter().map(|(key, text)| ((*key).to_owned(), (*text).to_owned())).collect()
}

fn examples(sum: &Sum) -> BTreeMap<String, String> {
    sum.inputs.iter().map(|input| (input.key.to_owned(), input.example.to_owned())).collect()
}

/// A sum, what is typed, which answer, its text, and where that comes from.
type Published = (&'static str, Vec<(&'static str, &'static str)>, &'static str, &'static str, &'static str);

/// Values published outside the project; the source stands beside each.
#[rustfmt::skip]
fn published() -> Vec<Published> {
    vec![
        // US Navy, NAVEDTRA 14315: 100, 12, 6 gives 66.7.
        ("adapter", vec![("torque", "100 lbf·ft"), ("wrench", "12 in"), ("adapter", "6 in")], "set", "66.7 lbf·ft", "NAVEDTRA 14315"),
        ("adapter", vec![("torque", "80 N·m"), ("wrench", "40 cm"), ("adapter", "5 cm")], "set", "71.1 N·m", "computed, S = T·L/(L + E)"),
        ("adapter", vec![("torque", "80 N·m"), ("wrench", "40 cm"), ("adapter", "5 cm"), ("angle", "90°")], "set", "80.0 N·m", "computed: square to the wrench changes nothing"),
        ("adapter", vec![("torque", "100 lbf·ft"), ("wrench", "12 in"), ("adapter", "6 in"), ("angle", "45°")], "set", "73.9 lbf·ft", "computed: 73.880"),
        ("adapter", vec![("torque", "100 lbf·ft"), ("wrench", "12 in"), ("adapter", "6 in"), ("angle", "180°")], "set", "200 lbf·ft", "computed"),
        // Screw: pitch 0.5 mm 36° for 0.05 mm; 0.75 mm 24°; 1.0 mm 18°: geometry.
        ("turn", vec![("measured", "0.15 mm"), ("target", "0.10 mm"), ("pitch", "0.5 mm")], "angle", "36.0°", "geometry"),
        ("turn", vec![("measured", "0.15 mm"), ("target", "0.10 mm"), ("pitch", "0.75 mm")], "angle", "24.0°", "geometry"),
        ("turn", vec![("measured", "0.10 mm"), ("target", "0.15 mm"), ("pitch", "1.0 mm")], "angle", "18.0°", "geometry"),
        ("advance", vec![("pitch", "1.25 mm"), ("angle", "90°")], "advance", "0.3125 mm", "geometry"),
        // Proof torques of ISO 898-1 at K 0.20 and three quarters: M8 8.8 25.5 N·m, M10 10.9 72.2, M12x1.25 12.9 160.8, M5 8.8 6.2.
        ("proof", vec![("diameter", "8 mm"), ("pitch", "1.25 mm"), ("strength", "580 MPa")], "torque", "25.5 N·m", "ISO 898-1"),
        ("proof", vec![("diameter", "10 mm"), ("pitch", "1.5 mm"), ("strength", "830 MPa")], "torque", "72.2 N·m", "ISO 898-1"),
        ("proof", vec![("diameter", "12 mm"), ("pitch", "1.25 mm"), ("strength", "970 MPa")], "torque", "161 N·m", "ISO 898-1"),
        ("proof", vec![("diameter", "8 mm"), ("pitch", "1.25 mm"), ("strength", "580 MPa")], "area", "36.61 mm²", "ISO 898-1"),
        ("proof", vec![("diameter", "14 mm"), ("pitch", "1.5 mm"), ("strength", "580 MPa")], "area", "124.5 mm²", "ISO 898-1 (124.55)"),
        // A component maker's generic 10 kΩ NTC: 10 °C from 0 and 20 °C: 18.033 (true 18.054), kΩ.
        ("resistance", vec![("points", "0 °C = 27.672 kΩ, 20 °C = 12.100 kΩ"), ("at", "10 °C")], "reads", "18033 Ω", "generic 10 kΩ NTC, ln R over 1/T"),
        ("resistance", vec![("points", "0 °C = 27.672 kΩ; 10 °C = 18.054 kΩ; 20 °C = 12.100 kΩ"), ("at", "10 °C")], "reads", "18054 Ω", "a point itself"),
        ("temperature", vec![("points", "0 °C = 27.672 kΩ\n20 °C = 12.100 kΩ"), ("reads", "18.033 kΩ")], "at", "10.00 °C", "the same curve back"),
        // The shop's 62 °F after a night (common practice, no source).
        ("soak", vec![("shop", "62 °F"), ("sensors", "62 °F, 62 °F")], "off", "0 Δ°F", "common practice, no source"),
        // A difference: 1 °F is 5/9 K (NIST SP 811 App. B), and is answered as it is typed.
        ("soak", vec![("shop", "62 °F"), ("sensors", "57.5 °F, 66 °F"), ("allowed", "5 °F")], "off", "-4.50 Δ°F", "subtraction"),
        ("soak", vec![("shop", "62 °F"), ("sensors", "57.5 °F, 66 °F"), ("allowed", "5 °F")], "spread", "8.50 Δ°F", "subtraction"),
        ("soak", vec![("shop", "20 °C"), ("sensors", "68 °F, 21 °C"), ("allowed", "2 °C")], "spread", "1.00 K", "68 °F are 20 °C"),
        // A battery maker's published table, flooded, at rest.
        ("rest", vec![("kind", "flooded"), ("volts", "12.65 V")], "charge", "100 %", "battery maker's table"),
        ("rest", vec![("kind", "flooded"), ("volts", "12.45 V")], "charge", "75 %", "battery maker's table"),
        ("rest", vec![("kind", "flooded"), ("volts", "12.24 V")], "charge", "50 %", "battery maker's table"),
        ("rest", vec![("kind", "flooded"), ("volts", "12.06 V")], "charge", "25 %", "battery maker's table"),
        ("rest", vec![("kind", "flooded"), ("volts", "11.89 V")], "charge", "0 %", "battery maker's table"),
        // 1.258 at 100 °F gives 1.266.
        ("gravity", vec![("cells", "1.258 SG"), ("at", "100 °F")], "corrected", "1.266 SG", "battery maker's rule"),
        // Battery Council International: 500 CCA is loaded with 250 A; least volts by temperature.
        ("load", vec![("kind", "flooded"), ("cca", "500 A CCA"), ("at", "70 °F")], "load", "250 A", "Battery Council International"),
        ("load", vec![("kind", "flooded"), ("cca", "500 A CCA"), ("at", "95 °F")], "least", "9.60 V", "Battery Council International"),
        ("load", vec![("kind", "flooded"), ("cca", "500 A CCA"), ("at", "40 °F")], "least", "9.30 V", "Battery Council International"),
        ("load", vec![("kind", "agm"), ("cca", "500 A CCA"), ("at", "0 °F")], "least", "8.50 V", "Battery Council International"),
        // ISO 2533 and the readings that follow from it.
        ("altitude", vec![("limit", "150 psi"), ("height", "3000 ft")], "here", "134.4 psi", "ISO 2533"),
        ("altitude", vec![("limit", "150 psi"), ("height", "5000 ft")], "here", "124.8 psi", "ISO 2533"),
        ("altitude", vec![("limit", "150 psi"), ("height", "6000 ft")], "here", "120.2 psi", "ISO 2533"),
        ("altitude", vec![("limit", "1000 kPa"), ("height", "1000 m")], "air", "89.88 kPa abs", "ISO 2533: 89876.3 Pa"),
        ("altitude", vec![("limit", "1000 kPa"), ("height", "3000 m")], "air", "70.12 kPa abs", "ISO 2533: 70121.1 Pa"),
        ("leak", vec![("supply", "80 psi"), ("cylinder", "60 psi")], "leak", "25.0 %", "definition"),
        ("size", vec![("measured", "0.09 mm"), ("fitted", "2.60 mm"), ("target", "0.15 mm")], "wanted", "2.540 mm", "worked by hand"),
        ("size", vec![("measured", "0.09 mm"), ("fitted", "2.60 mm"), ("target", "0.15 mm")], "above", "2.550 mm", "worked by hand"),
        ("size", vec![("measured", "0.09 mm"), ("fitted", "2.60 mm"), ("target", "0.15 mm")], "tighter", "0.140 mm", "worked by hand"),
        ("size", vec![("measured", "0.09 mm"), ("fitted", "2.60 mm"), ("target", "0.15 mm")], "looser", "0.190 mm", "worked by hand"),
        ("size", vec![("measured", "0.09 mm"), ("fitted", "2.60 mm"), ("target", "0.15 mm"), ("step", "0.08 mm"), ("from", "2.48 mm")], "below", "2.480 mm", "worked by hand"),
        // ¾-16: 0.373 in² by ASME B1.1, 240.6 mm² (value from memory); the metric formula would give 242.2.
        ("proof", vec![("diameter", "0.75 in"), ("pitch", "1/16 in"), ("strength", "85000 psi")], "area", "240.6 mm²", "ASME B1.1"),
        ("proof", vec![("diameter", "19.05 mm"), ("pitch", "1.5875 mm"), ("strength", "85000 psi")], "area", "240.6 mm²", "ASME B1.1"),
        // M20×2.5: 245 mm² by ISO 898-1 (value from memory).
        ("proof", vec![("diameter", "20 mm"), ("pitch", "2.5 mm"), ("strength", "600 MPa")], "area", "244.8 mm²", "ISO 898-1"),
        ("wear", vec![("previous", "9 %"), ("now", "12 %"), ("limit", "15 %"), ("between", "40 h")], "hours", "40 h", "arithmetic"),
        ("wear", vec![("previous", "1000 kPa"), ("now", "9.5 bar"), ("limit", "900"), ("between", "100 h")], "hours", "100 h", "arithmetic"),
        ("wear", vec![("previous", "58.0 g"), ("now", "57.0 g"), ("limit", "56.0 g"), ("between", "30 h")], "hours", "30 h", "arithmetic"),
        ("stator", vec![("readings", "42 V~, 39 V~, 45 V~"), ("speed", "3000 rpm")], "each", "14.0 V~", "arithmetic"),
        ("premix", vec![("ratio", "40:1"), ("fuel", "5 L")], "oil", "125 mL", "worked by hand"),
        ("hertz", vec![("speed", "3600 rpm"), ("poles", "2 poles")], "frequency", "60.0 Hz", "two poles: one cycle a turn"),
        ("coolant", vec![("volume", "3 L"), ("has", "25 %"), ("wants", "50 %")], "drain", "1.00 L", "worked by hand"),
    ]
}

#[test]
fn published_values_come_out() {
    for (id, pairs, key, text, source) in published() {
        let outcome =
            run(find(id).unwrap(), &typed(&pairs)).unwrap_or_else(|error| panic!("{id}: {error:?}"));
        let found = outcome.results.iter().find(|one| one.key == key).unwrap();
        assert_eq!(found.text, text, "{id} ({source}): {outcome:?}");
    }
}

/// A sum, what is typed, the words that must be said in its answers and notes, and those that must not.
type Said =
    (&'static str, Vec<(&'static str, &'static str)>, &'static [&'static str], &'static [&'static str]);

/// What a reading means at the bench: facts of the trade, common practice, no source, but where one stands beside it.
#[rustfmt::skip]
fn said() -> Vec<Said> {
    let rise = |rest, running| vec![("rest", rest), ("running", running)];
    let shim = |fitted, step| {
        vec![("measured", "0.09 mm"), ("fitted", fitted), ("target", "0.15 mm"), ("least", "0.12 mm"), ("most", "0.20 mm"), ("step", step)]
    };
    let square = |angle| vec![("torque", "80 N·m"), ("wrench", "40 cm"), ("adapter", "5 cm"), ("angle", angle)];
    let together = |reading, leak: Option<&'static str>, oiled: Option<&'static str>| {
        let mut given = vec![("reading", reading), ("least", "950 kPa"), ("most", "15 %")];
        given.extend(leak.map(|leak| ("leak", leak)));
        given.extend(oiled.map(|oiled| ("oiled", oiled)));
        given
    };
    let six = |rest, running| vec![("rest", rest), ("running", running), ("nominal", "6 V")];
    vec![
        // Charging volts are 13.5 to 15.2 where 12 V are nominal, above full rest; the rise is at least 0.5 V.
        ("rise", rise("10 V", "10.6 V"), &["does not charge fully", "stator", "load"], &["it charges"]),
        ("rise", rise("11.9 V", "12.5 V"), &["does not charge fully", "belt"], &["it charges"]),
        ("rise", rise("12.6 V", "13.49 V"), &["does not charge fully"], &["it charges"]),
        ("rise", rise("12.6 V", "13.5 V"), &["it charges"], &["fully", "overcharges"]),
        ("rise", rise("12.6 V", "15.2 V"), &["it charges"], &["fully", "overcharges"]),
        ("rise", rise("12.6 V", "15.21 V"), &["overcharges", "ground", "hydrogen"], &["it charges"]),
        ("rise", rise("12.6 V", "16.0 V"), &["overcharges", "regulator", "sensing"], &["it charges"]),
        ("rise", rise("12.6 V", "13.0 V"), &["it does not charge", "V~ by phase"], &["fully"]),
        ("rise", six("6.3 V", "7.1 V"), &["it charges", "6.75 V", "7.60 V"], &["overcharges"]),
        ("rise", six("6.3 V", "6.6 V"), &["does not charge fully"], &["it charges"]),
        ("rise", six("6.3 V", "7.7 V"), &["overcharges"], &["it charges"]),
        // Compression with leak-down: one cylinder gives one way on, and two tests that disagree are measured again.
        ("together", together("780 kPa", Some("8 %"), Some("800 kPa")), &["cam timing"], &["valves or gasket", "rings", "disagree"]),
        ("together", together("780 kPa", Some("8 %"), Some("1000 kPa")), &["disagree", "Measure again"], &["cam timing", "rings or bore"]),
        ("together", together("1000 kPa", Some("8 %"), Some("1150 kPa")), &["Both are good"], &["rings", "valve", "disagree"]),
        ("together", together("1000 kPa", Some("28 %"), Some("1150 kPa")), &["disagree", "Measure again"], &["rings or bore", "Both are good"]),
        ("together", together("780 kPa", Some("28 %"), Some("1000 kPa")), &["It leaks", "rings or bore"], &["disagree", "rather than rings"]),
        ("together", together("780 kPa", Some("28 %"), Some("800 kPa")), &["It leaks", "valves or gasket rather than rings"], &["disagree", "rings or bore."]),
        ("together", together("780 kPa", None, Some("1000 kPa")), &["rings or bore", "Leak-down comes next"], &["seals", "disagree"]),
        ("together", together("780 kPa", None, Some("800 kPa")), &["cam timing rather than rings", "Leak-down comes next"], &["seals", "It leaks"]),
        ("together", together("780 kPa", None, None), &["Leak-down comes next", "height"], &["rings"]),
        ("together", together("950 kPa", Some("15 %"), None), &["Both are good"], &["height", "oil"]),
        // A step no wider than the window always has a size that fits; a wider one may have none, and says so.
        ("size", shim("2.60 mm", "0.05 mm"), &["2.550 mm the nearest", "0.140 mm within what is allowed", "0.190 mm within"], &["No size", "too"]),
        ("size", shim("2.61 mm", "0.20 mm"), &["No size of this step", "half sizes", "too tight", "too loose"], &["within"]),
        ("size", shim("2.61 mm", "0.05 mm"), &["2.550 mm that very size", "0.150 mm within"], &["No size", "nearest"]),
        // A shim that leaves no lash holds the valve open.
        ("size", vec![("measured", "0.05 mm"), ("fitted", "2.60 mm"), ("target", "0.04 mm"), ("step", "0.10 mm")], &["no lash at all", "0.0500 mm"], &["within"]),
        ("proof", vec![("diameter", "20 mm"), ("pitch", "2.5 mm"), ("strength", "580 MPa")], &["600 MPa, not 580", "metric"], &["unified"]),
        ("proof", vec![("diameter", "16 mm"), ("pitch", "2 mm"), ("strength", "580 MPa")], &["metric"], &["not 580", "unified"]),
        ("proof", vec![("diameter", "0.75 in"), ("pitch", "0.0625 in"), ("strength", "85000 psi")], &["unified", "J429"], &["metric", "not 580"]),
        ("proof", vec![("diameter", "0.4375 in"), ("pitch", "0.0714 in"), ("strength", "85000 psi")], &["unified"], &["metric"]),
        ("soak", vec![("shop", "62 °F"), ("sensors", "57.5 °F, 66 °F"), ("allowed", "5 °F")], &["-4.50 Δ°F agrees", "4.00 Δ°F agrees", "They differ from one another"], &["does not agree"]),
        ("soak", vec![("shop", "62 °F"), ("sensors", "56 °F, 62 °F"), ("allowed", "5 °F")], &["-6.00 Δ°F does not agree"], &["K"]),
        // Phases are equal within a tenth.
        ("stator", vec![("readings", "42 V~, 39 V~, 45 V~"), ("speed", "3000 rpm")], &["14.0 V~", "13.0 V~", "phases are equal", "regulator"], &["low", "high", "unequal"]),
        ("stator", vec![("readings", "42 V~, 20 V~, 43 V~"), ("speed", "3000 rpm")], &["low", "unequal", "resistance"], &["phases are equal"]),
        ("stator", vec![("readings", "42 V~, 0 V~, 43 V~"), ("speed", "3000 rpm")], &["low", "unequal"], &["phases are equal"]),
        // The cosine of every quarter turn is nought, either way round.
        ("adapter", square("-90°"), &["changes nothing", "80.0 N·m"], &[]),
        ("adapter", square("450°"), &["changes nothing", "80.0 N·m"], &[]),
        ("adapter", square("89°"), &[], &["changes nothing"]),
    ]
}

#[test]
fn what_a_reading_means_is_said() {
    for (id, pairs, wanted, unwanted) in said() {
        let outcome =
            run(find(id).unwrap(), &typed(&pairs)).unwrap_or_else(|error| panic!("{id}: {error:?}"));
        let always = find(id).unwrap().notes.iter().filter(|(when, _)| *when == "1").map(|(_, note)| *note);
        let always: Vec<_> = always.collect();
        let notes = outcome.notes.iter().filter(|note| !always.contains(&note.as_str())).cloned();
        let answers =
            outcome.results.iter().map(|one| format!("{} {}", one.text, one.word.unwrap_or_default()));
        let text = answers.chain(notes).collect::<Vec<_>>().join("\n");
        for words in wanted {
            assert!(text.contains(words), "{id} {pairs:?} does not say `{words}`:\n{text}");
        }
        for words in unwanted {
            assert!(!text.contains(words), "{id} {pairs:?} says `{words}`:\n{text}");
        }
    }
}

#[test]
fn every_sum_is_sound() {
    let mut ids = std::collections::BTreeSet::new();
    for sum in all() {
        let id = sum.id;
        assert!(ids.insert(id), "two sums are called {id}");
        assert!(!sum.title.is_empty() && !sum.formula.is_empty() && sum.answers_what.ends_with('.'), "{id}");
        assert!(!sum.source.is_empty() && !sum.answers.is_empty(), "{id}");
        let conditions = sum.must.iter().chain(sum.notes).map(|(condition, _)| *condition);
        let answers = sum.answers.iter().flat_map(|answer| {
            let words = answer.words.iter().map(|(condition, _)| *condition);
            words.chain(answer.when).chain([answer.formula])
        });
        for text in sum.steps.iter().map(|(_, text)| *text).chain(conditions).chain(answers) {
            formula::parse(text).unwrap_or_else(|error| panic!("{id}: `{text}`: {error}"));
        }
        for input in sum.inputs {
            let units: &[&str] = match &input.sort {
                Sort::Quantity { unit } | Sort::Quantities { unit } => &[unit],
                Sort::Points { at, unit } => &[at, unit],
                Sort::Number | Sort::Word { .. } | Sort::Alike { .. } => &[],
            };
            units.iter().for_each(|unit| _ = Unit::parse(unit).unwrap_or_else(|_| panic!("{id}: {unit}")));
        }
        let outcome = run(sum, &examples(sum)).unwrap_or_else(|error| panic!("{id}: {error:?}"));
        assert!(!outcome.results.is_empty(), "{id}");
        for found in &outcome.results {
            assert!(found.unit.is_none() || Value::parse(&found.text).is_ok(), "{id}: {}", found.text);
        }
        // Every input that is needed is asked for by name.
        for input in sum.inputs.iter().filter(|input| input.unless.is_none()) {
            let mut less = examples(sum);
            less.remove(input.key);
            let error = run(sum, &less).expect_err(id);
            assert_eq!(error.input, Some(input.key), "{id}");
            assert!(error.help.contains(input.example), "{id}");
        }
    }
    assert!(ids.len() >= 30, "{}", ids.len());
}

#[test]
fn a_command_answers_and_refuses_as_the_table_does() {
    let call = |arguments: &[&str]| {
        let output =
            std::process::Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().unwrap();
        (output.status.code(), String::from_utf8(output.stdout).unwrap())
    };
    let wrench = ["--wrench", "40 cm", "--adapter", "5 cm", "--format", "json"];
    let (status, answer) = call(&[&["torque", "adapter", "--torque", "80 N·m"], &wrench[..]].concat());
    let answer: Json = serde_json::from_str(&answer).unwrap();
    assert_eq!((status, &answer["results"][0]["value"]), (Some(0), &json!("640/9")));
    assert!(answer["cautions"][0]["signal"] == "WARNING" && !answer["formula"].as_str().unwrap().is_empty());
    let (status, answer) = call(&[&["torque", "adapter", "--torque", "80 J"], &wrench[..]].concat());
    let answer: Json = serde_json::from_str(&answer).unwrap();
    assert_eq!(status, Some(1));
    assert!(answer["error"]["message"].as_str().unwrap().starts_with("--torque: "), "{answer}");
    let (status, answer) = call(&[&["torque", "adapter"], &wrench[..]].concat());
    let answer: Json = serde_json::from_str(&answer).unwrap();
    assert_eq!(status, Some(2));
    assert!(answer["error"]["message"].as_str().unwrap().contains("--torque"), "{answer}");
    let (status, text) =
        call(&["sensor", "soak", "--shop", "62 °F", "--sensors", "62 °F", "--sensors", "61,5 °F"]);
    assert!(status == Some(0) && text.contains("61,5 °F: off by") && text.contains("agrees"), "{text}");
    let (status, text) = call(&["torque", "wrench", "--torque", "18 N·m", "--specs", "specs"]);
    assert!(status == Some(0) && text.contains("covers it in its accurate span"), "{text}");
    let (status, text) = call(&["sums"]);
    assert_eq!(status, Some(0));
    for sum in all() {
        assert!(text.contains(&format!("baybook {} {} ", sum.group.word(), sum.id)), "{}", sum.id);
    }
}

#[test]
fn what_cannot_be_answered_is_refused_in_words() {
    for (id, pairs, word) in [
        ("rest", vec![("kind", "lithium"), ("volts", "13.1 V")], "lithium"),
        ("load", vec![("kind", "lithium"), ("cca", "200 A CCA"), ("at", "70 °F")], "lithium"),
        ("load", vec![("kind", "agm"), ("cca", "200 A CA"), ("at", "70 °F")], "cold-cranking"),
        ("resistance", vec![("points", "0 °C = 5 kΩ, 20 °C = 2 kΩ"), ("at", "21 °C")], "nothing is guessed"),
        ("resistance", vec![("points", "0 °C = 5 kΩ"), ("at", "0 °C")], "one way"),
        (
            "temperature",
            vec![("points", "0 °C = 5 kΩ, 20 °C = 2 kΩ, 40 °C = 3 kΩ"), ("reads", "2.5 kΩ")],
            "one way",
        ),
        (
            "adapter",
            vec![("torque", "80 N·m"), ("wrench", "5 cm"), ("adapter", "5 cm"), ("angle", "180°")],
            "folds back",
        ),
        ("adapter", vec![("torque", "80 J"), ("wrench", "40 cm"), ("adapter", "5 cm")], "torque"),
        ("adapter", vec![("torque", "80"), ("wrench", "40 cm"), ("adapter", "5 cm")], "unit"),
        (
            "adapter",
            vec![("torque", "max 80 N·m"), ("wrench", "40 cm"), ("adapter", "5 cm")],
            "more than one number",
        ),
        ("rise", vec![("rest", "6.3 V"), ("running", "7.2 V")], "nominal voltage"),
        ("rise", vec![("rest", "12.6 V"), ("running", "14.2 V"), ("nominal", "6 V")], "nominal voltage"),
        ("turn", vec![("measured", "0 mm"), ("target", "0.10 mm"), ("pitch", "0.75 mm")], "nobody knows"),
        ("turn", vec![("measured", "-0.1 mm"), ("target", "0.10 mm"), ("pitch", "0.75 mm")], "below zero"),
        ("altitude", vec![("limit", "1000 kPa"), ("height", "-600 m")], "500 m below the sea"),
        ("together", vec![("reading", "780 kPa"), ("least", "950 kPa"), ("leak", "8 %")], "manual allows"),
        (
            "wear",
            vec![("previous", "4.2"), ("now", "3.6 mm"), ("limit", "3 mm"), ("between", "10 h")],
            "no unit",
        ),
        (
            "wear",
            vec![("previous", "9 %"), ("now", "12 mm"), ("limit", "15 %"), ("between", "10 h")],
            "not of percentage",
        ),
        (
            "wear",
            vec![("previous", "worn"), ("now", "12 mm"), ("limit", "15 %"), ("between", "10 h")],
            "worn",
        ),
        (
            "size",
            vec![("measured", "0.1 mm"), ("fitted", "2.60 mm"), ("target", "0.15 mm"), ("least", "0.2 mm")],
            "within the lash allowed",
        ),
        ("stator", vec![("readings", "42 V~, 41 V~"), ("speed", "3000 rpm")], "three phases"),
        ("stator", vec![("readings", "42 V, 41 V, 40 V"), ("speed", "3000 rpm")], "alternating"),
        ("size", vec![("measured", "0 mm"), ("fitted", "2.60 mm"), ("target", "0.15 mm")], "measure again"),
        (
            "wear",
            vec![("previous", "4 mm"), ("now", "4 mm"), ("limit", "3 mm"), ("between", "10 h")],
            "nothing wore",
        ),
        ("coolant", vec![("volume", "3 L"), ("has", "50 %"), ("wants", "50 %")], "above"),
    ] {
        let error = run(find(id).unwrap(), &typed(&pairs)).expect_err(id);
        assert!(error.message.contains(word), "{id}: {error:?}");
        assert!(!error.help.is_empty(), "{id}");
    }
}

/// Xorshift: the same numbers on every machine.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % sides
    }

    /// An example with its digits rolled anew, so that its size stays that of the trade.
    fn like(&mut self, example: &str) -> String {
        let mut first = true;
        let roll = |letter: char| {
            if !letter.is_ascii_digit() {
                return letter;
            }
            let least = u64::from(std::mem::take(&mut first));
            let digit = if letter == '0' { 0 } else { least + self.roll(10 - least) };
            char::from(b'0' + u8::try_from(digit).unwrap())
        };
        example.chars().map(roll).collect()
    }
}

fn vector(sum: &Sum, given: &BTreeMap<String, String>) -> Json {
    match run(sum, given) {
        Ok(outcome) => json!({ "sum": sum.id, "given": given, "outcome": outcome }),
        Err(error) => {
            json!({ "sum": sum.id, "given": given, "refused": { "input": error.input, "message": error.message, "help": error.help } })
        }
    }
}

const TABLE: &str = "site/compute/sum-table.js";

const TABLE_HEAD: &str = r#"// @ts-check
/*
 * The table of bench sums, written from the compiler's own in src/compute/sums by a test: change it there.
 */
(() => {
  "use strict";

  /** @type {BaybookSum[]} */
  const table = [
"#;

/// The table as the handbook's script has it: what the sheet itself shows is left out.
fn table_script() -> String {
    let row = |sum: &Sum| {
        let mut row = serde_json::to_value(sum).unwrap();
        let keys = row.as_object_mut().unwrap();
        for shown in ["answers_what", "formula", "source", "cautions"] {
            keys.remove(shown);
        }
        format!("    {row},\n")
    };
    let rows: String = all().map(row).collect();
    format!("{TABLE_HEAD}{rows}  ];\n\n  globalThis.baybookCompute.sumTable = table;\n}})();\n")
}

#[test]
fn the_script_s_table_is_the_compiler_s() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(TABLE);
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, table_script()).unwrap();
    }
    assert!(
        std::fs::read_to_string(&path).unwrap_or_default() == table_script(),
        "{TABLE}: run with BLESS=1"
    );
}

#[test]
fn the_committed_vectors_are_what_is_worked_out() {
    let mut dice = Dice(0x7e57_5eed_0f0f_1234);
    let mut cases = Vec::new();
    for (id, pairs, ..) in published() {
        cases.push(vector(find(id).unwrap(), &typed(&pairs)));
    }
    for (id, pairs, ..) in said() {
        cases.push(vector(find(id).unwrap(), &typed(&pairs)));
    }
    for sum in all() {
        cases.push(vector(sum, &examples(sum)));
        for _ in 0..25 {
            let mut given = BTreeMap::new();
            for input in sum.inputs {
                let text = match input.sort {
                    Sort::Word { words } => {
                        words[usize::try_from(dice.roll(words.len() as u64)).unwrap()].to_owned()
                    }
                    Sort::Points { .. } => input.example.to_owned(),
                    _ => dice.like(input.example),
                };
                if input.unless.is_none() || dice.roll(2) == 0 {
                    given.insert(input.key.to_owned(), text);
                }
            }
            cases.push(vector(sum, &given));
        }
    }
    let answered = cases.iter().filter(|case| case.get("outcome").is_some()).count();
    assert!(answered * 2 > cases.len(), "{answered} of {}", cases.len());
    let table: Vec<_> = all().collect();
    let mut text = format!("{{\"table\":{},\n\"cases\":[\n", serde_json::to_string(&table).unwrap());
    for (place, case) in cases.iter().enumerate() {
        text += &format!("{case}{}\n", if place + 1 < cases.len() { "," } else { "" });
    }
    text += "]}\n";
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE);
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(committed == text, "{FILE} is not what the code works out: look, then run with BLESS=1");
}
