//! `engines/<maker>/<engine>.toml`: the statements of one engine, and how bulletins vary them.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;

use super::{ID, Located, OneOrMany, Text, Variant, Waiver, Words};
use crate::model::{Absence, Direction, Hand, Reuse};

/// One engine: what it is, every value read from its manuals, and its variants.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Engine")]
pub struct EngineFile {
    /// Id of the engine.
    #[schemars(regex(pattern = ID), example = &"ox-887")]
    pub id: Text,
    /// Id of its maker.
    #[schemars(regex(pattern = ID), example = &"oxbarrow")]
    pub maker: Text,
    /// Title of the engine.
    #[schemars(length(min = 1), example = &"Oxbarrow 887")]
    pub title: Text,
    /// How it is laid out.
    #[serde(default)]
    pub layout: Option<Located<Layout>>,
    /// Provenance of every statement that does not give its own.
    #[serde(default)]
    pub defaults: Defaults,
    /// The statements.
    #[serde(default)]
    pub spec: Vec<Located<Spec>>,
    /// What bulletins change, and for which machines.
    #[serde(default)]
    pub variant: Vec<Located<Variant>>,
    /// Warnings that the lead accepts, with a reason and a date.
    #[serde(default)]
    pub waive: Vec<Located<Waiver>>,
}

/// How an engine is laid out.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Layout {
    /// `four-stroke` or `two-stroke`.
    #[schemars(regex(pattern = "^(four-stroke|two-stroke)$"), example = &"four-stroke")]
    pub cycle: Text,
    /// `petrol` or `diesel`.
    #[schemars(regex(pattern = "^(petrol|diesel)$"), example = &"petrol")]
    pub fuel: Text,
    /// Number of cylinders.
    #[schemars(range(min = 1, max = 16), example = 2)]
    pub cylinders: Located<u32>,
    /// Cylinder bore.
    #[serde(default)]
    #[schemars(example = &"80.0 mm")]
    pub bore: Option<Text>,
    /// Piston stroke.
    #[serde(default)]
    #[schemars(example = &"66.0 mm")]
    pub stroke: Option<Text>,
    /// Swept volume of all cylinders.
    #[serde(default)]
    #[schemars(example = &"332 cm³")]
    pub displacement: Option<Text>,
    /// In the shop's words: arrangement, valve gear, mixture, start.
    #[serde(default)]
    #[schemars(example = &"twin, twin cam, shim under bucket")]
    pub words: Option<Text>,
}

/// Provenance of the statements that do not give their own.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Defaults {
    /// Id of the source.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"ox-887-manual")]
    pub source: Option<Text>,
    /// Who read it from the page: initials.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"mk")]
    pub read_by: Option<Text>,
}

/// One statement: the value of one entry at one place under one condition.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(extend("oneOf" = exactly_one_form()))]
pub struct Spec {
    /// Id of the entry it is a value of.
    #[schemars(regex(pattern = ID), example = &"lash.exhaust")]
    pub of: Text,
    /// The place it holds for, in the axes of the entry; everywhere if left out.
    #[serde(default, rename = "where")]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "cylinder": "front" }))]
    pub place: Words,
    /// The state it is meant for, in the states of the entry; any if left out.
    #[serde(default)]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "engine": "cold", "air": "under 35 °C" }))]
    pub when: Words,

    /// Limits to set to or accept within: every form the manual prints, the maker's unit first.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["0.20 ± 0.05 mm", "0.008 ± 0.002 in"])]
    pub window: Option<Vec<Text>>,
    /// Where the maker asks for less than the whole window.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["0.22 mm"])]
    pub set_to: Option<Vec<Text>>,
    /// The fit of new parts.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["0.20..0.35 mm"])]
    pub new: Option<Vec<Text>>,
    /// The end of use.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["max 0.60 mm"])]
    pub wear_limit: Option<Vec<Text>>,
    /// A value to apply.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["20 N·m"])]
    pub setting: Option<Vec<Text>>,
    /// A value applied in steps, in order; a step is one printed form or a list of them.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub stages: Option<Vec<Stage>>,
    /// A table: what is read at which input.
    #[serde(default)]
    #[schemars(length(min = 1), inner(length(equal = 2)))]
    #[schemars(example = [["20 °C", "2.45 kΩ ± 10 %"], ["80 °C", "318 Ω ± 10 %"]])]
    pub points: Option<Vec<Vec<Text>>>,
    /// Direction of rotation.
    #[serde(default)]
    pub direction: Option<Located<Direction>>,
    /// Where one stands to see it turn that way.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"clutch side")]
    pub seen_from: Option<Text>,
    /// Service interval: whichever comes first.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["50 h", "6 months"])]
    pub interval: Option<Vec<Text>>,
    /// The first interval of a new or rebuilt machine.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["10 h"])]
    pub first: Option<Vec<Text>>,
    /// The interval in severe use.
    #[serde(default)]
    #[schemars(length(min = 1), example = ["25 h"])]
    pub severe: Option<Vec<Text>>,
    /// A part chosen by one or two inputs.
    #[serde(default)]
    pub selection: Option<Selection>,
    /// The cavities of a connector.
    #[serde(default)]
    #[schemars(length(min = 1))]
    pub pins: Option<Vec<Pin>>,
    /// Words.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"RON 95, no more than 10 % ethanol")]
    pub text: Option<Text>,
    /// Why there is no value.
    #[serde(default)]
    pub absent: Option<Located<Absence>>,

    /// The fastener a torque is for.
    #[serde(default)]
    pub fastener: Option<Located<Fastener>>,
    /// Bolt centres in millimetres, in tightening order.
    #[serde(default)]
    #[schemars(length(min = 1), inner(length(equal = 2)), example = [[-45, 40], [45, 40]])]
    pub pattern: Option<Vec<Located<Vec<f64>>>>,

    /// Id of the source it was read from.
    #[serde(default)]
    #[schemars(regex(pattern = ID), example = &"ox-887-manual")]
    pub source: Option<Text>,
    /// Page of the source, as printed on it.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"5-12")]
    pub page: Option<Text>,
    /// Label of the row it was read from.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"Exhaust")]
    pub row: Option<Text>,
    /// Heading of the column it was read from.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"Clearance, cold")]
    pub column: Option<Text>,
    /// Footnote that bears on it.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"Not for engines with the heavy flywheel")]
    pub footnote: Option<Text>,
    /// Who read it from the page: initials.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"mk")]
    pub read_by: Option<Text>,
    /// What the manual prints wrongly.
    #[serde(default)]
    pub misprint: Option<Located<Misprint>>,
    /// What the technician should know of this value.
    #[serde(default)]
    #[schemars(example = &"Turn the crank two full turns before measuring again")]
    pub note: Option<Text>,
}

/// A statement has exactly one form; `new` and `wear_limit` are one form together.
pub(super) fn exactly_one_form() -> serde_json::Value {
    let one = |key: &str| serde_json::json!({ "required": [key] });
    let fit = serde_json::json!({ "anyOf": [one("new"), one("wear_limit")] });
    let others = [
        "window",
        "setting",
        "stages",
        "points",
        "direction",
        "interval",
        "selection",
        "pins",
        "text",
        "absent",
    ];
    std::iter::once(fit).chain(others.into_iter().map(one)).collect()
}

/// One step of a value applied in steps: a printed form, or every form the manual prints.
#[derive(Clone, Debug, Deserialize)]
#[serde(transparent)]
pub struct Stage(pub OneOrMany);

impl JsonSchema for Stage {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Stage".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["array", "string"],
            "items": { "type": "string" },
            "minItems": 1,
            "examples": ["20 N·m", "+90°", ["20 N·m", "15 lbf·ft"]]
        })
    }
}

/// A part chosen from a table by one or two inputs; nothing outside the table is ever chosen.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Selection {
    /// What is looked up: one or two names.
    #[schemars(length(min = 1, max = 2), example = ["case mark", "crank mark"])]
    pub by: Vec<Text>,
    /// Rows: the inputs in order, then the part.
    #[schemars(length(min = 1), inner(length(min = 2, max = 3)), example = [["A", "1", "brown"]])]
    pub rows: Vec<Vec<Text>>,
}

/// One cavity of a connector.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Pin {
    /// Cavity as marked on the connector.
    #[schemars(length(min = 1), example = &"1")]
    pub cavity: Text,
    /// Colour of its wire.
    #[serde(default)]
    #[schemars(example = &"black/yellow")]
    pub wire: Option<Text>,
    /// What it carries.
    #[schemars(length(min = 1), example = &"sensor ground")]
    pub function: Text,
    /// What is measured there, by state.
    #[serde(default)]
    #[schemars(with = "std::collections::BTreeMap<String, String>")]
    #[schemars(example = serde_json::json!({ "key on": "min 9.6 V" }))]
    pub expect: Words,
}

/// The fastener a torque is for.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fastener {
    /// Thread designation.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"M9x1.25")]
    pub thread: Option<Text>,
    /// Property class as marked on the head.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"10.9")]
    pub class: Option<Text>,
    /// State of the threads: dry, oiled, locked with a compound.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"oiled")]
    pub threads: Option<Text>,
    /// Hand of the thread.
    #[serde(default)]
    pub hand: Option<Hand>,
    /// How many there are.
    #[serde(default)]
    #[schemars(range(min = 1, max = 200), example = 8)]
    pub count: Option<u32>,
    /// Whether it may be used again.
    #[serde(default)]
    pub reuse: Option<Reuse>,
    /// What it goes into.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"aluminium")]
    pub into: Option<Text>,
}

/// What the manual prints wrongly, what it means, and who decided so.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Misprint {
    /// The form as printed.
    #[schemars(length(min = 1), example = &"9 lbf·in")]
    pub printed: Text,
    /// The form as meant.
    #[schemars(length(min = 1), example = &"9 lbf·ft")]
    pub meant: Text,
    /// Why it must be a misprint.
    #[schemars(length(min = 1), example = &"The drawing on the next page gives 9 lbf·ft")]
    pub because: Text,
    /// Who decided: initials.
    #[schemars(length(min = 1), example = &"mk")]
    pub decided_by: Text,
}
