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
        ("a text", "a whole number" | "a number" | "true or false") => "write it without quotes".to_owned(),
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
