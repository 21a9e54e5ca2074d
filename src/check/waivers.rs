//! Waivers: warnings that the lead accepts are taken out; waivers that no longer act are found.
//!
//! A warning about a statement is waived in the file of its engine, any other in `base.toml`.

use super::rules::{waiver_lapsed, waiver_not_allowed};
use super::{Subject, left_out};
use crate::diag::{Finding, Sink};
use crate::load;
use crate::load::place::FileKind;
use crate::model::{Engine, OnText, OnValue, Statement, Waiver, same_words};

/// Takes out what is waived. Runs after all other rules, since it looks at what they found.
pub fn apply(subject: &Subject<'_>, sink: &mut Sink) {
    // What is broken or left out keeps rules from looking: that one finds nothing then says nothing.
    let all_looked = subject.damaged.is_empty() && !sink.has_errors();
    let mut found = Vec::new();
    for engine in subject.model.engines.values() {
        let idle = engine.waivers.iter().filter_map(|one| on_value(engine, one, subject, all_looked, sink));
        found.extend(idle);
    }
    // Nor does it where a file may name what seems to be named by nothing, and is not read.
    let all_looked = all_looked && left_out::all_is_read(subject, &[], sink);
    let waivers = &subject.model.base.waivers;
    found.extend(waivers.iter().filter_map(|one| on_text(one, subject, all_looked, sink)));
    found.into_iter().for_each(|finding| sink.push(finding));
}

/// Takes out what a waiver of an engine accepts; a finding if it can accept nothing.
fn on_value(
    engine: &Engine,
    waiver: &Waiver<OnValue>,
    subject: &Subject<'_>,
    all_looked: bool,
    sink: &mut Sink,
) -> Option<Finding> {
    let rule = match waiver_not_allowed::warning(&waiver.rule, waiver.span) {
        Ok(rule) => rule,
        Err(finding) => return Some(*finding),
    };
    if waiver_not_allowed::ON_NO_VALUE.contains(&rule.name) {
        return Some(waiver_not_allowed::for_a_value(waiver));
    }
    if waiver.until < subject.today {
        return Some(waiver_lapsed::by_date(waiver));
    }
    let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
    let stated = engine.statements.iter().chain(varied).map(AsRef::as_ref);
    let same: Vec<&Statement> = stated.filter(|one| one.identity == waiver.on.statement).collect();
    let on: Vec<_> = same.iter().filter(|one| waiver.on.is(one)).map(|one| one.span).collect();
    if on.is_empty() {
        let all_read = engine.whole && same.iter().all(|one| one.understood);
        return all_read.then(|| waiver_lapsed::by_value(waiver, same.first().map(|one| one.span)));
    }
    let mut acted = false;
    sink.accept(|finding| {
        let accepted =
            finding.rule.name == rule.name && finding.about.is_some_and(|about| on.contains(&about));
        acted = acted || accepted;
        accepted
    });
    (!acted && all_looked).then(|| waiver_lapsed::needless(waiver))
}

/// Takes out what a waiver of `base.toml` accepts; a finding if it can accept nothing.
fn on_text(
    waiver: &Waiver<OnText>,
    subject: &Subject<'_>,
    all_looked: bool,
    sink: &mut Sink,
) -> Option<Finding> {
    let rule = match waiver_not_allowed::warning(&waiver.rule, waiver.span) {
        Ok(rule) => rule,
        Err(finding) => return Some(*finding),
    };
    let sometimes = waiver_not_allowed::NOT_ALWAYS_ON_A_VALUE.contains(&rule.name);
    if !sometimes && !waiver_not_allowed::ON_NO_VALUE.contains(&rule.name) {
        return Some(waiver_not_allowed::for_a_text(waiver));
    }
    if waiver.until < subject.today {
        return Some(waiver_lapsed::by_date(waiver));
    }
    let Some((file, source)) = subject.sources.iter().find(|(_, file)| file.path() == waiver.on.file) else {
        let paths = subject.sources.iter().map(|(_, file)| file.path());
        return Some(waiver_lapsed::by_file(waiver, paths));
    };
    let is_there = |finding: &Finding| finding.rule.name == rule.name && finding.span.file == file;
    let is_meant = |finding: &Finding| {
        is_there(finding) && underlines(subject.sources.slice(finding.span), waiver.on.text.as_deref())
    };
    let mut acted = false;
    let mut of_a_value = false;
    sink.accept(|finding| {
        let meant = is_meant(finding);
        of_a_value = of_a_value || meant && finding.about.is_some();
        acted = acted || meant && finding.about.is_none();
        meant && finding.about.is_none()
    });
    if acted {
        return None;
    }
    if of_a_value {
        return Some(waiver_not_allowed::for_a_text(waiver));
    }
    let unread = FileKind::at(source.path()).is_some_and(|kind| subject.damaged.contains(&kind));
    let stands = waiver.on.text.as_ref().is_none_or(|text| one_line(source.text()).contains(&one_line(text)));
    let sure = if stands { all_looked } else { !unread };
    let other = sink.findings().iter().find(|finding| is_there(finding) && finding.about.is_none());
    sure.then(|| waiver_lapsed::by_text(waiver, other.map(|one| subject.sources.slice(one.span))))
}

/// True if what a finding underlines, typed in prose or as a string of TOML, is the text of a waiver.
fn underlines(typed: &str, text: Option<&str>) -> bool {
    let Some(text) = text else { return typed.trim().is_empty() };
    let quotes = ["\"\"\"", "'''", "\"", "'"];
    let between = quotes.iter().find_map(|quote| typed.strip_prefix(quote)?.strip_suffix(quote));
    let said = between.and_then(|_| load::string(typed));
    [Some(typed), between, said.as_deref()].into_iter().flatten().any(|one| same_words(one, text))
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::underlines;

    #[test]
    fn a_text_is_what_stands_between_the_quotes() {
        let yes = [
            ("10 mm", "10 mm"),
            ("0.20**\r\n   mm", "0.20** mm"),
            ("\"panels\"", "panels"),
            ("'panels'", "panels"),
            ("\"\"\"two\nlines\"\"\"", "two lines"),
            ("\"caf\\u00e9\"", "café"),
            ("\"caf\\u00e9\"", "caf\\u00e9"),
            ("\"panels\"", "\"panels\""),
            ("\"80mm\"", "80 mm"),
        ];
        for (typed, text) in yes {
            assert!(underlines(typed, Some(text)), "{typed} is {text}");
        }
        for (typed, text) in [("10 mm", "10.0 mm"), ("\"panels\"", "panel"), ("\"", ""), ("", "10 mm")] {
            assert!(!underlines(typed, Some(text)), "{typed} is not {text}");
        }
        assert!(underlines("", None) && !underlines("10 mm", None));
    }
}
