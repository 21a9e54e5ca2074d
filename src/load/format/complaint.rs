//! `complaints/*.toml`: what the owner reports, its causes, and the checks that find them.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{ID, Located, Text};

/// One complaint with its causes, the access its checks share, and the checks.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Complaint")]
pub struct ComplaintFile {
    /// Id of the complaint.
    #[schemars(regex(pattern = ID), example = &"starts-badly-cold")]
    pub id: Text,
    /// What the owner says.
    #[schemars(length(min = 1), example = &"Starts badly when cold")]
    pub title: Text,
    /// Other words for it.
    #[serde(default)]
    #[schemars(example = ["cranks but will not catch"])]
    pub aka: Vec<Text>,
    /// Causes it can have.
    #[schemars(length(min = 1))]
    pub causes: Vec<Located<Cause>>,
    /// Access steps that checks share.
    #[serde(default)]
    pub access: Vec<Located<Access>>,
    /// Checks that show causes.
    #[schemars(length(min = 1))]
    pub checks: Vec<Located<Check>>,
    /// Entries it applies to, as for a procedure.
    #[serde(default)]
    pub fits: Option<Located<super::Fits>>,
}

/// One cause of a complaint.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    /// Id of the cause.
    #[schemars(regex(pattern = ID), example = &"lash-tight")]
    pub id: Text,
    /// What is wrong.
    #[schemars(length(min = 1), example = &"Exhaust lash tight")]
    pub title: Text,
    /// Share of past jobs: any number above zero, of the same sort for all causes.
    #[schemars(range(min = 0), example = 18)]
    pub share: f64,
    /// True for what is left when no check shows it.
    #[serde(default)]
    pub residual: bool,
}

/// One access step.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Access {
    /// Id of the access step.
    #[schemars(regex(pattern = ID), example = &"seat")]
    pub id: Text,
    /// What is opened or taken off.
    #[serde(default)]
    #[schemars(example = &"Seat off")]
    pub title: Option<Text>,
    /// Minutes it takes.
    #[schemars(range(min = 0), example = 1)]
    pub minutes: f64,
    /// Access steps that come before it.
    #[serde(default)]
    #[schemars(example = ["seat"])]
    pub needs: Vec<Text>,
}

/// One check.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// Id of the check.
    #[schemars(regex(pattern = ID), example = &"lash")]
    pub id: Text,
    /// What is looked at or measured.
    #[schemars(length(min = 1), example = &"Measure the lash")]
    pub title: Text,
    /// Minutes it takes.
    #[schemars(range(min = 0), example = 40)]
    pub minutes: f64,
    /// Causes it shows.
    #[schemars(length(min = 1), example = ["lash-tight"])]
    pub shows: Vec<Text>,
    /// Access steps it needs.
    #[serde(default)]
    #[schemars(example = ["seat"])]
    pub needs: Vec<Text>,
    /// Procedure that says how.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"valve-lash")]
    pub procedure: Option<Text>,
    /// State of the engine it is done in.
    #[serde(default)]
    pub state: crate::model::ProcedureState,
    /// States of the engine that it takes away from the checks after it.
    #[serde(default)]
    #[schemars(example = ["cold"])]
    pub voids: Vec<crate::model::VoidedState>,
    /// Cautions of the check itself; those of its procedure stand beside them.
    #[serde(default)]
    #[schemars(example = ["hot-coolant"])]
    pub hazards: Vec<Text>,
}
