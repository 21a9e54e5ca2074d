//! `name-means-two-things`: who types a name is led to one thing and may have meant the other.

use std::collections::BTreeMap;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Entry;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "name_means_two_things",
    "name-means-two-things",
    Warning,
    Reference,
    "a title or another name belongs to two entries that are no siblings"
);

/// Every name of every entry against those before it.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    let mut first: BTreeMap<String, (&str, &Entry)> = BTreeMap::new();
    for group in &subject.model.groups {
        for entry in group.entries.iter().filter_map(|id| subject.model.entries.get(id)) {
            for name in std::iter::once(&entry.title).chain(&entry.aka) {
                let (other_group, other) = *first.entry(folded(name)).or_insert((&group.id, entry));
                let siblings = other_group == group.id && other.kind == entry.kind;
                let same_title = other.title == entry.title;
                if other.id != entry.id && (same_title || !siblings) {
                    sink.push(finding(name, entry, other));
                }
            }
        }
    }
}

fn finding(name: &str, entry: &Entry, other: &Entry) -> Finding {
    let message = format!("`{name}` means `{}` and `{}`", other.id, entry.id);
    let help =
        format!("name each for what it is, or leave the name to one: `{}` is {}", other.id, other.title);
    Finding::new(&RULE, entry.span, message, help).with(other.span, format!("`{name}` is a name of this too"))
}

/// Small letters and figures, words apart.
fn folded(name: &str) -> String {
    let lower = name.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join(" ")
}
