//! A procedure file: front matter between `+++` lines, then CommonMark with source offsets.
//!
//! The front matter is parsed in place, with everything else blanked, so that its spans are spans of
//! the file. A link such as `[](turn:crank 90°)` has a space in its target, which CommonMark would
//! not take as a link; before parsing, such spaces become a sign of the same length.

use std::ops::Range;

use pulldown_cmark::{CowStr, Event, Options, Parser, Tag};

/// Schemes of the links that mean something to a procedure.
pub const SCHEMES: [&str; 8] =
    ["spec", "reading", "hazard", "turn", "step", "procedure", "complaint", "code"];

/// Stands for a space inside a link target while the text is parsed.
const HELD_SPACE: char = '^';

/// The two parts of a procedure file.
#[derive(Debug)]
pub struct Parts {
    /// The text with all but the front matter blanked: same length, same lines.
    pub head: String,
    /// Where the body begins.
    pub body_start: usize,
}

/// Why a file has no front matter.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum NoFrontMatter {
    /// It does not begin with `+++`.
    NotOpened,
    /// The line that opens it; none closes it.
    NotClosed(Range<usize>),
}

/// Splits a procedure file.
pub fn split(text: &str) -> Result<Parts, NoFrontMatter> {
    let mut opened: Option<Range<usize>> = None;
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let end = start + line.len();
        let said = line.trim();
        match &opened {
            None if said == "+++" => opened = Some(start..end),
            None if said.is_empty() || (said.starts_with("<!--") && said.ends_with("-->")) => {}
            None => return Err(NoFrontMatter::NotOpened),
            Some(first) if said == "+++" => {
                return Ok(Parts { head: blank_around(text, first.end..start), body_start: end });
            }
            Some(_) => {}
        }
        start = end;
    }
    opened.map_or(Err(NoFrontMatter::NotOpened), |line| Err(NoFrontMatter::NotClosed(line)))
}

fn blank_around(text: &str, keep: Range<usize>) -> String {
    let blank =
        |part: &str| part.bytes().map(|byte| if byte == b'\n' { '\n' } else { ' ' }).collect::<String>();
    let before = text.get(..keep.start).map(blank).unwrap_or_default();
    let after = text.get(keep.end..).map(blank).unwrap_or_default();
    before + text.get(keep).unwrap_or_default() + &after
}

/// The events of a body, each with its bytes in the file.
pub fn events(text: &str, body_start: usize) -> Vec<(Event<'static>, Range<usize>)> {
    let body = text.get(body_start..).unwrap_or_default();
    let held = hold_spaces(body);
    let options = Options::ENABLE_TABLES | Options::ENABLE_GFM;
    Parser::new_ext(&held, options)
        .into_offset_iter()
        .map(|(event, range)| {
            let event = free_spaces(event.into_static(), body.get(range.clone()).unwrap_or_default());
            (event, range.start + body_start..range.end + body_start)
        })
        .collect()
}

/// Holds the spaces inside the targets of our own links.
fn hold_spaces(body: &str) -> String {
    let mut held = String::with_capacity(body.len());
    let mut rest = body;
    while let Some(at) = rest.find("](") {
        let (before, from) = rest.split_at(at + 2);
        held.push_str(before);
        let ours =
            SCHEMES.iter().any(|scheme| from.strip_prefix(scheme).is_some_and(|tail| tail.starts_with(':')));
        let end = from.find([')', '\n']).filter(|_| ours).unwrap_or(0);
        let (target, tail) = from.split_at(end);
        held.push_str(&target.replace(' ', &HELD_SPACE.to_string()));
        rest = tail;
    }
    held + rest
}

/// Gives held spaces back, in link targets and wherever the text was not a link after all.
fn free_spaces(event: Event<'static>, typed: &str) -> Event<'static> {
    let free = |text: CowStr<'static>| -> CowStr<'static> {
        if text.contains(HELD_SPACE) && !typed.contains(HELD_SPACE) {
            text.replace(HELD_SPACE, " ").into()
        } else {
            text
        }
    };
    match event {
        Event::Text(text) => Event::Text(free(text)),
        Event::Code(text) => Event::Code(free(text)),
        Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
            Event::Start(Tag::Link { link_type, dest_url: free(dest_url), title, id })
        }
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn front_matter_keeps_its_offsets() {
        let text = "<!-- lash.md -->\n+++\nid = \"lash\"\n+++\n1. Cool ± down.\n";
        let parts = split(text).expect("front matter is there");
        assert_eq!(parts.head.len(), text.len());
        assert_eq!(parts.head.find("id = "), text.find("id = "));
        assert_eq!(&text[parts.body_start..parts.body_start + 2], "1.");
    }

    #[test]
    fn a_missing_or_open_front_matter_is_told_apart() {
        assert_eq!(split("1. Cool").err(), Some(NoFrontMatter::NotOpened));
        assert_eq!(split("").err(), Some(NoFrontMatter::NotOpened));
        assert_eq!(split("+++\nid = 1\n").err(), Some(NoFrontMatter::NotClosed(0..4)));
    }

    #[test]
    fn a_space_in_a_turn_is_part_of_the_link() {
        let text = "Turn [](turn:crank 90°) and `](turn:x y)`, 2^3.";
        let all = events(text, 0);
        let link = all.iter().find_map(|(event, range)| match event {
            Event::Start(Tag::Link { dest_url, .. }) => Some((dest_url.to_string(), range.clone())),
            _ => None,
        });
        let (target, range) = link.expect("a link");
        assert_eq!(target, "turn:crank 90°");
        assert_eq!(&text[range], "[](turn:crank 90°)");
        assert!(all.iter().any(|(event, _)| *event == Event::Code("](turn:x y)".into())));
        assert!(all.iter().any(|(event, _)| matches!(event, Event::Text(text) if text.contains("2^3"))));
    }
}
