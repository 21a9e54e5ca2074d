//! `wrong-type`: a bare number has no unit, and a string is no count.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule =
    crate::rule!("wrong_type", "wrong-type", Error, Form, "a value is of another type than its key takes");

/// A value of another type than its key takes.
pub fn finding(span: Span, key: &str, is: &str, wanted: &str, typed: &str) -> Finding {
    let help = match (is, wanted) {
        ("a number", "a list of texts") => format!(
            "write it with the unit the manual prints, in quotes, in a list: `{key} = [\"{typed} …\"]`"
        ),
        ("a text", "a list of texts") => format!("put it in square brackets: `{key} = [{typed}]`"),
        ("a table", "a list of tables") => {
            format!("write its heading with two brackets, `[[{key}]]`, or put it in square brackets")
        }
        ("a number", "a text") => format!("put it in quotes: `{key} = \"{typed}\"`"),
        ("a text", "a whole number" | "a number") => number_alone(key, typed),
        ("a text", "true or false") => truth(key, typed),
        ("a list", "a text") if alone(typed).is_some() => {
            format!("take it out of the brackets: `{key} = {}`", alone(typed).unwrap_or_default())
        }
        ("a text" | "a list" | "a number", "a table") => {
            format!("write names and their words in braces: `{key} = {{ {} }}`", example(key))
        }
        _ => format!("write {wanted}"),
    };
    let is = if is == "a number" && wanted.ends_with("number") { typed } else { is };
    Finding::new(&RULE, span, format!("`{key}` is {is}, and takes {wanted}"), help)
}

/// A member of a list, of another type than the list takes.
pub fn member(span: Span, key: &str, is: &str, wanted: &str, typed: &str) -> Finding {
    let help = if is == "a number" && wanted.starts_with("a text") {
        format!("put it in quotes, with the unit the manual prints: `\"{typed} …\"`")
    } else {
        format!("write {wanted}")
    };
    Finding::new(&RULE, span, format!("a member of `{key}` is {is}, and takes {wanted}"), help)
}

/// How to write a count that was typed as a text: its digits alone, where it has some.
fn number_alone(key: &str, typed: &str) -> String {
    let digits: String = typed
        .trim_matches(['"', '\'', ' '])
        .chars()
        .take_while(|one| one.is_ascii_digit() || *one == '.')
        .collect();
    if digits.is_empty() || digits.ends_with('.') {
        return format!("write the number in digits, without quotes: `{key} = 2`");
    }
    format!("write the number alone, without quotes: `{key} = {digits}`")
}

fn truth(key: &str, typed: &str) -> String {
    let word = match typed.trim_matches(['"', '\'']).to_lowercase().as_str() {
        "true" | "yes" => "true",
        "false" | "no" => "false",
        _ => return "write `true` or `false`, without quotes".to_owned(),
    };
    format!("write it without quotes: `{key} = {word}`")
}

/// The one text of a list.
fn alone(typed: &str) -> Option<&str> {
    let inner = typed.strip_prefix('[')?.strip_suffix(']')?.trim().trim_end_matches(',');
    (inner.starts_with('"') && inner.matches('"').count() == 2).then_some(inner)
}

/// What a table of a key may hold.
fn example(key: &str) -> &'static str {
    match key {
        "where" => "cylinder = \"front\"",
        "when" => "engine = \"cold\"",
        "on" => "of = \"torque.drain-plug\", value = \"12 N·m\"",
        "fits" => "has = [\"lash.exhaust\"]",
        "fastener" => "thread = \"M8x1.25\", class = \"8.8\"",
        _ => "name = \"word\"",
    }
}
