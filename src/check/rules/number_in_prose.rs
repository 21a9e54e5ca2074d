//! `number-in-prose`: a retyped number does not follow the build, nor the next bulletin.

use std::ops::Range;

use crate::check::Subject;
use crate::check::prose::{self, Prose};
use crate::diag::{Finding, Rule, Sink};
use crate::quantity::Unit;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "number_in_prose",
    "number-in-prose",
    Warning,
    Procedure,
    "a number with a unit is typed in a procedure"
);

/// Every text of every procedure, and when each code is set.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for procedure in subject.model.procedures.values() {
        for run in prose::of_procedure(procedure) {
            for (range, unit) in quantities(&run.text) {
                let help = format!(
                    "link the statement it comes from, as `[](spec:…)`, so that every build shows its own {}",
                    unit.kind().title()
                );
                push(subject, &run, range, "the text of a procedure", help, sink);
            }
        }
    }
    for code in subject.model.codes.values().flat_map(|set| &set.codes) {
        let run = Prose::of_string(&code.set_when, code.set_when_span);
        for (range, unit) in quantities(&run.text) {
            let help = format!(
                "name the limit in words, and state its {} with its page: `measure` leads there",
                unit.kind().title()
            );
            push(subject, &run, range, "`set_when` of a code", help, sink);
        }
    }
}

fn push(subject: &Subject<'_>, run: &Prose, range: Range<usize>, place: &str, help: String, sink: &mut Sink) {
    let typed = run.text.get(range.clone()).unwrap_or_default();
    let message = format!("`{typed}` is typed in {place}");
    if let Some(at) = run.at(subject.sources, range) {
        sink.push(Finding::new(&RULE, at, message, help));
    }
}

/// Numbers followed by a unit, with their bytes; of `5-10 mm` the whole.
fn quantities(text: &str) -> Vec<(Range<usize>, Unit)> {
    let mut all = Vec::new();
    let mut from = 0;
    while let Some(start) =
        text.get(from..).and_then(|rest| rest.find(|c: char| c.is_ascii_digit())).map(|at| at + from)
    {
        let number_end = last_of_the_numbers(text, start);
        let after = text.get(number_end..).unwrap_or_default();
        let gap = after.len() - after.trim_start_matches([' ', '\u{a0}']).len();
        let word = after.get(gap..).unwrap_or_default();
        let end = word.find(|c: char| c.is_whitespace() || ENDS.contains(c)).unwrap_or(word.len());
        let word = word.get(..end).unwrap_or_default().trim_end_matches('.');
        let number = text.get(start..number_end).unwrap_or_default();
        if !is_part_of_a_name(text.get(..start).unwrap_or_default())
            && after.chars().take_while(|c| [' ', '\u{a0}'].contains(c)).count() <= 2
            && let Some(unit) = meant(number, word)
        {
            all.push((start..number_end + gap + word.len(), unit));
        }
        from = number_end.max(start + 1);
    }
    all
}

/// What ends the word after a number, apart from a space.
const ENDS: &str = ",;:!?()[]\"“”‘’";

/// Where the number that begins here ends, or the last of a span of numbers: `5-10`, `5–10`.
fn last_of_the_numbers(text: &str, start: usize) -> usize {
    let rest = text.get(start..).unwrap_or_default();
    let digits = rest.find(|c: char| !c.is_ascii_digit() && !".,/".contains(c)).unwrap_or(rest.len());
    let end = start + rest.get(..digits).unwrap_or_default().trim_end_matches(['.', ',', '/']).len();
    let next = text.get(end..).unwrap_or_default().strip_prefix(['-', '–']);
    match next {
        Some(next) if next.starts_with(|c: char| c.is_ascii_digit()) => {
            last_of_the_numbers(text, text.len() - next.len())
        }
        _ => end,
    }
}

/// True behind a letter, and behind the hyphen of a word: `M8`, `SB-22`; a minus begins a number.
fn is_part_of_a_name(before: &str) -> bool {
    let before_sign = before.strip_suffix('-').unwrap_or(before);
    before_sign.chars().next_back().is_some_and(char::is_alphanumeric)
}

/// The unit a word means after a number; `2 in each hole` is not inches, nor `2 A` after a figure.
fn meant(number: &str, word: &str) -> Option<Unit> {
    let whole = number.chars().all(|c| c.is_ascii_digit() || "-–".contains(c));
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
        assert_eq!(found("5-10 mm, 5–10 mm or -20 °C, “3 bar”"), ["5-10 mm", "5–10 mm", "20 °C", "3 bar"]);
        assert!(found("Put 2 in each hole; turn 3 bolts (M8), see step 4.").is_empty());
        assert!(found("Bulletin SB-22-04 A, the M8-10 mm bolts, pages 5-12 in all.").is_empty());
    }
}
