//! The words of a procedure as one reads them: emphasis, line breaks, code and the text of links joined to one run.
//!
//! Invariant: every byte of a run knows where it is typed, so that a finding underlines it there.

use std::ops::Range;

use pulldown_cmark::{Event, Tag, TagEnd};

use crate::model::{Piece, Procedure};
use crate::source::{Sources, Span};

/// Stands for what a link without a text shows: no word of it is typed.
const SHOWN: char = '\u{fffc}';

/// A run of text that one reads in one go.
#[derive(Debug, Default)]
pub struct Prose {
    /// The text.
    pub text: String,
    parts: Vec<Part>,
}

/// A part of a run as it is typed.
#[derive(Debug)]
struct Part {
    from: usize,
    typed: String,
    span: Span,
    quoted: bool,
}

impl Prose {
    /// A string of a TOML file.
    pub fn of_string(text: &str, span: Span) -> Self {
        let mut prose = Self::default();
        prose.push(text, span, true);
        prose
    }

    /// Where some bytes of the run are typed.
    pub fn at(&self, sources: &Sources, range: Range<usize>) -> Option<Span> {
        let first = self.part(range.start)?;
        let last = self.part(range.end.saturating_sub(1))?;
        let within = |part: &Part, inner: Range<usize>| {
            let inner = inner.start.saturating_sub(part.from)..inner.end.saturating_sub(part.from);
            if part.quoted {
                sources.inside(part.span, &part.typed, inner)
            } else {
                sources.within(part.span, &part.typed, inner)
            }
        };
        if first.from == last.from {
            return Some(within(first, range));
        }
        let begin = within(first, range.start..first.from + first.typed.len());
        let end = within(last, last.from..range.end);
        Some(Span::new(begin.file, begin.start..end.end))
    }

    fn part(&self, at: usize) -> Option<&Part> {
        self.parts.iter().rfind(|part| part.from <= at)
    }

    fn push(&mut self, text: &str, span: Span, quoted: bool) {
        self.parts.push(Part { from: self.text.len(), typed: text.to_owned(), span, quoted });
        self.text.push_str(text);
    }
}

/// Every run of a procedure: the texts of its front matter, then its body, block by block.
pub fn of_procedure(procedure: &Procedure) -> Vec<Prose> {
    let mut all: Vec<Prose> =
        procedure.head.iter().map(|(text, span)| Prose::of_string(text, *span)).collect();
    let mut run = Prose::default();
    for piece in &procedure.body {
        match piece {
            Piece::Link { label, span, .. } if label.is_empty() => run.push(&SHOWN.to_string(), *span, false),
            Piece::Link { label, span, .. } => run.push(label, *span, false),
            Piece::Markup { event: Event::Text(text) | Event::Code(text), span } => {
                run.push(text, *span, false);
            }
            Piece::Markup { event: Event::SoftBreak | Event::HardBreak, span } => run.push(" ", *span, false),
            Piece::Markup { event, .. } if is_within_a_line(event) => {}
            Piece::Markup { .. } => all.push(std::mem::take(&mut run)),
        }
    }
    all.push(run);
    all
}

const fn is_within_a_line(event: &Event<'_>) -> bool {
    matches!(
        event,
        Event::Start(Tag::Emphasis | Tag::Strong | Tag::Strikethrough)
            | Event::End(TagEnd::Emphasis | TagEnd::Strong | TagEnd::Strikethrough)
    )
}
