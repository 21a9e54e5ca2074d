//! `bundle.json`: what the bundle is, which release, and the hash of its content.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use crate::model::Model;
use crate::quantity::Kind;

/// What a bundle says of itself.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Head of a bundle")]
pub struct HeadJson {
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
    /// SHA-256 over paths and contents of all other files, `SHA256SUMS` aside.
    pub content_hash: String,
    /// How much is in it.
    pub counts: CountsJson,
    /// Unit of every `si` number, by kind of quantity; angles are in degrees, speeds in revolutions per minute.
    pub si: BTreeMap<&'static str, &'static str>,
}

/// How much is in a bundle.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CountsJson {
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

/// The head of a bundle.
pub fn head(model: &Model, content_hash: &str) -> HeadJson {
    let base = &model.base;
    HeadJson {
        title: base.title.clone(),
        release: base.release.to_string(),
        date: base.date.to_string(),
        invented: base.invented,
        licence: base.licence.clone(),
        notice: base.notice.clone(),
        stale_after_days: base.stale_after_days,
        content_hash: content_hash.to_owned(),
        counts: CountsJson {
            machines: model.machines.len(),
            engines: model.engines.len(),
            builds: model.builds.len(),
            specs: model.builds.values().map(|build| build.statements.len()).sum(),
            entries: model.entries.len(),
            sources: model.sources.len(),
        },
        si: Kind::all().iter().map(|kind| (kind.name(), kind.si_symbol())).collect(),
    }
}
