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
        ended(capital(&finding.message)),
    ];
    let typed = sources.slice(finding.span);
    if !typed.trim().is_empty() && !typed.contains('\n') {
        lines.push(format!("The text there is: {typed}"));
    }
    for related in &finding.related {
        let typed = sources.slice(related.span).lines().next().unwrap_or_default();
        lines.push(format!("{}, {}: {typed}", capital(&related.message), place(related.span, sources)));
    }
    lines.push(ended(format!("What to do: {}", finding.help)));
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

/// With the sign that ends a sentence, if it has none.
fn ended(text: String) -> String {
    if text.ends_with(['.', '?', '!']) { text } else { text + "." }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_ends_once() {
        assert_eq!(ended("did you mean `hot`?".to_owned()), "did you mean `hot`?");
        assert_eq!(ended("write `hot`".to_owned()), "write `hot`.");
        assert_eq!(capital("`cycle` cannot be"), "`cycle` cannot be");
        assert_eq!(capital("unknown unit"), "Unknown unit");
    }
}
