//! One way of writing values: `20Nm` and `20 N-m` become `20 N·m`.
//!
//! A file is edited in place, string by string, so comments and layout stay. Invariant: only spelling
//! changes; a string is left alone unless what it says before and after is the same value with the same
//! digits. What the page itself prints wrongly (`misprint`) stays as it was printed, and a recalled value as it stood.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::quantity::Value;

/// Keys whose strings are values as a manual prints them.
const VALUES: &[&str] = &[
    "window",
    "set_to",
    "new",
    "wear_limit",
    "setting",
    "stages",
    "points",
    "interval",
    "first",
    "severe",
    "rows",
    "when",
    "expect",
    "bore",
    "stroke",
    "displacement",
    "plausible",
    "states",
    "span",
    "resolution",
    "error",
    "value",
];

/// What stands as it stood: the tables of this key keep the spelling of their `value`.
const AS_IT_STOOD: &str = "recall";

/// A string to be written another way.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Respelling {
    /// The bytes between the quotes.
    pub range: Range<usize>,
    /// What is written there.
    pub before: String,
    /// The same value, our one way.
    pub after: String,
}

/// Every value of a TOML file that is not written our one way, in the order of the text; none if the
/// text is no TOML.
pub fn respellings(text: &str) -> Option<Vec<Respelling>> {
    let table = DeTable::parse(text).ok()?;
    let mut found = Vec::new();
    in_table(table.get_ref(), Within::default(), text, &mut found);
    found.sort_by_key(|one| one.range.start);
    Some(found)
}

/// The text with every respelling made.
pub fn tidied(text: &str, respellings: &[Respelling]) -> String {
    let mut tidy = String::with_capacity(text.len());
    let mut done = 0;
    for one in respellings {
        tidy.push_str(text.get(done..one.range.start).unwrap_or_default());
        tidy.push_str(&one.after);
        done = one.range.end;
    }
    tidy.push_str(text.get(done..).unwrap_or_default());
    tidy
}

/// What the keys above a string say of it.
#[derive(Clone, Copy, Default)]
struct Within {
    values: bool,
    recall: bool,
}

fn in_table(table: &DeTable<'_>, within: Within, text: &str, found: &mut Vec<Respelling>) {
    for (key, value) in table {
        let key = key.get_ref().as_ref();
        let values = within.values || VALUES.contains(&key) && !(within.recall && key == "value");
        let recall = within.recall || key == AS_IT_STOOD;
        in_value(value, Within { values, recall }, text, found);
    }
}

fn in_value(value: &Spanned<DeValue<'_>>, within: Within, text: &str, found: &mut Vec<Respelling>) {
    match value.get_ref() {
        DeValue::Table(table) => in_table(table, within, text, found),
        DeValue::Array(items) => items.iter().for_each(|item| in_value(item, within, text, found)),
        DeValue::String(written) if within.values => found.extend(respelling(written, value.span(), text)),
        _ => {}
    }
}

/// The other way of writing one string, if it is a value and stands in the file without escapes.
fn respelling(written: &str, span: Range<usize>, text: &str) -> Option<Respelling> {
    let before = Value::parse(written).ok()?;
    let after = before.text();
    let same = Value::parse(&after).ok().is_some_and(|read| read == before);
    if after == written || !same {
        return None;
    }
    let start = span.start + text.get(span.clone())?.find(written)?;
    let range = start..start + written.len();
    Some(Respelling { range, before: written.to_owned(), after })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::{respellings, tidied};

    fn tidy(text: &str) -> String {
        tidied(text, &respellings(text).unwrap())
    }

    #[test]
    fn values_are_written_one_way_and_all_else_stays() {
        let text = "# Torques\nsetting = [ '20Nm',\"14.8 ft-lb\" ] # both\nnote = \"about 20Nm\"\n";
        let after = "# Torques\nsetting = [ '20 N·m',\"14.8 lbf·ft\" ] # both\nnote = \"about 20Nm\"\n";
        assert_eq!(tidy(text), after);
        assert_eq!(tidy(after), after);
    }

    #[test]
    fn digits_stay_as_printed() {
        assert_eq!(tidy("window = [\"0.20+/-0.050mm\"]"), "window = [\"0.20 ± 0.050 mm\"]");
        assert_eq!(tidy("window = [\"max .028 in\"]"), "window = [\"max 0.028 in\"]");
    }

    #[test]
    fn what_the_page_misprints_is_left_alone() {
        let text = "setting = [\"12 N·m\"]\nmisprint = { printed = \"9 in-lb\", meant = \"9 ft-lb\" }\n";
        assert_eq!(tidy(text), text);
    }

    #[test]
    fn a_recalled_value_stands_as_it_stood() {
        let text = "[[recall]]\nof = \"lash\"\nwhen = { air = \"under 35degC\" }\nvalue = \"20Nm\"\n";
        assert_eq!(tidy(text), text.replace("35degC", "35 °C"));
        assert_eq!(tidy("[[waive]]\non = { value = \"20Nm\" }"), "[[waive]]\non = { value = \"20 N·m\" }");
    }

    #[test]
    fn a_waived_text_stands_as_it_is_underlined() {
        let text = "[[waive]]\non = { file = \"procedures/a.md\", text = \"20Nm\" }";
        assert_eq!(tidy(text), text);
    }

    #[test]
    fn an_escape_is_left_alone() {
        let text = "setting = [\"20N\\u00B7m\"]\n";
        assert_eq!(tidy(text), text);
    }
}
