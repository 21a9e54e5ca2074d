//! `far-from-its-pair`: left and right, front and rear, and a bulletin and what it changes are of one size;
//! several times as much is a slip of the point or of the unit.

use super::dual_units_disagree::contradict;
use crate::check::{Subject, witnesses};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Printed, Statement, Words};
use crate::quantity::{Exact, Side, Value, Witness, likely_slips_beside, times_apart};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "far_from_its_pair",
    "far-from-its-pair",
    Warning,
    Physics,
    "a value is many times that of the other side, or of what it takes the place of"
);

/// So many times as much as its pair is odd; what is meant is far nearer.
const ODD: i64 = 5;
/// Within this the two go together.
const TOGETHER: i64 = 3;

/// Words that name two like places of a machine.
const PAIRS: [(&str, &str); 3] = [("left", "right"), ("front", "rear"), ("intake", "exhaust")];

/// Every value, against those of like places of its engine, and a bulletin's against the value before it.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for engine in subject.model.engines.values() {
        let base: Vec<&Statement> = engine.statements.iter().map(AsRef::as_ref).collect();
        for (at, one) in base.iter().enumerate() {
            let later = base.iter().skip(at + 1).filter(|other| are_like(one, other));
            later.for_each(|other| held(subject, one, other, sink));
        }
        for variant in &engine.variants {
            for changed in &variant.statements {
                let before = base.iter().filter(|one| changed.identity.covers(&one.identity));
                before.for_each(|one| held(subject, one, changed, sink));
            }
        }
    }
}

/// The same entry in the same condition, in places that differ in one word of a pair, or in the cylinder.
fn are_like(one: &Statement, other: &Statement) -> bool {
    let (mine, theirs) = (&one.identity, &other.identity);
    mine.of == theirs.of && mine.when == theirs.when && like_places(&mine.place, &theirs.place)
}

fn like_places(one: &Words, other: &Words) -> bool {
    let differing: Vec<_> = one.iter().filter(|(axis, word)| other.get(*axis) != Some(*word)).collect();
    let [(axis, word)] = differing.as_slice() else { return false };
    let pair = |theirs: &String| {
        let (word, theirs) = (word.as_str(), theirs.as_str());
        PAIRS.iter().any(|pair| *pair == (word, theirs) || *pair == (theirs, word))
    };
    one.len() == other.len()
        && other.get(*axis).is_some_and(|theirs| axis.as_str() == "cylinder" || pair(theirs))
}

fn held(subject: &Subject<'_>, one: &Statement, other: &Statement, sink: &mut Sink) {
    let lists = one.form.alternatives().into_iter().zip(other.form.alternatives());
    for (place, (mine, theirs)) in lists.enumerate() {
        let Some((first, second)) = mine.first().zip(theirs.first()) else { continue };
        let said_already = contradict(mine)
            || contradict(theirs)
            || witnesses::implausible(subject, one, &first.value)
            || witnesses::implausible(subject, other, &second.value);
        if !said_already && are_apart(&first.value, &second.value, ODD) {
            sink.push(finding(subject, place, (one, first), (other, second)));
        }
    }
}

fn are_apart(one: &Value, other: &Value, times: i64) -> bool {
    times_apart(one, other).is_some_and(|apart| apart >= Exact::from_integer(times.into()))
}

fn finding(
    subject: &Subject<'_>,
    place: usize,
    (one, first): (&Statement, &Printed),
    (other, second): (&Statement, &Printed),
) -> Finding {
    let message = format!(
        "{} is `{}`, and {} is `{}`: too far apart for a pair",
        other.identity,
        second.value.text(),
        one.identity,
        first.value.text(),
    );
    let (of_first, of_second) = (alone(subject, one, place), alone(subject, other, place));
    let slips = likely_slips_beside((&first.value, &of_first), (&second.value, &of_second), |one, other| {
        !are_apart(one, other, TOGETHER)
    });
    let offers: Vec<_> = slips
        .iter()
        .map(|slip| {
            let at = if slip.side == Side::Primary { "in the other" } else { "here" };
            format!("{} {at}: write `{}`", slip.what, slip.offer)
        })
        .collect();
    let offers =
        if offers.is_empty() { String::new() } else { format!("; probably {}", offers.join("; or else ")) };
    let help = format!("look at the page again, at both{offers}");
    Finding::new(&RULE, second.span, message, help).with(first.span, "the other is here").about(other.span)
}

/// The witnesses of a value but its like: the two that are held against each other are that.
fn alone<'a>(subject: &Subject<'a>, statement: &'a Statement, place: usize) -> Vec<Witness<'a>> {
    let all = witnesses::of(subject, statement, place).into_iter();
    all.filter(|one| !matches!(one, Witness::Like(..))).collect()
}
