//! The index in parts, so that what a query loads grows with the query, not with the base.
//!
//! | part | holds | loaded |
//! |---|---|---|
//! | `things` | names, places and conditions; names of the parts below | once |
//! | `w-ta` | machines, codes and manuals with a word that begins with `ta` | for each such word typed |
//! | `words` | every word of those, for slips | for a word that nothing begins with |
//! | `b-12` | which rows a build states | where its machine is named, or it was looked at last |
//! | `t-7` | what most builds state of the things of the seventh name | where they may be shown |
//! | `t-7-3` | the fourth part of what fewer builds state of them | where one of them is shown |
//! | `n-2` | ids and titles of four builds | where one of them is shown |
//! | `i-ox` | numbers of the builds whose id begins with `ox` | for the build looked at last |
//! | `v-length2e-4` | who prints a number of one kind and size | for a number |

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::index::{Fitted, Fixed, Index, Thing};
use super::matching::{Sampled, vocabulary};
use super::search::ROWS;
use super::values::Printing;
use super::words::SHORT;

/// Builds whose titles stand in one part: few, as one of them is shown at a time.
const TITLES: usize = 4;
/// Rows of one name that stand in one part, about.
const PART: usize = 24;

/// Rows by their number.
type Rows = BTreeMap<usize, Value>;

/// Every part of the index by its name.
#[must_use]
pub fn shards(index: &Index) -> BTreeMap<String, Value> {
    let mut all = by_word(index);
    let kept: Vec<&String> = all.keys().collect();
    let words: Vec<&str> = kept.iter().filter_map(|name| name.strip_prefix("w-")).collect();
    let head = head(index, &words.join(" "));
    all.insert("things".to_owned(), head);
    all.insert("words".to_owned(), json!(vocabulary(index).into_iter().collect::<Vec<_>>().join(" ")));
    let numbers = |(bucket, units): (&String, &BTreeMap<_, BTreeMap<_, Printing>>)| {
        let units = units.iter().map(|(unit, numbers)| {
            let numbers = numbers
                .iter()
                .map(|(number, rows)| (number, [by_thing(&rows.aimed), by_thing(&rows.limits)]));
            (unit, json!(numbers.collect::<BTreeMap<_, _>>()))
        });
        (format!("v-{bucket}"), json!(units.collect::<BTreeMap<_, _>>()))
    };
    all.extend(index.values.iter().map(numbers));
    all.extend(stated(index));
    let mut ids: BTreeMap<String, BTreeMap<&str, usize>> = BTreeMap::new();
    for (at, build) in index.builds.iter().enumerate() {
        ids.entry(format!("i-{}", key(&build.id))).or_default().insert(&build.id, at);
        let lines: Vec<(usize, usize)> = build.lines.iter().map(|one| (one.thing, one.row)).collect();
        all.insert(format!("b-{at}"), by_thing(&lines));
    }
    all.extend(ids.into_iter().map(|(name, ids)| (name, json!(ids))));
    let titles = index.builds.chunks(TITLES).enumerate();
    all.extend(titles.map(|(at, builds)| {
        let titles: Vec<Value> = builds.iter().map(|one| json!([one.id, one.title])).collect();
        (format!("n-{at}"), json!(titles))
    }));
    all
}

/// `3:0 2,8:1`: thing, its rows, and so on.
fn by_thing(rows: &[(usize, usize)]) -> Value {
    let mut things: BTreeMap<usize, Vec<String>> = BTreeMap::new();
    for (thing, row) in rows {
        things.entry(*thing).or_default().push(row.to_string());
    }
    let things = things.into_iter().map(|(thing, rows)| format!("{thing}:{}", rows.join(" ")));
    json!(things.collect::<Vec<_>>().join(","))
}

/// What is loaded once. Kinds, units and scopes stand once each, and are named by their number.
fn head(index: &Index, words: &str) -> Value {
    let (mut kinds, mut units, mut scopes) = (Once::default(), Once::default(), Once::default());
    let mut named: Vec<Value> = Vec::new();
    for (at, names) in index.things.named.iter().enumerate() {
        let each: Vec<&Thing> = index.things.things.iter().filter(|one| one.named == at).collect();
        let Some(first) = each.first() else {
            named.push(json!([kinds.number(json!("")), "", "", "", units.number(json!("")), []]));
            continue;
        };
        let scopes: Vec<usize> = each.iter().map(|one| scopes.number(scope(one))).collect();
        let others: Vec<String> = names.iter().skip(1).map(|name| name.join(" ")).collect();
        let printed = index.things.units.get(at).map(|units| units.join(",")).unwrap_or_default();
        let (kind, printed) = (kinds.number(json!(first.kind)), units.number(json!(printed)));
        named.push(json!([kind, first.of, first.title, others.join(","), printed, scopes]));
    }
    let short = SHORT.iter().map(|(short, long)| format!("{short} {}", long.join(" ")));
    let mut values: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for bucket in index.values.keys() {
        // `pressure-2e4`: the kind ends where the figures, or the sign before them, begin.
        let figures = bucket.find(|c: char| c.is_ascii_digit()).unwrap_or(bucket.len());
        let kind = bucket.get(..figures).unwrap_or_default().trim_end_matches('-');
        values.entry(kind).or_default().push(bucket.get(kind.len()..).unwrap_or_default());
    }
    let values = values.into_iter().map(|(kind, steps)| format!("{kind} {}", steps.join(" ")));
    json!({
        "kinds": kinds.all, "units": units.all, "scopes": scopes.all, "named": named,
        "short": short.collect::<Vec<_>>().join(","), "words": words, "values": values.collect::<Vec<_>>().join(","),
    })
}

/// `cylinder=rear|engine=cold;air=20 °C`: place and condition.
fn scope(one: &Thing) -> Value {
    let spelt = |all: &BTreeMap<String, String>| {
        all.iter().map(|(name, word)| format!("{name}={word}")).collect::<Vec<_>>().join(";")
    };
    json!(format!("{}|{}", spelt(&one.place), spelt(&one.when)))
}

/// Things that are listed once each.
#[derive(Default)]
struct Once {
    all: Vec<Value>,
}

impl Once {
    fn number(&mut self, one: Value) -> usize {
        let known = self.all.iter().position(|other| *other == one);
        known.unwrap_or_else(|| {
            self.all.push(one);
            self.all.len() - 1
        })
    }
}

/// What builds state of the things of each name: thing → row → text, whether open, first build, how many builds.
/// The first rows of each thing stand together; of the others as many in one part as make it of middling size.
fn stated(index: &Index) -> BTreeMap<String, Value> {
    let mut scopes: BTreeMap<usize, usize> = BTreeMap::new();
    index.things.things.iter().for_each(|thing| *scopes.entry(thing.named).or_default() += 1);
    let mut all: BTreeMap<String, BTreeMap<usize, BTreeMap<usize, Value>>> = BTreeMap::new();
    for (at, (thing, rows)) in index.things.things.iter().zip(&index.rows).enumerate() {
        let each = PART.div_ceil(scopes.get(&thing.named).copied().unwrap_or(1));
        for (number, row) in rows.iter().enumerate() {
            let name = match number.checked_sub(ROWS) {
                None => format!("t-{}", thing.named),
                Some(after) => format!("t-{}-{}", thing.named, after / each),
            };
            let (first, open) = (row.builds.first(), u8::from(row.open));
            let told = json!([row.text, open, first, row.builds.len()]);
            all.entry(name).or_default().entry(at).or_default().insert(number, told);
        }
    }
    all.into_iter().map(|(name, rows)| (name, json!(rows))).collect()
}

/// Machines, codes and manuals by how their words begin.
fn by_word(index: &Index) -> BTreeMap<String, Value> {
    let mut rows: BTreeMap<String, (Rows, Rows)> = BTreeMap::new();
    let mut sampled = Sampled::default();
    for (at, one) in index.fitted.iter().enumerate() {
        let sampled = sampled.next(&one.sort);
        for key in keys(one, &sampled) {
            rows.entry(key).or_default().0.insert(at, fitted(one, &sampled));
        }
    }
    let mut sampled = Sampled::default();
    for (at, one) in index.fixed.iter().enumerate() {
        let sampled = sampled.next(&one.sort);
        for word in one.words.iter().map(String::as_str).chain(sampled.iter().copied()) {
            rows.entry(key(word)).or_default().1.insert(at, fixed(one, &sampled));
        }
    }
    rows.into_iter().map(|(key, (fitted, fixed))| (format!("w-{key}"), json!([fitted, fixed]))).collect()
}

fn keys(one: &Fitted, sampled: &[&str]) -> BTreeSet<String> {
    let words = one.words.iter().map(String::as_str).chain(sampled.iter().copied());
    let mut all: BTreeSet<String> = words.map(key).collect();
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

fn fitted(one: &Fitted, sampled: &[&str]) -> Value {
    let spans: Vec<Value> = one
        .spans
        .iter()
        .map(|span| json!([span.years.0, span.years.1, span.prefix, span.serial.0, span.serial.1]))
        .collect();
    let (words, sort) = (one.words.join(" "), one.sort.join(" "));
    json!([one.machine, one.name, one.build, words, sort, sampled.join(" "), spans])
}

fn fixed(one: &Fixed, sampled: &[&str]) -> Value {
    let (words, sort) = (one.words.join(" "), one.sort.join(" "));
    json!([one.kind, one.of, one.title, one.text, one.sheet, words, sort, sampled.join(" ")])
}
