//! What every page shares: title, release, notice, assets.

use std::collections::BTreeMap;

use serde::Serialize;

use super::super::assets::{self, Asset};
use super::text::sentence;
use crate::emit::drawing::{self, Drawing};
use crate::model::Base;

/// Known to every template as `site`.
#[derive(Debug, Serialize)]
pub struct Shared {
    /// Title of the handbook.
    pub title: String,
    /// Name of the release.
    pub release: String,
    /// Date of the release, `2026-11-25`.
    pub date: String,
    /// After so many days a sheet asks for a newer copy.
    pub stale_after_days: Option<u32>,
    /// True where the data fits no real engine.
    pub invented: bool,
    /// Licence of the data.
    pub licence: String,
    /// Notice of the base.
    pub notice: String,
    /// Hash of the whole content.
    pub content_hash: String,
    /// Version of the compiler.
    pub version: &'static str,
    /// What the drawings of a page have in common.
    pub common_drawing: Drawing,
    /// The part of it that a page needs at once whose drawings come by script.
    pub alert_drawing: Drawing,
    /// Style sheet of the bench card, and the hash that its policy names.
    pub card_style: String,
    /// The hash, `sha256-…`.
    pub card_style_hash: String,
    /// Path of each asset, by its stem: `handbook_css`.
    pub asset: BTreeMap<String, String>,
}

impl Shared {
    /// What pages share under a base.
    pub fn new(base: &Base, content_hash: &str, assets: &[Asset]) -> Self {
        let card_style = assets::card_style();
        let key = |name: &str| name.rsplit('/').next().unwrap_or(name).replace(['.', '-'], "_");
        Self {
            title: base.title.clone(),
            release: base.release.to_string(),
            date: base.date.to_string(),
            stale_after_days: base.stale_after_days,
            invented: base.invented,
            licence: base.licence.clone(),
            notice: notice(&base.notice),
            content_hash: content_hash.to_owned(),
            common_drawing: drawing::shared(),
            alert_drawing: drawing::alert(),
            card_style_hash: card_style.hash,
            card_style: card_style.text,
            version: env!("CARGO_PKG_VERSION"),
            asset: assets.iter().map(|asset| (key(asset.name), asset.path.clone())).collect(),
        }
    }
}

/// The base's own notice; what every sheet must say is added where the notice does not say it.
fn notice(text: &str) -> String {
    let own = sentence(text);
    if own.contains("technician") {
        own
    } else {
        format!("{own} Local rules and a trained or licensed technician come first.").trim_start().to_owned()
    }
}
