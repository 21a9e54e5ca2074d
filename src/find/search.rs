//! The search: what was typed, joined from things, machines and numbers, best first.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::ask::{Asked, ask};
use super::held::{Held, Numbers};
use super::index::{Index, Thing};
use super::matching::{self, Sampled, Typed};
use super::said;

/// Things that are joined with builds at most.
pub(super) const THINGS: usize = 60;
/// Names whose things are listed for all builds, where no machine is named.
const SPREAD: usize = 6;
/// Lines that are filled at least, before what fits less well is left aside.
const LINES: usize = 12;
/// Rows of a thing that are listed before any other thing that fits as well has its turn: who types `lash` alone sees
/// what there is of it, and not one setting for twelve machines.
pub(super) const FIRST: usize = 2;
/// Rows of a thing that are listed there, those most builds agree on: the fewer, the more places and conditions its
/// name has.
pub(super) fn rows_listed(scopes: usize) -> usize {
    (24 / scopes.max(1)).clamp(4, 12)
}
/// Builds that are joined because their machine is named, at most; none of less than two thirds of the best one's score:
/// it lacks a word that the other has.
const NEAR: usize = 6;
/// The same while the name is still being typed.
const BEGUN: usize = 4;
/// From this score on a build is meant by name.
const BY_NAME: u32 = 800;
/// Tenths of what a setting scores that a procedure scores that uses it: it stands beside it, and after it.
const USES: u32 = 9;
/// What the build looked at last counts, where none is meant by name.
const LAST: u32 = 200;

/// One line that answers.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Found {
    /// `statement`, `procedure`, `complaint`, `machine`, `code`, `codes`, `source` or `sum`.
    pub kind: String,
    /// Id of the build, if it is of one.
    pub build: Option<String>,
    /// The build, for people.
    pub for_machine: Option<String>,
    /// How many builds of the base share the line; 0 if it is of none.
    pub builds: usize,
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

/// Numbers of things, builds or machines, each with its score, the best first.
pub(super) type Scored = Vec<(usize, u32)>;

/// Score and the order among equals: kind, whether it waits until others that fit as well had their turn, number of the
/// thing, machine or record, row.
pub(super) type Rank = (Reverse<u32>, u8, bool, usize, usize);

/// What a row scores, the build it is shown for, whether it waits, and what it scores for whichever build.
type Shown = (Reverse<u32>, usize, bool, u32);

/// What a search gives.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Answer {
    /// The lines that answer, best first.
    pub lines: Vec<Found>,
    /// What was typed and fits nothing, or not the rest: the lines are those of the rest, and must not be taken for it.
    pub left_out: Vec<String>,
    /// Why each of these is left out and what is near, then how the rest was understood; what was typed stands in
    /// backquotes.
    pub notes: Vec<String>,
}

/// A query as it is understood, and what it leads to.
pub(super) struct Sought<'a> {
    pub(super) index: &'a Index,
    pub(super) asked: Asked,
    pub(super) typed: Vec<Typed>,
    /// How well each name is fitted, and by which typed word.
    pub(super) named: Vec<(u32, Vec<u32>)>,
    pub(super) things: Scored,
    /// Builds whose machine is named.
    pub(super) builds: Scored,
    /// Machines, by one of their rows in the index.
    pub(super) machines: Scored,
    /// Codes and manuals.
    pub(super) fixed: Scored,
    /// The years that were asked for and that a machine found was made in.
    pub(super) years: Vec<u16>,
    pub(super) numbers: Numbers<'a>,
    /// What each piece asks of the printed numbers.
    pub(super) held: Vec<Held>,
    /// Best first.
    pub(super) ranks: Vec<Rank>,
    /// Thing and row → the build it is shown for.
    pub(super) shown: BTreeMap<(usize, usize), usize>,
}

/// What answers; `last` is the build that the reader looked at last.
#[must_use]
pub fn search(index: &Index, text: &str, last: Option<&str>, limit: usize) -> Answer {
    let last = last.and_then(|last| index.builds.iter().position(|build| build.id == last));
    let sought = Sought::of(index, ask(text, false), last, limit);
    let answer = sought.answer(limit);
    if answer.left_out.is_empty() || !sought.may_be_words() {
        return answer;
    }
    let as_words = Sought::of(index, ask(text, true), last, limit).answer(limit);
    if as_words.left_out.len() < answer.left_out.len() { as_words } else { answer }
}

impl<'a> Sought<'a> {
    fn of(index: &'a Index, asked: Asked, last: Option<usize>, limit: usize) -> Self {
        let typed = matching::typed(index, &asked.words);
        let named: Vec<_> = index.things.named.iter().map(|names| matching::named(names, &typed)).collect();
        let things = things(index, &named, &typed);
        let (builds, machines, years) = machines(index, &typed, &asked);
        let words = typed.iter().filter(|one| !one.is_number()).count();
        let numbers = Numbers::of(index, &asked, &things, !builds.is_empty(), &years, words);
        let held = asked.pieces.iter().map(|(_, piece)| numbers.held(piece)).collect();
        let by_name = builds.first().is_some_and(|(_, score)| *score >= BY_NAME);
        let fixed = fixed(index, &typed, by_name);
        let (ranks, shown) = (Vec::new(), BTreeMap::new());
        let mut sought = Self {
            index,
            asked,
            typed,
            named,
            things,
            builds,
            machines,
            fixed,
            years,
            numbers,
            held,
            ranks,
            shown,
        };
        sought.rank(last, limit);
        sought
    }

    /// True if some inches stand apart from their number, and so may be the intake: `887 in lash`.
    fn may_be_words(&self) -> bool {
        self.asked.pieces.iter().any(|(text, piece)| !piece.quantities.is_empty() && text.ends_with(" in"))
    }

    fn answer(&self, limit: usize) -> Answer {
        let lines = self.ranks.iter().take(limit).filter_map(|rank| self.found(*rank)).collect();
        let (left_out, notes) = said::said(self);
        Answer { lines, left_out, notes }
    }

    /// True if builds are meant by name.
    pub(super) fn by_name(&self) -> bool {
        self.builds.first().is_some_and(|(_, score)| *score >= BY_NAME)
    }

    fn rank(&mut self, last: Option<usize>, limit: usize) {
        let mut rows = self.rows(last, limit);
        let first = rows.iter().min_by_key(|(row, (score, _, waits, _))| (*score, *waits, **row));
        // What fits less than two thirds as well as the first line lacks a word that this has.
        let most = first.map_or(0, |(_, (_, _, _, own))| *own);
        rows.retain(|_, (_, _, _, own)| *own * 3 >= most * 2);
        self.ranks = rows
            .iter()
            .map(|(&(thing, row), (score, _, waits, _))| (*score, 0, *waits, thing, row))
            .collect();
        self.ranks.sort_unstable();
        // What is said of the query is said of these lines, however few are asked for.
        self.ranks.truncate(limit.max(LINES));
        let ranked = |kind: u8| move |&(at, score): &(usize, u32)| (Reverse(score), kind, false, at, 0);
        self.ranks.extend(self.machines.iter().map(ranked(1)));
        // So does a bench sum, which is only beside what is stated.
        let is_sum = |at: usize| self.index.fixed.get(at).is_some_and(|one| one.kind == "sum");
        let worth = |(at, score): &&(usize, u32)| !is_sum(*at) || *score * 3 >= most * 2;
        self.ranks.extend(self.fixed.iter().filter(worth).map(ranked(2)));
        self.ranks.sort_unstable();
        self.shown = rows.into_iter().map(|(row, (_, build, ..))| (row, build)).collect();
    }

    /// Every row that may answer, with what it scores and the build it is shown for.
    fn rows(&self, last: Option<usize>, limit: usize) -> BTreeMap<(usize, usize), Shown> {
        let of_thing: BTreeMap<usize, u32> = self.things.iter().copied().collect();
        let of_build: BTreeMap<usize, u32> = self.builds.iter().copied().collect();
        let mut numbers = Held::new();
        for (row, counts) in self.held.iter().flatten() {
            *numbers.entry(*row).or_default() += counts;
        }
        let preferred = last.filter(|_| !self.by_name());
        let mut all: BTreeMap<(usize, usize), Shown> = BTreeMap::new();
        let mut add = |row: (usize, usize), build: usize, waits: bool| {
            let number = numbers.get(&row).copied().unwrap_or_default();
            let own = of_thing.get(&row.0).copied().unwrap_or_default();
            let more = of_build.get(&build).copied().unwrap_or_default();
            let last = if preferred == Some(build) { LAST } else { 0 };
            if own + number > 0 {
                let found = (Reverse(own + number + more + last), build, waits, own + number);
                let best = all.entry(row).or_insert(found);
                *best = found.min(*best);
            }
        };
        let top: Vec<usize> = self.things.iter().take(THINGS).map(|(thing, _)| *thing).collect();
        for build in self.builds.iter().map(|(build, _)| *build).chain(last) {
            let lines = self.index.builds.get(build).map(|one| one.lines.as_slice()).unwrap_or_default();
            let lines = lines.iter().map(|line| (line.thing, line.row));
            let lines = lines.filter(|row| top.contains(&row.0) || numbers.contains_key(row));
            lines.for_each(|row| add(row, build, false));
        }
        let listed = if self.by_name() { Vec::new() } else { self.listed(limit) };
        let scopes = self.index.scopes();
        let listed = listed.into_iter().flat_map(|thing| {
            let name = self.index.things.things.get(thing).map(|one| one.named);
            let scopes = name.and_then(|name| scopes.get(&name)).copied().unwrap_or_default();
            (0..rows_listed(scopes)).map(move |row| (thing, row))
        });
        for row in listed.chain(numbers.keys().copied()) {
            if let Some(build) = self.row(row).and_then(|one| one.builds.first()) {
                add(row, *build, row.1 >= FIRST && !numbers.contains_key(&row));
            }
        }
        all
    }

    /// The things that are listed for all builds: those of the best names, as many as fill so many lines.
    fn listed(&self, limit: usize) -> Vec<usize> {
        let scopes = self.index.scopes();
        let name_of = |thing: usize| self.index.things.things.get(thing).map(|one| one.named);
        let top: Vec<(usize, u32)> = self.things.iter().take(THINGS).copied().collect();
        let limit = limit.max(LINES);
        let (mut names, mut lines, mut least) = (Vec::new(), 0, u32::MAX);
        for &(thing, score) in &top {
            let name = name_of(thing);
            if !names.contains(&name) {
                if names.len() == SPREAD || (lines >= limit && score < least) {
                    continue;
                }
                names.push(name);
            }
            let scopes = name.and_then(|name| scopes.get(&name)).copied().unwrap_or_default();
            lines += self.index.rows.get(thing).map_or(0, |rows| rows.len().min(rows_listed(scopes)));
            least = score;
        }
        top.into_iter().map(|(thing, _)| thing).filter(|thing| names.contains(&name_of(*thing))).collect()
    }

    fn row(&self, (thing, row): (usize, usize)) -> Option<&'a super::rows::Row> {
        self.index.rows.get(thing)?.get(row)
    }

    fn found(&self, rank: Rank) -> Option<Found> {
        let (Reverse(score), kind, _, at, row) = rank;
        match kind {
            0 => self.line(at, row, score),
            1 => {
                let one = self.index.fitted.get(at)?;
                let build = self.index.builds.get(one.build)?;
                Some(alone("machine", Some(&build.id), &one.machine, &one.name, &build.title, score))
            }
            _ => {
                let one = self.index.fixed.get(at)?;
                Some(alone(&one.kind, None, &one.of, &one.title, &one.text, score))
            }
        }
    }

    fn line(&self, at: usize, row: usize, score: u32) -> Option<Found> {
        let (thing, one) = (self.index.things.things.get(at)?, self.row((at, row))?);
        let build = self.index.builds.get(*self.shown.get(&(at, row))?)?;
        Some(Found {
            kind: thing.kind.clone(),
            build: Some(build.id.clone()),
            for_machine: Some(build.title.clone()),
            builds: one.builds.len(),
            of: thing.of.clone(),
            place: thing.place.clone(),
            when: thing.when.clone(),
            title: thing.title.clone(),
            text: one.text.clone(),
            open: one.open,
            score,
        })
    }
}

/// Things by score, the best first.
fn things(index: &Index, named: &[(u32, Vec<u32>)], typed: &[Typed]) -> Scored {
    let things = &index.things.things;
    let score =
        |one: &Thing| named.get(one.named).map_or(0, |name| matching::thing(name, &one.beside, typed));
    let own: Vec<u32> = things.iter().map(score).collect();
    let mut of_entries: BTreeMap<&str, u32> = BTreeMap::new();
    for (one, score) in things.iter().zip(&own) {
        let most = of_entries.entry(one.of.as_str()).or_default();
        *most = (*most).max(*score);
    }
    let scored = things.iter().zip(own).enumerate().map(|(at, (one, own))| {
        let used = one.uses.iter().filter_map(|of| of_entries.get(of.as_str())).max();
        (at, own.max(used.map_or(0, |used| used * USES / 10)))
    });
    best(scored.filter(|(_, score)| *score > 0).collect())
}

fn best(mut all: Scored) -> Scored {
    all.sort_by_key(|(at, score)| (Reverse(*score), *at));
    all
}

/// Builds by score, the best first; machines, each by its best build; and the years that one of them was made in.
fn machines(index: &Index, typed: &[Typed], asked: &Asked) -> (Scored, Scored, Vec<u16>) {
    let mut builds: BTreeMap<usize, u32> = BTreeMap::new();
    let mut machines: BTreeMap<&str, (usize, u32)> = BTreeMap::new();
    let mut years = Vec::new();
    let mut sampled = Sampled::default();
    for (at, one) in index.fitted.iter().enumerate() {
        let sampled = sampled.next(&one.sort);
        let serial = matching::serial(one, asked);
        if serial == 0 && !matching::leads(&one.words, &sampled, typed) {
            continue;
        }
        let (by_name, whole) = matching::machine(one, typed);
        let made = |(year, _): &&(u16, bool)| {
            one.spans.iter().any(|span| span.years.0 <= *year && *year <= span.years.1)
        };
        years.extend(asked.years.iter().filter(made).map(|(year, _)| *year));
        let year = matching::year(one, asked);
        let with = |score: u32| (score + serial).saturating_add_signed(year);
        let score = builds.entry(one.build).or_default();
        *score = (*score).max(with(by_name));
        let machine = machines.entry(one.machine.as_str()).or_insert((at, 0));
        if with(whole) > machine.1 {
            *machine = (at, with(whole));
        }
    }
    let mut builds = best(builds.into_iter().filter(|(_, score)| *score > 0).collect());
    let most = builds.first().map_or(0, |(_, score)| *score);
    builds.retain(|(_, score)| score * 3 >= most * 2);
    builds.truncate(if most < BY_NAME { BEGUN } else { NEAR });
    (builds, best(machines.into_values().filter(|(_, score)| *score > 0).collect()), years)
}

/// Codes and manuals by score; a manual that has not every word counts half where a machine is named.
fn fixed(index: &Index, typed: &[Typed], by_name: bool) -> Scored {
    let mut sampled = Sampled::default();
    let scored = index.fixed.iter().enumerate().filter_map(|(at, one)| {
        let sampled = sampled.next(&one.sort);
        let score =
            if matching::leads(&one.words, &sampled, typed) { matching::fixed(one, typed) } else { 0 };
        let lacks = |word: &Typed| word.best_whole(&one.words) + word.best_whole(&one.sort) == 0;
        let half = by_name && one.kind == "source" && typed.iter().any(lacks);
        (score > 0).then_some((at, if half { score / 2 } else { score }))
    });
    scored.collect()
}

fn alone(kind: &str, build: Option<&String>, of: &str, title: &str, text: &str, score: u32) -> Found {
    Found {
        kind: kind.to_owned(),
        build: build.cloned(),
        for_machine: None,
        builds: usize::from(build.is_some()),
        of: of.to_owned(),
        place: BTreeMap::new(),
        when: BTreeMap::new(),
        title: title.to_owned(),
        text: text.to_owned(),
        open: false,
        score,
    }
}
