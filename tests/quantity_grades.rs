//! How two printed forms agree, and how a value is given in another unit.

use baybook::quantity::{Grade, Unit, Value, convert, grade, likely_slip};

fn value(text: &str) -> Value {
    Value::parse(text).unwrap_or_else(|error| panic!("{text}: {error}: {}", error.help()))
}

fn graded(primary: &str, secondary: &str) -> Option<Grade> {
    grade(&value(primary), &value(secondary))
}

fn converted(text: &str, unit: &str) -> String {
    convert(&value(text), Unit::parse(unit).unwrap()).unwrap().text
}

/// Computed with exact rationals from the units' definitions.
#[test]
fn printed_pairs_grade_as_worked_out_by_hand() {
    use Grade::{Conflict, Loose, Strict};
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
    ] {
        assert_eq!(graded(primary, secondary), Some(expected), "{primary} and {secondary}");
    }
    assert_eq!(graded("12 N·m", "12 J"), None);
}

#[test]
fn a_shown_window_stays_inside_the_real_one() {
    assert_eq!(converted("58 ± 2 psi", "kPa"), "387..413 kPa");
    assert_eq!(converted("0.15..0.25 mm", "in"), "0.0060..0.0098 in");
    assert_eq!(converted("36 ft", "m"), "11.0 m");
    assert_eq!(converted("under 35 °C", "°F"), "under 95 °F");
}

#[test]
fn a_slip_is_named() {
    let slip = likely_slip(&value("12 N·m"), &value("9 lbf·in")).unwrap();
    assert_eq!(slip.offer, "9 lbf·ft");
    assert_eq!(slip.what, "lbf·ft was meant: 12 N·m is 9 lbf·ft");
    let slip = likely_slip(&value("0.20 mm"), &value("0.08 in")).unwrap();
    assert_eq!(slip.offer, "0.008 in");
}
