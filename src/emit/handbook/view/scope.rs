//! Place and condition: as words for people, as attributes for checks and scripts, as an anchor.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::text::{bind, words};
use crate::model::{Identity, Words};

/// `cylinder=front;side=left`, empty where nothing is said: the value of `data-where` and `data-when`.
pub fn attribute(named: &Words) -> String {
    let pairs: Vec<String> = named.iter().map(|(name, word)| format!("{name}={word}")).collect();
    pairs.join(";")
}

/// Each place, then each condition, in words: `cylinder front`, `engine cold`.
pub fn in_words(identity: &Identity) -> Vec<String> {
    let spell = |(name, word): (&String, &String)| bind(&format!("{} {}", words(name), words(word)));
    identity.place.iter().chain(&identity.when).map(spell).collect()
}

/// The words that several statements share; those of a single one are all shared.
pub fn common<'a>(identities: impl Iterator<Item = &'a Identity>) -> Vec<String> {
    let mut each = identities.map(in_words);
    let first = each.next().unwrap_or_default();
    each.fold(first, |shared, words| shared.into_iter().filter(|word| words.contains(word)).collect())
}

/// The words that tell a statement apart from those it stands beside.
pub fn apart(identity: &Identity, common: &[String]) -> Vec<String> {
    in_words(identity).into_iter().filter(|word| !common.contains(word)).collect()
}

/// Gives every statement of a page an anchor of its own.
#[derive(Debug, Default)]
pub struct Anchors {
    taken: BTreeMap<String, u32>,
}

impl Anchors {
    /// `lash_exhaust--cylinder_front--engine_cold`; letters, digits, `-` and `_` only, so that it is
    /// an id in HTML and a fragment in a link without escaping.
    pub fn statement(&mut self, identity: &Identity) -> String {
        let mut anchor = entry(identity.of.as_str());
        for (name, word) in identity.place.iter().chain(&identity.when) {
            let _ = write!(anchor, "--{}_{}", plain(name), plain(word));
        }
        self.unique(anchor)
    }

    /// The wish itself the first time, numbered after that.
    pub fn unique(&mut self, wish: String) -> String {
        let count = self.taken.entry(wish.clone()).or_default();
        *count = count.saturating_add(1);
        if *count == 1 { wish } else { format!("{wish}--{count}") }
    }
}

/// Anchor of an entry: its id with `_` for each point; an id holds no `_` of its own.
pub fn entry(id: &str) -> String {
    let anchor = id.replace('.', "_");
    if anchor.starts_with(|c: char| c.is_ascii_digit()) { format!("n{anchor}") } else { anchor }
}

/// Anchor of a page of a source: no two pages share one, whatever they are called.
pub fn page(page: Option<&str>) -> String {
    let Some(page) = page else { return "no-page".to_owned() };
    let spell = |c: char| match c {
        c if c.is_ascii_alphanumeric() || c == '-' => c.to_string(),
        other => format!("_{:x}_", u32::from(other)),
    };
    format!("page-{}", page.chars().map(spell).collect::<String>())
}

fn plain(text: &str) -> String {
    let fold = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let folded: String = text.chars().map(fold).collect();
    let pieces: Vec<&str> = folded.split('-').filter(|piece| !piece.is_empty()).collect();
    pieces.join("-")
}
