//! `direction-in-prose`: engines turn both ways; a word typed for one breaks the other.

use pulldown_cmark::Event;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Piece;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "direction_in_prose",
    "direction-in-prose",
    Error,
    Procedure,
    "a direction of rotation is typed in a procedure"
);

/// Words that say which way something turns.
const WORDS: [&str; 5] =
    ["counter-clockwise", "counterclockwise", "anti-clockwise", "anticlockwise", "clockwise"];

/// Every text of every procedure.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        for piece in &procedure.body {
            let Piece::Markup { event: Event::Text(text), span } = piece else { continue };
            let lower = text.to_ascii_lowercase();
            let found = WORDS.iter().find_map(|word| lower.find(word).map(|at| at..at + word.len()));
            if let Some(range) = found {
                let typed = text.get(range.clone()).unwrap_or_default().to_owned();
                let at = subject.sources.within(*span, text, range);
                let help =
                    "link the engine's own direction, as `[](turn:crank 90°)`: it is drawn for each build";
                sink.push(Finding::new(
                    &RULE,
                    at,
                    format!("`{typed}` is typed in the text of a procedure"),
                    help,
                ));
            }
        }
    }
}
