//! Findings for people: the line, the exact span underlined, what is wrong, what to do.

use std::ops::Range;

use annotate_snippets::{
    AnnotationKind, Element, Group, Level, Origin, Renderer, Snippet, normalize_untrusted_str,
};

use super::{Finding, Severity};
use crate::source::{SourceFile, Sources, Span};

/// One finding as text; styled with ANSI escapes, which the caller's stream strips where need be.
pub fn finding(finding: &Finding, sources: &Sources) -> String {
    let level = match finding.severity() {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Note => Level::NOTE,
    };
    let mut elements: Vec<Element<'_>> = vec![main_snippet(finding, sources)];
    let elsewhere = finding.related.iter().filter(|related| related.span.file != finding.span.file);
    for related in elsewhere {
        elements.push(snippet(related.span, sources, Some(&related.message)));
    }
    // A help may quote the file; a terminal must not act on what is quoted.
    elements.push(Level::HELP.message(normalize_untrusted_str(&finding.help)).into());
    let title = level.primary_title(finding.message.as_str()).id(finding.rule.name);
    let report: &[Group<'_>] = &[title.elements(elements)];
    Renderer::styled().render(report)
}

/// The finding's own file, with the places in the same file that bear on it.
fn main_snippet<'a>(finding: &'a Finding, sources: &'a Sources) -> Element<'a> {
    let Some(file) = sources.get(finding.span.file).filter(|file| !file.text().is_empty()) else {
        return Origin::path(sources.path(finding.span.file)).line(1).char_column(1).into();
    };
    let same = finding.related.iter().filter(|related| related.span.file == finding.span.file);
    let contexts =
        same.map(|related| (AnnotationKind::Context, related.span, Some(related.message.as_str())));
    shown(file, std::iter::once((AnnotationKind::Primary, finding.span, None)).chain(contexts).collect())
}

/// A place in another file.
fn snippet<'a>(span: Span, sources: &'a Sources, label: Option<&'a str>) -> Element<'a> {
    let Some(file) = sources.get(span.file) else { return Origin::path("").into() };
    shown(file, vec![(AnnotationKind::Context, span, label)])
}

/// Places of one file, drawn on the lines they stand on. Of a long file only the lines around them are
/// handed on, so that a thousand findings in it do not take the square of that time.
fn shown<'a>(file: &'a SourceFile, places: Vec<(AnnotationKind, Span, Option<&'a str>)>) -> Element<'a> {
    let text = file.text();
    let places: Vec<_> =
        places.into_iter().map(|(kind, span, label)| (kind, drawn(text, span), label)).collect();
    let first = places.iter().map(|(_, range, _)| range.start).min().unwrap_or(0);
    let last = places.iter().map(|(_, range, _)| range.end).max().unwrap_or(text.len());
    let start = line_before(text, first);
    let excerpt = text.get(start..line_after(text, last)).unwrap_or_default();
    let annotations = places.into_iter().map(|(kind, range, label)| {
        kind.span(range.start.saturating_sub(start)..range.end.saturating_sub(start)).label(label)
    });
    Snippet::source(excerpt)
        .line_start(file.place(start).line)
        .path(file.path())
        .annotations(annotations)
        .into()
}

/// Where the line before the one of an offset begins.
fn line_before(text: &str, offset: usize) -> usize {
    let start_of =
        |offset: usize| text.get(..offset).and_then(|before| before.rfind('\n')).map_or(0, |at| at + 1);
    start_of(start_of(offset).saturating_sub(1))
}

/// Where the line after the one of an offset ends.
fn line_after(text: &str, offset: usize) -> usize {
    let rest = text.get(offset..).unwrap_or_default();
    rest.match_indices('\n').nth(1).map_or(text.len(), |(at, _)| offset + at)
}

/// The bytes to underline: up to the end of a line, never into the next one by its line end alone.
fn drawn(text: &str, span: Span) -> Range<usize> {
    let typed = text.get(span.range()).unwrap_or_default();
    span.start..span.start + typed.trim_end_matches(['\r', '\n']).len()
}

/// The last line of a report: how many findings, over how much.
pub fn summary(findings: &[Finding], counts: super::json::Summary) -> String {
    let count = |severity| findings.iter().filter(|one| one.severity() == severity).count();
    let base = format!(
        "{}, {}, {}",
        many(counts.engines, "engine"),
        many(counts.builds, "build"),
        many(counts.statements, "statement")
    );
    match (count(Severity::Error), count(Severity::Warning)) {
        (0, 0) => format!("no findings: {base}"),
        (0, warnings) => format!("{}: {base}", many(warnings, "warning")),
        (errors, 0) => format!("{}: {base}", many(errors, "error")),
        (errors, warnings) => format!("{}, {}: {base}", many(errors, "error"), many(warnings, "warning")),
    }
}

fn many(count: usize, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}
