//! One statement in JSON: its value under the key of its form, its provenance, whether it is confirmed.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{ExactText, Printed, Range};

/// One statement. Exactly one of the keys of a value is not null; `new` and `wear_limit` are one value.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Spec {
    /// Id of the entry.
    pub of: String,
    /// The place it holds for: axis and word; empty is everywhere.
    #[serde(rename = "where")]
    pub place: BTreeMap<String, String>,
    /// The state it is meant for; empty is any.
    pub when: BTreeMap<String, String>,
    /// Those of the states that are quantities, exactly, by name.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub conditions: BTreeMap<String, Printed>,
    /// Key of the value below: `window`, `new`, `wear_limit`, `setting` …
    #[schemars(extend("enum" = ["window", "new", "wear_limit", "setting", "stages", "points", "direction", "interval", "selection", "pins", "text", "absent"]))]
    pub form: String,
    /// Limits to set to or accept within.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub window: Option<Range>,
    /// Where the maker asks for less than the whole window.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set_to: Option<Range>,
    /// The fit of new parts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub new: Option<Range>,
    /// The end of use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wear_limit: Option<Range>,
    /// A value to apply.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setting: Option<Range>,
    /// A value applied in steps, in order.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stages: Option<Vec<Range>>,
    /// A table: what is read at which input.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub points: Option<Vec<Point>>,
    /// `clockwise` or `counter-clockwise`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(extend("enum" = ["clockwise", "counter-clockwise", null]))]
    pub direction: Option<String>,
    /// Where one stands to see it turn that way.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seen_from: Option<String>,
    /// Service interval: whichever comes first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub interval: Option<Vec<Printed>>,
    /// The first interval of a new or rebuilt machine.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first: Option<Vec<Printed>>,
    /// The interval in severe use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub severe: Option<Vec<Printed>>,
    /// A part chosen by one or two inputs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub selection: Option<Selection>,
    /// The cavities of a connector.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pins: Option<Vec<Pin>>,
    /// Words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// Why there is no value: `not-given`, `not-applicable` or `not-read`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(extend("enum" = ["not-given", "not-applicable", "not-read", null]))]
    pub absent: Option<String>,
    /// The fastener a torque is for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fastener: Option<Fastener>,
    /// Bolt centres in millimetres, in tightening order; exact decimals.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<Vec<[ExactText; 2]>>,
    /// Where it was read, by whom.
    pub source: SourceRef,
    /// The variant that makes it; null for the engine's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variant: Option<String>,
    /// Whether a second reading confirms it.
    pub confirmation: Confirmation,
    /// Why the value is left out here although the base states it; it is then not known to be safe to use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withheld: Option<String>,
    /// Warnings that the lead accepts for this value.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub waivers: Vec<Waiver>,
    /// What the manual prints wrongly. The value itself, its printed forms too, is what is meant.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub misprint: Option<Misprint>,
    /// What the technician should know.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// Whether a second, independent reading of the page confirms a value.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Confirmation {
    /// `confirmed`, `read-once`, `differs` (the second reader found the same value elsewhere: a base that states a
    /// value read in two ways gives no bundle) or `not-needed`.
    #[schemars(extend("enum" = ["confirmed", "read-once", "differs", "not-needed"]))]
    pub state: String,
    /// Initials of the second reader.
    pub by: Option<String>,
    /// Day of the second reading, ISO 8601.
    pub on: Option<String>,
    /// Where the second reader found it, if not where the first did.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub found: Option<SourceRef>,
}

/// A warning that the lead accepts.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Waiver {
    /// The rule that is waived.
    pub rule: String,
    /// What the statement says that it is waived for: a printed form; of a form without one its word, words or part.
    pub value: String,
    /// Why.
    pub because: String,
    /// Last day it holds, ISO 8601.
    pub until: String,
}

/// One point of a table.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Point {
    /// What it is read at.
    pub at: Printed,
    /// What is read.
    pub reads: Printed,
}

/// A part chosen from a table; nothing outside it is ever chosen.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Selection {
    /// Names of the inputs.
    pub by: Vec<String>,
    /// Rows.
    pub rows: Vec<Choice>,
}

/// One row of a selection.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Choice {
    /// The inputs.
    pub inputs: Vec<String>,
    /// Each input exactly; null where it is no quantity.
    pub exact: Vec<Option<Printed>>,
    /// The part they choose.
    pub part: String,
}

/// One cavity of a connector.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Pin {
    /// Cavity.
    pub cavity: String,
    /// Colour of its wire.
    pub wire: Option<String>,
    /// What it carries.
    pub function: String,
    /// What is measured there, by state.
    pub expect: BTreeMap<String, String>,
    /// The same exactly, where it is a quantity.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub measured: BTreeMap<String, Printed>,
}

/// The fastener a torque is for.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Fastener {
    /// Thread designation.
    pub thread: Option<String>,
    /// Property class.
    pub class: Option<String>,
    /// State of the threads.
    pub threads: Option<String>,
    /// `right` or `left`.
    #[schemars(extend("enum" = ["right", "left", null]))]
    pub hand: Option<String>,
    /// How many.
    pub count: Option<u32>,
    /// `never`, `if-good` or `yes`.
    #[schemars(extend("enum" = ["never", "if-good", "yes", null]))]
    pub reuse: Option<String>,
    /// What it goes into.
    pub into: Option<String>,
}

/// Where a value was read, by whom.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SourceRef {
    /// Id of the source.
    pub id: Option<String>,
    /// Page as printed.
    pub page: Option<String>,
    /// Row label.
    pub row: Option<String>,
    /// Column heading.
    pub column: Option<String>,
    /// Footnote that bears on it.
    pub footnote: Option<String>,
    /// Initials of the reader.
    pub read_by: Option<String>,
}

/// What the manual prints wrongly.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Misprint {
    /// As printed.
    pub printed: String,
    /// As meant.
    pub meant: String,
    /// Why.
    pub because: String,
    /// Who decided.
    pub decided_by: String,
}
