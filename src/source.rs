//! The texts that were read, and where in them something stands.
//!
//! A [`Span`] is three integers: a file and a byte range. Line and column are worked out only when
//! a finding is shown, so that nothing on the way has to carry them.

use std::ops::Range;

/// A file of the spec base, by its place in [`Sources`].
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct FileId(u32);

/// A byte range in one file, the end exclusive.
#[derive(Clone, Copy, Debug, Eq, Hash, Ord, PartialEq, PartialOrd)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// The span of a byte range in a file.
    pub const fn new(file: FileId, range: Range<usize>) -> Self {
        Self { file, start: range.start, end: range.end }
    }

    /// The bytes of the span.
    pub const fn range(self) -> Range<usize> {
        self.start..self.end
    }
}

/// Line and column as people count them: from 1, columns in Unicode code points.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column in code points, from 1.
    pub column: usize,
}

/// One file that was read.
#[derive(Debug)]
pub struct SourceFile {
    path: String,
    text: String,
    line_starts: Vec<usize>,
}

impl SourceFile {
    /// Path relative to the spec base, with `/`.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// The whole text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Line and column of a byte offset; an offset past the end counts as the end.
    pub fn place(&self, offset: usize) -> Place {
        let offset = floor_boundary(&self.text, offset);
        let line = self.line_starts.partition_point(|start| *start <= offset);
        let start = self.line_starts.get(line.saturating_sub(1)).copied().unwrap_or(0);
        let column = self.text.get(start..offset).map_or(0, |before| before.chars().count());
        Place { line, column: column + 1 }
    }
}

/// The nearest character boundary at or before an offset.
pub fn floor_boundary(text: &str, offset: usize) -> usize {
    (0..=offset.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}

/// All files that were read, in order of path.
#[derive(Debug, Default)]
pub struct Sources {
    files: Vec<SourceFile>,
}

impl Sources {
    /// Adds a file and gives its id.
    pub fn add(&mut self, path: String, text: String) -> FileId {
        let id = FileId(u32::try_from(self.files.len()).unwrap_or(u32::MAX));
        let line_starts = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        self.files.push(SourceFile { path, text, line_starts });
        id
    }

    /// The start of the first of some files that was read, by its path.
    pub fn start_of(&self, path: &str, or: &str) -> Span {
        let at = |path: &str| self.files.iter().position(|file| file.path == path);
        let at = at(path).or_else(|| at(or)).unwrap_or_default();
        Span::new(FileId(u32::try_from(at).unwrap_or_default()), 0..0)
    }

    /// The file of an id; every id was given by [`Sources::add`], so only a foreign id has none.
    pub fn get(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(usize::try_from(id.0).ok()?)
    }

    /// Path of a file, relative to the spec base.
    pub fn path(&self, id: FileId) -> &str {
        self.get(id).map_or("", SourceFile::path)
    }

    /// The text under a span.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.file).and_then(|file| file.text.get(span.range())).unwrap_or("")
    }

    /// All files with their ids.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &SourceFile)> {
        (0..).map(FileId).zip(&self.files)
    }

    /// The span of bytes `inner` of a text that stands, as it is, within `span`; else the whole span.
    pub fn within(&self, span: Span, text: &str, inner: Range<usize>) -> Span {
        match self.slice(span).find(text) {
            Some(at) => {
                let from = span.start + at;
                Span::new(span.file, from + inner.start..from + inner.end)
            }
            None => span,
        }
    }

    /// The span of bytes `inner` of a string value that stands, quotes and all, at `span`.
    ///
    /// A string with escapes reads differently from how it is typed; then the whole string is meant.
    pub fn inside(&self, span: Span, value: &str, inner: Range<usize>) -> Span {
        let typed = self.slice(span);
        let quote = if typed.starts_with("\"\"\"") || typed.starts_with("'''") { 3 } else { 1 };
        let end = typed.len().saturating_sub(quote);
        if typed.get(quote..end) == Some(value) {
            let from = span.start + quote;
            Span::new(span.file, from + inner.start..from + inner.end)
        } else {
            span
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_code_points_not_bytes() {
        let mut sources = Sources::default();
        let id = sources.add("a.toml".into(), "a = 1\nw = \"0.2 ± 0.1 mm\"\n".into());
        let file = sources.get(id).expect("just added");
        let at = file.text().find("mm").expect("typed above");
        assert_eq!(file.place(at), Place { line: 2, column: 16 });
        assert_eq!(file.place(0), Place { line: 1, column: 1 });
        assert_eq!(file.place(9999).line, 3);
    }

    #[test]
    fn a_string_with_an_escape_is_meant_whole() {
        let mut sources = Sources::default();
        let id = sources.add("a.toml".into(), r#"a = "12 N\u00B7m"; b = "12 Nm""#.into());
        let escaped = Span::new(id, 4..17);
        assert_eq!(sources.inside(escaped, "12 N·m", 0..2), escaped);
        let plain = Span::new(id, 23..30);
        assert_eq!(sources.slice(sources.inside(plain, "12 Nm", 0..2)), "12");
    }
}
