//! What was given is wrong: said in the user's own words, with how to mend it.

use std::fmt;

use crate::quantity::{UnitError, ValueError};

/// Why a sum is not worked out: the reading, or what it is held against, has an error.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Refusal {
    /// What is wrong: lower case, no full stop.
    pub message: String,
    /// How to mend it.
    pub help: String,
}

impl Refusal {
    /// A refusal with its help.
    pub fn new(message: impl Into<String>, help: impl Into<String>) -> Self {
        Self { message: message.into(), help: help.into() }
    }

    /// What is wrong with the text `found` of a unit.
    pub fn of_unit(found: &str, error: &UnitError) -> Self {
        Self::new(error.message(found), error.help())
    }
}

impl From<ValueError> for Refusal {
    fn from(error: ValueError) -> Self {
        Self::new(error.message(), error.help())
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Refusal {}
