//! An exact number as JSON holds it: a text, so that no reader rounds it on the way.

use std::borrow::Cow;
use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};

use crate::quantity::{Exact, exact_text, parse_exact};

/// An exact number, written as a terminating decimal or as a fraction `n/d`.
///
/// Its text is always a number: one that is not refuses to be read.
#[derive(Clone, Debug, Deserialize, Eq, PartialEq, Serialize)]
#[serde(try_from = "String", into = "String")]
pub struct ExactText {
    text: String,
    exact: Exact,
}

impl ExactText {
    /// The number as it is written.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The number.
    pub const fn exact(&self) -> &Exact {
        &self.exact
    }
}

impl From<Exact> for ExactText {
    fn from(exact: Exact) -> Self {
        Self { text: exact_text(&exact), exact }
    }
}

impl TryFrom<String> for ExactText {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        match parse_exact(&text) {
            Some(exact) => Ok(Self { text, exact }),
            None => Err(format!("`{text}` is no exact number: a decimal or a fraction n/d is wanted")),
        }
    }
}

impl From<ExactText> for String {
    fn from(number: ExactText) -> Self {
        number.text
    }
}

impl fmt::Display for ExactText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl JsonSchema for ExactText {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "ExactText".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "pattern": r"^-?[0-9]+(\.[0-9]+|/[1-9][0-9]*)?$" })
    }
}
