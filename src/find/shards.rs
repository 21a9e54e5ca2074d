//! The index in parts, so that what a query loads grows with the query, not with the base.
//!
//! | part | holds | loaded |
//! |---|---|---|
//! | `things` | names, places and conditions; names of the parts below | once |
//! | `w-ta` | machines, codes and manuals with a word that begins with `ta` | for each such word typed |
//! | `words` | every word of those that is in no name, for slips, told by the one before | for a word that nothing begins with |
//! | `b-ox-887-0` | which rows the builds of the engine `ox-887` state of the things of the first stretch, and their texts | where a machine of one is named, or it was looked at last |
//! | `f-5` | of each thing of some names that stand together, the first rows: what most builds state | where its names may be shown |
//! | `t-7` | the next rows of the things of the eighth name, and the builds that are shown for them | where no other name fits as well |
//! | `r-9-3` | of the tenth thing the fourth part of the rest, what fewer builds state | where one of them is shown |
//! | `i-ox` | numbers and machines of the builds whose id begins with `ox` | for the build looked at last |
//! | `v-length2e-4` | who prints a number of one kind and first digit, or `v-length23e-4`, first two | for a number with its unit |
//! | `d-2e-1`, `d-26e-1` | who prints a number that begins so in some unit of its entry | for a number without a unit |
//! | `d-r2e-1` | who prints a number that may round to that | for a number of one figure, without a unit |
//!
//! A part is a script, and each costs a browser some milliseconds however small it is: what is needed together stands
//! together, as long as it does not weigh.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::index::{Fitted, Fixed, Index, Thing};
use super::matching::{Sampled, known, vocabulary};
use super::rows::Row;
use super::search::{FIRST, rows_listed};
use super::sizes::{by_figures, by_power, by_size};
use super::stated::{self, called};
use super::words::{SHORT, words};

/// Rows of one thing that stand in one part.
const PART: usize = 24;
/// Bytes of first rows that stand in one part, at least.
const FIRST_ROWS: usize = 1_600;

/// Rows by their number.
type Rows = BTreeMap<usize, Value>;

/// Every part of the index by its name.
#[must_use]
pub fn shards(index: &Index) -> BTreeMap<String, Value> {
    let (mut all, words) = by_word(index);
    let (values, bare) = (by_size(index), by_figures(index));
    let (first, packs) = first_rows(index);
    let head = head(index, &words, &packs, values.keys().chain(bare.keys()));
    all.insert("things".to_owned(), head);
    all.extend(first);
    let catalogue = known(&index.things);
    let others: Vec<&str> = vocabulary(index).difference(&catalogue).copied().collect();
    all.insert("words".to_owned(), json!(sharing(others).join(" ")));
    all.extend(values.into_iter().map(|(bucket, rows)| (format!("v-{bucket}"), rows)));
    all.extend(bare.into_iter().map(|(figures, rows)| (format!("d-{figures}"), rows)));
    all.extend(next_rows(index));
    let mut ids: BTreeMap<String, BTreeMap<&str, Value>> = BTreeMap::new();
    for (at, build) in index.builds.iter().enumerate() {
        ids.entry(format!("i-{}", key(&build.id))).or_default().insert(&build.id, json!([at, called(build)]));
    }
    all.extend(ids.into_iter().map(|(name, ids)| (name, json!(ids))));
    all.extend(stated::by_engine(index));
    all
}

/// The first rows of each thing, in parts of names that stand together; and the first name of each part.
fn first_rows(index: &Index) -> (BTreeMap<String, Value>, Vec<usize>) {
    let (mut all, mut packs) = (BTreeMap::new(), Vec::new());
    let mut part = (Rows::new(), Rows::new());
    for (name, things) in by_name(index) {
        let bytes: usize =
            [&part.0, &part.1].iter().flat_map(|rows| rows.values()).map(|row| row.to_string().len()).sum();
        if packs.is_empty() || bytes >= FIRST_ROWS {
            if let Some(before) = packs.len().checked_sub(1) {
                all.insert(format!("f-{before}"), json!(std::mem::take(&mut part)));
            }
            packs.push(name);
        }
        for (at, rows) in things {
            let told = rows.iter().take(FIRST).filter_map(|row| row_told(index, row, &mut part.0));
            let told = told.collect();
            part.1.insert(at, told);
        }
    }
    if let Some(last) = packs.len().checked_sub(1) {
        all.insert(format!("f-{last}"), json!(part));
    }
    (all, packs)
}

/// The things of each name, with their rows.
fn by_name(index: &Index) -> BTreeMap<usize, Vec<(usize, &[Row])>> {
    let mut all: BTreeMap<usize, Vec<(usize, &[Row])>> = BTreeMap::new();
    for (at, (thing, rows)) in index.things.things.iter().zip(&index.rows).enumerate() {
        all.entry(thing.named).or_default().push((at, rows));
    }
    all
}

/// Text and first build; then how many builds share it, if more than one, and 1 if it is open. What the first build is
/// called goes into `builds`.
fn row_told(index: &Index, row: &Row, builds: &mut Rows) -> Option<Value> {
    let first = row.builds.first()?;
    if let Some(build) = index.builds.get(*first) {
        builds.insert(*first, json!(called(build)));
    }
    Some(match (row.builds.len(), row.open) {
        (1, false) => json!([row.text, first]),
        (builds, false) => json!([row.text, first, builds]),
        (builds, true) => json!([row.text, first, builds, 1]),
    })
}

/// `3:0 2,5,1:4`: rows 0 and 2 of thing 3, row 0 of thing 8, row 4 of thing 9; each number is told from the one before.
/// The names that a procedure uses are told the same way.
pub(super) fn by_thing(rows: &[(usize, usize)]) -> Value {
    let mut things: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    for (thing, row) in rows {
        things.entry(*thing).or_default().insert(*row);
    }
    let from = |before: &mut usize, at: usize| (at - std::mem::replace(before, at)).to_string();
    let mut before = 0;
    let things = things.into_iter().map(|(thing, rows)| {
        let thing = from(&mut before, thing);
        if rows.len() == 1 && rows.contains(&0) {
            return thing;
        }
        let mut before = 0;
        let rows: Vec<String> = rows.into_iter().map(|row| from(&mut before, row)).collect();
        format!("{thing}:{}", rows.join(" "))
    });
    json!(things.collect::<Vec<_>>().join(","))
}

/// Texts, each as how many letters of the one before it begins with, a figure of base 36, and the rest: `tarn` and
/// `tarnhawk` are `0tarn` and `4hawk`.
fn sharing<'a>(texts: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let mut before = "";
    let told = texts.into_iter().map(|word| {
        let shared =
            word.chars().zip(before.chars()).take_while(|(one, other)| one == other).take(35).count();
        before = word;
        let figure =
            u32::try_from(shared).ok().and_then(|shared| char::from_digit(shared, 36)).unwrap_or('0');
        format!("{figure}{}", word.chars().skip(shared).collect::<String>())
    });
    told.collect()
}

/// What is loaded once. Kinds, units and scopes stand once each, and are named by their number; no thing has more rows
/// listed than twelve.
fn head<'a>(index: &Index, words: &str, packs: &[usize], numbers: impl Iterator<Item = &'a String>) -> Value {
    let (mut kinds, mut units, mut scopes) = (Once::default(), Once::default(), Once::default());
    let (mut named, mut ids): (Vec<Value>, Vec<&str>) = (Vec::new(), Vec::new());
    for (at, names) in index.things.named.iter().enumerate() {
        let each: Vec<&Thing> = index.things.things.iter().filter(|one| one.named == at).collect();
        ids.push(each.first().map_or("", |first| &first.of));
        let Some(first) = each.first() else {
            let (kind, units) = (kinds.number(json!("")), units.number(json!("")));
            named.extend([json!(kind), json!(""), json!(""), json!(units), json!("")]);
            continue;
        };
        let scopes: Vec<String> = each.iter().map(|one| scopes.number(scope(one)).to_string()).collect();
        let others: Vec<String> = names.iter().skip(1).map(|name| name.join(" ")).collect();
        let printed = index.things.units.get(at).map(|units| units.join(",")).unwrap_or_default();
        let (kind, printed) = (kinds.number(json!(first.kind)), units.number(json!(printed)));
        named.extend([
            json!(kind),
            json!(first.title),
            json!(sharing(others.iter().map(String::as_str)).join(",")),
        ]);
        named.extend([json!(printed), json!(scopes.join(" "))]);
    }
    let name = |of: &String| index.things.things.iter().find(|one| one.of == *of).map(|one| one.named);
    let uses = index.things.things.iter().enumerate();
    let uses: Vec<(usize, usize)> =
        uses.flat_map(|(at, one)| one.uses.iter().filter_map(name).map(move |name| (at, name))).collect();
    let rows: Vec<usize> = index.rows.iter().map(|rows| rows.len().min(15)).collect();
    let short = SHORT.iter().map(|(short, long)| format!("{short} {}", long.join(" ")));
    let values: Vec<String> =
        by_power(numbers).into_iter().map(|(kind, powers)| format!("{kind} {powers}")).collect();
    json!({
        "kinds": kinds.all, "units": units.all, "scopes": sharing(scopes.all.iter().filter_map(Value::as_str)),
        "named": named, "ids": sharing(ids).join(" "),
        "short": short.collect::<Vec<_>>().join(","), "words": words, "packs": packs, "rows": runs(&rows), "values": values.join(","),
        "uses": by_thing(&uses),
    })
}

/// A hexadecimal figure each, a run of the same as `f(120)`.
fn runs(figures: &[usize]) -> String {
    let run = |run: &[usize]| match run {
        [figure, _, _, _, ..] => format!("{figure:x}({})", run.len()),
        few => few.iter().map(|figure| format!("{figure:x}")).collect(),
    };
    figures.chunk_by(|one, next| one == next).map(run).collect()
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

/// What builds state of the things of each name after the first rows: thing → row → as `row_told`; before them id and
/// title of each first build.
/// The next rows of each name stand together; of the rest those of one thing that follow each other, as who typed a
/// number is shown such.
fn next_rows(index: &Index) -> BTreeMap<String, Value> {
    let mut all: BTreeMap<String, (Rows, BTreeMap<usize, Rows>)> = BTreeMap::new();
    for (name, things) in by_name(index) {
        let scopes = things.len();
        for (at, rows) in things {
            for (number, row) in rows.iter().enumerate().skip(FIRST) {
                let part = match number.checked_sub(rows_listed(scopes)) {
                    None => format!("t-{name}"),
                    Some(after) => format!("r-{at}-{}", after / PART),
                };
                let (builds, rows) = all.entry(part).or_default();
                if let Some(told) = row_told(index, row, builds) {
                    rows.entry(at).or_default().insert(number, told);
                }
            }
        }
    }
    all.into_iter().map(|(name, rows)| (name, json!(rows))).collect()
}

/// Machines, codes and manuals by how their words begin; and the names of the parts, each with the letters that follow:
/// `ta:rx` where words begin with `tar` and `tax`, `th:*` where a serial number of any letter may.
fn by_word(index: &Index) -> (BTreeMap<String, Value>, String) {
    let mut rows: BTreeMap<String, (Rows, Rows)> = BTreeMap::new();
    let mut thirds: BTreeMap<String, BTreeSet<char>> = BTreeMap::new();
    let mut sampled = Sampled::default();
    for (at, one) in index.fitted.iter().enumerate() {
        let sampled = sampled.next(&one.sort);
        for (key, third) in begins(one, &sampled) {
            thirds.entry(key.clone()).or_default().extend(third);
            rows.entry(key).or_default().0.insert(at, fitted(index, one, &sampled));
        }
    }
    let mut sampled = Sampled::default();
    for (at, one) in index.fixed.iter().enumerate() {
        let sampled = sampled.next(&one.sort);
        for word in one.words.iter().map(String::as_str).chain(sampled.iter().copied()) {
            thirds.entry(key(word)).or_default().extend(word.chars().nth(2));
            rows.entry(key(word)).or_default().1.insert(at, fixed(one, &sampled));
        }
    }
    let words =
        thirds.into_iter().map(|(key, thirds)| format!("{key}:{}", thirds.into_iter().collect::<String>()));
    let words: Vec<String> = words.collect();
    let parts = rows.into_iter().map(|(key, (fitted, fixed))| (format!("w-{key}"), json!([fitted, fixed])));
    (parts.collect(), words.join(" "))
}

/// How words and serial numbers that lead to a machine begin: the first two letters, and the third.
fn begins(one: &Fitted, sampled: &[&str]) -> BTreeSet<(String, Option<char>)> {
    let words = one.words.iter().map(String::as_str).chain(sampled.iter().copied());
    let mut all: BTreeSet<_> = words.map(|word| (key(word), word.chars().nth(2))).collect();
    for prefix in one.spans.iter().map(|span| span.prefix.as_str()).filter(|prefix| !prefix.is_empty()) {
        let third = prefix.chars().nth(2).or(Some('*'));
        // A prefix of one letter is followed by a digit.
        if prefix.chars().nth(1).is_some() {
            all.insert((key(prefix), third));
        } else {
            all.extend(('0'..='9').map(|digit| (format!("{prefix}{digit}"), third)));
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

fn fitted(index: &Index, one: &Fitted, sampled: &[&str]) -> Value {
    let spans: Vec<Value> = one
        .spans
        .iter()
        .map(|span| json!([span.years.0, span.years.1, span.prefix, span.serial.0, span.serial.1]))
        .collect();
    let (words, others) = (one.words.join(" "), others(&one.sort, sampled));
    let build = index.builds.get(one.build).map(called).unwrap_or_default();
    json!([one.machine, one.name, one.build, words, others, sampled.join(" "), spans, build])
}

fn fixed(one: &Fixed, sampled: &[&str]) -> Value {
    let titled = words(&match one.kind.as_str() {
        "code" => format!("{} {}", one.title, one.text),
        _ => one.title.clone(),
    });
    let own: Vec<&str> = one.words.iter().filter(|word| !titled.contains(word)).map(String::as_str).collect();
    let others = others(&one.sort, sampled);
    json!([one.kind, one.of, one.title, one.text, one.sheet, own.join(" "), others, sampled.join(" ")])
}

/// The words of a sort that do not lead to a record.
fn others(sort: &[String], sampled: &[&str]) -> String {
    let mut leading = sampled.to_vec();
    let others = sort.iter().filter(|word| match leading.iter().position(|one| one == word) {
        Some(at) => {
            leading.swap_remove(at);
            false
        }
        None => true,
    });
    others.map(String::as_str).collect::<Vec<_>>().join(" ")
}
