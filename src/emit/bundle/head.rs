//! `bundle.json`: what the bundle is, which release, and the hash of its content.

use crate::bundle as json;
use crate::model::Model;
use crate::quantity::Kind;

/// The head of a bundle; its content hash is put in once there is content.
pub fn head(model: &Model) -> json::Head {
    let base = &model.base;
    json::Head {
        title: base.title.clone(),
        release: base.release.to_string(),
        date: base.date.to_string(),
        invented: base.invented,
        licence: base.licence.clone(),
        notice: base.notice.clone(),
        stale_after_days: base.stale_after_days,
        base_url: base.base_url.clone(),
        publish: json::Publish { unconfirmed: base.publish.unconfirmed, labels: base.publish.labels },
        units: base
            .units
            .iter()
            .map(|(kind, unit)| (kind.name().to_owned(), unit.symbol().to_owned()))
            .collect(),
        content_hash: String::new(),
        signed_by: None,
        counts: json::Counts {
            machines: model.machines.len(),
            engines: model.engines.len(),
            builds: model.builds.len(),
            specs: model.builds.values().map(|build| build.statements.len()).sum(),
            entries: model.entries.len(),
            sources: model.sources.len(),
        },
        si: Kind::all().iter().map(|kind| (kind.name().to_owned(), kind.si_symbol().to_owned())).collect(),
    }
}
