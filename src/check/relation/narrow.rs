//! What stands in brackets behind a name: which places and conditions of its statements are meant.

use std::ops::Range;

use super::token::Problem;
use crate::diag::nearest;
use crate::model::{Domain, Entry};
use crate::quantity::Value;

/// What the place or condition of a statement must be.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum Selector {
    /// This word, or none: an axis or state, and its word.
    Is(String, String),
    /// Any word but this.
    Not(String, String),
    /// Any word, also beside another word of another name.
    Any(String),
    /// No word at all.
    No(String),
}

/// What stands in brackets: `exhaust, any speed`.
pub fn selectors(
    inner: &str,
    range: &Range<usize>,
    entry: &Entry,
    lenient: bool,
) -> Result<Vec<Selector>, Problem> {
    let mut all = Vec::new();
    let mut at = range.start;
    for part in inner.split(',') {
        let start = at + (part.len() - part.trim_start().len());
        let typed = part.trim();
        at += part.len() + 1;
        let broken =
            |(message, help): (String, String)| Problem::new(start..start + typed.len(), message, help);
        match selector(typed, entry) {
            Ok(selector) => all.push(selector),
            Err(_) if lenient && ["any ", "no ", "not "].iter().any(|word| typed.starts_with(word)) => {}
            Err(problem) => return Err(broken(problem)),
        }
    }
    Ok(all)
}

fn selector(typed: &str, entry: &Entry) -> Result<Selector, (String, String)> {
    for (word, make) in [("any ", Selector::Any as fn(String) -> Selector), ("no ", Selector::No)] {
        if let Some(key) = typed
            .strip_prefix(word)
            .map(str::trim)
            .filter(|key| !words(entry).iter().any(|(_, word)| *word == typed || word == key))
        {
            return knows(entry, key).map(|()| make(key.to_owned()));
        }
    }
    let (make, typed): (fn(String, String) -> Selector, _) = match typed.strip_prefix("not ") {
        Some(rest) => (Selector::Not, rest.trim()),
        None => (Selector::Is, typed),
    };
    if let Some((key, word)) = typed.split_once('=') {
        let (key, word) = (key.trim(), word.trim());
        knows(entry, key)?;
        return Ok(make(key.to_owned(), canonical(entry, key, word)));
    }
    let known = words(entry);
    let keys: Vec<_> = known.iter().filter(|(_, word)| word == typed).map(|(key, _)| key.as_str()).collect();
    match keys.as_slice() {
        [key] => Ok(make((*key).to_owned(), typed.to_owned())),
        [] => Err(no_word(entry, typed, &known)),
        _ => Err((
            format!("`{typed}` could be of `{}`", keys.join("` or `")),
            format!("write `{} = {typed}`", keys.first().unwrap_or(&"")),
        )),
    }
}

fn no_word(entry: &Entry, typed: &str, known: &[(String, String)]) -> (String, String) {
    let help = nearest(typed, known.iter().map(|(_, word)| word.as_str())).map_or_else(
        || {
            "write a word of its axes or states, `not` and a word, or `any` or `no` and an axis or state"
                .to_owned()
        },
        |near| format!("did you mean `{near}`?"),
    );
    (format!("`{}` is never `{typed}`", entry.id), help)
}

/// A condition as statements have it: a quantity is written one way.
fn canonical(entry: &Entry, key: &str, word: &str) -> String {
    match entry.states.get(key) {
        Some(Domain::Kind(_)) => Value::parse(word).map_or_else(|_| word.to_owned(), |value| value.text()),
        _ => word.to_owned(),
    }
}

/// Every word of every axis and state.
fn words(entry: &Entry) -> Vec<(String, String)> {
    let states = entry.states.iter().filter_map(|(state, domain)| match domain {
        Domain::Words(words) => Some((state, words)),
        Domain::Kind(_) => None,
    });
    let all = entry.axes.iter().chain(states);
    all.flat_map(|(key, words)| words.iter().map(|word| (key.clone(), word.clone()))).collect()
}

fn knows(entry: &Entry, key: &str) -> Result<(), (String, String)> {
    if entry.axes.contains_key(key) || entry.states.contains_key(key) {
        return Ok(());
    }
    let known = entry.axes.keys().chain(entry.states.keys()).map(String::as_str);
    let help = nearest(key, known).map_or_else(
        || "name one of its axes or states".to_owned(),
        |near| format!("did you mean `{near}`?"),
    );
    Err((format!("`{}` is not told apart by `{key}`", entry.id), help))
}
