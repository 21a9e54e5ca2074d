//! `entry-contradicts-itself`: what an entry says of itself decides what a verdict says of every engine.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink, nearest};
use crate::model::{Domain, Entry};
use crate::quantity::Value;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "entry_contradicts_itself",
    "entry-contradicts-itself",
    Error,
    Reference,
    "an entry calls both sides the same, or needs a state it does not have"
);

/// Every entry of the catalogue.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for entry in subject.model.entries.values() {
        if entry.below == entry.above {
            let message = format!("`{}` is `{}` below its window and above it", entry.id, entry.below);
            let help = "give `below` and `above` the trade's two words, as `tight` and `loose`";
            sink.push(Finding::new(&RULE, entry.span, message, help));
        }
        let needed = entry.needs_state.iter().filter_map(|(state, word)| never(entry, state, word));
        needed.for_each(|finding| sink.push(finding));
    }
}

/// A state that readings need, and that the entry's own states do not have; a state beside them is asked as it stands.
fn never(entry: &Entry, state: &str, word: &str) -> Option<Finding> {
    let (message, help) = match entry.states.get(state)? {
        Domain::Words(words) if words.iter().any(|one| one == word) => return None,
        Domain::Words(words) => (
            format!("`{}` needs `{state}` to be `{word}`, and it never is", entry.id),
            nearest(word, words.iter().map(String::as_str)).map_or_else(
                || format!("it is one of `{}`", words.join("`, `")),
                |near| format!("did you mean `{near}`?"),
            ),
        ),
        Domain::Kind(kind) if Value::parse(word).is_ok_and(|value| value.unit().kind() == *kind) => {
            return None;
        }
        Domain::Kind(kind) => (
            format!("`{}` needs `{state}` to be `{word}`, and it takes units of {}", entry.id, kind.title()),
            "write it in a unit of its kind".to_owned(),
        ),
    };
    Some(Finding::new(&RULE, entry.span, message, help))
}
