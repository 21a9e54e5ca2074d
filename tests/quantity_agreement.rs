//! How printed forms agree, how a value is given in another unit, and what a slip was meant to be.

use baybook::quantity::{
    ConvertError, Grade, PartName, Rounding, Side, Slip, Unit, Value, Witness, convert, decimal_text,
    disagreement, exact_text, grade, likely_slips, parse_exact, power_of_ten, round_to,
};

fn value(text: &str) -> Value {
    Value::parse(text).unwrap_or_else(|error| panic!("{text}: {error}: {}", error.help()))
}

fn graded(primary: &str, secondary: &str) -> Option<Grade> {
    grade(&value(primary), &value(secondary))
}

fn converted(text: &str, unit: &str) -> String {
    convert(&value(text), Unit::parse(unit).unwrap()).unwrap().text
}

use Grade::{Conflict, Loose, Strict};

/// Each pair worked out with exact rationals from the definitions of the units.
#[test]
fn printed_pairs_grade_as_worked_out_by_hand() {
    for (primary, secondary, expected) in [
        ("12 N·m", "8.9 lbf·ft", Strict),
        ("12 N·m", "8.7 lbf·ft", Loose),
        ("12 N·m", "106 lbf·in", Strict),
        ("12 N·m", "104 lbf·in", Loose),
        ("12 N·m", "9 lbf·in", Conflict),
        ("25 N·m", "18 lbf·ft", Strict),
        ("25 N·m", "19 lbf·ft", Loose),
        ("25 N·m", "34 lbf·ft", Conflict),
        ("1.2 kgf·m", "12 N·m", Strict),
        ("294 kPa", "43 psi", Strict),
        ("294 kPa", "42 psi", Conflict),
        ("0.15 mm", "0.006 in", Strict),
        ("0.15 mm", "0.0059 in", Strict),
        ("0.15 mm", "0.0060 in", Loose),
        ("900 mL", "0.95 US qt", Strict),
        ("900 mL", "0.79 Imp qt", Strict),
        ("900 mL", "30.4 US fl oz", Strict),
        // Going back is no test: 18 lbf·ft alone would be 24 N·m.
        ("18 lbf·ft", "25 N·m", Loose),
        ("18 lbf·ft", "24 N·m", Strict),
        ("36 ft", "11.0 m", Strict),
        ("35 °C", "95 °F", Strict),
        ("-40 °C", "-40 °F", Strict),
        ("10 K", "18 Δ°F", Strict),
        ("1/4 in", "6.35 mm", Strict),
        ("6.35 mm", "1/4 in", Strict),
        ("8 mm", "5/16 in", Loose),
        ("1/3 turn", "1/3 turn", Strict),
        ("12 mm", "1.3 cm", Conflict),
        ("6 months", "26 weeks", Strict),
    ] {
        assert_eq!(graded(primary, secondary), Some(expected), "{primary} and {secondary}");
    }
}

#[test]
fn windows_are_compared_part_by_part() {
    for (primary, secondary, expected) in [
        ("0.20 ± 0.05 mm", "0.008 ± 0.002 in", Strict),
        ("0.20 ± 0.05 mm", "0.008 ± 0.003 in", Conflict),
        ("0.15..0.25 mm", "0.006..0.010 in", Strict),
        ("0.20 ± 0.05 mm", "0.006..0.010 in", Strict),
        ("0.15..0.25 mm", "0.008 ± 0.002 in", Strict),
        ("82 ± 2 °C", "180 ± 4 °F", Strict),
        ("82 ± 2 °C", "180 ± 36 °F", Conflict),
        ("82 ± 2 °C", "176..183 °F", Strict),
        ("max 0.10 mm", "max 0.004 in", Strict),
        ("max 0.10 mm", "min 0.004 in", Conflict),
        ("max 0.10 mm", "0.004 in", Conflict),
        ("0.15..0.25 mm", "max 0.010 in", Conflict),
        ("under 35 °C", "under 95 °F", Strict),
        ("under 35 °C", "max 95 °F", Loose),
        ("20 +2/-1 mm", "0.79 +0.08/-0.04 in", Strict),
        ("20 +2/-1 mm", "0.79 ± 0.08 in", Conflict),
        ("2.45 kΩ ± 10 %", "2450 Ω ± 10 %", Strict),
        ("2.45 kΩ ± 10 %", "2450 Ω ± 5 %", Conflict),
        ("2.45 kΩ ± 10 %", "2205..2695 Ω", Strict),
        ("20 N·m", "14..16 lbf·ft", Conflict),
    ] {
        assert_eq!(graded(primary, secondary), Some(expected), "{primary} and {secondary}");
    }
    for (primary, secondary) in [("12 N·m", "12 J"), ("35 °C", "35 K"), ("15 teeth", "15 steps")] {
        assert_eq!(graded(primary, secondary), None, "{primary} and {secondary}");
    }
}

#[test]
fn a_disagreement_points_at_the_number_and_says_what_is_due() {
    let text = "0.008 ± 0.003 in";
    let part = disagreement(&value("0.20 ± 0.05 mm"), &value(text)).unwrap();
    assert_eq!((part.name, part.grade), (PartName::Plus, Conflict));
    assert_eq!(&text[part.range], "0.003");
    assert_eq!(part.expected.as_deref(), Some("0.001969"));
    assert_eq!(part.printed.as_deref(), Some("0.003"));

    let text = "0.0079 ± 0.0020 in";
    let part = disagreement(&value("0.20 +0.05/-0.10 mm"), &value(text)).unwrap();
    assert_eq!((part.name, &text[part.range]), (PartName::Minus, "0.0020"));

    let part = disagreement(&value("12 N·m"), &value("9 lbf·in")).unwrap();
    assert_eq!(part.expected.as_deref(), Some("106.209"));

    let text = "0.006..0.01 in";
    let part = disagreement(&value("0.15..0.50 mm"), &value(text)).unwrap();
    assert_eq!((part.name, &text[part.range]), (PartName::Maximum, "0.01"));

    let part = disagreement(&value("0.15..0.25 mm"), &value("max 0.010 in")).unwrap();
    assert_eq!((part.name, part.printed), (PartName::Minimum, None));
    assert_eq!(part.expected.as_deref(), Some("0.005906"));

    let part = disagreement(&value("max 0.25 mm"), &value("0.006..0.010 in")).unwrap();
    assert_eq!((part.name, part.expected), (PartName::Minimum, None));

    let part = disagreement(&value("25 N·m"), &value("19 lbf·ft")).unwrap();
    assert_eq!((part.grade, part.expected.as_deref()), (Loose, Some("18.439")));
    assert_eq!(disagreement(&value("25 N·m"), &value("18 lbf·ft")), None);
    assert_eq!(disagreement(&value("25 N·m"), &value("18 J")), None);
}

/// ASME A112.18.1/CSA B125.1-2018 Annex A: half to even. Ontario LS-100: in one step only.
#[test]
fn numbers_round_half_to_even_in_one_step() {
    let round = |text: &str, decimals: u32| decimal_text(&parse_exact(text).unwrap(), decimals);
    assert_eq!(round("1.655000", 2), "1.66");
    assert_eq!(round("1.625000", 2), "1.62");
    assert_eq!(round("1.347", 1), "1.3");
    assert_eq!(round("-1.625", 2), "-1.62");
    assert_eq!(round("0.5", 0), "0");
    assert_eq!(round("-0.4", 0), "0");
    assert_eq!(round("2.5", 0), "2");
    assert_eq!(round("3.5", 0), "4");
    let tens = |text: &str, way| exact_text(&round_to(&parse_exact(text).unwrap(), &power_of_ten(1), way));
    assert_eq!(tens("25", Rounding::HalfEven), "20");
    assert_eq!(tens("21", Rounding::Up), "30");
    assert_eq!(tens("-21", Rounding::Up), "-20");
    assert_eq!(tens("-21", Rounding::Down), "-30");
}

/// The first three are pinned by the design; the fourth is NIST SP 811 (2008) B.7.2.
#[test]
fn a_shown_window_stays_inside_the_real_one() {
    for (text, unit, shown) in [
        ("58 ± 2 psi", "kPa", "387..413 kPa"),
        ("0.15..0.25 mm", "in", "0.0060..0.0098 in"),
        ("0.20 ± 0.05 mm", "mm", "0.15..0.25 mm"),
        ("36 ft", "m", "11.0 m"),
        ("25 N·m", "lbf·ft", "18.4 lbf·ft"),
        ("12 N·m", "lbf·in", "106 lbf·in"),
        ("6.35 mm", "in", "0.2500 in"),
        ("1/4 in", "mm", "6.4 mm"),
        ("2 bar", "kPa", "200 kPa"),
        ("1 m", "mm", "1000 mm"),
        ("1 ft", "mm", "300 mm"),
        ("min 9.6 V", "mV", "min 9600 mV"),
        ("max 0.10 mm", "in", "max 0.0039 in"),
        ("under 35 °C", "°F", "under 95 °F"),
        ("over 80 °C", "°F", "over 176 °F"),
        ("82 ± 2 °C", "°F", "176..183 °F"),
        ("-40 °C", "°F", "-40 °F"),
        ("2.45 kΩ ± 10 %", "Ω", "2210..2690 Ω"),
        ("20 +2/-1 mm", "in", "0.75..0.86 in"),
        ("+90°", "°", "+90°"),
        ("9.5:1", ":1", "9.5:1"),
        ("-0.3..0.3 mm", "in", "-0.011..0.011 in"),
        ("40 psi ± 0.01 %", "kPa", "275.8..275.8 kPa"),
        ("1 year", "months", "10 months"),
    ] {
        assert_eq!(converted(text, unit), shown, "{text} in {unit}");
    }
}

#[test]
fn a_conversion_carries_its_exact_limits() {
    let unit = Unit::parse("in").unwrap();
    let shown = convert(&value("0.15..0.25 mm"), unit).unwrap();
    assert_eq!((shown.min.as_deref(), shown.max.as_deref()), (Some("0.0060"), Some("0.0098")));
    assert_eq!(exact_text(&shown.exact_min.unwrap()), "3/508");
    assert_eq!(exact_text(&shown.exact_max.unwrap()), "5/508");
    let single = convert(&value("25.4 mm"), unit).unwrap();
    assert_eq!((single.min.as_deref(), single.max.as_deref()), (Some("1.000"), Some("1.000")));
    let one_sided = convert(&value("max 25.4 mm"), unit).unwrap();
    assert_eq!((one_sided.min, one_sided.exact_min), (None, None));
}

#[test]
fn what_does_not_convert_says_why() {
    let refusal = |text: &str, unit: &str| convert(&value(text), Unit::parse(unit).unwrap()).unwrap_err();
    assert_eq!(refusal("12 N·m", "J").to_string(), "N·m (torque) does not convert into J (energy)");
    assert_eq!(refusal("15 teeth", "steps").to_string(), "teeth do not convert into steps");
    assert!(matches!(refusal("1..1 psi", "kPa"), ConvertError::TooNarrow { .. }));
}

/// The slip that is thought likeliest if it is the secondary that is wrong.
fn in_secondary(primary: &str, secondary: &str) -> Option<Slip> {
    let slips = likely_slips(&value(primary), &value(secondary), &[]);
    slips.into_iter().find(|slip| slip.side == Side::Secondary)
}

#[rustfmt::skip] // One slip a line.
#[test]
fn a_slip_is_named_and_mended() {
    for (primary, secondary, what, offer) in [
        ("12 N·m", "9 lbf·in", "lbf·ft was meant", "9 lbf·ft"),
        ("12 N·m", "106 lbf·ft", "lbf·in was meant", "106 lbf·in"),
        ("25 N·m", "2.5 N·cm", "kgf·m was meant", "2.5 kgf·m"),
        ("400 kPa", "4.0 kPa", "bar was meant", "4.0 bar"),
        ("400 kPa", "58 kPa", "psi was meant", "58 psi"),
        ("900 mL", "0.95 Imp qt", "US qt was meant", "0.95 US qt"),
        ("20 °C", "20 °F", "the number was not converted", "68 °F"),
        ("58 ± 2 psi", "58 ± 2 kPa", "the number was not converted", "387..413 kPa"),
        ("0.20 mm", "0.08 in", "the decimal point moved", "0.008 in"),
        ("0.20 ± 0.05 mm", "0.08 ± 0.02 in", "the decimal point moved", "0.008 ± 0.002 in"),
        ("0.20 ± 0.05 mm", "0.008 ± 0.02 in", "the decimal point moved", "0.008 ± 0.002 in"),
        ("25 N·m", "180 lbf·ft", "the decimal point moved", "18 lbf·ft"),
        ("24.4 N·m", "180 lbf·ft", "the decimal point moved", "18.0 lbf·ft"),
        ("25 N·m", "81 lbf·ft", "digits were swapped", "18 lbf·ft"),
        ("98 N·m", "722 lbf·ft", "a digit is doubled", "72 lbf·ft"),
        ("150 N·m", "11 lbf·ft", "a digit is missing", "111 lbf·ft"),
        ("60 N·m", "94 lbf·ft", "one digit differs", "44 lbf·ft"),
        ("0.15..0.25 mm", "0.006..0.018 in", "one digit differs", "0.006..0.010 in"),
    ] {
        let slip = in_secondary(primary, secondary);
        let slip = slip.unwrap_or_else(|| panic!("{primary} and {secondary}: no slip"));
        assert_eq!((slip.what.as_str(), slip.offer.as_str()), (format!("{what}: {primary} is {offer}").as_str(), offer));
        assert_ne!(graded(primary, &slip.offer), Some(Conflict), "{primary} and {offer}");
    }
}

#[test]
fn a_unit_that_fits_only_roughly_says_so() {
    let slip = in_secondary("25 N·m", "19 lbf·in").unwrap();
    assert_eq!(slip.what, "lbf·ft was meant: 25 N·m is about 19 lbf·ft");
}

#[test]
fn no_slip_is_made_up() {
    for (primary, secondary) in
        [("25 N·m", "18 lbf·ft"), ("25 N·m", "19 lbf·ft"), ("25 N·m", "18 J"), ("25 N·m", "937.2 lbf·ft")]
    {
        let slips = likely_slips(&value(primary), &value(secondary), &[]);
        assert_eq!(slips, [], "{primary}, {secondary}");
    }
    // The step of this conversion is so coarse that what it shows would itself conflict.
    assert_eq!(in_secondary("min 3 lbf·ft", "min 3 N·cm"), None);
}

#[test]
fn either_form_may_be_the_wrong_one_and_a_witness_tells() {
    let (primary, secondary) = (value("120 N·m"), value("8.9 lbf·ft"));
    let sides = |witnesses: &[Witness<'_>]| -> Vec<(Side, String)> {
        let slips = likely_slips(&primary, &secondary, witnesses);
        slips.into_iter().map(|slip| (slip.side, slip.offer)).collect()
    };
    let low = [(Side::Primary, "12 N·m".to_owned()), (Side::Secondary, "89 lbf·ft".to_owned())];
    let high = [low[1].clone(), low[0].clone()];
    assert_eq!(sides(&[Witness::Plausible(&value("5..30 N·m"))]), low);
    assert_eq!(sides(&[Witness::Plausible(&value("50..300 N·m"))]), high);
    assert_eq!(sides(&[Witness::Again(&value("1.22 kgf·m"), "a further printed form")]), low);
    assert_eq!(sides(&[Witness::Again(&value("12.2 kgf·m"), "a further printed form")]), high);
    assert_eq!(sides(&[Witness::Like(vec![&value("14 N·m")], "the rear")]), low);
    let slips = likely_slips(&primary, &secondary, &[Witness::Plausible(&value("5..30 N·m"))]);
    let because = slips[0].because.as_deref();
    assert_eq!(because, Some("12 N·m is plausible, 120 N·m is not (5..30 N·m)"));
}

#[rustfmt::skip] // One slip a line.
#[test]
fn what_the_other_form_has_and_this_one_lost_is_offered() {
    for (primary, secondary, side, offer) in [
        ("0.20 ± 0.05 mm", "0.008 in", Side::Secondary, "0.008 ± 0.002 in"),
        ("0.20 mm", "0.008 ± 0.002 in", Side::Primary, "0.20 ± 0.05 mm"),
        ("0.15..0.25 mm", "max 0.010 in", Side::Secondary, "0.006..0.010 in"),
        ("min 9.6 mm", "max 0.378 in", Side::Secondary, "min 0.378 in"),
        ("max 0.10 mm", "0.004 in", Side::Secondary, "max 0.004 in"),
    ] {
        let slips = likely_slips(&value(primary), &value(secondary), &[]);
        let found = slips.iter().find(|slip| slip.side == side).map(|slip| slip.offer.as_str());
        assert_eq!(found, Some(offer), "{primary}, {secondary}");
    }
}
