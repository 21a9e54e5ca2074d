//! What changed in everything but statements: catalogue, cautions, sources, gauges, machines, guides.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use serde_json::Value;

use super::Change;
use super::engines::is_accounted;
use super::kind::ChangeKind;
use crate::bundle::{Block, Bundle, Check, Entry, Fit, Hazard, Part};

/// Longest text of a part that is shown before and after, in characters.
const LONGEST: usize = 160;

/// What a bundle says of itself that is no change of what it states.
const OF_THE_COPY: &[&str] = &["release", "date", "content_hash", "signed_by", "counts", "si"];

/// The changes in everything but engines.
pub fn changes(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let mut all = fields(&old.head, &new.head, OF_THE_COPY, None);
    all.extend(catalogue(old, new));
    all.extend(hazards(old, new));
    all.extend(sources(old, new));
    let (gone, came) = (ChangeKind::Withdrawn, ChangeKind::Added);
    let gauges = both(&old.gauges.gauges, &new.gauges.gauges, |one| &one.id, |one| &one.title);
    all.extend(gauges.born_and_died(new, gone, came));
    for (one, other) in &gauges.stayed {
        let judged_by = ["span", "resolution", "error", "kind"];
        let without: Vec<_> = judged_by.into_iter().chain(["hazards"]).collect();
        all.extend(fields(*one, *other, &without, Some(&one.id)));
        all.extend(conditions(*one, *other, &judged_by, &one.id));
        all.extend(cautions(&one.hazards, &other.hazards, &one.id));
    }
    all.extend(machines(old, new));
    let procedures =
        both(&old.procedures.procedures, &new.procedures.procedures, |one| &one.id, |one| &one.title);
    all.extend(procedures.born_and_died(new, gone, came));
    for (one, other) in &procedures.stayed {
        // What it fits is said by the builds, what it uses by its text.
        all.extend(fields(
            *one,
            *other,
            &["hazards", "state", "builds", "fits", "uses", "body"],
            Some(&one.id),
        ));
        all.extend(conditions(*one, *other, &["state"], &one.id));
        all.extend(prose(&one.body, &other.body).map(|change| change.of(&one.id)));
        all.extend(cautions(&one.hazards, &other.hazards, &one.id));
        all.extend(fitting(old, new, &one.id, &one.builds, &other.builds));
    }
    let complaints =
        both(&old.complaints.complaints, &new.complaints.complaints, |one| &one.id, |one| &one.title);
    all.extend(complaints.born_and_died(new, gone, came));
    for (one, other) in &complaints.stayed {
        all.extend(fields(*one, *other, &["builds", "fits", "checks"], Some(&one.id)));
        all.extend(checks(&one.checks, &other.checks, &one.id));
        all.extend(fitting(old, new, &one.id, &one.builds, &other.builds));
    }
    all.extend(codes(old, new));
    all.extend(relations(old, new));
    all
}

/// The changes in what the base was proved by: words, for a value that follows from it has its own.
fn relations(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let relations = both(&old.relations.relations, &new.relations.relations, |one| &one.id, |one| &one.title);
    let mut all = relations.born_and_died(new, ChangeKind::Text, ChangeKind::Text);
    for (one, other) in &relations.stayed {
        all.extend(fields(*one, *other, &[], Some(&one.id)));
    }
    all
}

fn catalogue(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let entries = |bundle: &'_ Bundle| -> Vec<Entry> {
        bundle.catalogue.groups.iter().flat_map(|group| group.entries.clone()).collect()
    };
    let (before, after) = (entries(old), entries(new));
    let entries = both(&before, &after, |one| &one.id, |one| &one.title);
    let mut all = entries.born_and_died(new, ChangeKind::Withdrawn, ChangeKind::Added);
    for (one, other) in &entries.stayed {
        all.extend(fields(
            *one,
            *other,
            &["hazards", "critical", "stop", "gauge", "needs_state"],
            Some(&one.id),
        ));
        all.extend(conditions(*one, *other, &["needs_state"], &one.id));
        all.extend(cautions(&one.hazards, &other.hazards, &one.id));
        if one.critical != other.critical {
            let kind = if other.critical { ChangeKind::HazardRaised } else { ChangeKind::HazardLowered };
            let said = |critical| Some(if critical { "critical" } else { "not critical" }.to_owned());
            all.push(Change::new(kind, said(one.critical), said(other.critical)).of(&one.id));
        }
        all.extend(stops(one, other));
        if one.gauge != other.gauge {
            all.push(Change::new(ChangeKind::Condition, one.gauge.clone(), other.gauge.clone()).of(&one.id));
        }
    }
    let groups = both(&old.catalogue.groups, &new.catalogue.groups, |one| &one.id, |one| &one.title);
    for (one, other) in &groups.stayed {
        all.extend(fields(*one, *other, &["entries"], Some(&one.id)));
    }
    all
}

/// Where a machine must not be run: fewer sides are a hazard lowered, though another be added.
fn stops(one: &Entry, other: &Entry) -> Option<Change> {
    let sides = |entry: &Entry| match entry.stop.as_deref() {
        None => [false, false],
        Some(word) => [word != "above", word != "below"],
    };
    let lowered = sides(one).into_iter().zip(sides(other)).any(|(before, after)| before && !after);
    let kind = if lowered { ChangeKind::HazardLowered } else { ChangeKind::HazardRaised };
    let said =
        |entry: &Entry| Some(entry.stop.as_ref().map_or("no stop".to_owned(), |side| format!("stop {side}")));
    (one.stop != other.stop).then(|| Change::new(kind, said(one), said(other)).of(&one.id))
}

fn hazards(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let hazards = both(&old.hazards.hazards, &new.hazards.hazards, |one| &one.id, |one| &one.hazard);
    let mut all = hazards.born_and_died(new, ChangeKind::HazardLowered, ChangeKind::HazardRaised);
    for (one, other) in &hazards.stayed {
        all.extend(fields(*one, *other, &["signal"], Some(&one.id)));
        if one.signal != other.signal {
            let raised = gravity(other) < gravity(one);
            let kind = if raised { ChangeKind::HazardRaised } else { ChangeKind::HazardLowered };
            let change = Change::new(kind, Some(one.signal.clone()), Some(other.signal.clone()));
            all.push(change.of(&one.id));
        }
    }
    all
}

/// The place of a signal word in ANSI Z535.6, the gravest first.
fn gravity(hazard: &Hazard) -> usize {
    let words = ["DANGER", "WARNING", "CAUTION", "NOTICE"];
    words.iter().position(|word| *word == hazard.signal).unwrap_or(words.len())
}

fn sources(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let sources = both(&old.sources.sources, &new.sources.sources, |one| &one.id, |one| &one.title);
    let mut all = sources.born_and_died(new, ChangeKind::SourceOnly, ChangeKind::SourceOnly);
    for (one, other) in &sources.stayed {
        let told = |change| Change { kind: ChangeKind::SourceOnly, ..change };
        all.extend(fields(*one, *other, &["class"], Some(&one.id)).into_iter().map(told));
        if one.class != other.class {
            let kind = match (one.class.as_str(), other.class.as_str()) {
                (_, "stop") => ChangeKind::HazardRaised,
                ("stop", _) => ChangeKind::HazardLowered,
                _ => ChangeKind::SourceOnly,
            };
            let change = Change::new(kind, Some(one.class.clone()), Some(other.class.clone()));
            all.push(change.of(&one.id));
        }
    }
    all
}

fn machines(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let makers = both(&old.machines.makers, &new.machines.makers, |one| &one.id, |one| &one.name);
    let mut all = makers.born_and_died(new, ChangeKind::Withdrawn, ChangeKind::Added);
    for (one, other) in &makers.stayed {
        all.extend(fields(*one, *other, &[], Some(&one.id)));
    }
    let machines = both(&old.machines.machines, &new.machines.machines, |one| &one.id, |one| &one.name);
    all.extend(machines.born_and_died(new, ChangeKind::Withdrawn, ChangeKind::Added));
    for (one, other) in &machines.stayed {
        all.extend(fields(*one, *other, &["fits"], Some(&one.id)));
        all.extend(fits(&one.id, &one.fits, &other.fits));
    }
    all
}

/// Which build a machine has: a span that is only longer at its ends is more of the same, any other
/// change puts other values on the same machine.
fn fits(machine: &str, old: &[Fit], new: &[Fit]) -> Vec<Change> {
    let by_build = |fits: &'_ [Fit]| {
        let mut all: BTreeMap<String, Vec<Fit>> = BTreeMap::new();
        for fit in fits {
            all.entry(fit.build.clone()).or_default().push(fit.clone());
        }
        all
    };
    let (before, after) = (by_build(old), by_build(new));
    let builds: BTreeSet<_> = before.keys().chain(after.keys()).cloned().collect();
    let mut all = Vec::new();
    for build in builds {
        let (one, other) = (before.get(&build), after.get(&build));
        if one == other {
            continue;
        }
        let kind = match (one, other) {
            (None, _) => ChangeKind::Added,
            (_, None) => ChangeKind::Withdrawn,
            (Some(one), Some(other)) if one.iter().all(|fit| other.iter().any(|now| takes_in(now, fit))) => {
                ChangeKind::Added
            }
            _ => ChangeKind::Condition,
        };
        let said = |fits: Option<&Vec<Fit>>| {
            fits.map(|fits| fits.iter().map(fit_text).collect::<Vec<_>>().join("; "))
        };
        let change = Change::new(kind, said(one), said(other)).of(machine);
        let engine = build.split('~').next().unwrap_or_default().to_owned();
        all.push(Change { engine: Some(engine), build: Some(build), ..change });
    }
    all
}

fn takes_in(wide: &Fit, narrow: &Fit) -> bool {
    wide.serial == narrow.serial
        && wide.rest == narrow.rest
        && wide.from_year <= narrow.from_year
        && narrow.to_year <= wide.to_year
}

fn fit_text(fit: &Fit) -> String {
    let serial = match (&fit.serial, fit.rest) {
        (Some(serial), _) => {
            let end = |end: Option<u32>| end.map(|end| end.to_string()).unwrap_or_default();
            format!(", serial {} {}..{}", serial.prefix, end(serial.from), end(serial.to))
        }
        (None, true) => ", any other serial".to_owned(),
        (None, false) => String::new(),
    };
    format!("{}..{}{serial}", fit.from_year, fit.to_year)
}

fn codes(old: &Bundle, new: &Bundle) -> Vec<Change> {
    let sets = both(&old.codes.sets, &new.codes.sets, |one| &one.id, |one| &one.title);
    let mut all = sets.born_and_died(new, ChangeKind::Withdrawn, ChangeKind::Added);
    for (one, other) in &sets.stayed {
        all.extend(fields(*one, *other, &["codes"], Some(&one.id)));
        let codes = both(&one.codes, &other.codes, |one| &one.id, |one| &one.title);
        all.extend(codes.born_and_died(new, ChangeKind::Withdrawn, ChangeKind::Added));
        for (code, now) in &codes.stayed {
            all.extend(fields(*code, *now, &[], Some(&code.id)));
        }
    }
    all
}

/// What became of the text of a procedure: the blocks that went, and those that came.
fn prose(old: &[Block], new: &[Block]) -> Option<Change> {
    // A step that only has another number now is no other step.
    let has = |those: &[Block], block: &Block| {
        those.iter().any(|one| one.sort == block.sort && one.parts == block.parts)
    };
    let said = |these: &[Block], those: &[Block]| {
        let alone = these.iter().filter(|block| !has(those, block)).map(block_text);
        let text = alone.collect::<Vec<_>>().join(" / ");
        (!text.is_empty()).then(|| cut(&text))
    };
    let (gone, came) = (said(old, new), said(new, old));
    let reordered = gone.is_none() && came.is_none();
    let came = came.or_else(|| reordered.then(|| "the same steps in another order".to_owned()));
    (old != new).then(|| Change::new(ChangeKind::Text, gone, came))
}

/// A block as a person reads it: its words, each link by the id of what it leads to.
fn block_text(block: &Block) -> String {
    let part = |part: &Part| {
        let to = [&part.of, &part.hazard, &part.procedure, &part.complaint, &part.set];
        let to = to.into_iter().flatten().next().filter(|_| part.text.is_empty());
        to.map_or_else(|| part.text.clone(), |id| format!("[{id}]"))
    };
    let lead = block.step.map(|step| format!("{step}. ")).unwrap_or_default();
    format!("{lead}{}", block.parts.iter().map(part).collect::<String>())
}

/// The builds a procedure or complaint fits, of those that both bundles have.
fn fitting(old: &Bundle, new: &Bundle, id: &str, before: &[String], after: &[String]) -> Vec<Change> {
    let has = |bundle: &Bundle, build: &String| {
        bundle.engines.iter().flat_map(|engine| &engine.builds).any(|one| one.id == *build)
    };
    let kept = |build: &&String| has(old, build) && has(new, build);
    let one = |kind, build: &String| {
        let (before, after) =
            if kind == ChangeKind::Added { (None, Some(id.to_owned())) } else { (Some(id.to_owned()), None) };
        let engine = build.split('~').next().unwrap_or_default().to_owned();
        Change { engine: Some(engine), build: Some(build.clone()), ..Change::new(kind, before, after).of(id) }
    };
    let gone = before.iter().filter(|build| !after.contains(build)).filter(kept);
    let came = after.iter().filter(|build| !before.contains(build)).filter(kept);
    gone.map(|build| one(ChangeKind::Withdrawn, build))
        .chain(came.map(|build| one(ChangeKind::Added, build)))
        .collect()
}

/// The changes in what a reading or a job must be under, by their keys.
fn conditions<T: Serialize>(old: &T, new: &T, keys: &[&str], of: &str) -> Vec<Change> {
    let all = fields(old, new, &[], Some(of)).into_iter();
    let of_key = |change: &Change| {
        let part = change.before.as_deref().or(change.after.as_deref()).unwrap_or_default();
        keys.iter().any(|key| part.strip_prefix(key).is_some_and(|rest| rest.starts_with(':')))
    };
    all.filter(of_key).map(|change| Change { kind: ChangeKind::Condition, ..change }).collect()
}

/// Cautions that something carries: one more raises it, one fewer lowers it.
fn cautions(old: &[String], new: &[String], id: &str) -> Vec<Change> {
    let gone = old.iter().filter(|one| !new.contains(one));
    let came = new.iter().filter(|one| !old.contains(one));
    let lowered = gone.map(|one| Change::new(ChangeKind::HazardLowered, Some(one.clone()), None).of(id));
    let raised = came.map(|one| Change::new(ChangeKind::HazardRaised, None, Some(one.clone())).of(id));
    lowered.chain(raised).collect()
}

/// The checks of a complaint: the cautions of each that stayed, and the words of all the rest.
fn checks(old: &[Check], new: &[Check], complaint: &str) -> Vec<Change> {
    let bare = |checks: &[Check]| {
        let bare = checks.iter().map(|one| Check { hazards: Vec::new(), ..one.clone() });
        serde_json::json!({ "checks": bare.collect::<Vec<_>>() })
    };
    let mut all = fields(&bare(old), &bare(new), &[], Some(complaint));
    for (one, other) in &both(old, new, |one| &one.id, |one| &one.title).stayed {
        all.extend(cautions(&one.hazards, &other.hazards, complaint));
    }
    all
}

/// Things of one sort, matched by id.
struct Matched<'a, T> {
    stayed: Vec<(&'a T, &'a T)>,
    gone: Vec<(&'a str, &'a str)>,
    came: Vec<(&'a str, &'a str)>,
}

fn both<'a, T>(
    old: &'a [T],
    new: &'a [T],
    id: fn(&T) -> &String,
    title: fn(&T) -> &String,
) -> Matched<'a, T> {
    let find = |list: &'a [T], one: &T| list.iter().find(|other| id(other) == id(one));
    let names = |one: &'a T| (id(one).as_str(), title(one).as_str());
    Matched {
        stayed: old.iter().filter_map(|one| find(new, one).map(|other| (one, other))).collect(),
        gone: old.iter().filter(|one| find(new, one).is_none()).map(names).collect(),
        came: new.iter().filter(|one| find(old, one).is_none()).map(names).collect(),
    }
}

impl<T> Matched<'_, T> {
    /// A change for each that is gone and for each that is new; what moved has its own.
    fn born_and_died(&self, new: &Bundle, gone: ChangeKind, came: ChangeKind) -> Vec<Change> {
        let died = self.gone.iter().filter(|(id, _)| !is_accounted(new, id));
        let died = died.map(|(id, title)| Change::new(gone, Some((*title).to_owned()), None).of(id));
        let born =
            self.came.iter().map(|(id, title)| Change::new(came, None, Some((*title).to_owned())).of(id));
        died.chain(born).collect()
    }
}

/// A change of words for every key of two things that differs, some left out.
pub fn fields<T: Serialize>(old: &T, new: &T, without: &[&str], of: Option<&str>) -> Vec<Change> {
    let keys = |thing: &T| match serde_json::to_value(thing) {
        Ok(Value::Object(keys)) => keys,
        _ => serde_json::Map::new(),
    };
    let (before, after) = (keys(old), keys(new));
    let names: BTreeSet<_> =
        before.keys().chain(after.keys()).filter(|key| !without.contains(&key.as_str())).collect();
    let changed = names.into_iter().filter(|key| before.get(*key) != after.get(*key));
    let said = |key: &str, value: Option<&Value>| {
        value.filter(|value| !value.is_null()).map(|value| format!("{key}: {}", short(value)))
    };
    let change = |key: &String| Change {
        of: of.map(ToOwned::to_owned),
        ..Change::new(ChangeKind::Text, said(key, before.get(key)), said(key, after.get(key)))
    };
    changed.map(change).collect()
}

fn short(value: &Value) -> String {
    // Of a printed value, what is printed.
    let said = value.get("text").unwrap_or(value);
    let text = said.as_str().map_or_else(|| said.to_string(), ToOwned::to_owned);
    cut(&text)
}

/// No more of a text than is worth showing.
fn cut(text: &str) -> String {
    match text.char_indices().nth(LONGEST) {
        Some((at, _)) => format!("{}…", text.get(..at).unwrap_or_default()),
        None => text.to_owned(),
    }
}

/// Words of a place or condition as a person reads them.
pub fn words_of(words: &BTreeMap<String, String>) -> String {
    if words.is_empty() {
        return "any".to_owned();
    }
    words.iter().map(|(key, word)| format!("{key} {word}")).collect::<Vec<_>>().join(", ")
}
