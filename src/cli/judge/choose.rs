//! Which statement of a build a reading is held against: the place decides, then the state.
//!
//! Invariant: where two statements could be meant, none is chosen silently.

use std::collections::BTreeSet;

use super::Failure;
use super::facts::{Facts, Held, Stated, not_of};
use crate::compute::judge::{Limits, State};
use crate::model::Words;
use crate::quantity::Value;

/// A statement with the state it needs.
pub(super) struct Chosen {
    /// Its limits.
    pub(super) limits: Limits,
    /// The place and state that they are stated for, in words.
    pub(super) scope: Vec<String>,
    /// What must have been so, in words.
    pub(super) needs_state: Vec<String>,
    /// Whether it was.
    pub(super) state: State,
}

/// The statement for a place and a state as they were found.
pub(super) fn choose(facts: &Facts, place: &Words, when: &Words) -> Result<Chosen, Failure> {
    known(facts, place, when)?;
    let fits =
        |one: &&Stated| place.iter().all(|(axis, word)| one.place.get(axis).is_none_or(|own| own == word));
    let here: Vec<&Stated> = facts.stated.iter().filter(fits).collect();
    if here.is_empty() {
        return Err(nothing(facts, "it is not stated for this build and place"));
    }
    let asked = meant(facts, &here, place, when)?;
    let limits = |one: &&&Stated| matches!(one.held, Held::Limits(_));
    let chosen =
        asked.iter().find(limits).or(asked.first()).ok_or_else(|| nothing(facts, "it is not stated"))?;
    let limits = match &chosen.held {
        Held::Limits(limits) => limits.clone(),
        Held::Nothing(because) => return Err(nothing(facts, because)),
    };
    let (mut needs_state, mut found) = needed(&asked, when);
    needs_state.extend(facts.needs_state.iter().map(phrase));
    found = worse(found, state(&facts.needs_state, when));
    let scope = chosen.place.iter().chain(&chosen.when).map(phrase).collect();
    Ok(Chosen { limits, scope, needs_state, state: found })
}

/// Of the statements that the place allows, the one that is meant, or those whose state has to be known first.
fn meant<'a>(
    facts: &Facts,
    here: &[&'a Stated],
    place: &Words,
    when: &Words,
) -> Result<Vec<&'a Stated>, Failure> {
    let alive: Vec<&Stated> =
        here.iter().copied().filter(|one| state(&one.when, when) != State::Unmet).collect();
    let asked = if alive.is_empty() { here } else { &alive };
    // A narrower place that was not asked for may be where it was measured.
    if asked.iter().any(|one| one.place.keys().any(|axis| !place.contains_key(axis))) {
        one_place(facts, asked)?;
    }
    let narrowest = narrowest(asked, |one| one.place.len());
    let is_met = |one: &&&Stated| state(&one.when, when) == State::Met;
    let met: Vec<&Stated> = narrowest.iter().filter(is_met).copied().collect();
    if !met.is_empty() {
        let met = self::narrowest(&met, |one| one.when.len());
        one_place(facts, &met)?;
        one_state(facts, &met)?;
        return Ok(met);
    }
    // What holds everywhere does not answer for a place of its own whose state nobody told.
    if asked.iter().any(|one| is_met(&one)) {
        return Ok(narrowest);
    }
    let shadowed = |one: &&Stated| {
        asked.iter().any(|other| other.when == one.when && other.place.len() > one.place.len())
    };
    Ok(asked.iter().copied().filter(|one| !shadowed(one)).collect())
}

/// Those with the most of something.
fn narrowest<'a>(all: &[&'a Stated], of: impl Fn(&Stated) -> usize) -> Vec<&'a Stated> {
    let most = all.iter().map(|one| of(one)).max().unwrap_or_default();
    all.iter().copied().filter(|one| of(one) == most).collect()
}

/// Every name of a place or state is one that the entry has, so that a slip in it does not go unnoticed.
fn known(facts: &Facts, place: &Words, when: &Words) -> Result<(), Failure> {
    for (axis, word) in place {
        let axes = facts.axes.keys().map(String::as_str);
        let words = facts.axes.get(axis).ok_or_else(|| not_of(&facts.of, "place", axis, axes))?;
        let words = words.iter().map(String::as_str);
        if !words.clone().any(|one| one == word) {
            return Err(not_of(&facts.of, axis, word, words));
        }
    }
    let states = facts.states.iter().chain(facts.needs_state.keys()).map(String::as_str);
    when.keys().try_for_each(|name| {
        let found = states.clone().any(|one| one == name);
        if found { Ok(()) } else { Err(not_of(&facts.of, "state", name, states.clone())) }
    })
}

/// What the statements need, and whether it was so; of several, any one would do.
fn needed(asked: &[&Stated], when: &Words) -> (Vec<String>, State) {
    let states: Vec<State> = asked.iter().map(|one| state(&one.when, when)).collect();
    let found = if states.contains(&State::Met) {
        State::Met
    } else if states.contains(&State::Unanswered) {
        State::Unanswered
    } else {
        State::Unmet
    };
    if let [one] = asked {
        return (one.when.iter().map(phrase).collect(), found);
    }
    let ways: BTreeSet<String> = asked
        .iter()
        .map(|one| one.when.iter().map(phrase).collect::<Vec<_>>().join(" and "))
        .filter(|way| !way.is_empty())
        .collect();
    let ways: Vec<_> = ways.into_iter().collect();
    (if ways.is_empty() { Vec::new() } else { vec![ways.join(", or ")] }, found)
}

fn worse(one: State, other: State) -> State {
    match (one, other) {
        (State::Unmet, _) | (_, State::Unmet) => State::Unmet,
        (State::Unanswered, _) | (_, State::Unanswered) => State::Unanswered,
        (State::Met, State::Met) => State::Met,
    }
}

/// Whether what a limit asks for was so.
fn state(needed: &Words, found: &Words) -> State {
    needed.iter().fold(State::Met, |so_far, (name, word)| {
        worse(
            so_far,
            match found.get(name) {
                None => State::Unanswered,
                Some(found) if holds(word, found) => State::Met,
                Some(_) => State::Unmet,
            },
        )
    })
}

/// Whether a state as found is the one asked for: the same word, or a quantity within it.
fn holds(needed: &str, found: &str) -> bool {
    if needed == found {
        return true;
    }
    let (Ok(needed), Ok(found)) = (Value::parse(needed), Value::parse(found)) else { return false };
    let (unit, own) = (needed.unit(), found.unit());
    if !own.converts_to(unit) {
        return false;
    }
    let (Some(low), Some(high)) = (found.min(), found.max()) else { return false };
    let [low, high] = [low, high].map(|limit| unit.from_si(&own.to_si(&limit.exact)));
    let above = needed.min().is_none_or(|min| low > min.exact || (min.inclusive && low == min.exact));
    let below = needed.max().is_none_or(|max| high < max.exact || (max.inclusive && high == max.exact));
    above && below
}

fn one_place(facts: &Facts, asked: &[&Stated]) -> Result<(), Failure> {
    let places: BTreeSet<&Words> = asked.iter().map(|one| &one.place).collect();
    if places.len() <= 1 {
        return Ok(());
    }
    let shown: Vec<_> = places.into_iter().map(|place| pairs(place, "everywhere")).collect();
    Err(Failure::Usage(
        format!("`{}` is stated for several places: {}", facts.of, shown.join("; ")),
        "say which with `--where`".to_owned(),
    ))
}

fn one_state(facts: &Facts, asked: &[&Stated]) -> Result<(), Failure> {
    let states: BTreeSet<&Words> = asked.iter().map(|one| &one.when).collect();
    if states.len() <= 1 {
        return Ok(());
    }
    let shown: Vec<_> = states.into_iter().map(|when| pairs(when, "any")).collect();
    Err(Failure::Usage(
        format!("`{}` is stated for several states, all of them met: {}", facts.of, shown.join("; ")),
        "say with `--when` only what decides".to_owned(),
    ))
}

fn pairs(words: &Words, none: &str) -> String {
    let pairs: Vec<_> = words.iter().map(|(name, word)| format!("{name}={word}")).collect();
    if pairs.is_empty() { none.to_owned() } else { pairs.join(" ") }
}

fn phrase((name, word): (&String, &String)) -> String {
    format!("{name} {word}")
}

fn nothing(facts: &Facts, because: &str) -> Failure {
    Failure::Input(format!("there is no limit of `{}` to judge by: {because}", facts.of), String::new())
}
