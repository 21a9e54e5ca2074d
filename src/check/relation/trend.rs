//! Clauses that look along a state: a value that rises or falls with it, or keeps in proportion to it.

use super::bind::{Reference, Wanted};
use super::extent::Extent;
use super::judge::broken;
use super::occasion::{Index, Occasion, frees, meant};
use super::tree::{Clause, Comparison, Expr, Link, Node, Operator, Slack, Way};
use super::worth::{self, Worth};
use crate::model::Statement;
use crate::quantity::Value;

/// Two statements that break a trend, as an occasion of two names, and the clause of those two that does not hold.
pub fn breaches<'a>(
    clause: &Clause,
    references: &[Reference],
    index: &Index<'a>,
) -> Vec<(Occasion<'a>, Clause)> {
    let (place, state) = match clause {
        Clause::Trend(place, _, state) | Clause::Proportion(place, state, _) => (*place, state.as_str()),
        _ => return Vec::new(),
    };
    let Some(Reference::Entry(wanted)) = references.get(place) else { return Vec::new() };
    let mut all: Vec<_> =
        meant(wanted, index).into_iter().filter_map(|one| along(one, wanted, state)).collect();
    all.sort_by_key(at);
    let mut found = Vec::new();
    for (count, first) in all.iter().enumerate() {
        let later = all
            .iter()
            .skip(count + 1)
            .filter(|second| at(first) < at(second) && alike(first.0, second.0, wanted, state));
        if let Some(second) = later.into_iter().next() {
            let occasion = Occasion {
                worths: vec![first.1.clone(), second.1.clone(), first.2.clone(), second.2.clone()],
                statements: vec![Some(first.0), Some(second.0), None, None],
            };
            let pair = of_two(clause);
            if broken(&pair, &occasion.worths).is_some() {
                found.push((occasion, pair));
            }
        }
    }
    found
}

/// A statement, what it is worth, and what its state is worth.
type Along<'a> = (&'a Statement, Worth, Worth);

fn along<'a>(statement: &'a Statement, wanted: &Wanted, state: &str) -> Option<Along<'a>> {
    let worth = worth::of_statement(statement, wanted)?;
    let value = Value::parse(statement.identity.when.get(state)?).ok()?;
    let extent = worth::extent(&value)?;
    let at = Worth {
        extent,
        shown: value.text(),
        unit: Some(value.unit()),
        decimals: value.decimals(),
        span: None,
        stated: false,
    };
    Some((statement, worth, at))
}

fn at(along: &Along<'_>) -> Option<crate::quantity::Exact> {
    let Extent { low, high } = &along.2.extent;
    low.as_ref().or(high.as_ref()).map(|end| end.nominal.clone())
}

/// True if two statements differ in the state alone.
fn alike(one: &Statement, other: &Statement, wanted: &Wanted, state: &str) -> bool {
    let free = |key: &str| {
        wanted
            .selectors
            .iter()
            .any(|selector| matches!(selector, super::narrow::Selector::Any(_)) && frees(selector, key))
    };
    let rest = |statement: &Statement| {
        let when = statement.identity.when.iter().filter(|(key, _)| *key != state && !free(key));
        let place = statement.identity.place.iter().filter(|(key, _)| !free(key));
        place.chain(when).map(|(key, word)| (key.clone(), word.clone())).collect::<Vec<_>>()
    };
    rest(one) == rest(other)
}

/// The clause that two statements, and their states, must keep: names 0 and 1, states 2 and 3.
fn of_two(clause: &Clause) -> Clause {
    let name = |place| Expr { node: Node::Name(place), range: 0..0 };
    let over = |place, by| Expr {
        node: Node::Joined(Operator::Over, Box::new(name(place)), Box::new(name(by))),
        range: 0..0,
    };
    let (first, sign, right, slack) = match clause {
        Clause::Proportion(_, _, share) => {
            (over(0, 2), Comparison::Equal, over(1, 3), Some(Slack::Share(share.clone())))
        }
        Clause::Trend(_, Way::Falls, _) => (name(0), Comparison::AtLeast, name(1), None),
        _ => (name(0), Comparison::AtMost, name(1), None),
    };
    Clause::Chain(first, vec![Link { sign, right, slack }])
}
