//! `base.toml`: what the whole spec base says of itself.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use super::{DAY, Located, Text};

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
