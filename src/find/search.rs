//! The search: what was typed, joined from things, machines and numbers, best first.

use std::collections::BTreeMap;

use super::ask::{Asked, ask, year_of};
use super::index::{Fitted, Index};
use super::matching::{self, Typed};
use super::values::{agree, buckets, may_be_zero};
use crate::quantity::{Unit, Value};

/// Things and builds that are joined with each other at most.
const THINGS: usize = 60;
pub(super) const BUILDS: usize = 12;
/// Builds that are joined because their machine is named, at most; none of half the best one's score.
const NEAR: usize = 8;
/// From this score on a build is meant by name.
const BY_NAME: u32 = 800;
/// What the build looked at last counts, where none is meant by name.
const LAST: u32 = 200;

/// One line that answers.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Found {
    /// `statement`, `procedure`, `complaint`, `machine`, `code`, `codes` or `source`.
    pub kind: String,
    /// Id of the build, if it is of one.
    pub build: Option<String>,
    /// The build, for people.
    pub for_machine: Option<String>,
    /// Id of the entry, procedure, complaint, machine, code or source.
    pub of: String,
    /// The place.
    pub place: BTreeMap<String, String>,
    /// The condition.
    pub when: BTreeMap<String, String>,
    /// What it is.
    pub title: String,
    /// The value as printed and converted.
    pub text: String,
    /// True if no second reading confirms it.
    pub open: bool,
    /// How well it fits; more is better.
    pub score: u32,
}

/// Numbers of things, builds or machines, each with its score.
type Scored = Vec<(usize, u32)>;

/// Score and the order among equals: kind, thing, build.
type Rank = (std::cmp::Reverse<u32>, u8, usize, usize);

/// What a search gives.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Answer {
    /// The lines that answer, best first.
    pub lines: Vec<Found>,
    /// What was typed and fits nothing: the lines are those of the rest, and must not be taken for it.
    pub left_out: Vec<String>,
}

/// What answers; `last` is the build that the reader looked at last.
#[must_use]
pub fn search(index: &Index, text: &str, last: Option<&str>, limit: usize) -> Answer {
    let asked = ask(text);
    let typed = matching::typed(index, &asked.words);
    let last = last.and_then(|last| index.builds.iter().position(|build| build.id == last));
    let things = things(index, &typed);
    let (builds, machines, years) = machines(index, &typed, &asked);
    let numbers = numbers(index, &asked, &things, &builds, &years, &typed);
    let mut ranks: Vec<Rank> = pairs(index, &things, &builds, &numbers, last)
        .into_iter()
        .map(|((build, thing), score)| (std::cmp::Reverse(score), 0, thing, build))
        .collect();
    ranks.extend(machines.into_iter().map(|(at, score)| (std::cmp::Reverse(score), 1, at, 0)));
    for (at, one) in index.fixed.iter().enumerate() {
        let score = matching::fixed(one, &typed);
        if score > 0 {
            ranks.push((std::cmp::Reverse(score), 2, at, 0));
        }
    }
    ranks.sort_unstable();
    let lines = ranks.iter().take(limit).filter_map(|rank| found(index, *rank)).collect();
    let fits = |piece: &Asked| {
        piece.words.iter().any(|word| typed.iter().any(|one| one.tells(word)))
            || piece.years.iter().any(|(year, _)| years.contains(year))
            || index.fitted.iter().any(|one| serial(one, piece) > 0)
            || !self::numbers(index, piece, &things, &builds, &years, &typed).is_empty()
    };
    let left_out = asked.pieces.iter().filter(|(_, piece)| !fits(piece)).map(|(text, _)| text.clone());
    Answer { lines, left_out: left_out.collect() }
}

/// Things by score, the best first.
fn things(index: &Index, typed: &[Typed]) -> Scored {
    let named: Vec<_> = index.things.named.iter().map(|names| matching::named(names, typed)).collect();
    let scored = index.things.things.iter().enumerate().filter_map(|(at, one)| {
        let score = matching::thing(named.get(one.named)?, &one.beside, typed);
        (score > 0).then_some((at, score))
    });
    best(scored.collect())
}

fn best(mut all: Scored) -> Scored {
    all.sort_by_key(|(at, score)| (std::cmp::Reverse(*score), *at));
    all
}

/// Builds by score, the best first; machines, each by its best build; and the years that one of them was made in.
fn machines(index: &Index, typed: &[Typed], asked: &Asked) -> (Scored, Scored, Vec<u16>) {
    let mut builds: BTreeMap<usize, u32> = BTreeMap::new();
    let mut machines: BTreeMap<&str, (usize, u32)> = BTreeMap::new();
    let mut years = Vec::new();
    for (at, one) in index.fitted.iter().enumerate() {
        let (by_name, whole) = matching::machine(one, typed);
        let serial = serial(one, asked);
        if whole == 0 && serial == 0 {
            continue;
        }
        let made = |(year, _): &&(u16, bool)| {
            one.spans.iter().any(|span| span.years.0 <= *year && *year <= span.years.1)
        };
        years.extend(asked.years.iter().filter(made).map(|(year, _)| *year));
        let year = year(one, asked);
        let with = |score: u32| (score + serial).saturating_add_signed(year);
        let score = builds.entry(one.build).or_default();
        *score = (*score).max(with(by_name));
        let machine = machines.entry(one.machine.as_str()).or_insert((at, 0));
        if with(whole) > machine.1 {
            *machine = (at, with(whole));
        }
    }
    let mut builds = best(builds.into_iter().filter(|(_, score)| *score > 0).collect());
    let least = builds.first().map_or(0, |(_, score)| score / 2);
    builds.retain(|(_, score)| *score >= least);
    builds.truncate(NEAR);
    (builds, machines.into_values().filter(|(_, score)| *score > 0).collect(), years)
}

/// What a serial number counts for a machine that has it.
fn serial(one: &Fitted, asked: &Asked) -> u32 {
    let has = one.spans.iter().filter(|span| !span.prefix.is_empty()).any(|span| {
        let numbers = asked.serials.iter().filter_map(|serial| serial.strip_prefix(span.prefix.as_str()));
        let mut numbers = numbers.filter_map(|digits| digits.parse::<u32>().ok());
        numbers.any(|number| span.serial.0 <= number && number <= span.serial.1)
    });
    if has { 2000 } else { 0 }
}

/// What the years count: one that fits for, one in full that does not fit against.
fn year(one: &Fitted, asked: &Asked) -> i32 {
    let of_year = |(year, full): &(u16, bool)| {
        let has = one.spans.iter().any(|span| span.years.0 <= *year && *year <= span.years.1);
        match (has, full) {
            (true, _) => 300,
            (false, true) => -300,
            (false, false) => 0,
        }
    };
    asked.years.iter().map(of_year).sum()
}

/// What the printed numbers count: build and thing of each that a typed number agrees with.
fn numbers(
    index: &Index,
    asked: &Asked,
    things: &[(usize, u32)],
    builds: &[(usize, u32)],
    years: &[u16],
    typed: &[Typed],
) -> BTreeMap<(usize, usize), u32> {
    let mut all = BTreeMap::new();
    for value in &asked.quantities {
        hold(index, value, 400, &mut all);
    }
    // `22` beside a machine that was made in 2022 is its year.
    let is_a_year = |number: &str| year_of(number).is_some_and(|(year, _)| years.contains(&year));
    let names_a_machine = |number: &str| {
        is_a_year(number)
            || !builds.is_empty()
                && index.fitted.iter().any(|one| one.words.iter().any(|word| word == number))
    };
    let units = units(index, things, typed);
    for number in asked.bare.iter().filter(|number| !names_a_machine(number)) {
        for value in units.iter().filter_map(|unit| Value::parse(&unit.after(number)).ok()) {
            hold(index, &value, 250, &mut all);
        }
    }
    all
}

/// The units a bare number is tried in: those of the best things, or all where no word says which.
fn units(index: &Index, things: &[(usize, u32)], typed: &[Typed]) -> Vec<Unit> {
    let all = || index.things.units.iter().flatten();
    let words = typed.len() > 1 && !things.is_empty();
    let of_things = things.iter().take(THINGS).filter_map(|(at, _)| index.things.things.get(*at));
    let of_things = of_things.filter_map(|one| index.things.units.get(one.named)).flatten();
    let mut symbols: Vec<&String> = if words { of_things.collect() } else { all().collect() };
    symbols.sort();
    symbols.dedup();
    symbols.into_iter().filter_map(|symbol| Unit::parse(symbol).ok()).collect()
}

fn hold(index: &Index, typed: &Value, counts: u32, all: &mut BTreeMap<(usize, usize), u32>) {
    let kind = typed.unit().kind().name();
    let own = buckets(typed).unwrap_or_default();
    let zero = may_be_zero(typed);
    let fits = |name: &str| {
        own.iter().any(|one| one == name)
            || (zero
                && name
                    .strip_prefix(kind)
                    .is_some_and(|rest| rest.starts_with(|c: char| c == '-' || c.is_ascii_digit())))
    };
    for units in index.values.iter().filter(|(name, _)| fits(name)).map(|(_, units)| units) {
        for (symbol, numbers) in units {
            let Ok(unit) = Unit::parse(symbol) else { continue };
            let same = if unit == typed.unit() { 50 } else { 0 };
            for (number, pairs) in numbers {
                let printed = Value::parse(&unit.after(number));
                if printed.is_ok_and(|printed| agree(typed, &printed)) {
                    for pair in pairs {
                        let score = all.entry(*pair).or_default();
                        *score = (*score).max(counts + same);
                    }
                }
            }
        }
    }
}

/// Builds joined with what they state.
fn pairs(
    index: &Index,
    things: &[(usize, u32)],
    builds: &[(usize, u32)],
    numbers: &BTreeMap<(usize, usize), u32>,
    last: Option<usize>,
) -> BTreeMap<(usize, usize), u32> {
    let of_thing: BTreeMap<usize, u32> = things.iter().copied().collect();
    let of_build: BTreeMap<usize, u32> = builds.iter().copied().collect();
    let by_name = builds.first().is_some_and(|(_, score)| *score >= BY_NAME);
    let mut all: BTreeMap<(usize, usize), u32> = BTreeMap::new();
    let mut add = |build: usize, thing: usize| {
        let number = numbers.get(&(build, thing)).copied().unwrap_or_default();
        let own = of_thing.get(&thing).copied().unwrap_or_default();
        let build_score = of_build.get(&build).copied().unwrap_or_default();
        let preferred = if !by_name && last == Some(build) { LAST } else { 0 };
        if own + number > 0 {
            all.insert((build, thing), own + number + build_score + preferred);
        }
    };
    let top: Vec<usize> = things.iter().take(THINGS).map(|(thing, _)| *thing).collect();
    for build in builds.iter().map(|(build, _)| *build).chain(last) {
        let lines = index.builds.get(build).map(|one| one.lines.as_slice()).unwrap_or_default();
        lines.iter().filter(|line| top.contains(&line.thing)).for_each(|line| add(build, line.thing));
    }
    if !by_name {
        for thing in &top {
            let states =
                |(_, one): &(usize, &super::index::Stated)| one.lines.iter().any(|line| line.thing == *thing);
            let stating = index.builds.iter().enumerate().filter(states).take(BUILDS);
            stating.for_each(|(build, _)| add(build, *thing));
        }
    }
    numbers.keys().for_each(|(build, thing)| add(*build, *thing));
    all
}

fn found(index: &Index, rank: Rank) -> Option<Found> {
    let (std::cmp::Reverse(score), kind, at, build) = rank;
    match kind {
        0 => {
            let (thing, build) = (index.things.things.get(at)?, index.builds.get(build)?);
            let line = build.lines.iter().find(|line| line.thing == at)?;
            Some(Found {
                kind: thing.kind.clone(),
                build: Some(build.id.clone()),
                for_machine: Some(build.title.clone()),
                of: thing.of.clone(),
                place: thing.place.clone(),
                when: thing.when.clone(),
                title: thing.title.clone(),
                text: line.text.clone(),
                open: line.open,
                score,
            })
        }
        1 => {
            let one = index.fitted.get(at)?;
            let build = index.builds.get(one.build)?;
            Some(alone("machine", Some(&build.id), &one.machine, &one.name, &build.title, score))
        }
        _ => {
            let one = index.fixed.get(at)?;
            Some(alone(&one.kind, None, &one.of, &one.title, &one.text, score))
        }
    }
}

fn alone(kind: &str, build: Option<&String>, of: &str, title: &str, text: &str, score: u32) -> Found {
    Found {
        kind: kind.to_owned(),
        build: build.cloned(),
        for_machine: None,
        of: of.to_owned(),
        place: BTreeMap::new(),
        when: BTreeMap::new(),
        title: title.to_owned(),
        text: text.to_owned(),
        open: false,
        score,
    }
}
