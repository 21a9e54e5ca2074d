//! Which statements of a build a formula is about: one for each name, of the same place and condition.
//!
//! A word that one of them names and another leaves open is no contradiction; where a statement for that very place is
//! there too, it takes the place of the open one.

use std::collections::BTreeMap;

use super::bind::{Reference, Wanted};
use super::narrow::Selector;
use super::worth::{self, Worth};
use crate::model::{EntryId, Layout, Statement};

/// The most occasions of one relation in one build; more say nothing new.
const MOST: usize = 400;

/// The statements of a build by entry.
pub type Index<'a> = BTreeMap<&'a EntryId, Vec<&'a Statement>>;

/// One time that a formula can be held: what each of its names is worth, and where that is stated.
#[derive(Clone, Debug)]
pub struct Occasion<'a> {
    /// What each name is worth, in order.
    pub worths: Vec<Worth>,
    /// The statement behind each name; none behind a fact of the layout.
    pub statements: Vec<Option<&'a Statement>>,
}

/// A word of a place (true) or a condition (false).
type Words<'a> = BTreeMap<(bool, &'a str), &'a str>;

/// A statement that a name may stand for.
struct Candidate<'a> {
    statement: &'a Statement,
    /// The words that must not contradict those of the other names.
    bound: Words<'a>,
}

/// The statements behind the names of a formula, each time that they can be held together.
pub fn together<'a>(references: &[Reference], index: &Index<'a>) -> Vec<Vec<Option<&'a Statement>>> {
    let candidates: Vec<Vec<Candidate<'a>>> = references.iter().map(|one| candidates(one, index)).collect();
    let missing = references
        .iter()
        .zip(&candidates)
        .any(|(one, found)| matches!(one, Reference::Entry(_)) && found.is_empty());
    if missing {
        return Vec::new();
    }
    let mut all: Vec<(Vec<Option<&Statement>>, Words<'_>)> = vec![(Vec::new(), Words::new())];
    for (reference, candidates) in references.iter().zip(&candidates) {
        let mut longer = Vec::new();
        for (statements, words) in &all {
            match reference {
                Reference::Fact(_) => longer.push((with(statements, None), words.clone())),
                Reference::Entry(_) => {
                    longer.extend(candidates.iter().filter(|one| agree(&one.bound, words)).map(|one| {
                        let words = words.iter().chain(&one.bound).map(|(key, word)| (*key, *word)).collect();
                        (with(statements, Some(one.statement)), words)
                    }));
                }
            }
        }
        longer.truncate(MOST);
        all = longer;
    }
    all.retain(|(statements, words)| {
        !candidates.iter().zip(statements).any(|(others, chosen)| superseded(*chosen, others, words))
    });
    all.into_iter().map(|(statements, _)| statements).collect()
}

/// The occasion of these statements; none if one of them has not the value wanted.
pub fn occasion<'a>(
    references: &[Reference],
    layout: Option<&Layout>,
    statements: Vec<Option<&'a Statement>>,
) -> Option<Occasion<'a>> {
    let worths =
        references.iter().zip(&statements).map(|(reference, statement)| match (reference, statement) {
            (Reference::Fact(fact), _) => worth::of_layout(layout?, *fact),
            (Reference::Entry(wanted), Some(statement)) => worth::of_statement(statement, wanted),
            (Reference::Entry(_), None) => None,
        });
    let worths = worths.collect::<Option<_>>()?;
    Some(Occasion { worths, statements })
}

fn with<'a>(
    statements: &[Option<&'a Statement>],
    statement: Option<&'a Statement>,
) -> Vec<Option<&'a Statement>> {
    statements.iter().copied().chain([statement]).collect()
}

/// True if another statement is for the very place and condition that the whole occasion is about.
fn superseded(chosen: Option<&Statement>, others: &[Candidate<'_>], words: &Words<'_>) -> bool {
    let Some(chosen) = chosen else { return false };
    let own = all_words(chosen);
    others.iter().any(|other| {
        let more = all_words(other.statement);
        more.len() > own.len()
            && own.iter().all(|(key, word)| more.get(key) == Some(word))
            && more.iter().all(|(key, word)| own.contains_key(key) || words.get(key) == Some(word))
    })
}

fn candidates<'a>(reference: &Reference, index: &Index<'a>) -> Vec<Candidate<'a>> {
    let Reference::Entry(wanted) = reference else { return Vec::new() };
    let stated = index.get(&wanted.of).into_iter().flatten().filter(|statement| is_meant(statement, wanted));
    stated
        .filter(|statement| worth::has(&statement.form, wanted.face))
        .map(|statement| {
            let mut bound = all_words(statement);
            bound.retain(|(_, key), _| !wanted.selectors.iter().any(|selector| frees(selector, key)));
            Candidate { statement, bound }
        })
        .collect()
}

/// The statements of a build that a name may stand for.
pub fn meant<'a>(wanted: &Wanted, index: &Index<'a>) -> Vec<&'a Statement> {
    index
        .get(&wanted.of)
        .into_iter()
        .flatten()
        .copied()
        .filter(|statement| is_meant(statement, wanted))
        .collect()
}

/// True if a name narrows by this axis or state, so that the other names need not agree in it.
pub fn frees(selector: &Selector, key: &str) -> bool {
    match selector {
        Selector::Is(of, _) | Selector::Any(of) => of == key,
        Selector::Not(..) | Selector::No(_) => false,
    }
}

fn is_meant(statement: &Statement, wanted: &Wanted) -> bool {
    let identity = &statement.identity;
    let said = |key: &str| identity.place.get(key).or_else(|| identity.when.get(key));
    wanted.selectors.iter().all(|selector| match selector {
        Selector::Is(key, word) => said(key).is_none_or(|said| said == word),
        Selector::Not(key, word) => said(key) != Some(word),
        Selector::Any(_) => true,
        Selector::No(key) => said(key).is_none(),
    })
}

fn all_words(statement: &Statement) -> Words<'_> {
    let place = statement.identity.place.iter().map(|(key, word)| ((true, key.as_str()), word.as_str()));
    let when = statement.identity.when.iter().map(|(key, word)| ((false, key.as_str()), word.as_str()));
    place.chain(when).collect()
}

fn agree(one: &Words<'_>, other: &Words<'_>) -> bool {
    one.iter().all(|(key, word)| other.get(key).is_none_or(|said| said == word))
}
