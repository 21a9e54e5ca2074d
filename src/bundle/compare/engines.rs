//! What changed in engines: builds that came and went, and the statements of those that stayed.

use std::collections::{BTreeMap, BTreeSet};

use super::Change;
use super::kind::ChangeKind;
use super::statement::{changes as statement_changes, value_text};
use super::things::{fields, words_of};
use crate::bundle::{Build, Bundle, Engine, Printed, Spec};

/// The changes in every engine.
pub fn changes(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let by_id = |bundle: &'_ Bundle| -> BTreeMap<String, Engine> {
        bundle.engines.iter().map(|engine| (engine.id.clone(), engine.clone())).collect()
    };
    let (before, after) = (by_id(old), by_id(new));
    let mut all = Vec::new();
    for (id, engine) in &before {
        match after.get(id) {
            Some(now) => all.extend(engine_changes(engine, now)),
            None if is_accounted(new, id) => {}
            None => {
                all.push(Change::new(ChangeKind::Withdrawn, Some(engine.title.clone()), None).in_engine(id));
            }
        }
    }
    for (id, engine) in &after {
        if !before.contains_key(id) {
            all.push(Change::new(ChangeKind::Added, None, Some(engine.title.clone())).in_engine(id));
        }
    }
    for engine in &before {
        let Some(now) = after.get(engine.0) else { continue };
        for build in &engine.1.builds {
            if !now.builds.iter().any(|one| one.id == build.id) && !is_accounted(new, &build.id) {
                let gone = Change::new(ChangeKind::Withdrawn, Some(build.id.clone()), None);
                all.push(Change { build: Some(build.id.clone()), ..gone.in_engine(engine.0) });
            }
        }
    }
    all
}

/// True if what became of an id is said: it moved or was split.
pub fn is_accounted(new: &Bundle, id: &str) -> bool {
    new.ids.retired.iter().any(|one| one.id == id && one.fate != "withdrawn")
}

fn engine_changes(old: &Engine, new: &Engine) -> Vec<Change> {
    let mut all = layout(old, new);
    all.extend(fields(old, new, &["id", "layout", "builds"], None));
    let mut found: BTreeMap<Change, BTreeSet<String>> = BTreeMap::new();
    let mut stayed = BTreeSet::new();
    for build in &new.builds {
        // Several where one moved to another: each of them had machines that now have this one.
        let mut before = old.builds.iter().filter(|one| one.id == build.id).peekable();
        if before.peek().is_some() {
            stayed.insert(build.id.clone());
            for change in before.flat_map(|one| build_changes(one, build)) {
                found.entry(change).or_default().insert(build.id.clone());
            }
            continue;
        }
        let came = Change::new(ChangeKind::Added, None, Some(build.id.clone()));
        all.push(Change { build: Some(build.id.clone()), ..came });
        for change in origin(old, build).map(|from| build_changes(from, build)).unwrap_or_default() {
            all.push(Change { build: Some(build.id.clone()), ..change });
        }
    }
    for (change, builds) in found {
        if builds == stayed && builds.len() > 1 {
            all.push(change);
        } else {
            all.extend(builds.into_iter().map(|build| Change { build: Some(build), ..change.clone() }));
        }
    }
    all.into_iter().map(|change| change.in_engine(&new.id)).collect()
}

/// The old build that a new one comes from: the one with the most of its variants and no other.
fn origin<'a>(old: &'a Engine, build: &Build) -> Option<&'a Build> {
    let within = old.builds.iter().filter(|one| one.variants.iter().all(|id| build.variants.contains(id)));
    within.max_by_key(|one| one.variants.len())
}

/// The changes in layout: its measures are values that other values are checked by.
fn layout(old: &Engine, new: &Engine) -> Vec<Change> {
    let measures = |engine: &Engine| -> Vec<(&'static str, Option<String>)> {
        let text = |form: Option<&Printed>| form.map(|form| form.text.clone());
        let layout = engine.layout.as_ref();
        vec![
            ("bore", layout.and_then(|one| text(one.bore.as_ref()))),
            ("stroke", layout.and_then(|one| text(one.stroke.as_ref()))),
            ("displacement", layout.and_then(|one| text(one.displacement.as_ref()))),
        ]
    };
    let mut all = Vec::new();
    for ((name, before), (_, after)) in measures(old).into_iter().zip(measures(new)) {
        if before != after {
            let said = |text: Option<String>| text.map(|text| format!("{name} {text}"));
            all.push(Change::new(ChangeKind::Setting, said(before), said(after)));
        }
    }
    let words = |engine: &Engine| {
        engine
            .layout
            .as_ref()
            .map(|one| (one.cycle.clone(), one.fuel.clone(), one.cylinders, one.words.clone()))
    };
    if words(old) != words(new) {
        let said = |engine: &Engine| {
            words(engine).map(|(cycle, fuel, cylinders, words)| {
                format!(
                    "{cycle}, {fuel}, {cylinders} cylinders{}",
                    words.map(|one| format!(", {one}")).unwrap_or_default()
                )
            })
        };
        all.push(Change::new(ChangeKind::Text, said(old), said(new)));
    }
    all
}

/// What a statement is of, where, and in which state.
type Identity = (String, BTreeMap<String, String>, BTreeMap<String, String>);

fn identity(spec: &Spec) -> Identity {
    (spec.of.clone(), spec.place.clone(), spec.when.clone())
}

/// The changes in the statements of one build.
fn build_changes(old: &Build, new: &Build) -> Vec<Change> {
    let index = |build: &'_ Build| -> BTreeMap<Identity, Spec> {
        build.specs.iter().map(|spec| (identity(spec), spec.clone())).collect()
    };
    let (before, after) = (index(old), index(new));
    let mut all = Vec::new();
    let mut gone: Vec<&Spec> = Vec::new();
    for (name, spec) in &before {
        match after.get(name) {
            Some(now) => all.extend(stated(statement_changes(spec, now), now)),
            None => gone.push(spec),
        }
    }
    let mut came: Vec<&Spec> =
        after.iter().filter(|(name, _)| !before.contains_key(*name)).map(|(_, spec)| spec).collect();
    for (spec, now) in pairs(&mut gone, &mut came) {
        let condition =
            Change::new(ChangeKind::Condition, Some(words_of(&spec.when)), Some(words_of(&now.when)));
        all.extend(stated(vec![condition], now));
        all.extend(stated(statement_changes(spec, now), now));
    }
    for spec in gone {
        let kind = if spec.absent.is_some() { ChangeKind::Absence } else { ChangeKind::Withdrawn };
        all.extend(stated(vec![Change::new(kind, value_text(spec), None)], spec));
    }
    for spec in came {
        let kind = if spec.absent.is_some() { ChangeKind::Absence } else { ChangeKind::Added };
        all.extend(stated(vec![Change::new(kind, None, value_text(spec))], spec));
    }
    all
}

/// Statements of one entry and place that differ in their condition alone: the same value first, then
/// those that are left over one to one. What is paired is taken out of both lists.
fn pairs<'a>(gone: &mut Vec<&'a Spec>, came: &mut Vec<&'a Spec>) -> Vec<(&'a Spec, &'a Spec)> {
    let mut found = Vec::new();
    let same_place = |one: &Spec, other: &Spec| one.of == other.of && one.place == other.place;
    let same_value =
        |one: &Spec, other: &Spec| same_place(one, other) && value_text(one) == value_text(other);
    let alone = |list: &[&Spec], one: &Spec| list.iter().filter(|other| same_place(one, other)).count() == 1;
    for strict in [true, false] {
        let mut left = Vec::new();
        for spec in std::mem::take(gone) {
            let fits = |now: &&&Spec| {
                if strict { same_value(spec, now) } else { same_place(spec, now) && alone(came, now) }
            };
            let Some(at) = came.iter().position(|now| fits(&now)) else {
                left.push(spec);
                continue;
            };
            found.push((spec, came.remove(at)));
        }
        *gone = left;
    }
    found
}

/// Changes with the identity of the statement they are in.
fn stated(changes: Vec<Change>, spec: &Spec) -> Vec<Change> {
    let (of, place, when) = identity(spec);
    let one = |change| Change { of: Some(of.clone()), place: place.clone(), when: when.clone(), ..change };
    changes.into_iter().map(one).collect()
}
