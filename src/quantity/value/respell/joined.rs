//! Two numbers in one text: a range or a tolerance whose unit stands twice, or two values that are two texts.

use super::super::super::{Kind, Number};
use super::super::{Shape, Value};
use super::read;

/// What stands between two numbers of one value, and how that is written.
const JOINTS: [(&str, &str); 10] = [
    ("..", ".."),
    ("…", ".."),
    ("–", ".."),
    ("—", ".."),
    ("~", ".."),
    (" to ", ".."),
    ("+/-", " ± "),
    ("+-", " ± "),
    ("±", " ± "),
    ("-", ".."),
];

/// What stands between two values that are two texts.
const BREAKS: [&str; 12] = ["(", "[", "/", ",", ";", "=", "|", "+", " or ", " and ", " plus ", " then "];

/// `0.11 mm to 0.15 mm`, `0.13 mm ± 0.02 mm`, `0.11-0.15 mm`.
pub(super) fn as_one(text: &str) -> Option<Value> {
    // Of `0.15...25` nobody can say whether the second end is 25 or .25.
    if text.contains("...") {
        return None;
    }
    JOINTS.iter().find_map(|(joint, write)| {
        let (first, second) = text.split_once(joint)?;
        let second = read(second).filter(|one| matches!(one.shape(), Shape::Single(_)))?;
        let first = number_in(first, &second)?;
        let Shape::Single(last) = second.shape() else { return None };
        let whole = read(&format!("{first}{write}{last} {}", second.unit().symbol()))?;
        (whole.unit() == second.unit()).then_some(whole)
    })
}

/// The number of a text that has the unit of `other`, or none.
fn number_in(text: &str, other: &Value) -> Option<Number> {
    Number::parse(text).ok().or_else(|| match read(text)? {
        value if value.unit() == other.unit() => match value.shape() {
            Shape::Single(number) => Some(number.clone()),
            _ => None,
        },
        _ => None,
    })
}

/// `0.13 mm (0.005 in)`, `20 N·m + 90°`, `.11/.15 mm`.
pub(super) fn as_several(text: &str) -> Option<String> {
    BREAKS.iter().find_map(|sign| {
        let (first, second) = text.split_once(sign)?;
        let second = read(second.trim().trim_end_matches([')', ']']))?;
        if let Some(first) = read(first) {
            return two_texts(&first, &second);
        }
        let Shape::Single(last) = second.shape() else { return None };
        let first = Number::parse(first).ok().filter(|_| *sign == "/")?;
        let range = read(&format!("{first}..{last} {}", second.unit().symbol()))?;
        Some(format!("write `{}` for a range; two values are two statements", range.text()))
    })
}

fn two_texts(first: &Value, second: &Value) -> Option<String> {
    let (one, other) = (first.unit().kind(), second.unit().kind());
    let turn = matches!(other, Kind::Angle | Kind::Turns) && one == Kind::Torque;
    if turn {
        let further = second.text();
        let further = further.trim_start_matches('+');
        return Some(format!("two stages are two texts: `\"{}\", \"+{further}\"`", first.text()));
    }
    let forms = one == other && first.unit() != second.unit();
    forms.then(|| format!("two printed forms are two texts: `\"{}\", \"{}\"`", first.text(), second.text()))
}
