//! `number-in-prose`: a retyped number does not follow the build, nor the next bulletin.

use std::ops::Range;

use pulldown_cmark::Event;

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::Piece;
use crate::quantity::Unit;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "number_in_prose",
    "number-in-prose",
    Warning,
    Procedure,
    "a number with a unit is typed in a procedure"
);

/// Every text of every procedure.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        for piece in &procedure.body {
            let Piece::Markup { event: Event::Text(text), span } = piece else { continue };
            for (range, unit) in quantities(text) {
                let at = subject.sources.within(*span, text, range.clone());
                let typed = text.get(range).unwrap_or_default();
                let message = format!("`{typed}` is typed in the text of a procedure");
                let help = format!(
                    "link the statement it comes from, as `[](spec:…)`, so that every build shows its own {}",
                    unit.kind().title()
                );
                sink.push(Finding::new(&RULE, at, message, help));
            }
        }
    }
}

/// Numbers followed by a unit, with their bytes.
fn quantities(text: &str) -> Vec<(Range<usize>, Unit)> {
    let mut all = Vec::new();
    let mut from = 0;
    while let Some(start) =
        text.get(from..).and_then(|rest| rest.find(|c: char| c.is_ascii_digit())).map(|at| at + from)
    {
        let rest = text.get(start..).unwrap_or_default();
        let digits = rest.find(|c: char| !c.is_ascii_digit() && !".,/".contains(c)).unwrap_or(rest.len());
        let number_end =
            start + rest.get(..digits).unwrap_or_default().trim_end_matches(['.', ',', '/']).len();
        let after = text.get(number_end..).unwrap_or_default();
        let gap = after.len() - after.trim_start_matches([' ', '\u{a0}']).len();
        let glued = text
            .get(..start)
            .and_then(|before| before.chars().next_back())
            .is_some_and(|c| c.is_alphanumeric() || c == '-');
        let word = after.get(gap..).unwrap_or_default();
        let end = word.find(|c: char| c.is_whitespace() || ",;:!?()[]".contains(c)).unwrap_or(word.len());
        let word = word.get(..end).unwrap_or_default().trim_end_matches('.');
        let number = text.get(start..number_end).unwrap_or_default();
        if !glued
            && gap <= 2
            && let Some(unit) = meant(number, word)
        {
            all.push((start..number_end + gap + word.len(), unit));
        }
        from = number_end.max(start + 1);
    }
    all
}

/// The unit a word means after a number; `2 in each hole` is not inches, nor `2 A` after a figure.
fn meant(number: &str, word: &str) -> Option<Unit> {
    let whole = number.chars().all(|c| c.is_ascii_digit());
    let unit = Unit::parse(word).ok().filter(|unit| unit.kind().name() != "count")?;
    (!(whole && matches!(word, "in" | "a" | "at" | "to"))).then_some(unit)
}

#[cfg(test)]
mod tests {
    use super::quantities;

    #[test]
    fn only_numbers_with_a_unit_are_found() {
        let found = |text: &str| {
            quantities(text).into_iter().map(|(range, _)| text[range].to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(found("Set it to 0.20 mm, then 12N·m."), ["0.20 mm", "12N·m"]);
        assert!(found("Put 2 in each hole; turn 3 bolts (M8), see step 4.").is_empty());
    }
}
