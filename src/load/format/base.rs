//! `base.toml`: what the whole spec base says of itself.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use super::{DAY, ID, Located, Text};

/// What the whole spec base says of itself: title, release, date, licence and notice.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Spec base")]
pub struct BaseFile {
    /// Title of the handbook.
    #[schemars(length(min = 1), example = &"Motor pool of a mountain-rescue depot")]
    pub title: Text,
    /// Name of this release, as printed in every title block.
    #[schemars(regex(pattern = r"^[0-9A-Za-z][0-9A-Za-z.+-]*$"), example = &"2026.11")]
    pub release: Text,
    /// Date of this release. Ages and lapses of a compiled handbook are judged at this date.
    #[schemars(regex(pattern = DAY), example = &"2026-11-25")]
    pub date: Text,
    /// True where the data is invented and fits no real engine; every sheet then says so.
    pub invented: bool,
    /// Licence of the data, as an SPDX expression or the shop's own words.
    #[schemars(length(min = 1), example = &"CC-BY-4.0")]
    pub licence: Text,
    /// Notice that stands on every sheet.
    #[schemars(length(min = 1), example = &"Check against the maker's current manual.")]
    pub notice: Text,
    /// The unit that a value is converted to beside the maker's own, by kind of quantity.
    #[serde(default)]
    #[schemars(example = serde_json::json!({ "torque": "lbf·ft" }))]
    pub units: BTreeMap<Text, Text>,
    /// After so many days a sheet asks for a newer copy.
    #[serde(default)]
    #[schemars(range(min = 1, max = 36500), example = 365)]
    pub stale_after_days: Option<Located<u32>>,
    /// What may be published.
    #[serde(default)]
    pub publish: Option<Publish>,
    /// Address at which the handbook is served, if it is; sheets then carry their own address.
    #[serde(default)]
    #[schemars(regex(pattern = "^https?://"), example = &"https://handbook.example/")]
    pub base_url: Option<Text>,
    /// Warnings about no value of an engine that the lead accepts, with a reason and a date.
    #[serde(default)]
    pub waive: Vec<Located<TextWaiver>>,
}

/// A warning about no value of an engine that the lead accepts: one about a value is waived in the engine's file.
/// Errors cannot be waived.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Waiver of a warning about no value")]
pub struct TextWaiver {
    /// The rule that is waived.
    #[schemars(regex(pattern = ID), example = &"number-in-prose")]
    pub rule: Text,
    /// The text it is waived for: the waiver lapses when the text changes.
    pub on: TextWaiverTarget,
    /// Why it is right all the same.
    #[schemars(length(min = 1), example = &"The size of a wrench, and no measure of the engine")]
    pub because: Text,
    /// Last day the waiver holds.
    #[schemars(regex(pattern = DAY), example = &"2027-01-31")]
    pub until: Text,
}

/// The text a waiver is for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Text a waiver is for")]
pub struct TextWaiverTarget {
    /// Path of the file in the base, with `/`.
    #[schemars(length(min = 1), example = &"procedures/valve-lash.md")]
    pub file: Text,
    /// What the finding underlines there, without the quotes of a string; left out where it underlines nothing.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"10 mm")]
    pub text: Option<Text>,
}

/// What may go into handbook and bundle.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "What may be published")]
pub struct Publish {
    /// Values that were read only once, marked as such (the usual case); if false they are withheld.
    #[serde(default)]
    pub unconfirmed: Option<bool>,
    /// Row labels, column headings and footnotes of the manuals (the usual case); if false they stay here.
    #[serde(default)]
    pub labels: Option<bool>,
}
