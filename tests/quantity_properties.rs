//! What holds for every value, and that no text makes anything panic.

use baybook::quantity::{
    Exact, Grade, Kind, Number, Shape, Side, Unit, Value, convert, disagreement, exact_text, grade,
    likely_slips, parse_exact, parts,
};
use std::collections::BTreeSet;

use num_bigint::BigInt;
use proptest::prelude::*;

fn units() -> Vec<Unit> {
    Unit::all().collect()
}

fn unit() -> BoxedStrategy<Unit> {
    proptest::sample::select(units()).boxed()
}

/// A number as a manual prints it.
fn number() -> BoxedStrategy<String> {
    prop_oneof![
        4 => "[1-9][0-9]{0,3}",
        4 => "(0|[1-9][0-9]{0,2})\\.[0-9]{1,4}",
        1 => "\\.[0-9]{1,3}",
        1 => "[1-9]{1,2}/(2|3|4|8|16|64)",
        1 => "[1-9] [1-3]/(4|8|7)",
    ]
    .boxed()
}

fn signed() -> BoxedStrategy<String> {
    prop_oneof![5 => number(), 1 => number().prop_map(|number| format!("-{number}"))].boxed()
}

/// The text of a value in `unit`; ranges may come out reversed and are then refused.
fn text_in(unit: Unit) -> BoxedStrategy<String> {
    let after = move |number: String| unit.after(&number);
    prop_oneof![
        3 => signed().prop_map(after),
        2 => (signed(), number()).prop_map(move |(nominal, part)| after(format!("{nominal} ± {part}"))),
        1 => (signed(), number(), number()).prop_map(move |(nominal, plus, minus)| after(format!("{nominal} +{plus}/-{minus}"))),
        2 => (signed(), signed()).prop_map(move |(min, max)| after(format!("{min}..{max}"))),
        1 => (signed(), "[1-9][0-9]?(\\.[0-9])?").prop_map(move |(nominal, percent)| format!("{} ± {percent} %", after(nominal))),
        1 => ("(min|max|over|under)", signed()).prop_map(move |(word, limit)| format!("{word} {}", after(limit))),
        1 => signed().prop_map(move |number| format!("+{}", after(number))),
    ].boxed()
}

fn value() -> BoxedStrategy<Value> {
    let text = unit().prop_flat_map(text_in);
    text.prop_filter_map("refused", |text| Value::parse(&text).ok()).boxed()
}

/// A value and another unit of its kind.
fn value_and_unit() -> BoxedStrategy<(Value, Unit)> {
    (value(), any::<proptest::sample::Index>())
        .prop_map(|(value, index)| {
            let others: Vec<_> =
                Unit::of(value.unit().kind()).filter(|unit| value.unit().converts_to(*unit)).collect();
            let unit = *index.get(&others);
            (value, unit)
        })
        .boxed()
}

/// Texts made of the pieces of the grammar in any order.
fn soup() -> BoxedStrategy<String> {
    let pieces = proptest::sample::select(vec![
        "0.20",
        "20",
        ".5",
        "1/4",
        "2 1/2",
        "½",
        "-",
        "−",
        "–",
        "+",
        "±",
        "+/-",
        "+-",
        "..",
        "...",
        "…",
        " to ",
        "min ",
        "max ",
        "under ",
        "over ",
        " ",
        "\u{a0}",
        "\u{2009}",
        "mm",
        "N·m",
        "lbf·ft",
        "°",
        "°C",
        "kΩ",
        "%",
        ":1",
        ":",
        "/",
        ",",
        ".",
        "e5",
        "in.",
        "\"",
        "Ω",
        "\u{2126}",
        "0",
        "99999999999999999999",
        "🔧",
    ]);
    proptest::collection::vec(pieces, 0..10).prop_map(|pieces| pieces.concat()).boxed()
}

/// Everything that can be asked of a text; the ranges must lie in it.
fn ask_everything(text: &str) {
    match Value::parse(text) {
        Ok(value) => {
            let ranges = value.number_ranges().iter().cloned().chain([value.unit_range()]);
            for range in ranges {
                assert!(text.get(range.clone()).is_some_and(|part| !part.is_empty()), "{text:?}: {range:?}");
            }
            assert_eq!(value.numbers().len(), value.number_ranges().len());
            let (min, max) = (value.min(), value.max());
            if let (Some(min), Some(max)) = (min, max) {
                assert!(min.exact <= max.exact, "{text:?}");
            }
            for unit in Unit::of(value.unit().kind()) {
                let _ = convert(&value, unit);
            }
        }
        Err(error) => {
            assert!(text.get(error.range.clone()).is_some(), "{text:?}: {:?}", error.range);
            let message = error.message();
            assert!(!message.is_empty() && !message.ends_with('.') || message.contains('"'), "{message}");
            assert!(!error.help().is_empty());
        }
    }
    let _ = (Number::parse(text), Unit::parse(text), Kind::parse(text), parse_exact(text));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, ..ProptestConfig::default() })]

    #[test]
    fn the_canonical_text_is_a_fixed_point(value in value()) {
        let text = value.text();
        let again = Value::parse(&text).map_err(|error| TestCaseError::fail(format!("{text}: {error}")))?;
        prop_assert_eq!(again.text(), text);
        prop_assert_eq!(&again, &value);
        prop_assert_eq!(grade(&value, &again), Some(Grade::Strict));
    }

    #[test]
    fn a_shown_window_never_reaches_past_the_real_one((value, unit) in value_and_unit()) {
        let Ok(shown) = convert(&value, unit) else {
            return Ok(()); // No rounded number lies in the window.
        };
        let single = matches!(value.shape(), Shape::Single(_) | Shape::Turn(_));
        let number = |text: &Option<String>| text.as_deref().and_then(parse_exact);
        if !single {
            prop_assert!(number(&shown.min) >= shown.exact_min, "{value} in {unit}: {}", shown.text);
            if let (Some(max), Some(exact)) = (number(&shown.max), &shown.exact_max) {
                prop_assert!(&max <= exact, "{value} in {unit}: {}", shown.text);
            }
        }
        let again = Value::parse(&shown.text).map_err(|error| TestCaseError::fail(format!("{}: {error}", shown.text)))?;
        prop_assert_eq!(again.unit(), unit);
        prop_assert_eq!(again.min().map(|limit| limit.exact), number(&shown.min));
        prop_assert_eq!(again.max().map(|limit| limit.exact), number(&shown.max));
        if single {
            prop_assert_ne!(grade(&value, &again), Some(Grade::Conflict), "{} and {}", value, again);
        }
    }

    #[test]
    fn there_and_back_is_exact((value, unit) in value_and_unit()) {
        let Some(limit) = value.min().or_else(|| value.max()) else {
            return Err(TestCaseError::fail("no limit"));
        };
        let there = unit.from_si(&value.unit().to_si(&limit.exact));
        prop_assert_eq!(value.unit().from_si(&unit.to_si(&there)), limit.exact);
    }

    #[test]
    fn a_written_number_reads_back(numerator in any::<i64>(), denominator in 1..1_000_000_i64) {
        let exact = Exact::new(BigInt::from(numerator), BigInt::from(denominator));
        prop_assert_eq!(parse_exact(&exact_text(&exact)), Some(exact));
    }

    #[test]
    fn comparing_any_two_values_gives_an_answer(left in value(), (right, unit) in value_and_unit()) {
        let same_kind = convert(&right, unit).ok().and_then(|shown| Value::parse(&shown.text).ok());
        for (primary, secondary) in [(&left, &right), (&right, &left)].into_iter().chain(same_kind.iter().map(|other| (&right, other))) {
            let grade = grade(primary, secondary);
            prop_assert_eq!(grade.is_some(), primary.unit().converts_to(secondary.unit()));
            prop_assert_eq!(parts(primary, secondary).is_some(), grade.is_some());
            let worst = disagreement(primary, secondary).map(|part| part.grade);
            prop_assert_eq!(worst, grade.filter(|grade| *grade != Grade::Strict));
        }
    }

    #[test]
    fn no_text_makes_anything_panic(text in ".{0,60}", soup in soup(), bytes in proptest::collection::vec(any::<u8>(), 0..220)) {
        ask_everything(&text);
        ask_everything(&soup);
        ask_everything(&String::from_utf8_lossy(&bytes));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    /// A slip is offered only where the forms conflict, and what it offers does not.
    #[test]
    fn a_slip_offers_what_agrees((primary, unit) in value_and_unit(), secondary in signed()) {
        let Ok(secondary) = Value::parse(&unit.after(&secondary)) else {
            return Ok(());
        };
        let slips = likely_slips(&primary, &secondary, &[]);
        let sides: BTreeSet<Side> = slips.iter().map(|slip| slip.side).collect();
        prop_assert_eq!(sides.len(), slips.len(), "at most one offer a side");
        for slip in slips {
            prop_assert_eq!(grade(&primary, &secondary), Some(Grade::Conflict));
            let offer = Value::parse(&slip.offer).map_err(|error| TestCaseError::fail(error.message()))?;
            let pair = match slip.side {
                Side::Primary => grade(&offer, &secondary),
                Side::Secondary => grade(&primary, &offer),
            };
            prop_assert_ne!(pair, Some(Grade::Conflict), "{}", slip.what);
        }
    }
}
