//! Printed numbers in parts of the index: by kind and size, and by their figures alone.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::index::Index;
use super::shards::by_thing;
use super::values::{Buckets, Fineness, Printing, buckets, figures};
use crate::quantity::{Unit, Value as Number};

/// From so many bytes on a part of numbers is split by their second digit.
const HEAVY: usize = 1_200;
/// A number of one figure alone that lies in more parts than this has one of its own,
const FEW: usize = 2;
/// if that has no more bytes than this.
const LIGHT: usize = 12_000;

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
pub(super) fn by_size(index: &Index) -> BTreeMap<String, Value> {
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
pub(super) fn by_figures(index: &Index) -> BTreeMap<String, Value> {
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
    let mut all = light(&coarse, &fine);
    let rounded = rounded(&all, &fine);
    all.extend(rounded);
    all
}

/// `r2e0` for all that may round to 2: who types one figure asks for a single part.
fn rounded(parts: &BTreeMap<String, Value>, fine: &Buckets) -> BTreeMap<String, Value> {
    let powers: BTreeSet<i32> =
        fine.keys().filter_map(|name| name.rsplit_once('e')?.1.parse().ok()).collect();
    let least = powers.first().copied().unwrap_or_default();
    let most = powers.last().copied().unwrap_or_default();
    let mut all = BTreeMap::new();
    for (power, figure) in (least..=most + 1).flat_map(|power| (1..=9).map(move |figure| (power, figure))) {
        // From half a step below to half a step above; below 1 the figures before are of the next smaller power.
        let covers = (figure * 10 - 5..=figure * 10 + 5).flat_map(|tenths| {
            let (twos, power) = if tenths < 10 {
                (tenths * 10..tenths * 10 + 10, power - 1)
            } else {
                (tenths..tenths + 1, power)
            };
            twos.map(move |two| (two, power))
        });
        let mut union = Units::new();
        let mut names = BTreeSet::new();
        for (two, power) in covers {
            let name = format!("{two}e{power}");
            for (unit, numbers) in fine.get(&name).into_iter().flatten() {
                for (number, rows) in numbers {
                    let held = union.entry(unit.clone()).or_default().entry(number.clone()).or_default();
                    held.aimed.extend(&rows.aimed);
                    held.limits.extend(&rows.limits);
                }
            }
            let either = [name, format!("{}e{power}", two / 10)];
            names.extend(either.into_iter().filter(|name| parts.contains_key(name)));
        }
        let rows = told(&union);
        if names.len() > FEW && rows.to_string().len() <= LIGHT {
            all.insert(format!("r{figure}e{power}"), rows);
        }
    }
    all
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

/// Kind and its buckets, by power of ten: `pressure` has `4:-2.1.23~25 5:1` for `-2e4`, `1e4`, `23e4` to `25e4`, and
/// `1e5`; those by figures alone have no kind.
pub(super) fn by_power<'a>(buckets: impl Iterator<Item = &'a String>) -> BTreeMap<&'a str, String> {
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
