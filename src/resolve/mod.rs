//! Resolve: what was typed to what is meant. References are looked up, values parsed, variants worked
//! into builds.
//!
//! Every part that is understood goes into the model; what is not is a finding, and left out.

mod builds;
mod code;
mod complaint;
mod engine;
mod fitted;
mod misprint;
mod names;
mod pattern;
mod procedure;
mod reference;
mod registry;
mod relation;
mod reread;
mod retired;
pub mod rules;
mod statement;
mod values;

pub use complaint::exact;
pub use values::Reader;

use std::collections::BTreeMap;

use crate::diag::Sink;
use crate::load::Loaded;
use crate::load::format;
use crate::load::place::FileKind;
use crate::model::{Base, Date, HazardId, Model, OnText, Publish, Release, SourceId, Unnamed, Waiver};
use engine::Surroundings;
use names::Names;

/// Understands a loaded base.
pub fn resolve(loaded: &Loaded, sink: &mut Sink) -> Model {
    let names = Names::gather(loaded, sink);
    let base = base(loaded, sink);
    let (groups, entries) = reference::catalogue(loaded, &names, sink);
    let manuals = reference::manuals(loaded, &names, sink);
    // Without the date of the base nobody knows when what is still built ends: beyond every year that is typed.
    let dated = !loaded.damaged.contains(&FileKind::Base);
    let open_year = u16::try_from(base.date.year()).ok().filter(|_| dated).unwrap_or(9999);
    let around = Surroundings { names: &names, entries: &entries, open_year };
    let mut engines = engine::engines(loaded, &around, sink);
    reread::confirm(loaded, &around, &mut engines, sink);
    let fitted = builds::fitted(loaded, &names, open_year, sink);
    let (builds, fits) = builds::builds(&engines, &fitted, &groups);
    let complaints = complaint::complaints(loaded, &names, sink);
    let (makers, machines) = reference::machines(loaded);
    let gauges = reference::gauges(loaded, &names, sink);
    let procedures = procedure::procedures(loaded, &names, &entries, sink);
    let codes = code::codes(loaded, &names, &complaints, sink);
    Model {
        base,
        relations: relation::relations(loaded, &names, sink),
        hazards: reference::hazards(loaded),
        gauges,
        procedures,
        codes,
        retired: retired::ids(loaded),
        recalls: retired::recalls(loaded),
        complaints,
        groups,
        entries,
        sources: manuals,
        makers,
        machines,
        engines,
        builds,
        fits,
        unnamed: unnamed(&names),
    }
}

/// What nothing refers to, once everything is looked up.
fn unnamed(names: &Names) -> Unnamed {
    Unnamed {
        hazards: names.hazards.unnamed().into_iter().map(HazardId::new).collect(),
        sources: names.manuals.unnamed().into_iter().map(SourceId::new).collect(),
    }
}

/// What the base says of itself; a base without `base.toml` has a finding and is never emitted.
fn base(loaded: &Loaded, sink: &mut Sink) -> Base {
    let Some(file) = &loaded.base else {
        return Base {
            title: String::new(),
            release: Release(String::new()),
            date: Date::default(),
            invented: false,
            licence: String::new(),
            notice: String::new(),
            units: BTreeMap::new(),
            units_typed: Vec::new(),
            stale_after_days: None,
            publish: Publish::default(),
            base_url: None,
            waivers: Vec::new(),
        };
    };
    let raw = &file.data;
    let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
    let mut units_typed = Vec::new();
    for (kind, typed) in &raw.units {
        let kind = reader.kind(kind);
        let unit = reader.unit(typed);
        units_typed.extend(kind.zip(unit).map(|(kind, unit)| (kind, unit, reader.span(typed))));
    }
    Base {
        title: raw.title.as_str().to_owned(),
        release: Release(raw.release.as_str().to_owned()),
        date: reader.day(&raw.date).unwrap_or_default(),
        invented: raw.invented,
        licence: raw.licence.as_str().to_owned(),
        notice: raw.notice.as_str().to_owned(),
        units: units_typed.iter().map(|(kind, unit, _)| (*kind, *unit)).collect(),
        units_typed,
        stale_after_days: raw.stale_after_days.as_ref().map(|days| *days.get()),
        publish: publish(raw.publish.as_ref()),
        base_url: raw.base_url.as_ref().map(|url| url.as_str().to_owned()),
        waivers: raw.waive.iter().filter_map(|one| waiver(one.get(), &mut reader)).collect(),
    }
}

fn waiver(raw: &format::TextWaiver, reader: &mut Reader<'_>) -> Option<Waiver<OnText>> {
    let text = raw.on.text.as_ref();
    Some(Waiver {
        span: reader.span(&raw.rule),
        rule: raw.rule.as_str().to_owned(),
        on: OnText {
            file: raw.on.file.as_str().to_owned(),
            file_span: reader.span(&raw.on.file),
            text: text.map(|text| text.as_str().to_owned()),
            text_span: reader.span(text.unwrap_or(&raw.on.file)),
        },
        because: raw.because.as_str().to_owned(),
        until: reader.day(&raw.until)?,
        until_span: reader.span(&raw.until),
    })
}

fn publish(raw: Option<&format::Publish>) -> Publish {
    let usual = Publish::default();
    raw.map_or(usual, |raw| Publish {
        unconfirmed: raw.unconfirmed.unwrap_or(usual.unconfirmed),
        labels: raw.labels.unwrap_or(usual.labels),
    })
}
