//! How a text that is no value is written as one: what shops type and the grammar does not take, led to what it takes.
//!
//! Invariant: what is offered reads as a value; nothing is worked out, and no digit is left out of it.

mod clean;
mod joined;

use super::super::{Kind, Unit};
use super::{LONGEST, Value, ValueError};
use clean::cleaned;

/// What a limit on one side is called before its number, the longest first, and the word for it.
const BEFORE: [(&str, &str); 31] = [
    ("not more than", "max"),
    ("no more than", "max"),
    ("not less than", "min"),
    ("no less than", "min"),
    ("greater than", "over"),
    ("maximum of", "max"),
    ("minimum of", "min"),
    ("less than", "under"),
    ("more than", "over"),
    ("not under", "min"),
    ("not below", "min"),
    ("not above", "max"),
    ("not over", "max"),
    ("at least", "min"),
    ("at most", "max"),
    ("maximum", "max"),
    ("minimum", "min"),
    ("up to", "max"),
    ("below", "under"),
    ("above", "over"),
    ("max:", "max"),
    ("min:", "min"),
    ("<=", "max"),
    ("=<", "max"),
    (">=", "min"),
    ("=>", "min"),
    ("≤", "max"),
    ("≥", "min"),
    ("<", "under"),
    (">", "over"),
    ("from ", ""),
];

/// The same behind the unit.
const BEHIND: [(&str, &str); 8] = [
    ("or less", "max"),
    ("or lower", "max"),
    ("or more", "min"),
    ("or higher", "min"),
    ("maximum", "max"),
    ("minimum", "min"),
    ("max", "max"),
    ("min", "min"),
];

/// What is typed where a page has no value.
const NOTHING: [&str; 12] =
    ["n/a", "na", "n.a.", "none", "nil", "-", "–", "—", "tbd", "?", "not given", "unknown"];

impl ValueError {
    /// How to write `text`, of which this is what is wrong.
    #[must_use]
    pub fn help_for(&self, text: &str) -> String {
        mending(text).unwrap_or_else(|| self.help())
    }
}

/// How a text that is no value is to be written, where that is plain.
#[must_use]
pub fn mending(text: &str) -> Option<String> {
    if text.len() > LONGEST || Value::parse(text).is_ok() {
        return None;
    }
    if NOTHING.contains(&text.trim().to_lowercase().as_str()) {
        return Some("a statement whose page gives no value says `absent = \"not-given\"`; one that is still to be read, `absent = \"not-read\"`".to_owned());
    }
    let clean = cleaned(text);
    let plain = worded(&clean).unwrap_or(clean);
    let one = read(&plain).or_else(|| led_by_unit(&plain)).or_else(|| joined::as_one(&plain));
    one.map(|value| format!("write `{}`", value.text()))
        .or_else(|| joined::as_several(&plain))
        .or_else(|| feet_and_inches(&plain))
}

fn read(text: &str) -> Option<Value> {
    Value::parse(text).ok()
}

/// `at most 0.15 mm`, `9.6 V or more`, `between 0.11 and 0.15 mm`.
fn worded(text: &str) -> Option<String> {
    let lower = text.to_ascii_lowercase();
    if let Some(rest) = lower.strip_prefix("between ") {
        let rest = text.get(text.len() - rest.len()..)?;
        return Some(rest.replacen(" and ", "..", 1));
    }
    let before = BEFORE.iter().find_map(|(said, word)| Some((lower.strip_prefix(said)?.len(), word)));
    if let Some((left, word)) = before {
        return Some(format!("{word} {}", text.get(text.len() - left..)?.trim()).trim().to_owned());
    }
    let (end, word) = BEHIND.iter().find_map(|(said, word)| Some((lower.strip_suffix(said)?.len(), word)))?;
    Some(format!("{word} {}", text.get(..end)?.trim()))
}

/// `mm 0.13`
fn led_by_unit(text: &str) -> Option<Value> {
    let start = text.find(|letter: char| letter.is_ascii_digit() || letter == '.')?;
    let (unit, number) = (text.get(..start)?.trim(), text.get(start..)?.trim());
    // `min` is a word for a limit before it is one for minutes.
    Unit::known(unit).filter(|_| unit != "min")?;
    read(&format!("{number} {unit}"))
}

/// `5' 2"`: a value has one unit.
fn feet_and_inches(text: &str) -> Option<String> {
    let (feet, inches) = text.split_once('\'').or_else(|| text.split_once(" ft"))?;
    let feet = read(&format!("{} ft", feet.trim()))?;
    let inches =
        read(inches.trim_start_matches(['.', ' ', '-'])).filter(|one| one.unit().kind() == Kind::Length)?;
    Some(format!("`{}` and `{}` are one length: write it in inches alone", feet.text(), inches.text()))
}
