//! What several tests do with a spec base: read a folder, examine it, print its findings as `check` does.
//!
//! Whatever is held true of every finding, whichever test met it, is held true here.
#![allow(dead_code, reason = "each test uses a part")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use baybook::Examined;
use baybook::diag::{Finding, human, json};
use baybook::load::disk::{self, Content, Found};
use baybook::source::{Sources, Span};

/// A spec base in memory: path to content.
pub type Base = BTreeMap<String, Content>;

/// Copies a folder, so that a test may change what is in it.
pub fn copy(from: &Path, to: &Path) {
    for entry in walkdir::WalkDir::new(from).into_iter().map(|entry| entry.expect("readable")) {
        let target = to.join(entry.path().strip_prefix(from).expect("below it"));
        if entry.file_type().is_dir() {
            fs::create_dir_all(&target).expect("made");
        } else {
            fs::copy(entry.path(), &target).expect("copied");
        }
    }
}

/// A path below `tests/`.
pub fn tests(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(path)
}

/// A base from its folder.
pub fn read(folder: &Path) -> Base {
    let found = disk::read_base(folder).unwrap_or_else(|error| panic!("{error}"));
    found.into_iter().map(|one| (one.path, one.content)).collect()
}

/// The small base without a fault that examples and cases start from.
pub fn rule_base() -> Base {
    read(&tests("rule-base"))
}

/// A base with a text added to a file of it, which may be new.
pub fn with(mut base: Base, path: &str, text: &str) -> Base {
    let content = base.entry(path.to_owned()).or_insert_with(|| Content::Bytes(Vec::new()));
    let Content::Bytes(bytes) = content else { panic!("{path} is no file") };
    let between = if bytes.is_empty() { "" } else { "\n" };
    bytes.extend_from_slice(format!("{between}{text}\n").as_bytes());
    base
}

/// The small base with texts added to files of it.
pub fn rule_base_with(added: &[(&str, &str)]) -> Base {
    added.iter().fold(rule_base(), |base, (path, text)| with(base, path, text))
}

/// A base with a text of a file replaced.
pub fn replaced(mut base: Base, path: &str, from: &str, to: &str) -> Base {
    let Some(Content::Bytes(bytes)) = base.get_mut(path) else { panic!("no {path}") };
    let text = String::from_utf8(bytes.clone()).expect("text");
    assert!(text.contains(from), "{path} has no {from}");
    *bytes = text.replace(from, to).into_bytes();
    base
}

/// Where a base in memory keeps the ids that an older release made public, one a line: no file of it.
pub const BEFORE: &str = " before";

/// Loads, resolves and checks a base; lapses are judged at its own date, so that no test ages.
pub fn examine(mut base: Base) -> Examined {
    let before = match base.remove(BEFORE) {
        Some(Content::Bytes(bytes)) => String::from_utf8(bytes).expect("ids are text"),
        _ => String::new(),
    };
    let before = before.lines().map(ToOwned::to_owned).collect();
    let found = base.into_iter().map(|(path, content)| Found { path, content }).collect();
    baybook::examine_since(found, None, &before)
}

/// Findings as `check` prints them, without colour.
pub fn printed<'f>(findings: impl IntoIterator<Item = &'f Finding>, sources: &Sources) -> String {
    let all: Vec<_> = findings.into_iter().map(|one| human::finding(one, sources)).collect();
    let text = all.iter().map(|one| format!("{one}\n\n")).collect::<String>();
    anstream::adapter::strip_str(&text).to_string()
}

/// Holds a finding to what is promised of every finding.
pub fn hold_to_promises(finding: &Finding, sources: &Sources) {
    let (rule, message) = (finding.rule.name, finding.message.as_str());
    let first = message.chars().next().unwrap_or_else(|| panic!("{rule}: an empty message"));
    assert!(first.is_lowercase() || first == '`', "{rule}: begins with {first:?}: {message}");
    let own: String = message.split('`').step_by(2).collect();
    assert!(!own.ends_with('.') && !own.contains(". "), "{rule}: a full stop in: {message}");
    assert!(!finding.help.trim().is_empty(), "{rule}: no help for: {message}");
    assert!(!finding.help.ends_with('.'), "{rule}: a full stop ends the help: {}", finding.help);
    for raw in VALIDATOR_WORDS {
        assert!(!message.contains(raw), "{rule}: the validator speaks: {message}");
        assert!(!finding.help.contains(raw), "{rule}: the validator speaks: {}", finding.help);
    }
    hold_span(finding.span, sources, message);
    finding.related.iter().for_each(|related| hold_span(related.span, sources, &related.message));
    let json = json::report(std::slice::from_ref(finding), sources, json::Summary::default());
    let place = |key: &str| json["findings"][0][key].as_u64().unwrap_or_default();
    assert!(place("line") >= 1 && place("column") >= 1, "{rule}: no place: {json}");
    let (start, end) = ((place("line"), place("column")), (place("end_line"), place("end_column")));
    assert!(start <= end, "{rule}: ends before it begins: {json}");
    // Something is underlined, but where all of the file is meant, at its end, or on a line that is blank.
    let rest = sources
        .get(finding.span.file)
        .and_then(|file| file.text().get(finding.span.start..))
        .unwrap_or_default();
    assert!(
        finding.span.start == 0 || start < end || rest.is_empty() || rest.starts_with(['\r', '\n']),
        "{rule}: underlines nothing: {message}"
    );
}

/// Phrases that a schema validator uses and a person does not.
const VALIDATOR_WORDS: [&str; 8] = [
    "is not valid under any",
    "is not of type",
    "Additional properties",
    "does not match",
    "required property",
    "is not one of",
    "has less than",
    "non-empty",
];

fn hold_span(span: Span, sources: &Sources, message: &str) {
    let file = sources.get(span.file).unwrap_or_else(|| panic!("a span in no file: {message}"));
    let text = file.text();
    assert!(
        span.start <= span.end && span.end <= text.len(),
        "{span:?} is outside {}: {message}",
        file.path()
    );
    assert!(text.get(span.range()).is_some(), "{span:?} cuts a letter of {}: {message}", file.path());
}

/// Compares a text with a file that holds it; with `BLESS=1` in the environment, writes the file.
pub fn hold_to_file(path: &Path, text: &str) -> Result<(), String> {
    if std::env::var_os("BLESS").is_some() {
        fs::write(path, text).unwrap_or_else(|error| panic!("cannot write {}: {error}", path.display()));
        return Ok(());
    }
    let expected = fs::read_to_string(path).unwrap_or_default();
    if expected == text {
        return Ok(());
    }
    Err(format!("{} differs; look at it, and bless it with BLESS=1 if it is right:\n{text}", path.display()))
}
