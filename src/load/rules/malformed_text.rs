//! `malformed-text`: ids, dates and years have one spelling, so that they can be compared.

use crate::diag::{Finding, Rule};
use crate::load::{day, format};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "malformed_text",
    "malformed-text",
    Error,
    Form,
    "a text is not written the way its key asks for"
);

/// A text that does not fit the pattern of its key.
pub fn finding(span: Span, key: &str, typed: &str, pattern: &str) -> Finding {
    let wanted = if pattern == format::ID {
        "an id (lower case letters and digits, joined by `-` or `.`, as `lash.exhaust`)"
    } else if pattern == format::DAY {
        "a day (year, month, day, as `2026-11-25`)"
    } else if pattern == format::YEARS {
        "model years (`2022`, `2020..2024`, or `2020..` while still built)"
    } else if pattern.contains("four-stroke") {
        "`four-stroke` or `two-stroke`"
    } else if pattern.contains("petrol") {
        "`petrol` or `diesel`"
    } else if pattern.contains("http") {
        "an address that begins with `https://` or `http://`"
    } else {
        "a name of letters, digits, `.`, `-` and `+`"
    };
    let help = suggestion(typed, pattern).map_or_else(
        || format!("write {wanted}"),
        |better| format!("write {wanted}: that would be `{better}`"),
    );
    Finding::new(&RULE, span, format!("`{key}` cannot be `{typed}`"), help)
}

/// An empty text where something must stand.
pub fn empty(span: Span, key: &str) -> Finding {
    Finding::new(&RULE, span, format!("`{key}` is empty"), "write what it is, or take the key out")
}

/// The text made to fit, where that is plain.
fn suggestion(typed: &str, pattern: &str) -> Option<String> {
    let lower = typed.trim().to_lowercase();
    let candidates = [
        lower
            .split(|c: char| c.is_whitespace() || c == '_' || c == '/')
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join("-"),
        years(&lower),
        day::day_meant(typed).unwrap_or_default(),
    ];
    let fits = |text: &String| match pattern {
        format::ID => is_id(text),
        format::YEARS => text
            .split_once("..")
            .is_some_and(|(from, to)| is_year(from) && (to.is_empty() || is_year(to) && from <= to)),
        format::DAY => day::day_meant(typed).as_ref() == Some(text),
        _ => false,
    };
    candidates.into_iter().find(fits)
}

/// `2020 to 2024`, `2020-24`, `2022+` and `2022 on` as model years.
fn years(lower: &str) -> String {
    let words = lower.replace(" to ", "..").replace(" through ", "..");
    let open = ["+", "on", "onwards", "up", "and up", "present", "..present", "-", "–", "...", ".."];
    let years: Vec<&str> =
        words.split(|c: char| !c.is_ascii_digit()).filter(|part| !part.is_empty()).collect();
    match years.as_slice() {
        [from] if open.iter().any(|end| words.strip_prefix(from).is_some_and(|rest| rest.trim() == *end)) => {
            format!("{from}..")
        }
        [from, to] => {
            let century = from.get(..2).filter(|_| to.len() == 2 && from.len() == 4).unwrap_or_default();
            format!("{from}..{century}{to}")
        }
        _ => String::new(),
    }
}

fn is_year(text: &str) -> bool {
    text.len() == 4 && text.chars().all(|c| c.is_ascii_digit())
}

fn is_id(text: &str) -> bool {
    !text.is_empty()
        && text.split(['-', '.']).all(|part| {
            !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
        })
}
