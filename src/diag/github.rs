//! Findings as workflow commands, which a hosted build shows beside the changed lines.
//!
//! Such a host shows only a few of a kind a run, so the gravest come first and the rest are counted.

use super::{Finding, Severity};
use crate::source::{Place, Sources};

/// How many findings are written; a host shows ten of each kind.
const MOST: usize = 30;

/// The report; `base` is the path of the spec base, put before every file.
pub fn report(findings: &[Finding], sources: &Sources, base: &str) -> String {
    let mut sorted: Vec<_> = findings.iter().collect();
    sorted.sort_by_key(|finding| finding.severity());
    let mut lines: Vec<_> = sorted.iter().take(MOST).map(|one| command(one, sources, base)).collect();
    let hidden = sorted.len().saturating_sub(MOST);
    if hidden > 0 {
        lines.push(format!("::notice title=baybook::{hidden} not shown; run `baybook check` for all"));
    }
    lines.join("\n")
}

fn command(finding: &Finding, sources: &Sources, base: &str) -> String {
    let kind = match finding.severity() {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Note => "notice",
    };
    let place = |offset| {
        sources.get(finding.span.file).map_or(Place { line: 1, column: 1 }, |file| file.place(offset))
    };
    let (start, end) = (place(finding.span.start), place(finding.span.end));
    let path = format!("{}/{}", base.trim_end_matches('/'), sources.path(finding.span.file));
    format!(
        "::{kind} file={},line={},endLine={},col={},endColumn={},title={}::{}",
        property(&path),
        start.line,
        end.line,
        start.column,
        end.column,
        finding.rule.name,
        data(&format!("{}\n{}", finding.message, finding.help)),
    )
}

fn data(text: &str) -> String {
    text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A")
}

fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::{data, property};

    #[test]
    fn signs_of_the_command_are_escaped() {
        assert_eq!(data("5 %\nnext"), "5 %25%0Anext");
        assert_eq!(property("a:b,c"), "a%3Ab%2Cc");
    }
}
