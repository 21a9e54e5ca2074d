//! What builds state, in parts by engine: most of what one of its builds states, the others state too.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::index::{Index, Stated};
use super::rows::Row;
use super::shards::by_thing;

/// Things whose lines of one engine stand in one part; a procedure stands with the first entry that it uses.
const STRETCH: usize = 120;

/// Row of a thing.
type Place = (usize, usize);

/// The parts of every engine, by name. A stretch of which it states nothing is there too: it is asked for before that is
/// known.
pub(super) fn by_engine(index: &Index) -> BTreeMap<String, Value> {
    let mut engines: BTreeMap<&str, Vec<(usize, BTreeSet<Place>)>> = BTreeMap::new();
    for (at, one) in index.builds.iter().enumerate() {
        let rows = one.lines.iter().map(|line| (line.thing, line.row));
        engines.entry(engine(&one.id)).or_default().push((at, rows.collect()));
    }
    let stretch_of = stretches(index);
    let stretches = index.things.things.len().div_ceil(STRETCH);
    let mut parts = BTreeMap::new();
    for (engine, builds) in engines {
        for stretch in 0..stretches {
            let is_here = |(thing, _): &Place| stretch_of.get(*thing) == Some(&stretch);
            parts.insert(format!("b-{engine}-{stretch}"), part(index, &builds, is_here));
        }
    }
    parts
}

/// The stretch of each thing.
fn stretches(index: &Index) -> Vec<usize> {
    let things = &index.things.things;
    let first_of = |name: usize| things.iter().position(|one| one.named == name);
    let name_of = |of: &String| things.iter().find(|one| one.of == *of).map(|one| one.named);
    let used = |at: usize| things.get(at)?.uses.iter().filter_map(name_of).min().and_then(first_of);
    (0..things.len()).map(|at| used(at).unwrap_or(at) / STRETCH).collect()
}

/// The rows that any of the builds states; for each, in the same order, the text, or with it how many builds share it and
/// whether it is open; and by the number of each build the rows that it does not state.
fn part(index: &Index, builds: &[(usize, BTreeSet<Place>)], is_here: impl Fn(&Place) -> bool) -> Value {
    let rows: BTreeSet<Place> =
        builds.iter().flat_map(|(_, rows)| rows.iter().copied()).filter(&is_here).collect();
    let lacks = builds.iter().map(|(at, own)| {
        let others: Vec<Place> = rows.difference(own).copied().collect();
        (at.to_string(), by_thing(&others))
    });
    let lacks: serde_json::Map<String, Value> = lacks.collect();
    let lines = rows.iter().filter_map(|place| Some((*place, row(index, *place)?)));
    let (rows, told): (Vec<Place>, Vec<Value>) = lines.map(|(place, row)| (place, told(row))).unzip();
    json!([by_thing(&rows), told, lacks])
}

fn row(index: &Index, (thing, row): Place) -> Option<&Row> {
    index.rows.get(thing)?.get(row)
}

fn told(row: &Row) -> Value {
    match (row.builds.len(), row.open) {
        (1, false) => json!(row.text),
        (builds, false) => json!([row.text, builds]),
        (builds, true) => json!([row.text, builds, 1]),
    }
}

/// `ox-887` of `ox-887~letter-24-3`: what stands before the first variant.
fn engine(build: &str) -> &str {
    build.split('~').next().unwrap_or_default()
}

/// `ox-887 Tarnhawk 887 2020–2024`: id of a build, then its machines, as its title has them before the id.
pub(super) fn called(one: &Stated) -> String {
    let machines = one.title.strip_suffix(one.id.as_str()).unwrap_or_default();
    format!("{} {}", one.id, machines.trim_end_matches(" · "))
}
