//! Machines with their builds, and what is found by its own words alone: codes and manuals.

use std::collections::BTreeMap;

use super::index::{Fitted, Fixed, Span, distinct};
use super::words::words;
use crate::model::{Build, BuildId, Fit, MachineId, Model, SerialRange};

/// The machines of a build with their years, for people.
pub(super) fn title(model: &Model, build: &Build) -> String {
    let mut years: BTreeMap<&str, (u16, u16)> = BTreeMap::new();
    for fit in model.fits.iter().filter(|fit| fit.build == build.id) {
        let name = model.machines.get(&fit.machine).map_or(fit.machine.as_str(), |one| one.name.as_str());
        let span = years.entry(name).or_insert((fit.years.from, fit.years.to));
        *span = (span.0.min(fit.years.from), span.1.max(fit.years.to));
    }
    let spelt = |(name, (from, to)): (&str, (u16, u16))| {
        if from == to { format!("{name} {from}") } else { format!("{name} {from}–{to}") }
    };
    let machines: Vec<_> = years.into_iter().map(spelt).collect();
    format!("{} · {}", machines.join(", "), build.id)
}

/// Every machine with each of its builds.
pub(super) fn fitted(model: &Model) -> Vec<Fitted> {
    let number: BTreeMap<&BuildId, usize> =
        model.builds.keys().enumerate().map(|(at, id)| (id, at)).collect();
    let mut grouped: BTreeMap<(&MachineId, usize), Vec<&Fit>> = BTreeMap::new();
    for fit in &model.fits {
        if let Some(&build) = number.get(&fit.build) {
            grouped.entry((&fit.machine, build)).or_default().push(fit);
        }
    }
    let made = grouped.into_iter().filter_map(|((machine, at), fits)| one(model, machine, at, &fits));
    made.collect()
}

fn one(model: &Model, machine: &MachineId, at: usize, fits: &[&Fit]) -> Option<Fitted> {
    let machine = model.machines.get(machine)?;
    let build = model.builds.get(&fits.first()?.build)?;
    let engine = model.engines.get(&build.engine)?;
    let maker = model.makers.get(&machine.maker).map_or("", |maker| maker.name.as_str());
    let layout = engine.layout.as_ref();
    let fuel = layout.map_or("", |layout| layout.fuel.as_str());
    let sort = format!("{} {fuel}", machine.sort.as_deref().unwrap_or_default());
    Some(Fitted {
        machine: machine.id.to_string(),
        name: machine.name.clone(),
        build: at,
        words: distinct(words(&format!("{} {maker} {} {}", machine.name, engine.id, engine.title))),
        sort: distinct(words(&sort)),
        spans: fits.iter().map(|fit| span(fit)).collect(),
    })
}

fn span(fit: &Fit) -> Span {
    let years = (fit.years.from, fit.years.to);
    match &fit.serial {
        SerialRange::Span { prefix, from, to } => Span {
            years,
            prefix: words(prefix).concat(),
            serial: (from.unwrap_or_default(), to.unwrap_or(u32::MAX)),
        },
        _ => Span { years, prefix: String::new(), serial: (0, 0) },
    }
}

/// Sets of codes, codes, manuals, and the bench sums that are given; a word that all of a sort have is none of their own.
pub(super) fn fixed(model: &Model, sums: impl IntoIterator<Item = Fixed>) -> Vec<Fixed> {
    let mut all = records(model);
    all.extend(sums);
    for one in &mut all {
        // The browser takes them from the title, of a code from its set's too.
        let titled = words(&one.title).into_iter().filter(|word| !one.sort.contains(word));
        one.words = distinct(std::mem::take(&mut one.words).into_iter().chain(titled).collect());
        let (words, sort) = (&one.words, &mut one.sort);
        sort.retain(|word| !words.contains(word));
    }
    all
}

fn records(model: &Model) -> Vec<Fixed> {
    let mut all = Vec::new();
    for set in model.codes.values() {
        let sheet = set.id.to_string();
        all.push(Fixed {
            kind: "codes".to_owned(),
            of: sheet.clone(),
            title: set.title.clone(),
            text: format!("{} codes", set.codes.len()),
            sheet: sheet.clone(),
            words: words(&set.title),
            sort: words("codes blink fault"),
        });
        for code in &set.codes {
            all.push(Fixed {
                kind: "code".to_owned(),
                of: code.id.clone(),
                title: format!("Code {}: {}", code.id, code.title),
                text: set.title.clone(),
                sheet: sheet.clone(),
                words: words(&format!("{} {} {}", code.id, code.title, set.title)),
                sort: words("code blink"),
            });
        }
    }
    for source in model.sources.values() {
        all.push(Fixed {
            kind: "source".to_owned(),
            of: source.id.to_string(),
            title: source.title.clone(),
            text: source.edition.as_ref().map(|edition| format!("edition {edition}")).unwrap_or_default(),
            sheet: source.id.to_string(),
            words: words(&format!("{} {}", source.title, source.id)),
            sort: words("source"),
        });
    }
    all
}
