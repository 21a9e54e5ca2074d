//! `bundle.json`: what the bundle is, which release, and the hash of its content.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a bundle says of itself.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Head of a bundle")]
pub struct Head {
    /// Title of the spec base.
    pub title: String,
    /// Name of the release.
    pub release: String,
    /// Date of the release, ISO 8601.
    pub date: String,
    /// True where the data fits no real engine.
    pub invented: bool,
    /// Licence of the data.
    pub licence: String,
    /// Notice that must stand wherever a value is shown.
    pub notice: String,
    /// After so many days a copy is stale; null if the base does not say.
    pub stale_after_days: Option<u32>,
    /// Address at which the handbook is served, if it is.
    pub base_url: Option<String>,
    /// What is let out.
    pub publish: Publish,
    /// The unit a value is shown in beside the maker's own, by kind, where the base asks for another than the usual.
    pub units: BTreeMap<String, String>,
    /// SHA-256 over paths and contents of all other files, `SHA256SUMS` aside.
    pub content_hash: String,
    /// Public key in the minisign format whose signature of `SHA256SUMS` stands beside; null if it is not signed.
    /// It says who signed only to those who have the key from elsewhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signed_by: Option<String>,
    /// How much is in it.
    pub counts: Counts,
    /// Unit of every `si` number, by kind of quantity; angles are in degrees, speeds in revolutions per minute.
    pub si: BTreeMap<String, String>,
}

/// What the base lets out.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Publish {
    /// True if values that were read only once are let out, marked as such.
    pub unconfirmed: bool,
    /// True if row labels, column headings and footnotes are let out.
    pub labels: bool,
}

/// How much is in a bundle.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Counts {
    /// Machines.
    pub machines: usize,
    /// Engines.
    pub engines: usize,
    /// Builds.
    pub builds: usize,
    /// Statements of all builds.
    pub specs: usize,
    /// Entries of the catalogue.
    pub entries: usize,
    /// Manuals and bulletins.
    pub sources: usize,
}
