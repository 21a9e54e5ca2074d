//! Findings as JSON, in the pinned shape that other programs read.

use serde_json::{Value, json};

use super::{Finding, Severity};
use crate::source::{Place, SourceFile, Sources, Span};

/// Counts of a run, beside its findings.
#[derive(Clone, Copy, Debug, Default)]
pub struct Summary {
    /// Engines read.
    pub engines: usize,
    /// Builds they make.
    pub builds: usize,
    /// Statements of all engines and variants.
    pub statements: usize,
}

/// `{"findings": […], "summary": {…}}`.
pub fn report(findings: &[Finding], sources: &Sources, summary: Summary) -> Value {
    let count = |severity| findings.iter().filter(|one| one.severity() == severity).count();
    json!({
        "findings": list(findings, sources),
        "summary": {
            "engines": summary.engines,
            "builds": summary.builds,
            "statements": summary.statements,
            "errors": count(Severity::Error),
            "warnings": count(Severity::Warning),
        },
    })
}

/// The findings alone, as a list.
pub fn list(findings: &[Finding], sources: &Sources) -> Value {
    findings.iter().map(|one| finding(one, sources)).collect()
}

fn finding(finding: &Finding, sources: &Sources) -> Value {
    let mut object = serde_json::Map::new();
    object.insert("rule".into(), finding.rule.name.into());
    object.insert("severity".into(), finding.severity().word().into());
    object.insert("message".into(), finding.message.as_str().into());
    locate(&mut object, finding.span, sources);
    object.insert("help".into(), finding.help.as_str().into());
    let related = finding.related.iter().map(|related| {
        let mut object = serde_json::Map::new();
        object.insert("message".into(), related.message.as_str().into());
        locate(&mut object, related.span, sources);
        Value::Object(object)
    });
    object.insert("related".into(), related.collect());
    Value::Object(object)
}

fn locate(object: &mut serde_json::Map<String, Value>, span: Span, sources: &Sources) {
    let place = |offset| {
        let start = Place { line: 1, column: 1 };
        sources.get(span.file).map_or(start, |file: &SourceFile| file.place(offset))
    };
    let (start, end) = (place(span.start), place(span.end));
    object.insert("file".into(), sources.path(span.file).into());
    object.insert("line".into(), start.line.into());
    object.insert("column".into(), start.column.into());
    object.insert("end_line".into(), end.line.into());
    object.insert("end_column".into(), end.column.into());
}
