//! The README is true: its commands, its finding, its examples, its links.
//!
//! `BLESS=1 cargo test --test readme` writes the finding as it is printed now.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

mod shared;
use shared::copy;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn readme() -> String {
    fs::read_to_string(root().join("README.md")).expect("there")
}

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("the binary runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// The fenced blocks with an info string.
fn blocks(readme: &str, info: &str) -> Vec<String> {
    let mut all = Vec::new();
    let mut open: Option<(bool, String)> = None;
    for line in readme.lines() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(found)) => open = Some((found == info, String::new())),
            (Some(_), Some(_)) => {
                all.extend(open.take().filter(|(wanted, _)| *wanted).map(|(_, block)| block));
            }
            (Some((_, block)), None) => {
                block.push_str(line);
                block.push('\n');
            }
            (None, None) => {}
        }
    }
    all
}

#[test]
fn the_job_comes_first_and_then_the_two_commands() {
    let readme = readme();
    let first = blocks(&readme, "").into_iter().next().expect("a block");
    assert_eq!(first, "cargo run --release -- compile\ntests/run\n");
    let before = &readme[..readme.find("```").expect("a fence")];
    assert_eq!(before.trim().split("\n\n").count(), 2, "a heading and one paragraph");
    assert!(root().join("tests/run").is_file());
    let ci = fs::read_to_string(root().join(".ci/run")).expect("there");
    assert!(ci.contains("../tests/run"));
}

#[test]
fn the_finding_is_printed_as_shown() {
    let dir = tempfile::tempdir().expect("made");
    let base = dir.path().join("specs");
    copy(&root().join("specs"), &base);
    let engine = base.join("engines/oxbarrow/ox-887.toml");
    let typed = fs::read_to_string(&engine).expect("there");
    fs::write(&engine, typed.replacen("0.23 ± 0.02 mm", "0.28 ± 0.02 mm", 1)).expect("written");
    let printed = text(&baybook(&["check", base.to_str().expect("text")]).stdout);
    let finding = printed.split("\n\n").next().expect("a finding").trim_end().to_owned() + "\n";
    let readme = readme();
    let shown = blocks(&readme, "text").into_iter().next().expect("a block");
    if std::env::var_os("BLESS").is_some() {
        fs::write(root().join("README.md"), readme.replacen(&shown, &finding, 1)).expect("written");
        return;
    }
    assert_eq!(shown, finding, "run with BLESS=1");
}

#[test]
fn every_command_is_listed() {
    let help = text(&baybook(&["--help"]).stdout);
    let commands = help.split("Commands:").nth(1).expect("a list").split("Options:").next().expect("its end");
    let readme = readme();
    // A description that wraps is indented further than a name.
    let listed =
        commands.lines().filter_map(|line| line.strip_prefix("  ")).filter(|line| !line.starts_with(' '));
    let names = listed.filter_map(|line| line.split_whitespace().next());
    let names: Vec<_> = names.filter(|name| *name != "help").collect();
    assert!(names.len() >= 6, "{names:?}");
    for name in names {
        assert!(readme.contains(&format!("| `baybook {name} ")), "`{name}` is not in the table");
    }
}

#[test]
fn the_statements_of_the_example_read_as_statements() {
    use baybook::diag::Sink;
    use baybook::load::disk::{Content, Found};
    let examples = blocks(&readme(), "toml");
    assert!(!examples.is_empty());
    for example in examples {
        let of_base = example.starts_with("# base.toml");
        let (path, head) = if of_base {
            let head =
                "release = \"1\"\ndate = 2026-11-25\ninvented = true\nlicence = \"X\"\nnotice = \"X\"\n";
            ("base.toml", head)
        } else {
            ("engines/x/x.toml", "id = \"x\"\nmaker = \"x\"\n")
        };
        let file = format!("title = \"X\"\n{head}{example}");
        let found = Found { path: path.into(), content: Content::Bytes(file.into_bytes()) };
        let mut sink = Sink::default();
        let loaded = baybook::load::load(vec![found], &mut sink);
        let findings = sink.into_sorted(&loaded.sources);
        let wrong: Vec<_> =
            findings.iter().filter(|one| one.rule.name != "no-base-file").map(|one| &one.message).collect();
        assert!(wrong.is_empty(), "{wrong:?}");
    }
}

#[test]
fn every_link_leads_somewhere() {
    for name in ["README.md", "DEVELOPERS.md"] {
        let page = fs::read_to_string(root().join(name)).expect("there");
        let targets =
            page.match_indices("](").map(|(at, _)| page[at + 2..].split(')').next().expect("its end"));
        let files: Vec<PathBuf> =
            targets.filter(|target| !target.contains(':')).map(|target| root().join(target)).collect();
        assert!(files.iter().all(|file| file.exists()), "{name}: {files:?}");
    }
}
