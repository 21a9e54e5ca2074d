//! `toml-syntax`: what cannot be parsed cannot be checked.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!("toml_syntax", "toml-syntax", Error, Form, "a file is not TOML");

/// What the parser's commonest complaints, known by how they begin, mean to whoever typed the file, and
/// what to do about each.
const MEANINGS: [(&str, &str, &str); 22] = [
    ("invalid basic string, expected `\"`", "a quote is not closed on this line", QUOTES),
    ("invalid literal string, expected `'`", "a quote is not closed on this line", QUOTES),
    ("invalid multi-line", "a text in three quotes is never closed", QUOTES),
    ("string values must be quoted", "a value stands here without quotes, or is missing", QUOTES),
    (
        "missing escaped value",
        "a `\\` in a text says nothing that TOML knows",
        "write `\\\\` for one backslash, or put the text in single quotes",
    ),
    (
        "duplicate key",
        "this is given twice",
        "keep one of the two; a second `[[spec]]` begins a new statement",
    ),
    ("missing comma between array elements", "a comma is missing here, or the `]` that ends the list", LISTS),
    (
        "missing comma between key-value pairs",
        "a comma is missing here, or the `}` that ends the table",
        LISTS,
    ),
    ("extra assignment between key-value pairs", "a comma is missing before this", LISTS),
    ("extra comma", "a comma stands here with nothing before it", LISTS),
    (
        "unclosed array table",
        "a heading is not closed by `]]`",
        "write headings as `[[spec]]`, alone on their line",
    ),
    ("unclosed array", "a list that was begun is never closed", LISTS),
    ("unclosed inline table", "a table that was begun is never closed", LISTS),
    (
        "unclosed table",
        "a heading is not closed by `]`",
        "write headings as `[defaults]`, alone on their line",
    ),
    ("key with no value", "this line has a key and no value", LINES),
    ("invalid unquoted key", "a key has letters from a to z, digits, `-` and `_`, and nothing else", LINES),
    ("unquoted keys cannot be empty", "a key is missing here", LINES),
    (
        "unexpected leading zero",
        "a number begins here with a needless zero",
        "put it in quotes if it is a page or an id",
    ),
    ("invalid date", "this is no day of the calendar", "write year, month, day, as `2026-11-25`"),
    ("cannot recurse further", "brackets lie too deep in one another here", LISTS),
    ("recursion limit", "keys lie too deep in one another here", LINES),
    (
        "unexpected key or value",
        "something stands here after the value, where the line should end",
        "end the line after the value; decimals have a point, and remarks begin with `#`",
    ),
];

const QUOTES: &str =
    "texts, and values with a unit, stand in straight quotes on one line: \"0.20 ± 0.05 mm\"";
const LISTS: &str =
    "lists are written `[\"a\", \"b\"]`, tables `{ a = 1, b = 2 }`: look at the lines before, too";
const LINES: &str = "every line is `key = value`, `[table]`, `[[table]]` or a `#` comment; nothing of this file is read until it parses";

/// A file that does not parse, with the parser's first complaint.
pub fn finding(span: Span, complaint: &str) -> Finding {
    let known = MEANINGS.iter().find(|(begins, ..)| complaint.starts_with(begins));
    let (message, help) = known.map_or_else(
        || ("this line is not TOML".to_owned(), LINES),
        |(_, means, help)| ((*means).to_owned(), *help),
    );
    Finding::new(&RULE, span, message, help)
}

/// A file that does not parse, where it is plain what was typed.
pub fn slip(span: Span, message: String, help: String) -> Finding {
    Finding::new(&RULE, span, message, help)
}
