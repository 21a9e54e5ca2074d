//! Warnings that the lead accepts: for a value of an engine, or for what a finding underlines in a file.

use std::fmt;

use super::{Date, Identity, Statement};
use crate::quantity::Value;
use crate::source::Span;

/// A warning that the lead accepts.
#[derive(Debug)]
pub struct Waiver<On> {
    /// Where it is typed: its rule.
    pub span: Span,
    /// Name of the rule.
    pub rule: String,
    /// What it is for.
    pub on: On,
    /// Why.
    pub because: String,
    /// Last day it holds.
    pub until: Date,
    /// Where the day is typed.
    pub until_span: Span,
}

/// A statement and what it says: a waiver in the file of its engine lapses when that changes.
#[derive(Debug)]
pub struct OnValue {
    /// The statement.
    pub statement: Identity,
    /// One thing that it says.
    pub value: String,
    /// Where that is typed.
    pub value_span: Span,
}

/// What is underlined in a file: a waiver in `base.toml` lapses when that changes.
#[derive(Debug)]
pub struct OnText {
    /// The file, by its path in the base.
    pub file: String,
    /// Where that is typed.
    pub file_span: Span,
    /// What is underlined there; none where a finding is about the file as a whole.
    pub text: Option<String>,
    /// Where that is typed; where there is none, the file.
    pub text_span: Span,
}

impl OnValue {
    /// True if it is for a statement, and that says still what it was given for.
    pub fn is(&self, statement: &Statement) -> bool {
        statement.identity == self.statement
            && statement.form.says().iter().any(|said| same_words(said, &self.value))
    }
}

impl fmt::Display for OnValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.statement.fmt(f)
    }
}

impl fmt::Display for OnText {
    /// `` `10 mm` in `procedures/valve-lash.md` ``.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.text {
            Some(text) => write!(f, "`{text}` in `{}`", self.file),
            None => write!(f, "`{}`", self.file),
        }
    }
}

/// True if two texts are the same words: `tidy` may spell a value another way, and a line may end between two words.
pub fn same_words(one: &str, other: &str) -> bool {
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let (one, other) = (words(one), words(other));
    let spelt = |text: &str| Value::parse(text).ok().map(|value| value.text());
    one == other || spelt(&one).is_some_and(|one| spelt(&other) == Some(one))
}
