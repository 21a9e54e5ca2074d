//! Threads, sensor curves, tables and peers: judged against published values, and quiet on clean data.

mod shared;

use baybook::Examined;
use baybook::check::curve::{self, Odd, Point};
use baybook::check::fastener::{Class, Thread, nut_factors, proof_strength, torque_per_factor};
use baybook::load::disk::Content;
use baybook::quantity::{Exact, parse_exact};
use num_traits::ToPrimitive;
use shared::Base;

fn number(exact: &Exact) -> f64 {
    exact.to_f64().expect("a finite number")
}

fn close(value: &Exact, wanted: f64, share: f64, what: &str) {
    let value = number(value);
    assert!((value - wanted).abs() <= wanted * share, "{what}: {value}, not {wanted}");
}

fn thread(text: &str) -> Thread {
    Thread::parse(text).unwrap_or_else(|| panic!("{text} is a thread"))
}

fn class(text: &str) -> Class {
    Class::parse(text).unwrap_or_else(|| panic!("{text} is a class"))
}

/// Stress areas in mm² and torques in N·m at K = 0.20 for classes 8.8, 9.8, 10.9 and 12.9, computed from the formulas of
/// ISO 724 and ISO 898-1 with exact rationals; the areas are those of ISO 898-1, table of nominal stress areas.
#[test]
fn areas_and_torques_are_those_of_the_handbook_table() {
    let rows: [(&str, f64, [f64; 4]); 8] = [
        ("M5x0.8", 14.18, [6.2, 6.9, 8.8, 10.3]),
        ("M6x1", 20.12, [10.5, 11.8, 15.0, 17.6]),
        ("M8x1.25", 36.61, [25.5, 28.6, 36.5, 42.6]),
        ("M10x1.5", 57.99, [50.5, 56.5, 72.2, 84.4]),
        ("M10x1.25", 61.20, [53.2, 59.7, 76.2, 89.0]),
        ("M12x1.75", 84.27, [88.0, 98.6, 125.9, 147.1]),
        ("M12x1.25", 92.07, [96.1, 107.7, 137.6, 160.8]),
        ("M14x1.5", 124.55, [151.7, 170.0, 217.1, 253.7]),
    ];
    let factor = parse_exact("0.20").expect("a number");
    for (name, area, torques) in rows {
        let thread = thread(name);
        assert!(
            (number(&thread.stress_area()) - area).abs() < 0.005,
            "{name}: {}",
            number(&thread.stress_area())
        );
        for (mark, torque) in ["8.8", "9.8", "10.9", "12.9"].into_iter().zip(torques) {
            let worked = number(&(torque_per_factor(&thread, class(mark)) * &factor));
            assert!((worked - torque).abs() <= 0.051, "{name} {mark}: {worked}, not {torque}");
        }
    }
}

/// Proof loads in kN of ISO 898-1, tables of coarse and fine threads (values from memory): within half a percent, or one
/// unit of the third figure that the standard rounds to.
#[test]
fn proof_loads_are_those_of_the_standard() {
    let rows = [
        ("M6", "8.8", 11.6),
        ("M8", "8.8", 21.2),
        ("M10", "8.8", 33.7),
        ("M12", "8.8", 48.9),
        ("M16", "8.8", 91.0),
        ("M20", "8.8", 147.0),
        ("M6", "10.9", 16.7),
        ("M8", "10.9", 30.4),
        ("M10", "10.9", 48.1),
        ("M12", "10.9", 70.0),
        ("M8", "12.9", 35.5),
        ("M10", "12.9", 56.3),
        ("M8x1", "8.8", 22.7),
        ("M10x1.25", "8.8", 35.5),
        ("M12x1.25", "10.9", 76.4),
    ];
    for (name, mark, load) in rows {
        let thread = thread(name);
        let (worked, load) =
            (number(&(thread.stress_area() * proof_strength(class(mark), &thread))), load * 1000.0);
        assert!((worked - load).abs() <= (load * 0.005).max(100.0), "{name} {mark}: {worked}, not {load}");
    }
}

/// Stress areas of unified threads in in² (ASME B1.1, values from memory), and Shigley, Mechanical Engineering Design,
/// example 8-3: ¾-16 UNF grade 5 at 25 kip and K 0.2 takes 3750 lbf·in.
#[test]
fn unified_threads_are_those_of_the_handbook() {
    let rows = [
        ("1/4-20 UNC", 0.0318),
        ("5/16-18 UNC", 0.0524),
        ("3/8-16", 0.0775),
        ("1/2-13 UNC", 0.1419),
        ("3/4-16 UNF", 0.373),
        ("#10-24", 0.0175),
    ];
    for (name, inches) in rows {
        close(&thread(name).stress_area(), inches * 645.16, 0.003, name);
    }
    let thread = thread("3/4-16 UNF");
    let preload = number(&(thread.stress_area() * proof_strength(class("grade 5"), &thread))) * 0.75;
    let torque = number(&torque_per_factor(&thread, class("grade 5"))) * 0.2;
    let at_25_kip = torque * 25_000.0 * 4.448_221_615_260_5 / preload;
    assert!((at_25_kip / 0.112_984_829 - 3750.0).abs() < 2.0, "{at_25_kip} N·m");
}

/// VDI 2230:2001 at a friction of 0.12, class 8.8, torque in N·m (a distributor's catalogue): friction of 0.12 is a nut
/// factor of about 0.16, and the guideline loads to nine tenths of yield, so that the torque lies within our span.
#[test]
fn torques_of_the_guideline_lie_within_the_span() {
    for (name, torque) in [("M8x1", 26.1), ("M10x1.25", 51.0), ("M12x1.25", 90.0), ("M14x1.5", 142.0)] {
        let (least, most) = nut_factors(Some("dry"));
        let factor = torque / number(&torque_per_factor(&thread(name), class("8.8")));
        assert!(number(&least) < factor && factor < number(&most), "{name}: K {factor}");
    }
}

fn base_with(statement: &str) -> Base {
    let mut base = shared::rule_base();
    let path = "engines/quarrick/engine-a.toml";
    let Some(Content::Bytes(bytes)) = base.get_mut(path) else { panic!("no {path}") };
    bytes.extend_from_slice(statement.as_bytes());
    base
}

fn of_rule<'f>(examined: &'f Examined, rule: &str) -> Vec<&'f baybook::diag::Finding> {
    examined.findings.iter().filter(|finding| finding.rule.name == rule).collect()
}

fn torque(setting: &str, fastener: &str) -> Examined {
    shared::examine(base_with(&format!(
        "\n[[spec]]\nof = \"torque.case-bolt\"\nsetting = [\"{setting}\"]\nfastener = {{ {fastener} }}\npage = \"1\"\n"
    )))
}

#[test]
fn torques_are_held_to_thread_class_and_state() {
    let cases = [
        ("25 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"dry\", into = \"steel\"", false),
        ("39 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"dry\", into = \"steel\"", true),
        ("36 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"dry\", into = \"steel\"", false),
        ("39 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"oiled\", into = \"steel\"", true),
        ("17 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"oiled\", into = \"steel\"", false),
        ("17 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"dry\", into = \"steel\"", true),
        ("10 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"dry\", into = \"steel\"", true),
        ("10 N·m", "thread = \"M8x1.25\", class = \"8.8\", threads = \"dry\", into = \"aluminium\"", false),
        ("10 N·m", "thread = \"M8x1.25\", threads = \"dry\", into = \"steel\"", false),
        ("75 N·m", "thread = \"M8x1.25\", threads = \"dry\"", true),
        ("7 lbf·ft", "thread = \"1/4-20 UNC\", class = \"5\", threads = \"dry\", into = \"steel\"", false),
        ("84 lbf·ft", "thread = \"1/4-20 UNC\", class = \"5\", threads = \"dry\", into = \"steel\"", true),
        ("500 N·m", "thread = \"G 1/4\", class = \"8.8\"", false),
    ];
    for (setting, fastener, found) in cases {
        let examined = torque(setting, fastener);
        assert_eq!(!of_rule(&examined, "torque-unlike-thread").is_empty(), found, "{setting}, {fastener}");
    }
}

#[test]
fn a_torque_in_the_wrong_unit_is_told_from_a_slipped_point() {
    let help = |setting: &str| {
        let examined =
            torque(setting, "thread = \"M6x1.0\", class = \"8.8\", threads = \"dry\", into = \"steel\"");
        of_rule(&examined, "torque-unlike-thread")
            .first()
            .map(|finding| finding.help.clone())
            .unwrap_or_default()
    };
    assert!(help("89 lbf·ft").contains("the same number in `lbf·in` would fit"), "{}", help("89 lbf·ft"));
    assert!(
        help("1.05 N·m").contains("ten times it would fit") || help("1.05 N·m").contains("`kgf·m`"),
        "{}",
        help("1.05 N·m")
    );
}

/// A component maker's generic 10 kΩ thermistor, B25/85 3435 ± 1 %: °C and kΩ as published.
const GENERIC: [(f64, &str); 14] = [
    (-30.0, "118.718"),
    (-20.0, "70.876"),
    (-10.0, "43.633"),
    (0.0, "27.672"),
    (10.0, "18.054"),
    (20.0, "12.100"),
    (25.0, "10.000"),
    (30.0, "8.293"),
    (40.0, "5.809"),
    (80.0, "1.676"),
    (85.0, "1.458"),
    (100.0, "0.978"),
    (120.0, "0.598"),
    (150.0, "0.310"),
];

fn point(celsius: f64, kilohms: &str) -> Point {
    let value: f64 = kilohms.parse().expect("a number");
    (celsius, value * 1000.0, 0.0005 / value)
}

fn generic() -> Vec<Point> {
    GENERIC.iter().map(|(celsius, kilohms)| point(*celsius, kilohms)).collect()
}

/// A number with two digits side by side swapped, for every pair that differs.
fn swaps(kilohms: &str) -> Vec<String> {
    let digits: Vec<usize> =
        kilohms.char_indices().filter(|(_, c)| c.is_ascii_digit()).map(|(at, _)| at).collect();
    let swapped = |pair: &[usize]| {
        let mut letters: Vec<char> = kilohms.chars().collect();
        letters.swap(pair[0], pair[1]);
        letters.into_iter().collect::<String>()
    };
    digits
        .windows(2)
        .map(swapped)
        .filter(|typed| typed != kilohms && typed.parse::<f64>().is_ok_and(|value| value > 0.0))
        .collect()
}

#[test]
fn the_generic_thermistor_gives_no_finding_as_a_whole_or_in_part() {
    assert_eq!(curve::odd(&generic()), None);
    // Manuals print three to six of such points.
    for (first, step, count) in [(0, 2, 7), (1, 3, 4), (0, 4, 3), (3, 2, 5), (1, 4, 3), (5, 1, 6), (0, 6, 3)]
    {
        let some: Vec<Point> = generic().into_iter().skip(first).step_by(step).take(count).collect();
        assert_eq!(curve::odd(&some), None, "every {step} of them from {first}");
    }
}

#[test]
fn any_point_of_the_generic_thermistor_off_by_ten_is_named() {
    for place in 0..GENERIC.len() {
        for factor in [10.0, 0.1] {
            let mut points = generic();
            points[place].1 *= factor;
            assert!(
                matches!(curve::odd(&points), Some(Odd::Point(odd, _)) if odd == place),
                "{:?} by {factor}",
                GENERIC[place]
            );
        }
    }
}

/// Digits that are swapped where they count: a tenth off is two to five kelvins off the curve, and no table is held more
/// closely.
#[test]
fn any_point_of_the_generic_thermistor_with_swapped_digits_is_named() {
    let mut named = vec![0; GENERIC.len()];
    for (place, (celsius, kilohms)) in GENERIC.iter().enumerate() {
        let clean = point(*celsius, kilohms).1;
        for typed in swaps(kilohms) {
            let slipped = point(*celsius, &typed);
            if (slipped.1 / clean).ln().abs() < 0.1 {
                continue;
            }
            let mut points = generic();
            points[place] = slipped;
            assert!(
                matches!(curve::odd(&points), Some(Odd::Point(odd, _)) if odd == place),
                "{typed} for {kilohms} at {celsius} °C: {:?}",
                curve::odd(&points)
            );
            named[place] += 1;
        }
    }
    assert!(named.iter().all(|count| *count > 0), "{named:?}");
}

#[test]
fn a_short_table_names_its_odd_point_too() {
    for (first, step, count) in [(0, 2, 7), (1, 3, 4), (0, 3, 5)] {
        for place in 0..count {
            let mut some: Vec<Point> = generic().into_iter().skip(first).step_by(step).take(count).collect();
            some[place].1 *= 10.0;
            assert!(
                matches!(curve::odd(&some), Some(Odd::Point(odd, _)) if odd == place),
                "{first} {step} {place}: {:?}",
                curve::odd(&some)
            );
        }
    }
}

#[test]
fn a_straight_sensor_is_held_to_its_line() {
    let clean = [(25.0, 1.10), (50.0, 2.00), (75.0, 2.90), (100.0, 3.80)];
    assert_eq!(curve::off_line(&clean), None);
    let mut slipped = clean;
    slipped[2].1 = 2.09;
    assert_eq!(curve::off_line(&slipped), Some((2, true)));
    assert_eq!(curve::off_line(&clean[..2]), None);
    assert_eq!(
        curve::off_line(&[(25.0, 1.1), (50.0, 2.9), (75.0, 2.9)]).map(|(_, alone)| alone),
        Some(false)
    );
}

#[test]
fn nonsense_is_no_curve_and_no_fault_of_the_machine() {
    for points in [
        vec![],
        vec![(20.0, 1000.0, 0.0)],
        vec![(20.0, 1.0, 0.0); 5],
        vec![(-273.15, 5.0, 0.0), (0.0, 4.0, 0.0), (1.0, 3.0, 0.0)],
    ] {
        assert_eq!(curve::odd(&points), None);
    }
    let same_place: Vec<Point> = (1..6).map(|ohms| (20.0, f64::from(ohms), 0.0)).collect();
    _ = curve::odd(&same_place);
    _ = curve::off_line(&[(1.0, 1.0), (1.0, 2.0), (1.0, 3.0)]);
}

/// Engines with one coolant volume each, in the small base of the rules.
fn fleet(volumes: &[&str]) -> Examined {
    let mut base = shared::rule_base();
    let entry = "\n[[entry]]\nid = \"coolant.volume\"\ntitle = \"Coolant volume\"\nkind = \"volume\"\nforms = [\"setting\"]\n";
    let Some(Content::Bytes(catalogue)) = base.get_mut("catalogue/fuel-and-fluids.toml") else {
        panic!("no catalogue")
    };
    catalogue.extend_from_slice(entry.as_bytes());
    for (count, volume) in volumes.iter().enumerate() {
        let engine = format!(
            "id = \"fleet-{count}\"\nmaker = \"quarrick\"\ntitle = \"Fleet {count}\"\n\
             layout = {{ cycle = \"four-stroke\", fuel = \"petrol\", cylinders = 1 }}\n\
             defaults = {{ source = \"manual-a\", read_by = \"mk\" }}\n\
             [[spec]]\nof = \"coolant.volume\"\nsetting = [\"{volume}\"]\npage = \"1\"\n"
        );
        base.insert(format!("engines/quarrick/fleet-{count}.toml"), Content::Bytes(engine.into_bytes()));
    }
    shared::examine(base)
}

#[test]
fn a_value_far_from_enough_peers_is_found_and_says_which() {
    let examined = fleet(&["2.0 L", "2.2 L", "1.8 L", "2.4 L", "2.1 L", "1.9 L", "2.6 L", "2.3 L", "22 L"]);
    let found = of_rule(&examined, "far-from-peers");
    assert_eq!(found.len(), 1, "{}", shared::printed(&examined.findings, &examined.sources));
    assert!(
        found[0].message.contains("`22 L`") && found[0].help.contains("`fleet-0`"),
        "{} {}",
        found[0].message,
        found[0].help
    );
    shared::hold_to_promises(found[0], &examined.sources);
}

#[test]
fn few_peers_or_wide_ones_say_nothing() {
    // Four others are too few.
    assert!(of_rule(&fleet(&["2.0 L", "2.2 L", "1.8 L", "2.4 L", "22 L"]), "far-from-peers").is_empty());
    // Five are enough only where they agree, and for what is far from every one of them.
    let agreeing = ["2.0 L", "2.2 L", "1.8 L", "2.4 L", "1.7 L"];
    let with = |volume| fleet(&[&agreeing[..], &[volume]].concat());
    assert_eq!(of_rule(&with("22 L"), "far-from-peers").len(), 1);
    assert!(of_rule(&with("9 L"), "far-from-peers").is_empty());
    assert!(
        of_rule(&fleet(&["1.0 L", "2.2 L", "1.8 L", "2.7 L", "1.7 L", "22 L"]), "far-from-peers").is_empty()
    );
    // Where values differ tenfold by themselves, ten times is not far.
    let wide = ["0.3 L", "0.6 L", "1.2 L", "2.4 L", "4.8 L", "9.6 L", "0.4 L", "3.0 L", "7.0 L", "22 L"];
    assert!(of_rule(&fleet(&wide), "far-from-peers").is_empty());
    // Two of another sort keep each other company.
    let sorts = ["2.0 L", "2.2 L", "1.8 L", "2.4 L", "2.1 L", "1.9 L", "2.6 L", "2.3 L", "20 L", "24 L"];
    assert!(of_rule(&fleet(&sorts), "far-from-peers").is_empty());
    // Where all are the same, twice as much is still near.
    let same = ["2.0 L"; 9].into_iter().chain(["4.0 L"]).collect::<Vec<_>>();
    assert!(of_rule(&fleet(&same), "far-from-peers").is_empty());
}

/// A shim table of the small base, with one row changed.
fn shims(change: Option<(usize, &str, &str)>) -> Examined {
    let rows = (0..12).map(|count| {
        let (mark, size) =
            (200 + 5 * count, format!("{}.{:02} mm", (200 + 5 * count) / 100, (200 + 5 * count) % 100));
        match change {
            Some((at, mark, size)) if at == count => format!("[\"{mark}\", \"{size}\"]"),
            _ => format!("[\"{mark}\", \"{size}\"]"),
        }
    });
    let rows: Vec<_> = rows.collect();
    let mut base = base_with(&format!(
        "\n[[spec]]\nof = \"lash.shim\"\nselection = {{ by = [\"mark\"], rows = [{}] }}\npage = \"1\"\n",
        rows.join(", ")
    ));
    let entry =
        "\n[[entry]]\nid = \"lash.shim\"\ntitle = \"Shim\"\nkind = \"length\"\nforms = [\"selection\"]\n";
    let Some(Content::Bytes(catalogue)) = base.get_mut("catalogue/top-end.toml") else {
        panic!("no catalogue")
    };
    catalogue.extend_from_slice(entry.as_bytes());
    shared::examine(base)
}

#[test]
fn a_slip_in_a_table_is_found_in_its_row() {
    assert!(shims(None).findings.is_empty());
    for (change, rule) in [
        ((4, "220", "2.22 mm"), "table-out-of-step"),
        ((4, "202", "2.20 mm"), "code-is-not-size"),
        ((0, "200", "2.01 mm"), "table-out-of-step"),
        ((11, "255", "2.56 mm"), "table-out-of-step"),
    ] {
        let examined = shims(Some(change));
        let found = of_rule(&examined, rule);
        assert_eq!(found.len(), 1, "{change:?}: {}", shared::printed(&examined.findings, &examined.sources));
        assert_eq!(examined.sources.slice(found[0].span), format!("\"{}\"", change.2));
    }
    // A size that is left out is no slip.
    assert!(of_rule(&shims(Some((5, "280", "2.80 mm"))), "table-out-of-step").len() <= 1);
}

/// Which of two values that break a relation was misread, other engines tell: no battery of theirs holds so little.
#[test]
fn the_odd_one_of_a_broken_relation_is_told_by_other_engines() {
    let mut base = shared::rule_base();
    let specs = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/catalogue/electrical.toml");
    let catalogue = std::fs::read(specs).expect("the demo base has batteries");
    base.insert("catalogue/electrical.toml".to_owned(), Content::Bytes(catalogue));
    for (count, (capacity, cold)) in
        [(14, 175), (21, 315), (30, 410), (16, 230), (1, 190)].into_iter().enumerate()
    {
        let engine = format!(
            "id = \"fleet-{count}\"\nmaker = \"quarrick\"\ntitle = \"Fleet {count}\"\n\
             layout = {{ cycle = \"four-stroke\", fuel = \"petrol\", cylinders = 1 }}\n\
             defaults = {{ source = \"manual-a\", read_by = \"mk\" }}\n\
             [[spec]]\nof = \"battery.kind\"\ntext = \"AGM\"\npage = \"1\"\n\
             [[spec]]\nof = \"battery.cca\"\nsetting = [\"{cold} A CCA\"]\npage = \"1\"\n\
             [[spec]]\nof = \"battery.capacity\"\nsetting = [\"{capacity}.6 A·h\"]\npage = \"1\"\n"
        );
        base.insert(format!("engines/quarrick/fleet-{count}.toml"), Content::Bytes(engine.into_bytes()));
    }
    let examined = shared::examine(base);
    let found = of_rule(&examined, "relation-broken");
    let shown = shared::printed(&examined.findings, &examined.sources);
    assert_eq!(found.len(), 1, "{shown}");
    assert_eq!(examined.sources.slice(found[0].span), "\"1.6 A·h\"", "{shown}");
    assert!(
        found[0]
            .help
            .contains("`battery.capacity` is the odd one out: 4 other engines have `14.6 A·h` to `30.6 A·h`"),
        "{shown}"
    );
}

/// A tolerance printed finer than its value is odd among few, and sooner than one that is printed as pages print it.
#[test]
fn a_tolerance_finer_than_its_value_is_odd_among_few() {
    let supply = |third: &str| {
        let mut base = shared::rule_base();
        let entry = "\n[[entry]]\nid = \"sensor.supply\"\ntitle = \"Sensor supply\"\nkind = \"voltage\"\nforms = [\"window\"]\naxes = { pin = [\"1\", \"2\", \"3\"] }\n";
        let Some(Content::Bytes(catalogue)) = base.get_mut("catalogue/top-end.toml") else {
            panic!("no catalogue")
        };
        catalogue.extend_from_slice(entry.as_bytes());
        let engine = "engines/quarrick/engine-a.toml";
        let Some(Content::Bytes(bytes)) = base.get_mut(engine) else { panic!("no {engine}") };
        for (pin, window) in ["5.0 ± 0.1 V", "5.0 ± 0.2 V", third].iter().enumerate() {
            let pin = pin + 1;
            bytes.extend_from_slice(
                format!("\n[[spec]]\nof = \"sensor.supply\"\nwhere = {{ pin = \"{pin}\" }}\nwindow = [\"{window}\"]\npage = \"1\"\n")
                    .as_bytes(),
            );
        }
        of_rule(&shared::examine(base), "tolerance-unlike-peers").len()
    };
    assert_eq!(supply("5.0 ± 0.02 V"), 1);
    assert_eq!(supply("5.00 ± 0.02 V"), 0);
    assert_eq!(supply("5.0 ± 0.05 V"), 0);
}
