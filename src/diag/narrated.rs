//! Findings as sentences: for screen readers, which read line drawings sign by sign.

use super::Finding;
use crate::source::{Sources, Span};

/// One finding in sentences.
pub fn finding(finding: &Finding, sources: &Sources) -> String {
    let mut lines = vec![
        format!(
            "{} of rule {}, {}.",
            capital(finding.severity().word()),
            finding.rule.name,
            place(finding.span, sources)
        ),
        format!("{}.", capital(&finding.message)),
    ];
    let typed = sources.slice(finding.span);
    if !typed.trim().is_empty() && !typed.contains('\n') {
        lines.push(format!("The text there is: {typed}"));
    }
    for related in &finding.related {
        let typed = sources.slice(related.span).lines().next().unwrap_or_default();
        lines.push(format!("{}, {}: {typed}", capital(&related.message), place(related.span, sources)));
    }
    lines.push(format!("What to do: {}.", finding.help));
    lines.join("\n")
}

fn place(span: Span, sources: &Sources) -> String {
    match sources.get(span.file).filter(|file| !file.text().is_empty()) {
        None => format!("file {}", sources.path(span.file)),
        Some(file) => {
            let start = file.place(span.start);
            format!("file {}, line {}, column {}", file.path(), start.line, start.column)
        }
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
