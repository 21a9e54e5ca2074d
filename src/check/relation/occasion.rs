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
    worth: Worth,
    /// The words that must not contradict those of the other names.
    bound: Words<'a>,
}

/// Every time that names can be held together.
pub fn occasions<'a>(
    references: &[Reference],
    layout: Option<&Layout>,
    index: &Index<'a>,
) -> Vec<Occasion<'a>> {
    let mut all = vec![(Occasion { worths: Vec::new(), statements: Vec::new() }, Words::new())];
    let candidates: Vec<Vec<Candidate<'a>>> = references.iter().map(|one| candidates(one, index)).collect();
    for (reference, candidates) in references.iter().zip(&candidates) {
        let mut longer = Vec::new();
        for (occasion, words) in &all {
            match reference {
                Reference::Fact(fact) => {
                    let worth = layout.and_then(|layout| worth::of_layout(layout, *fact));
                    longer.extend(worth.map(|worth| (with(occasion, worth, None), words.clone())));
                }
                Reference::Entry(_) => {
                    longer.extend(candidates.iter().filter(|one| agree(&one.bound, words)).map(|one| {
                        let words = words.iter().chain(&one.bound).map(|(key, word)| (*key, *word)).collect();
                        (with(occasion, one.worth.clone(), Some(one.statement)), words)
                    }));
                }
            }
        }
        longer.truncate(MOST);
        all = longer;
    }
    all.retain(|(occasion, words)| {
        !candidates
            .iter()
            .zip(&occasion.statements)
            .any(|(others, chosen)| superseded(*chosen, others, words))
    });
    all.into_iter().map(|(occasion, _)| occasion).collect()
}

fn with<'a>(occasion: &Occasion<'a>, worth: Worth, statement: Option<&'a Statement>) -> Occasion<'a> {
    let mut longer = occasion.clone();
    longer.worths.push(worth);
    longer.statements.push(statement);
    longer
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
        .filter_map(|statement| {
            let worth = worth::of_statement(statement, wanted)?;
            let mut bound = all_words(statement);
            bound.retain(|(_, key), _| !wanted.selectors.iter().any(|selector| frees(selector, key)));
            Some(Candidate { statement, worth, bound })
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
