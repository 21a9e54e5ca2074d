//! Any text as a value: read or refused with a place inside the text, and written the same way twice.
#![no_main]

use baybook::quantity::Value;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let value = match Value::parse(text) {
        Ok(value) => value,
        Err(error) => {
            assert!(!error.message().is_empty() && !error.help().is_empty());
            return;
        }
    };
    let written = value.text();
    let again = Value::parse(&written).expect("our own way of writing is read");
    assert_eq!(again.text(), written);
    assert_eq!(again.min().map(|limit| limit.exact), value.min().map(|limit| limit.exact));
    assert_eq!(again.max().map(|limit| limit.exact), value.max().map(|limit| limit.exact));
});
