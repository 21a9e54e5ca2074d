//! `ids.toml`: public ids that no longer live, so that none dies silently.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Located, Text};

/// Public ids that no longer live.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Retired ids")]
pub struct IdsFile {
    /// The retired ids.
    #[serde(default)]
    pub retired: Vec<Located<RetiredId>>,
}

/// One retired id.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RetiredId {
    /// The id that was public.
    #[schemars(length(min = 1), example = &"ox-887~sb-21-09")]
    pub id: Text,
    /// What became of it.
    pub fate: Located<Fate>,
    /// Ids that took its place, for `moved` and `split`.
    #[serde(default)]
    #[schemars(example = ["ox-887~sb-22-04"])]
    pub to: Vec<Text>,
    /// Why.
    #[schemars(length(min = 1), example = &"The bulletin was replaced")]
    pub because: Text,
    /// Release in which it went.
    #[schemars(length(min = 1), example = &"2026.11")]
    pub release: Text,
}

/// What became of a retired id.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum Fate {
    /// Another id took its place.
    Moved,
    /// Several ids took its place.
    Split,
    /// Nothing took its place: it was wrong or is no longer kept.
    Withdrawn,
}
