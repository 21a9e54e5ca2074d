//! Whole bases with what is expected of them: what `check` prints, for people and for programs.
//!
//! A case is a folder `cases/<topic>/<name>/` with a spec base in `base/`, or in `patch/` the files that
//! are put over the small base of `rule-base/`. `expected.txt` and `expected.json` hold what is found;
//! `BLESS=1` writes them. What a case is there to show is asserted here as well, so that no blessing can
//! take it away.

mod shared;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use baybook::Examined;
use baybook::diag::{Finding, Severity, human, json};
use baybook::load::disk::Content;

use shared::Base;

#[test]
fn every_case_is_found_as_expected() {
    let mut differing = Vec::new();
    for folder in cases() {
        let examined = examined(&folder);
        examined.findings.iter().for_each(|finding| shared::hold_to_promises(finding, &examined.sources));
        let (text, json) = (as_text(&examined), as_json(&examined));
        differing.extend(shared::hold_to_file(&folder.join("expected.txt"), &text).err());
        differing.extend(shared::hold_to_file(&folder.join("expected.json"), &json).err());
    }
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}

#[test]
fn what_is_expected_is_what_the_command_prints() {
    let folder = shared::tests("cases/many/twenty-mistakes");
    let whole = tempfile::tempdir().expect("a temporary directory");
    for (path, content) in base(&folder) {
        let Content::Bytes(bytes) = content else { panic!("{path} cannot be written") };
        let path = whole.path().join(path);
        fs::create_dir_all(path.parent().expect("it is in the directory")).expect("a new directory");
        fs::write(path, bytes).expect("a new file");
    }
    for (format, file) in [("human", "expected.txt"), ("json", "expected.json")] {
        let mut command = Command::new(env!("CARGO_BIN_EXE_baybook"));
        let output =
            command.arg("check").arg(whole.path()).args(["--format", format]).output().expect("it runs");
        assert_eq!(output.status.code(), Some(1));
        let expected = fs::read_to_string(folder.join(file)).expect("it is kept");
        assert_eq!(String::from_utf8_lossy(&output.stdout), expected);
    }
}

#[test]
fn twenty_mistakes_in_one_engine_file_give_twenty_findings() {
    let examined = examined(&shared::tests("cases/many/twenty-mistakes"));
    assert_eq!(examined.findings.len(), 20, "{}", as_text(&examined));
    let rules: BTreeSet<_> = examined.findings.iter().map(|one| one.rule.name).collect();
    assert!(rules.len() >= 18, "only of the rules {rules:?}");
    let marked =
        marked_lines(&shared::tests("cases/many/twenty-mistakes/patch/engines/quarrick/engine-a.toml"));
    let found: Vec<_> = examined.findings.iter().map(|one| place(one, &examined).0).collect();
    assert_eq!(found, marked, "on the left the lines that are found, on the right those marked `# wrong`");
    for finding in &examined.findings {
        assert_eq!(examined.sources.path(finding.span.file), "engines/quarrick/engine-a.toml");
        assert!(finding.severity() <= Severity::Warning);
    }
}

#[test]
fn a_broken_file_gives_one_finding_and_what_depends_on_it_none() {
    let files = [
        ("one-broken-file", "sources.toml"),
        ("broken-catalogue", "catalogue/top-end.toml"),
        ("broken-machines", "machines/quarrick.toml"),
        ("broken-engine", "engines/quarrick/engine-a.toml"),
    ];
    for (name, file) in files {
        let examined = examined(&shared::tests(&format!("cases/echo/{name}")));
        let found: Vec<_> =
            examined.findings.iter().map(|one| examined.sources.path(one.span.file)).collect();
        assert_eq!(found, [file], "{}", as_text(&examined));
    }
}

#[test]
fn where_everything_is_broken_every_file_gives_one_finding() {
    let examined = examined(&shared::tests("cases/echo/everything-broken"));
    let found: BTreeSet<_> =
        examined.findings.iter().map(|one| examined.sources.path(one.span.file)).collect();
    assert_eq!(found.len(), examined.findings.len(), "{}", as_text(&examined));
    assert_eq!(found.len(), examined.sources.iter().count());
}

#[test]
fn neither_line_ends_nor_a_byte_order_mark_move_a_finding() {
    let plain = shared::tests("cases/text/line-ends");
    let first = examined(&plain);
    let expected = places(&first);
    assert!(!expected.is_empty());
    let mut carriage = base(&plain);
    let mut marked = base(&plain);
    for (from, to) in [(&mut carriage, Change::LineEnds), (&mut marked, Change::Mark)] {
        for (path, content) in from.iter_mut() {
            let Content::Bytes(bytes) = content else { panic!("{path} is no file") };
            if to.is_for(path) {
                to.apply(bytes);
            }
        }
    }
    assert_eq!(places(&shared::examine(carriage)), expected, "with CRLF");
    assert_eq!(places(&shared::examine(marked)), expected, "with a byte order mark");
}

/// A change to a file that people do not see.
#[derive(Clone, Copy)]
enum Change {
    LineEnds,
    Mark,
}

impl Change {
    /// A procedure begins with `+++`, not with a mark.
    fn is_for(self, path: &str) -> bool {
        matches!(self, Self::LineEnds) || path.ends_with(".toml")
    }

    fn apply(self, bytes: &mut Vec<u8>) {
        let text = String::from_utf8(std::mem::take(bytes)).expect("text");
        assert!(!text.contains('\r'), "the case is kept with plain line ends");
        *bytes = match self {
            Self::LineEnds => text.replace('\n', "\r\n").into_bytes(),
            Self::Mark => format!("\u{feff}{text}").into_bytes(),
        };
    }
}

#[test]
fn a_clean_base_gives_no_finding_at_all() {
    for name in ["smallest-base", "all-kinds-of-files", "every-key"] {
        let examined = examined(&shared::tests(&format!("cases/clean/{name}")));
        assert!(examined.findings.is_empty(), "{}", as_text(&examined));
        assert!(examined.checked.is_some());
    }
}

/// Rule, line and column, and what is underlined.
fn places(examined: &Examined) -> Vec<(&str, (usize, usize), &str)> {
    let all = examined.findings.iter();
    all.map(|one| (one.rule.name, place(one, examined), examined.sources.slice(one.span).trim_end()))
        .collect()
}

fn place(finding: &Finding, examined: &Examined) -> (usize, usize) {
    let file = examined.sources.get(finding.span.file).expect("a finding is in a file");
    let place = file.place(finding.span.start);
    (place.line, place.column)
}

/// Lines that end in `# wrong`, once for each mistake: `# wrong, wrong` has two.
fn marked_lines(path: &Path) -> Vec<usize> {
    let text = fs::read_to_string(path).expect("the case has an engine");
    let marks = text.lines().zip(1..).map(|(line, number)| (line.matches("wrong").count(), number));
    marks.flat_map(|(count, number)| std::iter::repeat_n(number, count)).collect()
}

/// Every case, in order.
fn cases() -> Vec<PathBuf> {
    let folders = |path: &Path| {
        let all = fs::read_dir(path).expect("a folder of cases").map(|entry| entry.expect("it reads").path());
        let mut all: Vec<_> = all.filter(|path| path.is_dir()).collect();
        all.sort();
        all
    };
    let all: Vec<_> = folders(&shared::tests("cases")).iter().flat_map(|topic| folders(topic)).collect();
    assert!(all.len() > 20, "cases are missing");
    all
}

/// The base of a case.
fn base(folder: &Path) -> Base {
    let whole = folder.join("base");
    if whole.is_dir() {
        return shared::read(&whole);
    }
    let mut base = shared::rule_base();
    base.extend(shared::read(&folder.join("patch")));
    base
}

fn examined(folder: &Path) -> Examined {
    shared::examine(base(folder))
}

/// The findings that are shown without being asked for.
fn shown(examined: &Examined) -> Vec<Finding> {
    examined.findings.iter().filter(|one| one.severity() != Severity::Note).cloned().collect()
}

fn as_text(examined: &Examined) -> String {
    let shown = shown(examined);
    shared::printed(&shown, &examined.sources) + &human::summary(&shown, examined.summary) + "\n"
}

fn as_json(examined: &Examined) -> String {
    let report = json::report(&shown(examined), &examined.sources, examined.summary);
    serde_json::to_string_pretty(&report).expect("JSON can be written") + "\n"
}
