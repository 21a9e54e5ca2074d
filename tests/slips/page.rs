//! The text of an engine file or of second readings, taken apart block by block, so that it can be edited
//! where a person would have slipped. Reads TOML with its own eyes: nothing here asks the compiler.

use std::collections::BTreeMap;
use std::ops::Range;

use toml::de::{DeTable, DeValue};

/// One `[[spec]]`, `[[variant.spec]]` or `[[reread]]`.
#[derive(Clone, Debug)]
pub struct Block {
    /// From its header to the next.
    pub range: Range<usize>,
    pub of: String,
    pub place: BTreeMap<String, String>,
    pub when: BTreeMap<String, String>,
    pub variant: Option<String>,
    /// Every string key as typed: source, page, row, direction.
    pub words: BTreeMap<String, Typed>,
    /// Every list of printed forms.
    pub lists: Vec<List>,
    /// Thread of its fastener.
    pub thread: Option<String>,
    /// The hand of that thread.
    pub hand: Option<Typed>,
    /// What it prints wrongly, and what that means.
    pub misprint: Option<(String, String)>,
    /// Each state of `when`: its name, the span of the word.
    pub states: Vec<(String, Typed)>,
}

/// A string in quotes.
#[derive(Clone, Debug)]
pub struct Typed {
    pub text: String,
    pub range: Range<usize>,
}

/// Printed forms of one value.
#[derive(Clone, Debug)]
pub struct List {
    /// `window`, `new`, `wear_limit`, `setting`, `set_to`, or `stages` for one stage.
    pub key: &'static str,
    pub forms: Vec<Typed>,
}

impl List {
    pub fn texts(&self) -> Vec<String> {
        self.forms.iter().map(|one| one.text.clone()).collect()
    }

    /// All its strings, without the brackets.
    pub fn range(&self) -> Range<usize> {
        self.forms[0].range.start..self.forms[self.forms.len() - 1].range.end
    }
}

impl Block {
    /// The list of a key; of stages the first.
    pub fn list(&self, key: &str) -> Option<&List> {
        self.lists.iter().find(|one| one.key == key)
    }

    pub fn word(&self, key: &str) -> Option<&str> {
        self.words.get(key).map(|one| one.text.as_str())
    }

    pub fn same_identity(&self, other: &Self) -> bool {
        (&self.of, &self.place, &self.when, &self.variant)
            == (&other.of, &other.place, &other.when, &other.variant)
    }
}

/// Keys that hold a list of printed forms.
const KEYS: [&str; 5] = ["window", "set_to", "new", "wear_limit", "setting"];

/// Every block of a file.
pub fn blocks(text: &str) -> Vec<Block> {
    let root = DeTable::parse(text).expect("the demo base is TOML");
    let table = root.get_ref();
    let mut all = Vec::new();
    for key in ["spec", "reread"] {
        all.extend(items(table, key).into_iter().map(|item| block(item, None, text)));
    }
    for variant in items(table, "variant") {
        let id = string(variant, "id").map(|one| one.text);
        all.extend(items(variant, "spec").into_iter().map(|item| block(item, id.clone(), text)));
    }
    all.sort_by_key(|one: &Block| one.range.start);
    all
}

fn items<'t, 'i>(table: &'t DeTable<'i>, key: &str) -> Vec<&'t DeTable<'i>> {
    let array = table.get(key).and_then(|value| value.get_ref().as_array());
    array.into_iter().flatten().filter_map(|item| item.get_ref().as_table()).collect()
}

fn typed(value: &toml::Spanned<DeValue<'_>>) -> Option<Typed> {
    Some(Typed { text: value.get_ref().as_str()?.to_owned(), range: value.span() })
}

fn string(table: &DeTable<'_>, key: &str) -> Option<Typed> {
    table.get(key).and_then(typed)
}

fn strings(table: &DeTable<'_>, key: &str) -> Vec<(String, Typed)> {
    let inner = table.get(key).and_then(|value| value.get_ref().as_table());
    let pairs = inner.into_iter().flat_map(DeTable::iter);
    pairs.filter_map(|(key, value)| Some((key.get_ref().to_string(), typed(value)?))).collect()
}

fn block(table: &DeTable<'_>, id: Option<String>, text: &str) -> Block {
    let of = string(table, "of").expect("every block has `of`");
    let start = text[..of.range.start].rfind("\n[[").map_or(0, |at| at + 1);
    let end = text[of.range.end..].find("\n[").map_or(text.len(), |at| of.range.end + at + 1);
    let words = ["source", "page", "row", "column", "footnote", "direction", "seen_from", "text"];
    let named = |key: &str| strings(table, key).into_iter().map(|(key, word)| (key, word.text)).collect();
    let fastener = strings(table, "fastener");
    let part = |key: &str| fastener.iter().find(|(name, _)| name == key).map(|(_, word)| word.clone());
    let misprint = strings(table, "misprint");
    let misprinted =
        |key: &str| misprint.iter().find(|(name, _)| name == key).map(|(_, word)| word.text.clone());
    let variant = id.or_else(|| string(table, "variant").map(|one| one.text));
    Block {
        range: start..end,
        place: named("where"),
        when: named("when"),
        variant,
        words: words.iter().filter_map(|key| Some(((*key).to_owned(), string(table, key)?))).collect(),
        lists: lists(table),
        thread: part("thread").map(|one| one.text),
        hand: part("hand"),
        misprint: misprinted("printed").zip(misprinted("meant")),
        states: strings(table, "when"),
        of: of.text,
    }
}

fn lists(table: &DeTable<'_>) -> Vec<List> {
    let array = |key: &str| table.get(key).and_then(|value| value.get_ref().as_array());
    let mut all = Vec::new();
    for key in KEYS {
        if let Some(array) = array(key) {
            all.push(List { key, forms: array.iter().filter_map(typed).collect() });
        }
    }
    for item in array("stages").into_iter().flatten() {
        let forms = match item.get_ref() {
            DeValue::Array(forms) => forms.iter().filter_map(typed).collect(),
            _ => typed(item).into_iter().collect(),
        };
        all.push(List { key: "stages", forms });
    }
    all.retain(|list| !list.forms.is_empty());
    all
}

/// Where the numbers of a printed form stand: digits with at most one point, not part of a word.
pub fn numbers(text: &str) -> Vec<Range<usize>> {
    let bytes = text.as_bytes();
    let digit = |at: usize| bytes.get(at).is_some_and(u8::is_ascii_digit);
    let mut all = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let in_word = at > 0 && bytes[at - 1].is_ascii_alphabetic();
        if !digit(at) || in_word {
            at += 1;
            continue;
        }
        let start = at;
        while digit(at) {
            at += 1;
        }
        if bytes.get(at) == Some(&b'.') && digit(at + 1) {
            at += 1;
            while digit(at) {
                at += 1;
            }
        }
        // The one of a ratio `9.5:1` belongs to its unit.
        if start == 0 || bytes[start - 1] != b':' {
            all.push(start..at);
        }
    }
    all
}

/// The unit of a printed form: what stands behind its last number, a percentage of tolerance apart.
pub fn unit(text: &str) -> String {
    let numbers = numbers(text);
    let after = |place: usize| numbers.get(place).map_or("", |number| &text[number.end..]);
    let last = numbers.len().saturating_sub(1);
    match after(0).split_once(" ± ") {
        Some((unit, percent)) if percent.ends_with(" %") && !unit.is_empty() => unit.trim().to_owned(),
        _ => after(last).trim().to_owned(),
    }
}
