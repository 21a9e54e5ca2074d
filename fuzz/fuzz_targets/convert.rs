//! Any value into any unit: a shown window never reaches past the real one, in rationals.
#![no_main]

use baybook::quantity::{Shape, Unit, Value, convert, parse_exact};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|input: (&str, u8)| {
    let (text, pick) = input;
    let Ok(value) = Value::parse(text) else { return };
    let units: Vec<_> = Unit::of(value.unit().kind()).collect();
    let Some(to) = units.get(usize::from(pick) % units.len()) else { return };
    let Ok(shown) = convert(&value, *to) else { return };
    if matches!(value.shape(), Shape::Single(_) | Shape::Turn(_)) {
        return;
    }
    let read = |text: &Option<String>| text.as_deref().map(|text| parse_exact(text).expect("a decimal"));
    if let (Some(min), Some(exact)) = (read(&shown.min), &shown.exact_min) {
        assert!(min >= *exact, "{text} in {} begins too early", to.symbol());
    }
    if let (Some(max), Some(exact)) = (read(&shown.max), &shown.exact_max) {
        assert!(max <= *exact, "{text} in {} ends too late", to.symbol());
    }
});
