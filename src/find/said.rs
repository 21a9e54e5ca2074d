//! What is said beside the lines: what was typed and fits nothing, what is near it, how the rest was understood.
//!
//! Invariant: a line is never taken for an answer to what it does not hold. A number fits only where the
//! first statement prints it; a word only where some line has it.

use std::collections::{BTreeMap, BTreeSet};

use num_traits::{Signed, Zero};

use super::ask::Asked;
use super::matching::{known, serial, vocabulary};
use super::search::Sought;
use super::values::{Fineness, buckets};
use super::words::apart;
use crate::quantity::{Exact, Unit, Value};

/// Words that are offered for one that fits nothing, at most.
const OFFERED: usize = 3;

/// What is left out, and the notes.
pub(super) fn said(sought: &Sought<'_>) -> (Vec<String>, Vec<String>) {
    let (mut left_out, mut notes) = (Vec::new(), Vec::new());
    let mut fitting = Vec::new();
    for at in 0..sought.asked.pieces.len() {
        let Some((text, piece)) = sought.asked.pieces.get(at) else { continue };
        match why(sought, at, text, piece) {
            Some(why) => {
                left_out.push(text.clone());
                notes.push(why);
                fitting.extend(piece.quantities.first().map(|value| (text, of_kind(value))));
            }
            None => fitting.extend(meaning(sought, at, piece).map(|meaning| (text, meaning))),
        }
    }
    let understood = if left_out.is_empty() { String::new() } else { understood(&fitting) };
    notes.extend(Some(understood).filter(|note| !note.is_empty()));
    (left_out, notes)
}

/// ``understood: `57 psi` as pressure, `compression` as Cranking compression``
fn understood(fitting: &[(&String, String)]) -> String {
    let mut meanings: Vec<(&String, Vec<&str>)> = Vec::new();
    for (text, meaning) in fitting {
        match meanings.iter_mut().find(|(one, _)| *one == meaning) {
            Some((_, texts)) => texts.push(text),
            None => meanings.push((meaning, vec![text])),
        }
    }
    let each = meanings.iter().map(|(meaning, texts)| format!("`{}` as {meaning}", texts.join(" ")));
    let each: Vec<String> = each.collect();
    if each.is_empty() { String::new() } else { format!("understood: {}", each.join(", ")) }
}

fn of_kind(value: &Value) -> String {
    value.unit().kind().title().to_owned()
}

/// Why a piece is left out; `None` if it fits.
fn why(sought: &Sought<'_>, at: usize, text: &str, piece: &Asked) -> Option<String> {
    if let Some(why) = &piece.refused {
        return Some(format!("`{text}` is not taken: {why}"));
    }
    if is_held(sought, at) || is_made(sought, piece) || has_serial(sought, piece) {
        return None;
    }
    let typed =
        || sought.typed.iter().enumerate().filter(|(_, one)| piece.words.iter().any(|word| one.holds(word)));
    if typed().any(|(at, _)| covers(sought, at)) {
        return None;
    }
    if is_like_serial(sought, piece) {
        return Some(format!("`{text}` lies in no span of serial numbers, and narrows nothing"));
    }
    if let Some(years) = piece.years.first().filter(|(_, full)| *full).and_then(|_| years(sought)) {
        return Some(format!("nothing found was made in `{text}`; {years}"));
    }
    if typed().any(|(_, one)| one.known) {
        return Some(format!("`{text}` is known, but not with the rest"));
    }
    Some(if piece.words.is_empty() { number(sought, at, text, piece) } else { word(sought, text, piece) })
}

/// True if the first statement prints the number, for a build that is meant if one is.
fn is_held(sought: &Sought<'_>, at: usize) -> bool {
    let states =
        |thing: usize| sought.index.things.things.get(thing).is_some_and(|one| one.kind == "statement");
    let first = sought.ranks.iter().find(|(_, kind, _, thing, _)| *kind == 0 && states(*thing));
    let Some(&(_, _, _, thing, row)) = first else { return false };
    let held = sought.held.get(at).is_some_and(|held| held.contains_key(&(thing, row)));
    held && sought.shown.get(&(thing, row)).is_some_and(|build| is_meant(sought, *build))
}

/// True if a build is one that is named, and not only in part; any, where none is.
fn is_meant(sought: &Sought<'_>, build: usize) -> bool {
    let least = sought.builds.first().map_or(0, |(_, score)| score - score / 4);
    !sought.by_name() || sought.builds.iter().any(|(one, score)| *one == build && *score >= least)
}

fn is_made(sought: &Sought<'_>, piece: &Asked) -> bool {
    piece.years.iter().any(|(year, _)| sought.years.contains(year))
}

fn has_serial(sought: &Sought<'_>, piece: &Asked) -> bool {
    !piece.serials.is_empty() && sought.index.fitted.iter().any(|one| serial(one, piece) > 0)
}

/// True if it begins as the serial numbers of some machine do, and goes on in figures.
fn is_like_serial(sought: &Sought<'_>, piece: &Asked) -> bool {
    let spans =
        || sought.index.fitted.iter().flat_map(|one| &one.spans).filter(|span| !span.prefix.is_empty());
    let figures = |rest: &str| !rest.is_empty() && rest.bytes().all(|byte| byte.is_ascii_digit());
    piece
        .serials
        .iter()
        .any(|serial| spans().any(|span| serial.strip_prefix(span.prefix.as_str()).is_some_and(figures)))
}

/// True if a typed word is in some line; in a code or a manual only if that has every word.
fn covers(sought: &Sought<'_>, typed: usize) -> bool {
    let known = || sought.typed.iter().enumerate().filter(|(_, one)| one.known).map(|(at, _)| at);
    sought.ranks.iter().any(|&(_, kind, _, at, _)| {
        in_line(sought, kind, at, typed) && (kind < 2 || known().all(|one| in_line(sought, kind, at, one)))
    })
}

fn in_line(sought: &Sought<'_>, kind: u8, at: usize, typed: usize) -> bool {
    let index = sought.index;
    let Some(word) = sought.typed.get(typed) else { return false };
    match kind {
        0 => index.things.things.get(at).is_some_and(|thing| {
            let fits = sought.named.get(thing.named).and_then(|(_, each)| each.get(typed));
            fits.is_some_and(|fits| *fits > 0) || word.best(&thing.beside) > 0
        }),
        1 => index
            .fitted
            .get(at)
            .is_some_and(|one| word.best_whole(&one.words) + word.best_whole(&one.sort) > 0),
        _ => index
            .fixed
            .get(at)
            .is_some_and(|one| word.best_whole(&one.words) + word.best_whole(&one.sort) > 0),
    }
}

/// `Tarnhawk 887: 2020–2024`: when the machine was made that fits best.
fn years(sought: &Sought<'_>) -> Option<String> {
    let machine = &sought.index.fitted.get(sought.machines.first()?.0)?;
    let spans = &machine.spans;
    let from = spans.iter().map(|span| span.years.0).min()?;
    let to = spans.iter().map(|span| span.years.1).max()?;
    Some(format!("{}: {from}–{to}", machine.name))
}

/// What a piece that fits was taken for.
fn meaning(sought: &Sought<'_>, at: usize, piece: &Asked) -> Option<String> {
    if let Some(value) = piece.quantities.first() {
        return Some(of_kind(value));
    }
    let typed = |kind: u8, line: usize| {
        let mut all = sought.typed.iter().enumerate();
        all.any(|(typed, one)| {
            piece.words.iter().any(|word| one.holds(word)) && in_line(sought, kind, line, typed)
        })
    };
    let first = sought.ranks.first().filter(|(_, kind, _, at, _)| typed(*kind, *at));
    if let Some(&(_, kind, _, line, _)) = first {
        return title(sought, kind, line);
    }
    if let Some((machine, _)) = sought.machines.first().filter(|(machine, _)| typed(1, *machine)) {
        return title(sought, 1, *machine);
    }
    if has_serial(sought, piece) {
        return Some("a serial number".to_owned());
    }
    if let Some((year, _)) = piece.years.iter().find(|(year, _)| sought.years.contains(year)) {
        return Some(format!("the year {year}"));
    }
    is_held(sought, at).then(|| "a number".to_owned())
}

fn title(sought: &Sought<'_>, kind: u8, at: usize) -> Option<String> {
    let index = sought.index;
    match kind {
        0 => index.things.things.get(at).map(|one| one.title.clone()),
        1 => index.fitted.get(at).map(|one| one.name.clone()),
        _ => index.fixed.get(at).map(|one| one.title.clone()),
    }
}

/// A word that nothing has, and those near it.
fn word(sought: &Sought<'_>, text: &str, piece: &Asked) -> String {
    let index = sought.index;
    let all: BTreeSet<&str> = known(&index.things).into_iter().chain(vocabulary(index)).collect();
    let near =
        piece.words.iter().flat_map(|typed| all.iter().filter_map(|word| Some((apart(typed, word)?, *word))));
    let near: BTreeSet<(usize, &str)> = near.collect();
    let near: Vec<String> = near.iter().take(OFFERED).map(|(_, word)| format!("`{word}`")).collect();
    let near = if near.is_empty() { String::new() } else { format!("; near it: {}", near.join(", ")) };
    format!("nothing fits `{text}`{near}")
}

/// A number that is not printed, or not with the rest, and the nearest one that is.
fn number(sought: &Sought<'_>, at: usize, text: &str, piece: &Asked) -> String {
    let elsewhere = sought.held.get(at).is_some_and(|held| !held.is_empty());
    // In units of everything each number is near some other.
    let meant = sought.numbers.by_words || !piece.quantities.is_empty();
    let values = if meant { sought.numbers.values(piece) } else { Vec::new() };
    match (elsewhere, values.iter().filter_map(|(value, _)| nearest(sought, value)).min()) {
        (true, Some((apart, _, title))) if apart.is_zero() => {
            format!("`{text}` is printed under {title}, but not with the rest")
        }
        (true, Some((_, near, title))) => {
            format!("`{text}` is printed, but not with the rest; nearest: `{near}`, {title}")
        }
        (true, None) => format!("`{text}` is printed, but not with the rest"),
        (false, Some((_, near, title))) => format!("nothing prints `{text}`; nearest: `{near}`, {title}"),
        (false, None) => format!("nothing prints `{text}`"),
    }
}

/// The nearest printed number of what is meant, and how far it is: half the number itself at most.
fn nearest(sought: &Sought<'_>, typed: &Value) -> Option<(Exact, String, String)> {
    let index = sought.index;
    let exact = typed.unit().to_si(&typed.min()?.exact);
    let is_meant = meant(sought);
    let mut all: BTreeSet<(Exact, String, String)> = BTreeSet::new();
    for bucket in around(index.values.keys(), typed) {
        for (symbol, numbers) in index.values.get(bucket).into_iter().flatten() {
            let Ok(unit) = Unit::parse(symbol) else { continue };
            for (number, rows) in numbers {
                let thing = rows.aimed.iter().chain(&rows.limits).find(|row| is_meant(**row));
                let value = Value::parse(&unit.after(number)).ok().and_then(|value| value.min());
                if let (Some(&(thing, _)), Some(value)) = (thing, value) {
                    let apart = (unit.to_si(&value.exact) - &exact).abs();
                    let title =
                        index.things.things.get(thing).map(|one| one.title.clone()).unwrap_or_default();
                    all.insert((apart, unit.after(number), title));
                }
            }
        }
    }
    all.pop_first().filter(|(apart, ..)| apart + apart <= exact.abs())
}

/// Whether a row is of what is meant: of a thing that fits half as well as the best, in a build that is named.
fn meant<'a>(sought: &'a Sought<'_>) -> impl Fn((usize, usize)) -> bool + use<'a> {
    let of_thing: BTreeMap<usize, u32> = sought.things.iter().copied().collect();
    let least = sought.things.first().map_or(0, |(_, score)| score.div_ceil(2));
    move |(thing, row)| {
        let fits = least == 0 || of_thing.get(&thing).is_some_and(|score| *score >= least);
        let row = sought.index.rows.get(thing).and_then(|rows| rows.get(row));
        fits && row.is_some_and(|row| row.builds.iter().any(|build| is_meant(sought, *build)))
    }
}

/// The buckets of a value, and the next that there are on both sides.
fn around<'a>(all: impl Iterator<Item = &'a String>, typed: &Value) -> Vec<&'a String> {
    let kind = typed.unit().kind().name();
    let own: Vec<_> = buckets(typed, Fineness::Digit)
        .unwrap_or_default()
        .iter()
        .filter_map(|name| step(name, kind))
        .collect();
    let (Some(first), Some(last)) = (own.first(), own.last()) else { return Vec::new() };
    let steps: BTreeMap<(i32, i32), &String> =
        all.filter_map(|name| Some((step(name, kind)?, name))).collect();
    let below = steps.range(..*first).next_back();
    let above = steps.range((std::ops::Bound::Excluded(*last), std::ops::Bound::Unbounded)).next();
    let own = own.iter().filter_map(|one| steps.get_key_value(one));
    below.into_iter().chain(own).chain(above).map(|(_, name)| *name).collect()
}

/// Power of ten and first digit of a bucket of positive numbers of a kind.
fn step(name: &str, kind: &str) -> Option<(i32, i32)> {
    let (first, exponent) = name.strip_prefix(kind)?.split_once('e')?;
    let first = first.parse().ok().filter(|first| *first > 0)?;
    Some((exponent.parse().ok()?, first))
}
