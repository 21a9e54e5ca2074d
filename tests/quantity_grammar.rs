//! Every way of writing a value that is accepted, and what is said of those that are not.

use baybook::quantity::{Kind, Shape, Unit, UnitError, Value, ValueError, ValueProblem};

fn value(text: &str) -> Value {
    Value::parse(text).unwrap_or_else(|error| panic!("{text}: {error}: {}", error.help()))
}

fn refused(text: &str) -> ValueError {
    match Value::parse(text) {
        Ok(value) => panic!("{text} was read as {value}"),
        Err(error) => error,
    }
}

/// The canonical text is what `tidy` writes.
#[test]
fn accepted_spellings_are_led_to_one_text() {
    for (text, canonical) in [
        // Shapes.
        ("20 N·m", "20 N·m"),
        ("0.20 ± 0.05 mm", "0.20 ± 0.05 mm"),
        ("0.20 +/- 0.05 mm", "0.20 ± 0.05 mm"),
        ("0.20+-0.05mm", "0.20 ± 0.05 mm"),
        ("0.15..0.25 mm", "0.15..0.25 mm"),
        ("0.15 to 0.25 mm", "0.15..0.25 mm"),
        ("0.15–0.25 mm", "0.15..0.25 mm"),
        ("0.15 – 0.25 mm", "0.15..0.25 mm"),
        ("0.15 … 0.25 mm", "0.15..0.25 mm"),
        ("-10 to +40 °C", "-10..40 °C"),
        ("−10..−5 °C", "-10..-5 °C"),
        ("min 9.6 V", "min 9.6 V"),
        ("Min. 9.6 V", "min 9.6 V"),
        ("max 0.10 mm", "max 0.10 mm"),
        ("MAX 0.10 mm", "max 0.10 mm"),
        ("under 35 °C", "under 35 °C"),
        ("over 80 °C", "over 80 °C"),
        ("20 +2/-1 mm", "20 +2/-1 mm"),
        ("20 +2 / −1 mm", "20 +2/-1 mm"),
        ("20 +2 -1 mm", "20 +2/-1 mm"),
        ("20 -1/+2 mm", "20 +2/-1 mm"),
        ("20 +2/-2 mm", "20 ± 2 mm"),
        ("20 +2.0/-2 mm", "20 +2.0/-2 mm"),
        ("2.45 kΩ ± 10 %", "2.45 kΩ ± 10 %"),
        ("2.45kohm+/-10%", "2.45 kΩ ± 10 %"),
        ("50 ± 5 %", "50 ± 5 %"),
        ("+90°", "+90°"),
        ("+ 90 °", "+90°"),
        ("+1/4 turn", "+1/4 turns"),
        ("90 °", "90°"),
        ("+20 °C", "20 °C"),
        // Numbers.
        (".028 in", "0.028 in"),
        ("0.20 mm", "0.20 mm"),
        ("1/4 in", "1/4 in"),
        ("1/4in.", "1/4 in"),
        ("1⁄4\"", "1/4 in"),
        ("2 1/2 turns", "2 1/2 turns"),
        ("2½ turns", "2 1/2 turns"),
        ("¼ in", "1/4 in"),
        ("−40 °C", "-40 °C"),
        ("-0 °C", "0 °C"),
        ("9.5:1", "9.5:1"),
        ("9.5 : 1", "9.5:1"),
        ("8.5..9.5:1", "8.5..9.5:1"),
        // Units.
        ("320 ohm", "320 Ω"),
        ("320 \u{2126}", "320 Ω"),
        ("12 Nm", "12 N·m"),
        ("12 N.m", "12 N·m"),
        ("12 N-m", "12 N·m"),
        ("12 N⋅m", "12 N·m"),
        ("12 N•m", "12 N·m"),
        ("12\u{a0}N\u{2009}m", "12 N·m"),
        ("9 lbf-ft", "9 lbf·ft"),
        ("9 ft-lb", "9 lbf·ft"),
        ("9 ft·lbf", "9 lbf·ft"),
        ("9 lb-ft", "9 lbf·ft"),
        ("9 ft-lbf", "9 lbf·ft"),
        ("9 ft. lbs.", "9 lbf·ft"),
        ("106 in-lb", "106 lbf·in"),
        ("106 lb-in", "106 lbf·in"),
        ("106 in.-lbs", "106 lbf·in"),
        ("1.2 kg-m", "1.2 kgf·m"),
        ("5 μm", "5 µm"),
        ("5 um", "5 µm"),
        ("35 degC", "35 °C"),
        ("35 ° C", "35 °C"),
        ("35℃", "35 °C"),
        ("95 ºF", "95 °F"),
        ("8 thou", "8 thou"),
        ("887 cc", "887 cm³"),
        ("887 cm^3", "887 cm³"),
        ("54 cu in", "54 in³"),
        ("4.0 kg/cm2", "4.0 kgf/cm²"),
        ("101 kPa (abs)", "101 kPa abs"),
        ("14.7 psia", "14.7 psi abs"),
        ("22 VAC", "22 V~"),
        ("180 V peak", "180 V peak"),
        ("18 Ah", "18 A·h"),
        ("310 CCA", "310 A CCA"),
        ("1300 r/min", "1300 rpm"),
        ("250 ml/min", "250 mL/min"),
        ("1.9 U.S. qt", "1.9 US qt"),
        ("16 fl. oz. US", "16 US fl oz"),
        ("6 mo", "6 months"),
        ("15 tooth", "15 teeth"),
    ] {
        let read = value(text);
        assert_eq!(read.text(), canonical, "{text}");
        assert_eq!(value(canonical), read, "{canonical} does not read back");
    }
}

#[test]
fn limits_keep_the_printed_decimals() {
    let limits = |text: &str| {
        let value = value(text);
        let shown = |limit: baybook::quantity::Limit| {
            format!("{}{}", limit.text, if limit.inclusive { "" } else { " out" })
        };
        (value.min().map(shown), value.max().map(shown))
    };
    let both = |min: &str, max: &str| (Some(min.to_owned()), Some(max.to_owned()));
    assert_eq!(limits("0.20 ± 0.05 mm"), both("0.15", "0.25"));
    assert_eq!(limits("0.25 ± 0.05 mm"), both("0.20", "0.30"));
    assert_eq!(limits("20 +2/-1 mm"), both("19", "22"));
    assert_eq!(limits("20 +0.5/-0 mm"), both("20.0", "20.5"));
    assert_eq!(limits("2.45 kΩ ± 10 %"), both("2.205", "2.695"));
    assert_eq!(limits("-10 °C ± 10 %"), both("-11", "-9"));
    assert_eq!(limits("1/4 in"), both("0.25", "0.25"));
    assert_eq!(limits("1/3 turn"), both("1/3", "1/3"));
    assert_eq!(limits("min 9.6 V"), (Some("9.6".to_owned()), None));
    assert_eq!(limits("under 35 °C"), (None, Some("35 out".to_owned())));
    assert_eq!(limits("over 80 °C"), (Some("80 out".to_owned()), None));
}

#[test]
fn the_finest_printed_digit_is_known() {
    let ulp = |text: &str| baybook::quantity::exact_text(&value(text).ulp());
    assert_eq!(ulp("0.20 ± 0.05 mm"), "0.01");
    assert_eq!(ulp("20 +2/-0.5 mm"), "0.1");
    assert_eq!(ulp("1300 rpm"), "1");
    assert_eq!(ulp("2.45 kΩ ± 10.5 %"), "0.01");
    assert_eq!(ulp("1/4 in"), "0.01");
    assert_eq!(ulp("1/3 turn"), "1/3");
}

#[test]
fn numbers_and_units_are_found_in_the_text_that_was_read() {
    for (text, numbers, unit) in [
        ("  0.20 ±\u{a0}.05 mm ", vec!["0.20", ".05"], "mm"),
        ("20 −1/+2 °C", vec!["20", "2", "1"], "°C"),
        ("2.45 kΩ ± 10 %", vec!["2.45", "10"], "kΩ"),
        ("20 +2/-2 mm", vec!["20", "2"], "mm"),
        ("min 9.6 V", vec!["9.6"], "V"),
        ("−10 to 40 ° C", vec!["−10", "40"], "° C"),
        ("9.5:1", vec!["9.5"], ":1"),
        ("2 1/2 turns", vec!["2 1/2"], "turns"),
    ] {
        let value = value(text);
        let found: Vec<_> = value.number_ranges().iter().map(|range| &text[range.clone()]).collect();
        assert_eq!(found, numbers, "{text}");
        assert_eq!(&text[value.unit_range()], unit, "{text}");
        assert_eq!(value.numbers().len(), numbers.len(), "{text}");
    }
}

#[test]
fn a_percentage_of_the_nominal_is_not_percentage_points() {
    assert!(matches!(value("50 ± 5 %").shape(), Shape::Tolerance { .. }));
    assert!(matches!(value("50 Ω ± 5 %").shape(), Shape::PercentTolerance { .. }));
    assert!(matches!(refused("50 % ± 5 %").problem, ValueProblem::PercentOfPercent { .. }));
}

/// What each wrong text is called, which bytes of it are marked, and what is offered.
#[test]
#[rustfmt::skip] // One text a line.
fn a_wrong_text_is_told_what_is_wrong_where_and_how_to_write_it() {
    for (text, marked, message, help) in [
        ("", "", "the value is empty", "write a number and its unit, such as `0.20 mm`"),
        ("   ", "   ", "the value is empty", "write a number and its unit, such as `0.20 mm`"),
        ("about 5 mm", "about", "`about` stands where a number is due", "begin with a number, or with min, max, under or over"),
        ("≤ 0.10 mm", "≤", "`≤` stands where a number is due", "write `max` instead, such as `max 0.10 mm`"),
        (">=5 mm", ">=5", "`>=5` stands where a number is due", "write `min` instead, such as `min 0.10 mm`"),
        ("± 0.05 mm", "±", "`±` stands where a number is due", "write the nominal value before the tolerance, such as `0.20 ± 0.05 mm`"),
        ("min", "", "a number is missing", "begin with a number, or with min, max, under or over"),
        ("0.15.. mm", "mm", "`mm` stands where a number is due", "begin with a number, or with min, max, under or over"),
        ("1.2.3 mm", "1.2.3", "`1.2.3` is not a number", "write digits with at most one point, or a fraction such as 1/4 or 2 1/2"),
        ("0,20 mm", "0,20", "`0,20` is not a number", "write `0.20`"),
        ("1,500 rpm", "1,500", "`1,500` is not a number", "write `1500` or `1.500`, whichever is meant"),
        ("1 500 rpm", "1 500", "`1 500` is not a number", "write `1500`"),
        ("1'500 rpm", "1'500", "`1'500` is not a number", "write `1500`"),
        ("20. mm", "20.", "`20.` is not a number", "write `20`"),
        ("1e3 rpm", "1e3", "`1e3` is not a number", "write the digits out, without an exponent"),
        ("1/0 in", "1/0", "`1/0` is not a number", "write digits with at most one point, or a fraction such as 1/4 or 2 1/2"),
        ("2 3/2 turns", "2 3/2", "`2 3/2` is not a number", "write digits with at most one point, or a fraction such as 1/4 or 2 1/2"),
        ("0.15...25 mm", "...", "`...` stands where a number is due", "begin with a number, or with min, max, under or over"),
        ("0.15-0.25 mm", "0.15-0.25", "`0.15-0.25` is not a number", "write `0.15..0.25`"),
        ("5 –10 mm", "5 –10", "`5 –10` is not a number", "write `5..10`"),
        ("20 +2 mm", "20 +2", "`20 +2` is not a number", "write `20 +2/-0`"),
        ("1:50", "1:50", "`1:50` is not a number", "write `50:1`"),
        ("9.5:2", "9.5:2", "`9.5:2` is not a number", "write digits with at most one point, or a fraction such as 1/4 or 2 1/2"),
        ("1234567890123456789 mm", "1234567890123456789", "`1234567890123456789` has too many digits", "a number has at most 18 digits; write it as the manual prints it"),
        ("0.20", "0.20", "`0.20` has no unit", "write the unit after the number, such as `0.20 mm`"),
        ("0.15..0.25", "0.15..0.25", "`0.15..0.25` has no unit", "write the unit after the number, such as `0.15..0.25 mm`"),
        ("12 Nmm", "Nmm", "unknown unit `Nmm`", "did you mean `N·m` (newton metres)?"),
        ("12 nm", "nm", "unknown unit `nm`", "did you mean `N·m` (newton metres)?"),
        ("12 kpA", "kpA", "unknown unit `kpA`", "did you mean `kPa` (kilopascals)?"),
        ("12 furlongs", "furlongs", "unknown unit `furlongs`", "write a unit of the table, such as mm, N·m, kPa or °C"),
        ("3 qt", "qt", "`qt` could mean US quarts or Imperial quarts", "write `US qt` for US quarts, or `Imp qt` for Imperial quarts"),
        ("0.25..0.15 mm", "0.25..0.15", "the range runs backwards: `0.25` is above `0.15`", "write the smaller end first: `0.15..0.25`"),
        ("20 ± -2 mm", "-2", "`-2` is a tolerance of the wrong sign", "write `20 ± 2 mm` or `20 +2/-1 mm`; where both limits lie on one side, write the range"),
        ("20 +2/+1 mm", "+1", "`+1` is a tolerance of the wrong sign", "write `20 ± 2 mm` or `20 +2/-1 mm`; where both limits lie on one side, write the range"),
        ("5 kΩ ± 100 %", "100", "a tolerance of `100` per cent is the whole value or more", "a tolerance in per cent is below 100; check the digits"),
        ("50 % ± 5 %", "± 5 %", "`50 % ± 5 %` could mean percentage points or a part of 50 %", "write `50 ± 5 %` for percentage points, or the range itself"),
        ("0.20 mm ± 0.05 mm", "± 0.05 mm", "the unit stands more than once", "write the unit once, at the end: `0.20 ± 0.05 mm`"),
        ("0.15 mm..0.25 mm", "..0.25 mm", "the unit stands more than once", "write the unit once, at the end, such as `0.15..0.25 mm`"),
        ("9.6 V min", "min", "`min` stands after the value", "write `min 9.6 V`"),
        ("0.10 mm max.", "max.", "`max.` stands after the value", "write `max 0.10 mm`"),
        ("20 N·m oiled", "oiled", "`oiled` stands after the value", "end the value with its unit; write notes elsewhere"),
        ("20 N·m (oiled)", "(oiled)", "`(oiled)` stands after the value", "end the value with its unit; write notes elsewhere"),
        ("min 5..6 V", "..6 V", "`..6 V` stands after the value", "end the value with its unit; write notes elsewhere"),
        ("0.1..0.2 mm ± 5 %", "± 5 %", "`± 5 %` stands after the value", "end the value with its unit; write notes elsewhere"),
    ] {
        let error = refused(text);
        assert_eq!(error.message(), message, "{text}");
        assert_eq!(error.help(), help, "{text}");
        assert_eq!(text[error.range.clone()].trim(), marked.trim(), "{text}");
    }
    let long = format!("5 {}", "m".repeat(200));
    assert_eq!(refused(&long).message(), "the value is 202 bytes long");
    assert_eq!(refused(&long).help(), "a value has at most 200 bytes");
}

/// What could mean two things in a shop is never guessed.
#[test]
fn an_ambiguous_unit_names_everything_it_could_be() {
    for (text, meanings) in [
        ("lb", vec!["lbf", "lbm", "lbf·ft"]),
        ("lbs", vec!["lbf", "lbm", "lbf·ft"]),
        ("pounds", vec!["lbf", "lbm", "lbf·ft"]),
        ("oz", vec!["ozm", "US fl oz", "Imp fl oz"]),
        ("fl oz", vec!["US fl oz", "Imp fl oz"]),
        ("fl. oz.", vec!["US fl oz", "Imp fl oz"]),
        ("gal", vec!["US gal", "Imp gal"]),
        ("gallons", vec!["US gal", "Imp gal"]),
        ("qt", vec!["US qt", "Imp qt"]),
        ("pt", vec!["US pt", "Imp pt"]),
        ("T", vec!["t", "teeth"]),
        ("deg", vec!["°", "°C", "°F"]),
        ("degrees", vec!["°", "°C", "°F"]),
        ("F", vec!["°F", "µF"]),
        ("C", vec!["°C", "A·h"]),
        ("mil", vec!["thou", "mm"]),
    ] {
        let ValueProblem::AmbiguousUnit { meanings: found, .. } = refused(&format!("5 {text}")).problem
        else {
            panic!("{text} is not ambiguous")
        };
        let found: Vec<_> = found.into_iter().map(|(write, _)| write).collect();
        assert_eq!(found, meanings, "{text}");
        assert!(matches!(Unit::parse(text), Err(UnitError::Ambiguous { .. })), "{text}");
    }
}

/// Capitals tell units apart.
#[test]
fn capitals_are_never_folded_where_they_matter() {
    assert_eq!(value("5 mΩ").unit().symbol(), "mΩ");
    assert_eq!(value("5 MΩ").unit().symbol(), "MΩ");
    assert_eq!(value("5 mW ± 5 %".replace("mW", "W").as_str()).unit().kind(), Kind::Power);
    assert!(Unit::parse("mPa").is_err(), "a millipascal is no workshop unit, and no megapascal");
    assert!(Unit::parse("Mm").is_err());
}

/// What a shop types and the grammar does not take is offered as the grammar takes it, whole and with every digit.
#[test]
fn what_a_shop_types_is_offered_as_it_is_written() {
    for (typed, write) in [
        // Inches and feet.
        ("1-1/2 in", "write `1 1/2 in`"),
        ("1–1/2 in", "write `1 1/2 in`"),
        ("1-½\"", "write `1 1/2 in`"),
        ("1-3/8..1-1/2 in", "write `1 3/8..1 1/2 in`"),
        ("min 1-1/2 in", "write `min 1 1/2 in`"),
        ("1 1/2-in", "write `1 1/2 in`"),
        ("3 / 8 in", "write `3/8 in`"),
        ("3/8 - 1/2 in", "write `3/8..1/2 in`"),
        ("12''", "write `12 in`"),
        ("6'", "write `6 ft`"),
        ("5' 2\"", "`5 ft` and `2 in` are one length: write it in inches alone"),
        // Torques.
        ("72 ft/lbs", "write `72 lbf·ft`"),
        ("72 in/lb", "write `72 lbf·in`"),
        ("72 ft#", "write `72 lbf·ft`"),
        ("20 N·m + 90°", "two stages are two texts: `\"20 N·m\", \"+90°\"`"),
        // Limits.
        ("<0.15 mm", "write `under 0.15 mm`"),
        ("≤ 0.15 mm", "write `max 0.15 mm`"),
        ("at most 0.15 mm", "write `max 0.15 mm`"),
        ("no less than 9.6 V", "write `min 9.6 V`"),
        ("9.6 V or more", "write `min 9.6 V`"),
        ("maximum 1-1/2 in", "write `max 1 1/2 in`"),
        // Ranges and tolerances.
        ("0.11-0.15 mm", "write `0.11..0.15 mm`"),
        ("0.11 mm to 0.15 mm", "write `0.11..0.15 mm`"),
        ("between 0.11 and 0.15 mm", "write `0.11..0.15 mm`"),
        ("from 0.11 to 0.15 mm", "write `0.11..0.15 mm`"),
        ("0.11...0.15 mm", "write `0.11..0.15 mm`"),
        ("0.13 mm ± 0.02 mm", "write `0.13 ± 0.02 mm`"),
        ("20 plus or minus 2 N·m", "write `20 ± 2 N·m`"),
        ("20 (+2/-1) N·m", "write `20 +2/-1 N·m`"),
        (".11/.15 mm", "write `0.11..0.15 mm` for a range; two values are two statements"),
        // Forms, places and look-alikes.
        ("0.13 mm (0.005 in)", "two printed forms are two texts: `\"0.13 mm\", \"0.005 in\"`"),
        ("0.13 mm / 0.005 in", "two printed forms are two texts: `\"0.13 mm\", \"0.005 in\"`"),
        ("mm 0.13", "write `0.13 mm`"),
        ("O.13 mm", "write `0.13 mm`"),
        ("0.l3 mm", "write `0.13 mm`"),
        ("1O mm", "write `10 mm`"),
        ("0·15 mm", "write `0.15 mm`"),
        ("“0.5 mm”", "write `0.5 mm`"),
        ("0.5 mm,", "write `0.5 mm`"),
    ] {
        assert_eq!(refused(typed).help_for(typed), write, "{typed}");
    }
    for typed in ["N/A", "tbd", "-"] {
        assert!(refused(typed).help_for(typed).contains("`absent = \"not-given\"`"), "{typed}");
    }
}

/// Where more than one thing can be meant, or nothing is plain, the help stays what the grammar says.
#[test]
fn what_is_not_plain_is_not_offered_as_if_it_were() {
    for typed in [
        "min 9.6",
        "1,200 rpm",
        "45 deg",
        "20 lbs",
        "0.15...25 mm",
        "20-2 mm",
        "7/16-20",
        "0.30..0.20 mm",
        "1/2-1/4 in",
        "3-3/2 in",
        "0.5 mm; 0.6 mm",
        "20 N·m +2",
        "M8",
        "five thou",
        "",
    ] {
        assert_eq!(baybook::quantity::mending(typed), None, "{typed}");
    }
}
