//! `sides-differ`: left and right, and one cylinder and the next, are built alike; where they are not, there is a reason.

use crate::check::Subject;
use crate::check::relation::extent;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Build, Form, Printed, Statement, Words};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "sides_differ",
    "sides-differ",
    Warning,
    Physics,
    "left and right, or one cylinder and the next, have different values and no reason is given"
);

/// Every build: statements that differ in the side or the number of the cylinder alone.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for build in subject.model.builds.values() {
        for axis in ["side", "cylinder"] {
            pairs(build, axis)
                .filter_map(|(one, other)| finding(one, other, axis))
                .for_each(|finding| sink.push(finding));
        }
    }
}

/// Statements next to each other that name this axis and agree in all else.
fn pairs<'a>(build: &'a Build, axis: &'a str) -> impl Iterator<Item = (&'a Statement, &'a Statement)> {
    let rest = move |statement: &Statement| {
        let mut place: Words = statement.identity.place.clone();
        place.remove(axis);
        (statement.identity.of.clone(), place, statement.identity.when.clone())
    };
    let like = |statement: &Statement| statement.identity.place.get(axis).is_some_and(|word| is_like(word));
    build.statements.iter().enumerate().filter(move |(_, one)| like(one)).filter_map(move |(at, one)| {
        let before =
            build.statements.iter().take(at).rev().find(|other| like(other) && rest(other) == rest(one))?;
        Some((before.as_ref(), one.as_ref()))
    })
}

/// Front and rear differ by design more often than not; left, right and numbers do not.
fn is_like(word: &str) -> bool {
    matches!(word, "left" | "right") || word.chars().all(|c| c.is_ascii_digit())
}

fn finding(one: &Statement, other: &Statement, axis: &str) -> Option<Finding> {
    let reason = |statement: &Statement| statement.note.is_some() || statement.provenance.footnote.is_some();
    let (first, second) = differing(&one.form, &other.form)?;
    if reason(one) || reason(other) || one.variant != other.variant {
        return None;
    }
    let word = |statement: &Statement| statement.identity.place.get(axis).cloned().unwrap_or_default();
    let message = format!(
        "`{}` is `{}` at {axis} {} and `{}` at {axis} {}, and no reason is given",
        other.identity.of,
        first.value.text(),
        word(one),
        second.value.text(),
        word(other),
    );
    let help = "look at both rows again; if they rightly differ, say why in `note`";
    Some(
        Finding::new(&RULE, second.span, message, help)
            .with(first.span, format!("{axis} {} is here", word(one)))
            .about(other.span),
    )
}

/// The first printed forms in which two values differ.
fn differing<'a>(one: &'a Form, other: &'a Form) -> Option<(&'a Printed, &'a Printed)> {
    let ends = |printed: &Printed| {
        let extent = extent(&printed.value);
        extent.map(|extent| (extent.low.map(|end| end.nominal), extent.high.map(|end| end.nominal)))
    };
    let pairs = one.alternatives().into_iter().zip(other.alternatives());
    let mut pairs = pairs.filter_map(|(one, other)| one.first().zip(other.first()));
    pairs.find(|(first, second)| {
        first.value.unit().kind() == second.value.unit().kind() && ends(first) != ends(second)
    })
}
