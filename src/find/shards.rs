//! The index in parts, so that what a query loads grows with the query, not with the base.
//!
//! | part | holds | loaded |
//! |---|---|---|
//! | `things` | names, places and conditions; names of the parts below | once |
//! | `w-ta` | machines, codes and manuals with a word that begins with `ta` | for each such word typed |
//! | `words` | every word of those that is in no name, for slips | for a word that nothing begins with |
//! | `b-3` | four builds: id, title and which rows each states | where a machine of one is named, or it was looked at last |
//! | `t-7` | what most builds state of the things of the seventh name, and the builds that are shown for it | where they may be shown |
//! | `t-7-3` | the fourth part of what fewer builds state of them | where one of them is shown |
//! | `i-ox` | numbers of the builds whose id begins with `ox` | for the build looked at last |
//! | `v-length2e-4` | who prints a number of one kind and first digit, or `v-length23e-4`, first two | for a number with its unit |
//! | `d-2e-1`, `d-26e-1` | who prints a number that begins so in some unit of its entry | for a number without a unit |
//!
//! A part is a script, and each costs a browser some milliseconds however small it is: what is needed together stands
//! together, as long as it does not weigh.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::index::{Fitted, Fixed, Index, Stated, Thing};
use super::matching::{Sampled, known, vocabulary};
use super::search::rows_listed;
use super::values::{Buckets, Fineness, Printing, buckets, figures};
use super::words::SHORT;
use crate::quantity::{Unit, Value as Number};

/// Builds that stand in one part: few, as one of them may be named.
const BUILDS: usize = 4;
/// From so many bytes on a part of numbers is split by their second digit.
const HEAVY: usize = 1_200;
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
    let (values, bare) = (by_size(index), by_figures(index));
    let head = head(index, &words.join(" "), values.keys(), bare.keys());
    all.insert("things".to_owned(), head);
    let catalogue = known(&index.things);
    let others: Vec<&str> = vocabulary(index).difference(&catalogue).copied().collect();
    all.insert("words".to_owned(), json!(others.join(" ")));
    all.extend(values.into_iter().map(|(bucket, rows)| (format!("v-{bucket}"), rows)));
    all.extend(bare.into_iter().map(|(figures, rows)| (format!("d-{figures}"), rows)));
    all.extend(stated(index));
    let mut ids: BTreeMap<String, BTreeMap<&str, usize>> = BTreeMap::new();
    for (at, build) in index.builds.iter().enumerate() {
        ids.entry(format!("i-{}", key(&build.id))).or_default().insert(&build.id, at);
    }
    all.extend(ids.into_iter().map(|(name, ids)| (name, json!(ids))));
    all.extend(index.builds.chunks(BUILDS).enumerate().map(|(at, builds)| {
        let stated = |one: &Stated| {
            let lines: Vec<(usize, usize)> = one.lines.iter().map(|line| (line.thing, line.row)).collect();
            json!([called(one), by_thing(&lines)])
        };
        (format!("b-{at}"), builds.iter().map(stated).collect())
    }));
    all
}

/// Who prints what: unit → number → rows.
type Units = BTreeMap<String, BTreeMap<String, Printing>>;

/// Every printed number once, as a value, with who prints it.
fn printed(index: &Index) -> Vec<(&String, &String, Number, &Printing)> {
    let units = index.values.values().flatten();
    let all: BTreeMap<_, _> =
        units.flat_map(|(unit, of)| of.iter().map(move |(number, rows)| ((unit, number), rows))).collect();
    let value = |unit: &str, number: &str| Number::parse(&Unit::parse(unit).ok()?.after(number)).ok();
    all.into_iter()
        .filter_map(|((unit, number), rows)| Some((unit, number, value(unit, number)?, rows)))
        .collect()
}

/// Printed numbers by kind and size.
fn by_size(index: &Index) -> BTreeMap<String, Value> {
    let mut fine = Buckets::new();
    for (unit, number, value, rows) in printed(index) {
        for name in buckets(&value, Fineness::Two).into_iter().flatten() {
            fine.entry(name)
                .or_default()
                .entry(unit.clone())
                .or_default()
                .insert(number.clone(), rows.clone());
        }
    }
    light(&index.values, &fine)
}

/// Printed numbers by the figures that each has in the units of its entry.
fn by_figures(index: &Index) -> BTreeMap<String, Value> {
    let symbols: BTreeSet<&String> = index.things.units.iter().flatten().collect();
    let units: Vec<Unit> = symbols.into_iter().filter_map(|symbol| Unit::parse(symbol).ok()).collect();
    let (mut coarse, mut fine) = (Buckets::new(), Buckets::new());
    for (symbol, number, value, rows) in printed(index) {
        for unit in units.iter().filter(|unit| unit.kind() == value.unit().kind()) {
            let prints = |(thing, _): &&(usize, usize)| index.prints(*thing, unit.symbol());
            let of = |rows: &[(usize, usize)]| rows.iter().filter(prints).copied().collect::<Vec<_>>();
            let own = Printing { aimed: of(&rows.aimed), limits: of(&rows.limits) };
            if own.aimed.is_empty() && own.limits.is_empty() {
                continue;
            }
            for (fineness, all) in [(Fineness::Digit, &mut coarse), (Fineness::Two, &mut fine)] {
                for name in figures(&value, *unit, fineness).into_iter().flatten() {
                    let held: &mut Printing = all
                        .entry(name)
                        .or_default()
                        .entry(symbol.clone())
                        .or_default()
                        .entry(number.clone())
                        .or_default();
                    held.aimed.extend(&own.aimed);
                    held.limits.extend(&own.limits);
                }
            }
        }
    }
    light(&coarse, &fine)
}

/// Buckets by the first digit, and in the place of a heavy one those by the first two.
fn light(coarse: &Buckets, fine: &Buckets) -> BTreeMap<String, Value> {
    let mut all = BTreeMap::new();
    for (bucket, units) in coarse {
        let rows = told(units);
        if rows.to_string().len() < HEAVY {
            all.insert(bucket.clone(), rows);
        } else {
            let within = fine.iter().filter(|(name, _)| is_within(name, bucket));
            all.extend(within.map(|(name, units)| (name.clone(), told(units))));
        }
    }
    all
}

/// `length2e-4` holds `length20e-4` to `length29e-4`.
fn is_within(fine: &str, bucket: &str) -> bool {
    let (digits, exponent) = bucket.rsplit_once('e').unwrap_or_default();
    let rest = fine.rsplit_once('e').filter(|(_, of)| *of == exponent).map(|(rest, _)| rest);
    rest.and_then(|rest| rest.strip_prefix(digits)).is_some_and(|rest| rest.len() == 1)
}

fn told(units: &Units) -> Value {
    let units = units.iter().map(|(unit, numbers)| {
        let numbers =
            numbers.iter().map(|(number, rows)| (number, [by_thing(&rows.aimed), by_thing(&rows.limits)]));
        (unit, json!(numbers.collect::<BTreeMap<_, _>>()))
    });
    json!(units.collect::<BTreeMap<_, _>>())
}

/// `ox-887 Tarnhawk 887 2020–2024`: id of a build, then its machines, as its title has them before the id.
fn called(one: &Stated) -> String {
    let machines = one.title.strip_suffix(one.id.as_str()).unwrap_or_default();
    format!("{} {}", one.id, machines.trim_end_matches(" · "))
}

/// `3:0 2,5,1:4`: rows 0 and 2 of thing 3, row 0 of thing 8, row 4 of thing 9; each number is told from the one before.
/// The names that a procedure uses are told the same way.
fn by_thing(rows: &[(usize, usize)]) -> Value {
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

/// What is loaded once. Kinds, units and scopes stand once each, and are named by their number.
fn head<'a>(
    index: &Index,
    words: &str,
    sizes: impl Iterator<Item = &'a String>,
    figures: impl Iterator<Item = &'a String>,
) -> Value {
    let (mut kinds, mut units, mut scopes) = (Once::default(), Once::default(), Once::default());
    let mut named: Vec<Value> = Vec::new();
    for (at, names) in index.things.named.iter().enumerate() {
        let each: Vec<&Thing> = index.things.things.iter().filter(|one| one.named == at).collect();
        let Some(first) = each.first() else {
            let (kind, units) = (kinds.number(json!("")), units.number(json!("")));
            named.extend([json!(kind), json!(""), json!(""), json!(""), json!(units), json!("")]);
            continue;
        };
        let scopes: Vec<String> = each.iter().map(|one| scopes.number(scope(one)).to_string()).collect();
        let others: Vec<String> = names.iter().skip(1).map(|name| name.join(" ")).collect();
        let printed = index.things.units.get(at).map(|units| units.join(",")).unwrap_or_default();
        let (kind, printed) = (kinds.number(json!(first.kind)), units.number(json!(printed)));
        named.extend([json!(kind), json!(first.of), json!(first.title), json!(others.join(","))]);
        named.extend([json!(printed), json!(scopes.join(" "))]);
    }
    let name = |of: &String| index.things.things.iter().find(|one| one.of == *of).map(|one| one.named);
    let uses = index.things.things.iter().enumerate();
    let uses: Vec<(usize, usize)> =
        uses.flat_map(|(at, one)| one.uses.iter().filter_map(name).map(move |name| (at, name))).collect();
    let short = SHORT.iter().map(|(short, long)| format!("{short} {}", long.join(" ")));
    let values: Vec<String> =
        by_power(sizes.chain(figures)).into_iter().map(|(kind, powers)| format!("{kind} {powers}")).collect();
    json!({
        "kinds": kinds.all, "units": units.all, "scopes": scopes.all, "named": named,
        "short": short.collect::<Vec<_>>().join(","), "words": words, "values": values.join(","),
        "uses": by_thing(&uses),
    })
}

/// Kind and its buckets, by power of ten: `pressure` has `4:-2.1.23~25 5:1` for `-2e4`, `1e4`, `23e4` to `25e4`, and
/// `1e5`; those by figures alone have no kind.
fn by_power<'a>(buckets: impl Iterator<Item = &'a String>) -> BTreeMap<&'a str, String> {
    let mut all: BTreeMap<&str, BTreeMap<&str, BTreeSet<i32>>> = BTreeMap::new();
    for bucket in buckets {
        // The kind ends where the figures, or the sign before them, begin.
        let figures = bucket.find(|c: char| c.is_ascii_digit()).unwrap_or(bucket.len());
        let kind = bucket.get(..figures).unwrap_or_default().trim_end_matches('-');
        let (digits, power) =
            bucket.get(kind.len()..).and_then(|rest| rest.split_once('e')).unwrap_or_default();
        all.entry(kind).or_default().entry(power).or_default().extend(digits.parse::<i32>());
    }
    let powers = |powers: BTreeMap<&str, BTreeSet<i32>>| {
        powers.into_iter().map(|(power, digits)| format!("{power}:{}", runs(digits))).collect::<Vec<_>>()
    };
    all.into_iter().map(|(kind, of)| (kind, powers(of).join(" "))).collect()
}

/// `1.23~25` for 1, 23, 24 and 25.
fn runs(numbers: BTreeSet<i32>) -> String {
    let mut all: Vec<(i32, i32)> = Vec::new();
    for number in numbers {
        match all.last_mut().filter(|(_, last)| last + 1 == number) {
            Some((_, last)) => *last = number,
            None => all.push((number, number)),
        }
    }
    let spelt =
        |(first, last): (i32, i32)| if first == last { first.to_string() } else { format!("{first}~{last}") };
    all.into_iter().map(spelt).collect::<Vec<_>>().join(".")
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

/// What builds state of the things of each name: thing → row → text, whether open, first build, how many builds; before
/// them id and title of each first build.
/// The first rows of each thing stand together; of the others as many in one part as make it of middling size.
fn stated(index: &Index) -> BTreeMap<String, Value> {
    let scopes = index.scopes();
    let mut all: BTreeMap<String, (Rows, BTreeMap<usize, Rows>)> = BTreeMap::new();
    for (at, (thing, rows)) in index.things.things.iter().zip(&index.rows).enumerate() {
        let scopes = scopes.get(&thing.named).copied().unwrap_or(1);
        let each = PART.div_ceil(scopes);
        for (number, row) in rows.iter().enumerate() {
            let name = match number.checked_sub(rows_listed(scopes)) {
                None => format!("t-{}", thing.named),
                Some(after) => format!("t-{}-{}", thing.named, after / each),
            };
            let Some(first) = row.builds.first() else { continue };
            let (builds, rows) = all.entry(name).or_default();
            if let Some(build) = index.builds.get(*first) {
                builds.insert(*first, json!(called(build)));
            }
            let told = json!([row.text, u8::from(row.open), first, row.builds.len()]);
            rows.entry(at).or_default().insert(number, told);
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
