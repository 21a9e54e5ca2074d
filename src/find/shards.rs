//! The index in parts, so that what a query loads grows with the query, not with the base.
//!
//! | part | holds | loaded |
//! |---|---|---|
//! | `things` | names, places and conditions; names of the parts below | once |
//! | `w-ta` | machines, codes and manuals with a word that begins with `ta` | for each such word typed |
//! | `words` | every word of those, for slips | for a word that nothing begins with |
//! | `t-7` | the first builds that state each thing of the seventh name | where no machine is named |
//! | `b-12` | the lines of a build | where they may be shown |
//! | `i-ox` | numbers of the builds whose id begins with `ox` | for the build looked at last |
//! | `v-length2e-4` | printed numbers of one kind and size | for a number |

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::index::{Fitted, Fixed, Index};
use super::matching::vocabulary;
use super::search::BUILDS;
use super::words::SHORT;

/// Rows by their number.
type Rows = BTreeMap<usize, Value>;

/// Every part of the index by its name.
#[must_use]
pub fn shards(index: &Index) -> BTreeMap<String, Value> {
    let mut all = by_word(index);
    let kept: Vec<&String> = all.keys().collect();
    let words: Vec<&str> = kept.iter().filter_map(|name| name.strip_prefix("w-")).collect();
    let buckets: Vec<&String> = index.values.keys().collect();
    let things = json!({ "named": named(index), "short": SHORT, "words": words, "values": buckets });
    all.insert("things".to_owned(), things);
    all.insert("words".to_owned(), json!(vocabulary(index)));
    all.extend(index.values.iter().map(|(bucket, units)| (format!("v-{bucket}"), json!(units))));
    all.extend(stating(index));
    let mut ids: BTreeMap<String, BTreeMap<&str, usize>> = BTreeMap::new();
    for (at, build) in index.builds.iter().enumerate() {
        ids.entry(format!("i-{}", key(&build.id))).or_default().insert(&build.id, at);
        let lines: Vec<Value> =
            build.lines.iter().map(|one| json!([one.thing, one.text, u8::from(one.open)])).collect();
        all.insert(format!("b-{at}"), json!([build.id, build.title, lines]));
    }
    all.extend(ids.into_iter().map(|(name, ids)| (name, json!(ids))));
    all
}

/// Kind, id, names, units, then place and condition of each thing: the things follow one another.
fn named(index: &Index) -> Vec<Value> {
    let mut all: Vec<Value> = Vec::new();
    for (at, names) in index.things.named.iter().enumerate() {
        let each: Vec<_> = index.things.things.iter().filter(|one| one.named == at).collect();
        let Some(first) = each.first() else {
            all.push(json!(["", "", "", [], [], []]));
            continue;
        };
        let scopes: Vec<Value> = each.iter().map(|one| json!([one.place, one.when])).collect();
        let names: Vec<String> = names.iter().map(|name| name.join(" ")).collect();
        all.push(json!([first.kind, first.of, first.title, names, index.things.units.get(at), scopes]));
    }
    all
}

/// The first builds that state each thing, by the number of its name.
fn stating(index: &Index) -> BTreeMap<String, Value> {
    let mut of_thing: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, build) in index.builds.iter().enumerate() {
        for line in &build.lines {
            let builds = of_thing.entry(line.thing).or_default();
            if builds.len() < BUILDS {
                builds.push(at);
            }
        }
    }
    let mut all: BTreeMap<String, BTreeMap<usize, Vec<usize>>> = BTreeMap::new();
    for (thing, builds) in of_thing {
        if let Some(one) = index.things.things.get(thing) {
            all.entry(format!("t-{}", one.named)).or_default().insert(thing, builds);
        }
    }
    all.into_iter().map(|(name, builds)| (name, json!(builds))).collect()
}

/// Machines, codes and manuals by how their words begin.
fn by_word(index: &Index) -> BTreeMap<String, Value> {
    let mut rows: BTreeMap<String, (Rows, Rows)> = BTreeMap::new();
    for (at, one) in index.fitted.iter().enumerate() {
        for key in keys(one) {
            rows.entry(key).or_default().0.insert(at, fitted(one));
        }
    }
    for (at, one) in index.fixed.iter().enumerate() {
        for word in &one.words {
            rows.entry(key(word)).or_default().1.insert(at, fixed(one));
        }
    }
    rows.into_iter().map(|(key, (fitted, fixed))| (format!("w-{key}"), json!([fitted, fixed]))).collect()
}

fn keys(one: &Fitted) -> BTreeSet<String> {
    let mut all: BTreeSet<String> = one.words.iter().chain(&one.sort).map(|word| key(word)).collect();
    for prefix in one.spans.iter().map(|span| span.prefix.as_str()).filter(|prefix| !prefix.is_empty()) {
        // A prefix of one letter is followed by a digit.
        if prefix.chars().nth(1).is_some() {
            all.insert(key(prefix));
        } else {
            all.extend(('0'..='9').map(|digit| format!("{prefix}{digit}")));
        }
    }
    all
}

/// The first two letters of a word; letters that no file name should hold, by their number.
fn key(word: &str) -> String {
    let spelt = |c: char| {
        if c.is_ascii_alphanumeric() { c.to_string() } else { format!("_{:x}", u32::from(c)) }
    };
    word.chars().take(2).map(spelt).collect()
}

fn fitted(one: &Fitted) -> Value {
    let spans: Vec<Value> = one
        .spans
        .iter()
        .map(|span| json!([span.years.0, span.years.1, span.prefix, span.serial.0, span.serial.1]))
        .collect();
    json!([one.machine, one.name, one.build, one.words.join(" "), one.sort.join(" "), spans])
}

fn fixed(one: &Fixed) -> Value {
    json!([one.kind, one.of, one.title, one.text, one.sheet, one.words.join(" ")])
}
