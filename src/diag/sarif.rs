//! Findings as SARIF 2.1.0 (OASIS), which code hosts and editors read.

use serde_json::{Value, json};

use super::{Finding, Rule, Severity};
use crate::source::{Sources, Span};

/// Where OASIS keeps the schema; an editor that knows it completes and checks the log.
const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// The log of one run over the given rules.
pub fn report(findings: &[Finding], rules: &[&Rule], sources: &Sources) -> Value {
    let described: Vec<_> = rules.iter().map(|rule| description(rule)).collect();
    let results: Vec<_> = findings.iter().map(|one| result(one, rules, sources)).collect();
    json!({
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "baybook",
                "version": env!("CARGO_PKG_VERSION"),
                "rules": described,
            }},
            "columnKind": "unicodeCodePoints",
            "originalUriBaseIds": { "SPECS": { "description": { "text": "the spec base" } } },
            "results": results,
        }],
    })
}

const fn level(severity: Severity) -> &'static str {
    severity.word()
}

fn description(rule: &Rule) -> Value {
    json!({
        "id": rule.name,
        "shortDescription": { "text": rule.summary },
        "help": { "text": rule.page, "markdown": rule.page },
        "defaultConfiguration": { "level": level(rule.severity) },
        "properties": { "group": rule.group.title() },
    })
}

fn result(finding: &Finding, rules: &[&Rule], sources: &Sources) -> Value {
    let related: Vec<_> = finding
        .related
        .iter()
        .enumerate()
        .map(|(id, related)| {
            let mut place = location(related.span, sources);
            if let Some(place) = place.as_object_mut() {
                place.insert("id".to_owned(), json!(id));
                place.insert("message".to_owned(), json!({ "text": related.message }));
            }
            place
        })
        .collect();
    json!({
        "ruleId": finding.rule.name,
        "ruleIndex": rules.iter().position(|rule| rule.name == finding.rule.name),
        "level": level(finding.severity()),
        "message": { "text": format!("{}\nhelp: {}", finding.message, finding.help) },
        "locations": [location(finding.span, sources)],
        "relatedLocations": related,
    })
}

fn location(span: Span, sources: &Sources) -> Value {
    let uri: String = sources.path(span.file).split('/').map(percent).collect::<Vec<_>>().join("/");
    let artifact = json!({ "uri": uri, "uriBaseId": "SPECS" });
    let Some(file) = sources.get(span.file) else {
        return json!({ "physicalLocation": { "artifactLocation": artifact } });
    };
    let (start, end) = (file.place(span.start), file.place(span.end));
    json!({ "physicalLocation": {
        "artifactLocation": artifact,
        "region": {
            "startLine": start.line,
            "startColumn": start.column,
            "endLine": end.line,
            "endColumn": end.column,
        },
    }})
}

/// A path segment as RFC 3986 writes it.
fn percent(segment: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"-._~".contains(&byte);
    segment
        .bytes()
        .map(|byte| if plain(byte) { char::from(byte).to_string() } else { format!("%{byte:02X}") })
        .collect()
}
