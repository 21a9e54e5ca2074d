//! `direction-in-prose`: engines turn both ways; a word typed for one breaks the other.

use std::ops::Range;

use crate::check::Subject;
use crate::check::prose;
use crate::diag::{Finding, Rule, Sink};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "direction_in_prose",
    "direction-in-prose",
    Error,
    Procedure,
    "a direction of rotation is typed in a procedure"
);

/// Words that say which way something turns, the longer first.
const WORDS: [&str; 11] = [
    "counter-clockwise",
    "counter clockwise",
    "counterclockwise",
    "anti-clockwise",
    "anti clockwise",
    "anticlockwise",
    "clockwise",
    "against the clock",
    "with the clock",
    "ccw",
    "cw",
];

/// Every text of every procedure.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        for run in prose::of_procedure(procedure) {
            for range in directions(&run.text) {
                let typed = run.text.get(range.clone()).unwrap_or_default();
                let message = format!("`{typed}` is typed in the text of a procedure");
                let help =
                    "link the engine's own direction, as `[](turn:crank 90°)`: it is drawn for each build";
                let at = run.at(subject.sources, range);
                at.into_iter().for_each(|at| sink.push(Finding::new(&RULE, at, message.clone(), help)));
            }
        }
    }
}

/// Every word of direction, whole and in any case, with its bytes.
fn directions(text: &str) -> Vec<Range<usize>> {
    let lower = text.to_ascii_lowercase();
    let mut all = Vec::new();
    let mut from = 0;
    while let Some(found) =
        WORDS.iter().filter_map(|word| whole(&lower, from, word)).min_by_key(|one| one.start)
    {
        from = found.end;
        all.push(found);
    }
    all
}

/// The next place where a word stands by itself.
fn whole(text: &str, from: usize, word: &str) -> Option<Range<usize>> {
    let mut places = text.get(from..)?.match_indices(word).map(|(at, _)| from + at..from + at + word.len());
    let letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    places.find(|one| {
        let before = text.get(..one.start).and_then(|before| before.chars().next_back());
        let after = text.get(one.end..).and_then(|after| after.chars().next());
        !letter(before) && !letter(after)
    })
}

#[cfg(test)]
mod tests {
    use super::directions;

    #[test]
    fn every_word_of_direction_is_found_whole() {
        let found =
            |text: &str| directions(text).into_iter().map(|one| text[one].to_owned()).collect::<Vec<_>>();
        assert_eq!(
            found("Turn CCW, then cw; never Clockwise nor counter-clockwise, against the clock."),
            ["CCW", "cw", "Clockwise", "counter-clockwise", "against the clock"]
        );
        assert!(found("The acw plug beside the clock, CW2 and a screw.").is_empty());
    }
}
