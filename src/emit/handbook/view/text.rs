//! Texts as they stand on a sheet: numbers held to their units, figures with their spoken names.

use serde::Serialize;

use crate::model::Printed;
use crate::quantity::{Unit, Value};

/// A value as it stands on a sheet.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Figure {
    /// The text, split where a range runs from one number to the other.
    pub parts: Vec<String>,
    /// The unit in full, where its sign could be taken for another.
    pub spoken: Option<&'static str>,
    /// `printed as 9 lbf·in, a misprint`, where the page prints it wrongly.
    pub misprint: Option<String>,
}

impl Figure {
    /// A printed form, with what the page misprints in its place.
    pub fn printed(one: &Printed) -> Self {
        Self { misprint: one.misprint(|wrong| bind(&wrong.text())), ..Self::of(&one.value) }
    }

    /// A value alone, as a drawing has it.
    pub fn of(value: &Value) -> Self {
        Self::from_text(&value.text(), value.unit())
    }

    /// A text in a unit.
    pub fn from_text(text: &str, unit: Unit) -> Self {
        let parts = hold(text).split("..").map(str::to_owned).collect();
        Self { parts, spoken: spoken(unit), misprint: None }
    }

    /// The whole text on one line, for labels and drawings.
    pub fn plain(&self) -> String {
        let text = self.parts.join("..");
        let beside = self.spoken.into_iter().chain(self.misprint.as_deref());
        beside.fold(text, |text, more| format!("{text} ({more})"))
    }
}

/// The sign of a unit for a list to choose from, with its full name where the sign could be taken for another.
pub fn sign(unit: Unit) -> String {
    spoken(unit).map_or_else(|| unit.symbol().to_owned(), |spoken| format!("{} ({spoken})", unit.symbol()))
}

/// Pound-inches are a twelfth of the pound-feet they are taken for: the sign never stands alone.
fn spoken(unit: Unit) -> Option<&'static str> {
    (unit.symbol() == POUND_INCH).then(|| unit.spoken())
}

const POUND_INCH: &str = "lbf·in";

/// A text as it stands on a sheet: numbers held to their units, pound-inches followed by their name.
pub fn bind(text: &str) -> String {
    let held = hold(text);
    match Unit::parse(POUND_INCH) {
        Ok(unit) if held.contains(POUND_INCH) => {
            held.replace(POUND_INCH, &format!("{POUND_INCH} ({})", unit.spoken()))
        }
        _ => held,
    }
}

/// Holds every number to the unit after it with a no-break space.
fn hold(text: &str) -> String {
    let mut bound = String::with_capacity(text.len());
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        bound.push_str(word);
        if let Some(next) = words.peek() {
            let number = word.ends_with(|c: char| c.is_ascii_digit());
            let unit = next.trim_end_matches(['.', ',', ';', ':', ')', '?']);
            let tied = (number && Unit::parse(unit).is_ok()) || word == "±" || *next == "±";
            bound.push(if tied { '\u{a0}' } else { ' ' });
        }
    }
    bound
}

/// A sentence: closed by a full stop unless it already closes itself.
pub fn sentence(text: &str) -> String {
    let text = bind(text.trim());
    if text.is_empty() || text.ends_with(['.', '!', '?', ':']) { text } else { text + "." }
}

/// A kebab-case word as people write it.
pub fn words(id: &str) -> String {
    id.replace(['-', '_'], " ")
}

/// `1 step`, `2 steps`.
pub fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_held_to_its_unit_and_to_nothing_else() {
        assert_eq!(bind("0.15..0.25 mm"), "0.15..0.25\u{a0}mm");
        assert_eq!(bind("air under 35 °C, then 2 turns"), "air under 35\u{a0}°C, then 2\u{a0}turns");
        assert_eq!(bind("row 3 of the table"), "row 3 of the table");
    }

    #[test]
    fn pound_inches_never_stand_without_their_name() {
        let figure = |text: &str| Figure::of(&Value::parse(text).expect("a value"));
        assert!(figure("9 lbf·in").spoken.is_some());
        assert!(figure("9 lbf·in").plain().contains('('));
        assert!(figure("9 lbf·ft").spoken.is_none());
        assert_eq!(figure("9 lbf·in").plain(), bind("9 lbf·in"));
    }
}
