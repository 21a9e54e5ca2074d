//! `complaints.json` and `codes.json`.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{ExactText, Fitting};

/// The complaints.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Complaints of a bundle")]
pub struct Complaints {
    /// The complaints.
    pub complaints: Vec<Complaint>,
}

/// One complaint.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Complaint {
    /// Its id.
    pub id: String,
    /// What the owner says.
    pub title: String,
    /// Other words for it.
    pub aka: Vec<String>,
    /// Causes it can have.
    pub causes: Vec<Cause>,
    /// Access steps that checks share.
    pub access: Vec<Access>,
    /// Checks, in the order they are written.
    pub checks: Vec<Check>,
    /// Which builds it fits, as the base says it.
    pub fits: Fitting,
    /// Ids of the builds it fits.
    pub builds: Vec<String>,
}

/// One cause.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Cause {
    /// Its id.
    pub id: String,
    /// What is wrong.
    pub title: String,
    /// Share of past jobs as written, exact.
    pub share: ExactText,
    /// True for what is left when no check shows it.
    pub residual: bool,
}

/// One access step.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Access {
    /// Its id.
    pub id: String,
    /// What is opened or taken off.
    pub title: Option<String>,
    /// Minutes, exact.
    pub minutes: ExactText,
    /// Access steps that come before it.
    pub needs: Vec<String>,
}

/// One check.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Check {
    /// Its id.
    pub id: String,
    /// What is looked at or measured.
    pub title: String,
    /// Minutes, access aside, exact.
    pub minutes: ExactText,
    /// Causes it shows.
    pub shows: Vec<String>,
    /// Access steps it needs.
    pub needs: Vec<String>,
    /// Id of the procedure that says how.
    pub procedure: Option<String>,
    /// `cold`, `hot` or `any`.
    #[schemars(extend("enum" = ["cold", "hot", "any"]))]
    pub state: String,
    /// States of the engine that it takes away: `cold`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(inner(regex(pattern = "^cold$")))]
    pub voids: Vec<String>,
    /// Ids of the hazards of the check itself; its procedure has its own.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hazards: Vec<String>,
}

/// The fault codes.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Fault codes of a bundle")]
pub struct Codes {
    /// The sets of codes.
    pub sets: Vec<CodeSet>,
}

/// The codes of some engines.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CodeSet {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Ids of the engines that give them.
    pub engines: Vec<String>,
    /// How they are read.
    pub read: String,
    /// How they are cleared.
    pub clear: String,
    /// Id of the source.
    pub source: Option<String>,
    /// Page of the source.
    pub page: Option<String>,
    /// The codes.
    pub codes: Vec<Code>,
}

/// One code.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Code {
    /// Its id.
    pub id: String,
    /// What it says.
    pub title: String,
    /// When it is set.
    pub set_when: String,
    /// Causes it raises.
    pub raises: Vec<Raised>,
    /// Ids of the entries to measure.
    pub measure: Vec<String>,
}

/// A cause that a code raises.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Raised {
    /// Id of the complaint.
    pub complaint: String,
    /// Id of the cause in it.
    pub cause: String,
}
