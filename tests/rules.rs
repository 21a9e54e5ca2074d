//! Every rule has its page, and what the page says is true: its wrong example is found, its right one is not.
//!
//! The info string of a fenced block says where in the small base of `rule-base/` the example goes:
//!
//! - `toml statement`: appended to the engine file
//! - `toml append=PATH`: appended to a file
//! - `toml file=PATH`: takes the place of a file; with `size=N`, over and over until it has N bytes
//! - `text bytes=PATH`: the same, with `\xB1` for a byte that is no text
//! - `text link=PATH`: a link stands there
//! - `text before=sources`: ids, one a line, that an older release made public
//! - `text remove=PATH`: the file is taken out; `*` takes out all

mod shared;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

use baybook::Examined;
use baybook::check::registry;
use baybook::diag::{Finding, Rule, Severity};
use baybook::load::disk::{Content, LARGEST_FILE};
use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Parser, Tag, TagEnd};

use shared::Base;

/// The engine file that `statement` examples go into.
const ENGINE: &str = "engines/quarrick/engine-a.toml";
/// The headings of a page, in order, after the name of the rule.
const HEADINGS: [&str; 5] = ["What it does", "Why", "Wrong", "Right", "How to fix"];

#[test]
fn the_base_of_the_examples_gives_no_finding() {
    let examined = shared::examine(shared::rule_base());
    assert_eq!(shared::printed(&examined.findings, &examined.sources), "");
}

#[test]
fn every_page_has_its_headings_and_says_in_each_something() {
    for rule in registry::rules() {
        let page = Page::of(rule);
        let title = page.sections.first().map(|one| (one.level, one.heading.as_str()));
        assert_eq!(
            title,
            Some((HeadingLevel::H1, rule.name)),
            "{}: the page is not headed by its name",
            rule.name
        );
        let headings: Vec<_> =
            page.sections.iter().skip(1).map(|one| (one.level, one.heading.as_str())).collect();
        assert_eq!(headings, HEADINGS.map(|one| (HeadingLevel::H2, one)), "{}", rule.name);
        let summary = page.sections.first().map(|one| one.prose.as_str()).unwrap_or_default();
        assert_eq!(
            summary,
            sentence(rule.summary),
            "{}: the page and the rule sum it up differently",
            rule.name
        );
        for section in &page.sections {
            let shows = !section.examples.is_empty();
            assert!(shows || !section.prose.is_empty(), "{}: nothing under {}", rule.name, section.heading);
            assert!(
                shows || !["Wrong", "Right"].contains(&section.heading.as_str()),
                "{}: no example under {}",
                rule.name,
                section.heading
            );
        }
    }
}

#[test]
fn every_wrong_example_is_found_by_its_rule_alone() {
    let mut problems = Vec::new();
    for rule in registry::rules() {
        let examined = shared::examine(Page::of(rule).base("Wrong"));
        let (own, other): (Vec<&Finding>, Vec<_>) =
            examined.findings.iter().partition(|one| one.rule.name == rule.name);
        if own.is_empty() {
            problems.push(format!("{} does not find its wrong example", rule.name));
        }
        let other = other.into_iter().filter(|one| one.severity() != Severity::Note);
        let others = shared::printed(other, &examined.sources);
        if !others.is_empty() {
            problems.push(format!("the wrong example of {} is found by others too:\n{others}", rule.name));
        }
        own.iter().for_each(|finding| shared::hold_to_promises(finding, &examined.sources));
    }
    assert!(problems.is_empty(), "{}", problems.join("\n"));
}

/// Whatever a warning is about, it can be accepted in the file of its engine or in `base.toml`, never in both.
#[test]
fn every_warning_but_that_of_a_lapsed_waiver_can_be_waived_in_exactly_one_place() {
    let mut problems = Vec::new();
    let warnings = registry::rules().into_iter().filter(|rule| rule.severity == Severity::Warning);
    for rule in warnings.filter(|rule| rule.name != "waiver-lapsed") {
        let base = Page::of(rule).base("Wrong");
        let examined = shared::examine(base.clone());
        for finding in examined.findings.iter().filter(|one| one.rule.name == rule.name) {
            let (path, by_value) = waiver_by_value(finding, &examined);
            let by_value = accepts(&base, &path, &by_value, finding);
            let by_text = accepts(&base, "base.toml", &waiver_by_text(finding, &examined), finding);
            if by_value == by_text || by_text != finding.about.is_none() {
                problems.push(format!("{}: by value {by_value}, by text {by_text}", rule.name));
            }
        }
    }
    assert!(problems.is_empty(), "{}", problems.join("\n"));
}

/// A waiver for what a finding underlines.
fn waiver_by_text(finding: &Finding, examined: &Examined) -> String {
    let quoted = |text: &str| toml::Value::String(text.to_owned()).to_string();
    let file = quoted(examined.sources.path(finding.span.file));
    let text = match examined.sources.slice(finding.span).trim_matches('"') {
        "" => String::new(),
        text => format!(", text = {}", quoted(text)),
    };
    waiver(finding, &format!("file = {file}{text}"))
}

/// A waiver for the statement that a finding is about, or for another if it is about none, and the file for it.
fn waiver_by_value(finding: &Finding, examined: &Examined) -> (String, String) {
    let model = examined.checked.as_ref().expect("a warning is no error").model();
    let own = model.engines.values().flat_map(|engine| {
        engine.statements.iter().chain(engine.variants.iter().flat_map(|variant| &variant.statements))
    });
    let mut own = own.filter(|one| finding.about.is_none_or(|about| about == one.span));
    let statement = own.next().expect("it is stated");
    let identity = &statement.identity;
    let said = statement.form.says();
    let on = toml::Table::from_iter([
        ("of".to_owned(), identity.of.as_str().into()),
        ("where".to_owned(), toml::Value::try_from(&identity.place).expect("words")),
        ("when".to_owned(), toml::Value::try_from(&identity.when).expect("words")),
        ("value".to_owned(), (*said.first().expect("it says something")).into()),
    ]);
    let on: Vec<_> = on.iter().map(|(key, value)| format!("{key} = {value}")).collect();
    (examined.sources.path(statement.span.file).to_owned(), waiver(finding, &on.join(", ")))
}

fn waiver(finding: &Finding, on: &str) -> String {
    let rule = finding.rule.name;
    format!("[[waive]]\nrule = \"{rule}\"\non = {{ {on} }}\nbecause = \"It is right\"\nuntil = 2027-06-30\n")
}

/// True if a waiver takes a finding out; if it takes out none of its rule, it is found itself.
fn accepts(base: &Base, path: &str, waiver: &str, finding: &Finding) -> bool {
    let of_rule = |examined: &Examined| -> Vec<_> {
        let own = examined.findings.iter().filter(|one| one.rule.name == finding.rule.name);
        own.map(|one| (one.span, one.message.clone())).collect()
    };
    let before = of_rule(&shared::examine(base.clone()));
    let mut base = base.clone();
    append(&mut base, path, waiver);
    let examined = shared::examine(base);
    let after = of_rule(&examined);
    let idle = examined.findings.iter().any(|one| one.rule.name.starts_with("waiver-"));
    let all = shared::printed(&examined.findings, &examined.sources);
    assert_eq!(before == after, idle, "{}\n{waiver}\n{all}", finding.rule.name);
    !after.contains(&(finding.span, finding.message.clone()))
}

#[test]
fn every_right_example_gives_no_finding() {
    let mut problems = Vec::new();
    for rule in registry::rules() {
        let examined = shared::examine(Page::of(rule).base("Right"));
        if !examined.findings.is_empty() {
            let found = shared::printed(&examined.findings, &examined.sources);
            problems.push(format!("the right example of {} is found:\n{found}", rule.name));
        }
    }
    assert!(problems.is_empty(), "{}", problems.join("\n"));
}

#[test]
fn the_findings_of_every_wrong_example_are_printed_as_kept() {
    let kept = rule_files();
    let mut differing = Vec::new();
    for rule in registry::rules() {
        let Some(path) = kept.get(rule.name).and_then(|files| files.get("txt")) else { continue };
        let examined = shared::examine(Page::of(rule).base("Wrong"));
        let own = examined.findings.iter().filter(|one| one.rule.name == rule.name);
        let text = shared::printed(own, &examined.sources).trim_end().to_owned() + "\n";
        differing.extend(shared::hold_to_file(path, &text).err());
    }
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}

#[test]
fn a_rule_is_three_files_and_a_place_in_the_registry() {
    let rules: BTreeSet<String> = registry::rules().iter().map(|rule| rule.name.to_owned()).collect();
    assert_eq!(rules.len(), registry::rules().len(), "two rules have one name");
    let files = rule_files();
    let named: BTreeSet<String> = files.keys().cloned().collect();
    assert_eq!(named, rules, "files of rules on the left, the registry on the right");
    for (name, kinds) in files {
        assert_eq!(kinds.into_keys().collect::<Vec<_>>(), ["md", "rs", "txt"], "{name}");
    }
    for rule in registry::rules() {
        assert_eq!(registry::find(rule.name).map(|found| found.name), Some(rule.name));
    }
}

#[test]
fn an_example_goes_where_its_info_string_says() {
    let mut base = Base::new();
    let text = |base: &Base, path: &str| match base.get(path) {
        Some(Content::Bytes(bytes)) => bytes.clone(),
        other => panic!("{path}: {other:?}"),
    };
    apply(&mut base, "toml file=a.toml", "one\n");
    apply(&mut base, "toml append=a.toml", "two\n");
    assert_eq!(text(&base, "a.toml"), b"one\n\ntwo\n");
    apply(&mut base, "text bytes=b.toml", "\\xB1 \\ x\n");
    assert_eq!(text(&base, "b.toml"), b"\xB1 \\ x\n");
    apply(&mut base, "toml file=c.toml size=5", "ab\n");
    assert_eq!(text(&base, "c.toml"), b"ab\nab\n");
    apply(&mut base, "text remove=a.toml", "");
    apply(&mut base, "text link=d.toml", "elsewhere");
    assert_eq!(base.keys().collect::<Vec<_>>(), ["b.toml", "c.toml", "d.toml"]);
    apply(&mut base, "text remove=*", "");
    assert!(base.is_empty());
}

/// The files in every `rules` folder of the source, by rule and ending.
fn rule_files() -> BTreeMap<String, BTreeMap<String, PathBuf>> {
    let mut all: BTreeMap<String, BTreeMap<String, PathBuf>> = BTreeMap::new();
    for phase in ["load", "resolve", "check"] {
        let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src").join(phase).join("rules");
        for entry in fs::read_dir(&folder).expect("every phase has rules") {
            let path = entry.expect("the folder reads").path();
            let part =
                |part: Option<&std::ffi::OsStr>| part.unwrap_or_default().to_string_lossy().into_owned();
            let (stem, ending) = (part(path.file_stem()), part(path.extension()));
            if stem != "mod" {
                all.entry(stem.replace('_', "-")).or_default().insert(ending, path);
            }
        }
    }
    all
}

/// A rule's page, taken apart.
struct Page {
    sections: Vec<Section>,
}

/// A heading and what stands under it.
struct Section {
    level: HeadingLevel,
    heading: String,
    prose: String,
    /// Info string and text of each fenced block.
    examples: Vec<(String, String)>,
}

impl Page {
    fn of(rule: &Rule) -> Self {
        let mut sections: Vec<Section> = Vec::new();
        let (mut in_heading, mut in_block) = (false, false);
        for event in Parser::new(rule.page) {
            match event {
                Event::Start(Tag::Heading { level, .. }) => {
                    sections.push(Section {
                        level,
                        heading: String::new(),
                        prose: String::new(),
                        examples: Vec::new(),
                    });
                    in_heading = true;
                }
                Event::End(TagEnd::Heading(_)) => in_heading = false,
                Event::End(TagEnd::CodeBlock) => in_block = false,
                event => {
                    let Some(section) = sections.last_mut() else {
                        panic!("{}: the page does not begin with a heading", rule.name)
                    };
                    match event {
                        Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => {
                            section.examples.push((info.to_string(), String::new()));
                            in_block = true;
                        }
                        Event::Text(text) if in_block => {
                            if let Some((_, example)) = section.examples.last_mut() {
                                example.push_str(&text);
                            }
                        }
                        Event::Text(text) | Event::Code(text) if in_heading => {
                            section.heading.push_str(&text);
                        }
                        Event::Text(text) => section.prose.push_str(&text),
                        Event::Code(text) => section.prose.push_str(&format!("`{text}`")),
                        Event::SoftBreak => section.prose.push(' '),
                        _ => {}
                    }
                }
            }
        }
        Self { sections }
    }

    /// The small base with the examples under a heading put in.
    fn base(&self, heading: &str) -> Base {
        let mut base = shared::rule_base();
        let section = self.sections.iter().find(|one| one.heading == heading);
        for (info, text) in section.into_iter().flat_map(|one| &one.examples) {
            apply(&mut base, info, text);
        }
        base
    }
}

/// Puts one example where its info string says.
fn apply(base: &mut Base, info: &str, text: &str) {
    let words: BTreeMap<&str, &str> =
        info.split_whitespace().skip(1).map(|word| word.split_once('=').unwrap_or((word, ""))).collect();
    let size: usize = words.get("size").map_or(0, |size| size.parse().expect("a size is a number"));
    let places: Vec<_> = words.iter().filter(|(word, _)| **word != "size").collect();
    let [(word, path)] = places.as_slice() else { panic!("`{info}` does not say where the example goes") };
    match **word {
        "statement" => append(base, ENGINE, text),
        "append" => append(base, path, text),
        "file" => put(base, path, text.repeat(size.div_ceil(text.len()).max(1)).into_bytes()),
        "bytes" => put(base, path, unescaped(text)),
        "remove" if **path == "*" => base.clear(),
        "remove" => assert!(base.remove(**path).is_some(), "`{info}`: there is no such file"),
        "before" => put(base, shared::BEFORE, text.as_bytes().to_vec()),
        "link" => _ = base.insert((**path).to_owned(), Content::Link),
        _ => panic!("`{info}` is not known"),
    }
}

/// As the disk is read: a file over the bound comes by its size alone.
fn put(base: &mut Base, path: &str, bytes: Vec<u8>) {
    let size = u64::try_from(bytes.len()).expect("a test's file is small enough");
    let content = if size > LARGEST_FILE { Content::TooLarge(size) } else { Content::Bytes(bytes) };
    base.insert(path.to_owned(), content);
}

fn append(base: &mut Base, path: &str, text: &str) {
    let Some(Content::Bytes(bytes)) = base.get_mut(path) else { panic!("{path}: nothing to append to") };
    bytes.extend_from_slice(b"\n");
    bytes.extend_from_slice(text.as_bytes());
}

/// `\xB1` as that byte.
fn unescaped(text: &str) -> Vec<u8> {
    let mut parts = text.split("\\x");
    let mut bytes = parts.next().unwrap_or_default().as_bytes().to_vec();
    for part in parts {
        let (code, rest) = part.split_at(2);
        bytes.push(u8::from_str_radix(code, 16).expect("two hexadecimal digits follow"));
        bytes.extend_from_slice(rest.as_bytes());
    }
    bytes
}

/// A summary as a sentence.
fn sentence(summary: &str) -> String {
    let (first, rest) = summary.split_at(summary.chars().next().map_or(0, char::len_utf8));
    format!("{}{rest}.", first.to_uppercase())
}
