//! The table of units against published sizes and codes.

use baybook::quantity::{Exact, Kind, Unit, UnitError, exact_text, parse_exact};

fn unit(text: &str) -> Unit {
    Unit::parse(text).unwrap_or_else(|error| panic!("{text}: {}", error.message(text)))
}

fn exact(text: &str) -> Exact {
    parse_exact(text).unwrap_or_else(|| panic!("{text} is no number"))
}

/// Symbol, size, SI unit, UCUM code, UNECE code.
type Published = (&'static str, &'static str, &'static str, Option<&'static str>, Option<&'static str>);

/// Sizes: the international yard and pound agreement of 1959 (1 in = 25.4 mm, 1 lb = 0.45359237 kg)
/// and `g_n` = 9.80665 m/s², as in UCUM essence 2.2; NIST SP 811 Appendix B.8 agrees to its six digits
/// (values from memory). Codes: UCUM essence 2.2 and UNECE Recommendation 20. The horsepower and
/// the gallons are exact by definition: 550 ft·lbf/s, 231 in³ and 4.54609 L.
#[rustfmt::skip] // A table to be compared with the published ones.
const PUBLISHED: &[Published] = &[
    ("in", "127/5000", "m", Some("[in_i]"), Some("INH")),
    ("thou", "127/5000000", "m", Some("[mil_i]"), Some("77")),
    ("ft", "381/1250", "m", Some("[ft_i]"), Some("FOT")),
    ("lbf", "8896443230521/2000000000000", "N", Some("[lbf_av]"), Some("C78")),
    ("kgf", "196133/20000", "N", Some("kgf"), Some("B37")),
    ("lbf·ft", "3389544870828501/2500000000000000", "N·m", Some("[ft_i].[lbf_av]"), Some("M92")),
    ("lbf·in", "1129848290276167/10000000000000000", "N·m", Some("[in_i].[lbf_av]"), Some("F21")),
    ("kgf·m", "196133/20000", "N·m", Some("kgf.m"), Some("B38")),
    ("kgf·cm", "196133/2000000", "N·m", Some("kgf.cm"), None),
    ("psi", "8896443230521/1290320000", "Pa", Some("[psi]"), Some("PS")),
    ("bar", "100000", "Pa", Some("bar"), Some("BAR")),
    ("kPa", "1000", "Pa", Some("kPa"), Some("KPA")),
    ("MPa", "1000000", "Pa", Some("MPa"), Some("MPA")),
    ("kgf/cm²", "196133/2", "Pa", Some("kgf/cm2"), Some("E42")),
    ("mmHg", "133.322387415", "Pa", Some("mm[Hg]"), Some("HN")),
    ("inHg", "3386.388640341", "Pa", Some("[in_i'Hg]"), Some("F79")),
    ("inH2O", "249.08891", "Pa", Some("[in_i'H2O]"), Some("F78")),
    ("US gal", "0.003785411784", "m³", Some("[gal_us]"), Some("GLL")),
    ("US qt", "0.000946352946", "m³", Some("[qt_us]"), Some("QTL")),
    ("US fl oz", "0.0000295735295625", "m³", Some("[foz_us]"), Some("OZA")),
    ("Imp gal", "0.00454609", "m³", Some("[gal_br]"), Some("GLI")),
    ("Imp qt", "0.0011365225", "m³", Some("[qt_br]"), Some("QTI")),
    ("Imp fl oz", "0.0000284130625", "m³", Some("[foz_br]"), Some("OZI")),
    ("cm³", "0.000001", "m³", Some("cm3"), Some("CMQ")),
    ("in³", "0.000016387064", "m³", Some("[cin_i]"), Some("INQ")),
    ("hp", "745.69987158227022", "W", Some("[HP]"), None),
    ("PS", "735.49875", "W", Some("75.kgf.m/s"), Some("HJ")),
    ("rpm", "1", "rpm", Some("{rev}/min"), Some("RPM")),
    ("°C", "1", "K", Some("Cel"), Some("CEL")),
    ("°F", "5/9", "K", Some("[degF]"), Some("FAH")),
    ("V", "1", "V", Some("V"), Some("VLT")),
    ("mV", "0.001", "V", Some("mV"), Some("2Z")),
    ("Ω", "1", "Ω", Some("Ohm"), Some("OHM")),
    ("kΩ", "1000", "Ω", Some("kOhm"), Some("B49")),
    ("A", "1", "A", Some("A"), Some("AMP")),
    ("mA", "0.001", "A", Some("mA"), Some("4K")),
    ("A·h", "3600", "C", Some("A.h"), Some("AMH")),
];

#[test]
fn sizes_and_codes_are_the_published_ones() {
    for &(symbol, size, si, ucum, unece) in PUBLISHED {
        let unit = unit(symbol);
        assert_eq!(unit.symbol(), symbol);
        assert_eq!(unit.factor(), exact(size), "{symbol}");
        assert_eq!(unit.kind().si_symbol(), si, "{symbol}");
        assert_eq!(unit.ucum(), ucum, "{symbol}");
        assert_eq!(unit.unece(), unece, "{symbol}");
    }
}

/// The derived sizes worked out again from inch, pound, `g_n` and gallon alone.
#[test]
fn derived_sizes_follow_from_their_definitions() {
    let (inch, foot) = (exact("0.0254"), exact("0.3048"));
    let gravity = exact("9.80665");
    let pound = exact("0.45359237");
    let lbf = &pound * &gravity;
    let minute = exact("60");
    let us_gallon = exact("231") * &inch * &inch * &inch;
    let imperial_gallon = exact("0.00454609");
    for (symbol, size) in [
        ("lbf", lbf.clone()),
        ("lbf·ft", &lbf * &foot),
        ("lbf·in", &lbf * &inch),
        ("psi", &lbf / (&inch * &inch)),
        ("lbf/in", &lbf / &inch),
        ("hp", exact("550") * &foot * &lbf),
        ("PS", exact("75") * &gravity),
        ("kgf/mm", exact("1000") * &gravity),
        ("mmHg", exact("13.5951") * &gravity),
        ("inHg", exact("13595.1") * &gravity * &inch),
        ("cmHg", exact("135.951") * &gravity),
        ("inH2O", exact("1000") * &gravity * &inch),
        ("mmH2O", gravity.clone()),
        ("lbm", pound.clone()),
        ("ozm", &pound / exact("16")),
        ("mi", exact("5280") * &foot),
        ("mph", exact("5280") * &foot / exact("3600")),
        ("in²", &inch * &inch),
        ("in³", &inch * &inch * &inch),
        ("US gal", us_gallon.clone()),
        ("US qt", &us_gallon / exact("4")),
        ("US pt", &us_gallon / exact("8")),
        ("US fl oz", &us_gallon / exact("128")),
        ("US gal/min", &us_gallon / &minute),
        ("US gal/h", &us_gallon / exact("3600")),
        ("Imp gal/min", &imperial_gallon / &minute),
        ("Imp qt", &imperial_gallon / exact("4")),
        ("Imp pt", &imperial_gallon / exact("8")),
        ("Imp fl oz", &imperial_gallon / exact("160")),
        ("Δ°F", exact("5/9")),
        ("years", exact("365.25")),
        ("months", exact("365.25") / exact("12")),
    ] {
        assert_eq!(unit(symbol).factor(), size, "{symbol}");
    }
    for absolute in Unit::of(Kind::AbsolutePressure) {
        let gauge = unit(absolute.symbol().trim_end_matches(" abs"));
        assert_eq!(absolute.factor(), gauge.factor(), "{absolute}");
    }
}

/// Fixed points of the scales: freezing and boiling water, and where they meet.
#[test]
fn temperatures_have_an_offset_and_differences_none() {
    let (celsius, fahrenheit) = (unit("°C"), unit("°F"));
    let to_fahrenheit = |text: &str| exact_text(&fahrenheit.from_si(&celsius.to_si(&exact(text))));
    assert_eq!(to_fahrenheit("0"), "32");
    assert_eq!(to_fahrenheit("100"), "212");
    assert_eq!(to_fahrenheit("-40"), "-40");
    assert_eq!(exact_text(&celsius.to_si(&exact("0"))), "273.15");
    let difference = unit("Δ°F").from_si(&unit("K").to_si(&exact("10")));
    assert_eq!(exact_text(&difference), "18");
    assert!(!celsius.converts_to(unit("K")));
}

/// Ratios by which a wrong unit shows (computed from the definitions, rounded as printed).
#[test]
fn the_ratios_of_common_mix_ups_are_as_known() {
    for (from, to, ratio, decimals) in [
        ("lbf·ft", "lbf·in", "12", 0),
        ("lbf·ft", "N·m", "1.3558179", 7),
        ("N·m", "lbf·in", "8.8507", 4),
        ("kgf·m", "N·m", "9.80665", 5),
        ("kgf·m", "lbf·ft", "7.2330", 4),
        ("psi", "kPa", "6.894757", 6),
        ("bar", "psi", "14.50377", 5),
        ("in", "mm", "25.4", 1),
        ("Imp qt", "US qt", "1.20095", 5),
    ] {
        let found = unit(to).from_si(&unit(from).to_si(&exact("1")));
        assert_eq!(baybook::quantity::decimal_text(&found, decimals), ratio, "{from} to {to}");
    }
}

#[test]
fn every_unit_reads_back_and_comes_home() {
    let sample = exact("12345.678");
    let mut symbols = std::collections::BTreeSet::new();
    for unit in Unit::all() {
        assert!(symbols.insert(unit.symbol()), "{unit} twice");
        assert_eq!(Unit::parse(unit.symbol()), Ok(unit));
        assert_eq!(Unit::parse(unit.spoken()), Ok(unit));
        assert_eq!(unit.from_si(&unit.to_si(&sample)), sample, "{unit}");
        assert!(unit.ucum().is_some(), "{unit} has no UCUM code");
        if let Some(other) = unit.counterpart() {
            assert_ne!(other, unit);
            assert!(unit.converts_to(other), "{unit} beside {other}");
        }
    }
}

#[test]
fn the_unit_beside_is_the_one_a_shop_wants() {
    for (unit_text, beside) in [
        ("mm", "in"),
        ("in", "mm"),
        ("N·m", "lbf·ft"),
        ("lbf·ft", "N·m"),
        ("lbf·in", "N·m"),
        ("kgf·m", "N·m"),
        ("kPa", "psi"),
        ("psi", "kPa"),
        ("bar", "psi"),
        ("kgf/cm²", "kPa"),
        ("°C", "°F"),
        ("°F", "°C"),
        ("L", "US qt"),
        ("mL", "US fl oz"),
        ("kg", "lbm"),
        ("km", "mi"),
        ("kW", "hp"),
    ] {
        assert_eq!(unit(unit_text).counterpart(), Some(unit(beside)), "{unit_text}");
    }
    assert_eq!(unit("rpm").counterpart(), None);
    // Every counterpart named in the table exists.
    let named = Unit::all().filter(|unit| unit.counterpart().is_some()).count();
    assert!(named > 50, "only {named} units have one beside them");
}

/// Kinds that share a dimension stay apart (common practice, no source).
#[test]
fn what_must_not_be_mixed_up_does_not_convert() {
    for (left, right) in [
        ("N·m", "J"),
        ("kPa", "kPa abs"),
        ("°C", "K"),
        ("A CCA", "A CA"),
        ("A CCA", "A MCA"),
        ("A CA", "A MCA"),
        ("A", "A CCA"),
        ("V", "V~"),
        ("V~", "V peak"),
        ("h", "months"),
        ("°", "turns"),
        ("kg", "kgf"),
        ("lbm", "lbf"),
        ("ozm", "US fl oz"),
        ("teeth", "steps"),
        ("rpm", "Hz"),
        ("%", ":1"),
    ] {
        assert!(!unit(left).converts_to(unit(right)), "{left} and {right}");
        assert!(!unit(right).converts_to(unit(left)), "{right} and {left}");
    }
}

#[test]
fn kinds_are_found_by_the_names_the_spec_base_uses() {
    for kind in Kind::all() {
        assert_eq!(Kind::parse(kind.name()), Some(*kind));
        let id = |letter: char| letter.is_ascii_lowercase() || letter == '-';
        assert!(kind.name().chars().all(id), "{kind}");
        assert!(Unit::of(*kind).next().is_some(), "no unit of {kind}");
        assert!(kind.explain().ends_with('.') && !kind.title().is_empty());
        let si = kind.si_symbol();
        if let Ok(unit) = Unit::parse(si) {
            let temperature = *kind == Kind::Temperature;
            let same = unit.kind() == *kind || temperature || si == "V" || si == "A" || si == "Pa";
            assert!(same, "{kind}: {si} is a unit of {}", unit.kind());
        }
    }
    assert_eq!(Kind::parse("Torque"), None);
}

#[test]
fn codes_that_mislead_are_not_used() {
    for unit in Unit::all() {
        assert!(!matches!(unit.ucum(), Some("cc" | "rpm" | "psi" | "[lb_av].[ft_i]")), "{unit}");
        // M43 is the mil of angle, not the thousandth of an inch (UNECE Rec 20).
        assert_ne!(unit.unece(), Some("M43"), "{unit}");
    }
}

#[test]
fn an_unknown_unit_suggests_only_what_is_close() {
    let near = |text: &str| match Unit::parse(text) {
        Err(UnitError::Unknown { near }) => near.map(Unit::symbol),
        other => panic!("{text}: {other:?}"),
    };
    assert_eq!(near("nm"), Some("N·m"));
    assert_eq!(near("kpascal"), Some("Pa"));
    assert_eq!(near("milimetres"), Some("mm"));
    assert_eq!(near("lbf·fft"), Some("lbf·ft"));
    assert_eq!(near("mOHM"), None, "a milliohm and a megohm differ by their capital alone");
    assert_eq!(near("xy"), None);
    assert_eq!(near(""), None);
    assert_eq!(near(&"m".repeat(10_000)), None);
}
