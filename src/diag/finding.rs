//! One finding, and the sink that collects those of a run.

use super::{Rule, Severity};
use crate::source::{Sources, Span};

/// One thing that is wrong, where, and how to mend it.
#[derive(Clone, Debug)]
pub struct Finding {
    /// The rule it belongs to.
    pub rule: &'static Rule,
    /// What is wrong and why; lower case, no full stop.
    pub message: String,
    /// Where it stands.
    pub span: Span,
    /// What to do; lower case, no full stop.
    pub help: String,
    /// Other places that bear on it.
    pub related: Vec<Related>,
    /// The statement it is about, by the span of its `of`: what a waiver is held against.
    pub about: Option<Span>,
}

/// Another place that bears on a finding.
#[derive(Clone, Debug)]
pub struct Related {
    /// What stands there.
    pub message: String,
    /// Where.
    pub span: Span,
}

impl Finding {
    /// A finding of `rule` at `span`.
    pub fn new(rule: &'static Rule, span: Span, message: impl Into<String>, help: impl Into<String>) -> Self {
        Self { rule, message: message.into(), span, help: help.into(), related: Vec::new(), about: None }
    }

    /// Adds another place that bears on it.
    #[must_use]
    pub fn with(mut self, span: Span, message: impl Into<String>) -> Self {
        self.related.push(Related { message: message.into(), span });
        self
    }

    /// Says which statement it is about.
    #[must_use]
    pub const fn about(mut self, statement: Span) -> Self {
        self.about = Some(statement);
        self
    }

    /// How grave it is.
    pub const fn severity(&self) -> Severity {
        self.rule.severity
    }
}

/// Collects the findings of a run.
#[derive(Debug, Default)]
pub struct Sink {
    findings: Vec<Finding>,
}

impl Sink {
    /// Takes a finding.
    pub fn push(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Takes out the warnings that are accepted; an error always stays.
    pub fn accept(&mut self, mut accepted: impl FnMut(&Finding) -> bool) {
        self.findings.retain(|one| one.severity() != Severity::Warning || !accepted(one));
    }

    /// What was found so far, in the order of finding.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// True if one of these rules has found something in such a place.
    pub fn found(&self, rules: &[&Rule], place: impl Fn(Span) -> bool) -> bool {
        let of = |finding: &Finding| rules.iter().any(|rule| rule.name == finding.rule.name);
        self.findings.iter().any(|finding| of(finding) && place(finding.span))
    }

    /// True if any finding is an error.
    pub fn has_errors(&self) -> bool {
        self.findings.iter().any(|finding| finding.severity() == Severity::Error)
    }

    /// The findings in order of file, place and rule, each once.
    pub fn into_sorted(mut self, sources: &Sources) -> Vec<Finding> {
        let key = |finding: &Finding| {
            (
                sources.path(finding.span.file).to_owned(),
                finding.span.start,
                finding.span.end,
                finding.severity(),
                finding.rule.name,
                finding.message.clone(),
            )
        };
        self.findings.sort_by_cached_key(key);
        self.findings.dedup_by(|a, b| key(a) == key(b));
        self.findings
    }
}
