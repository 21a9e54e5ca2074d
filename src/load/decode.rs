//! One TOML text to its typed file: parse, hold against the schema, decode what is sound.

use std::ops::Range;

use serde::de::DeserializeOwned;
use toml::de::{DeTable, DeValue};

use super::place::FileKind;
use super::rules::{toml_syntax, wrong_type};
use super::shape::{self, Soundness};
use super::{toml_slip, tree};
use crate::diag::Sink;
use crate::source::{FileId, Span, floor_boundary};

/// A typed file, and whether all of it was read.
#[derive(Debug)]
pub struct Decoded<T> {
    /// Which file.
    pub file: FileId,
    /// What it says.
    pub data: T,
    /// False if a part was cut out because it broke the schema.
    pub whole: bool,
}

/// Reads one TOML text. Every break is a finding; none is returned only if nothing sound is left.
pub fn decode<T: DeserializeOwned>(
    kind: FileKind,
    file: FileId,
    text: &str,
    sink: &mut Sink,
) -> Option<Decoded<T>> {
    let (mut root, errors) = DeTable::parse_recoverable(text);
    let first = errors.into_iter().min_by_key(|error| error.span().map_or(0, |span| span.start));
    if let Some(error) = first {
        let range = widened(text, error.span().unwrap_or(0..0));
        sink.push(match toml_slip::slip(text, &range, error.message()) {
            Some(slip) => toml_syntax::slip(Span::new(file, slip.range), slip.message, slip.help),
            None => toml_syntax::finding(Span::new(file, range), error.message()),
        });
        return None;
    }
    tree::dates_to_text(root.get_mut());
    let whole = first_line(text);
    let soundness = shape::hold(kind, file, text, whole.clone(), root.get_mut(), sink);
    if soundness == Soundness::Lost {
        return None;
    }
    match T::deserialize(toml::Deserializer::from(root)) {
        Ok(data) => Some(Decoded { file, data, whole: soundness == Soundness::Whole }),
        // The schema is made from the type, so this is a gap between the two; never a silent loss.
        Err(error) => {
            let range = error.span().map_or(whole, |span| widened(text, span));
            let typed = text.get(range.clone()).unwrap_or_default().to_owned();
            sink.push(wrong_type::finding(
                Span::new(file, range),
                "file",
                "not understood",
                "another value",
                &typed,
            ));
            None
        }
    }
}

/// What a string of TOML says, which is given with its quotes; none if it is no string.
pub fn string(typed: &str) -> Option<String> {
    let read = DeValue::parse(typed).ok()?.into_inner();
    if let DeValue::String(said) = read { Some(said.into_owned()) } else { None }
}

/// A range on character boundaries that shows something: where it would underline nothing, the line it is on.
fn widened(text: &str, range: Range<usize>) -> Range<usize> {
    let start = floor_boundary(text, range.start);
    let end = floor_boundary(text, range.end).max(start);
    if text.get(start..end).is_some_and(|shown| !shown.trim().is_empty()) {
        return start..end;
    }
    let from = text.get(..start).and_then(|before| before.rfind('\n')).map_or(0, |at| at + 1);
    let line = text.get(from..).and_then(|rest| rest.lines().next()).unwrap_or_default();
    let indent = line.len() - line.trim_start().len();
    if line.trim().is_empty() { start..end } else { from + indent..from + indent + line.trim().len() }
}

/// The first line that says something: what stands for the whole file.
pub fn first_line(text: &str) -> Range<usize> {
    let mut start = 0usize;
    for line in text.split_inclusive('\n') {
        let said = line.trim();
        if !said.is_empty() && !said.starts_with('#') && said != "+++" {
            let from = start + line.len() - line.trim_start().len();
            return from..from + said.len();
        }
        start += line.len();
    }
    0..0
}
