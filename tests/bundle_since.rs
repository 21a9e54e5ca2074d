//! `--since OLD`: what changed stands on its sheet and in the bundle, and no public id vanishes silently.

mod shared;

use std::path::Path;
use std::process::{Command, Output};

use baybook::bundle::Bundle;
use baybook::emit;
use baybook::emit::bundle::{Withheld, data};
use baybook::load::disk::Content;
use shared::{Base, examine, rule_base};

const ENGINE: &str = "engines/quarrick/engine-a.toml";

fn old() -> Bundle {
    data(examine(rule_base()).checked.expect("no errors").model(), Withheld::LeftOut)
}

fn text(base: &Base, path: &str) -> String {
    let Content::Bytes(bytes) = &base[path] else { panic!("{path} is a file") };
    String::from_utf8(bytes.clone()).expect("UTF-8")
}

fn put(base: &mut Base, path: &str, text: &str) {
    base.insert(path.to_owned(), Content::Bytes(text.as_bytes().to_vec()));
}

/// The page of a tree.
fn page(base: Base, path: &str) -> Option<String> {
    let checked = examine(base).checked.expect("no errors");
    let tree = emit::compile_since(&checked, Some(&old())).expect("it is made");
    tree.get(path).map(|bytes| String::from_utf8(bytes.clone()).expect("UTF-8"))
}

#[test]
fn changes_stand_on_their_sheet_and_in_the_bundle() {
    let mut base = rule_base();
    let tighter = text(&base, ENGINE).replace("0.15..0.25 mm", "0.16..0.24 mm");
    put(&mut base, ENGINE, &tighter);
    let sheet = page(base, "changes.html").expect("it is written");
    for said in ["Tightened", "0.15..0.25 mm", "0.16..0.24 mm", "major", "Engine A"] {
        // The sheet holds a number to its unit with a space that does not break.
        assert!(sheet.replace('\u{a0}', " ").contains(said), "no {said}:\n{sheet}");
    }
    let mut base = rule_base();
    put(&mut base, ENGINE, &tighter);
    let changes = page(base, "bundle/changes.json").expect("it is written");
    assert!(changes.contains("\"kind\": \"tightened\"") && changes.contains("\"step\": \"major\""));
    let home = page(rule_base(), "index.html").expect("it is written");
    assert!(home.contains("href=\"changes.html\""));
    assert!(page(rule_base(), "changes.html").expect("it is written").contains("is as it was"));
    let without = emit::compile(&examine(rule_base()).checked.expect("no errors")).expect("it is made");
    assert!(!without.contains_key("changes.html") && !without.contains_key("bundle/changes.json"));
}

#[test]
fn the_first_page_warns_of_recalled_values() {
    let mut base = rule_base();
    let recall = "[[recall]]\nengine = \"engine-a\"\nof = \"lash.exhaust\"\nwhen = { engine = \"cold\" }\n\
        value = \"0.51..0.52 mm\"\nreleases = [\"2026.04\"]\nbecause = \"Two <b>digits were swapped\"\n";
    put(&mut base, "ids.toml", recall);
    let home = page(base, "index.html").expect("it is written");
    for said in ["Recalled", "0.51..0.52", "2026.04", "Two &lt;b&gt;digits were swapped"] {
        assert!(home.contains(said), "no {said}");
    }
}

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("it runs")
}

#[test]
fn a_public_id_that_vanishes_is_an_error_until_it_is_told() {
    let dir = tempfile::tempdir().expect("a directory");
    let specs = dir.path().join("specs");
    let mut base = rule_base();
    let sources = text(&base, "sources.toml");
    put(
        &mut base,
        "sources.toml",
        &format!("{sources}\n[[source]]\nid = \"manual-z\"\ntitle = \"Old manual\"\n"),
    );
    write(&base, &specs);
    let now = shared::tests("rule-base").to_string_lossy().into_owned();
    let (before, out) =
        (specs.to_string_lossy().into_owned(), dir.path().join("public").to_string_lossy().into_owned());
    let checked = baybook(&["check", &now, "--since", &before, "--format", "json"]);
    assert_eq!(checked.status.code(), Some(1));
    let said = String::from_utf8_lossy(&checked.stdout).into_owned();
    assert!(said.contains("id-vanished") && said.contains("manual-z"), "{said}");
    assert_eq!(baybook(&["compile", &now, "--since", &before, "--out", &out]).status.code(), Some(1));
    assert!(!Path::new(&out).exists(), "nothing is written");
    // The other way round nothing vanishes.
    assert_eq!(baybook(&["compile", &before, "--since", &now, "--out", &out]).status.code(), Some(0));
    assert!(Path::new(&out).join("changes.html").exists());
    assert_eq!(baybook(&["compile", &before, "--since", &out, "--out", &out]).status.code(), Some(0));
    assert_eq!(
        baybook(&["check", &now, "--since", &dir.path().join("none").to_string_lossy()]).status.code(),
        Some(2)
    );
}

#[test]
fn what_notes_hold_on_to_inside_a_guide_or_a_set_of_codes_does_not_vanish_silently() {
    let base = shared::read(&shared::tests("cases/clean/every-key/base"));
    let before =
        data(examine(base.clone()).checked.expect("no errors").model(), Withheld::LeftOut).public_ids();
    let vanished = |base: Base| -> Vec<String> {
        let mut base = base;
        put(&mut base, shared::BEFORE, &before.iter().fold(String::new(), |all, id| format!("{all}{id}\n")));
        let all = examine(base).findings;
        let all = all.iter().filter(|one| one.rule.name == "id-vanished");
        all.map(|one| one.message.split('`').nth(1).unwrap_or_default().to_owned()).collect()
    };
    assert_eq!(vanished(base.clone()), Vec::<String>::new());
    for (path, from, to, gone) in [
        ("codes/quarrick-blink.toml", "id = \"31\"", "id = \"32\"", "quarrick-blink/31"),
        (
            "complaints/loses-charge.toml",
            "id = \"running-volts\"",
            "id = \"volts\"",
            "loses-charge/running-volts",
        ),
    ] {
        let mut edited = base.clone();
        let changed = text(&base, path).replace(from, to);
        put(&mut edited, path, &changed);
        assert_eq!(vanished(edited), [gone]);
    }
    // What went long ago is still told of.
    let mut without = base.clone();
    put(&mut without, "ids.toml", "");
    let retired = text(&base, "ids.toml").matches("[[retired]]").count();
    assert!(retired > 0);
    assert_eq!(vanished(without).len(), retired);
    // Parts of a guide that is gone are told of with it.
    let mut whole = base;
    whole.remove("codes/quarrick-blink.toml");
    assert_eq!(vanished(whole), ["quarrick-blink"]);
}

fn write(base: &Base, folder: &Path) {
    for path in base.keys() {
        let to = folder.join(path);
        std::fs::create_dir_all(to.parent().expect("it has one")).expect("made");
        std::fs::write(to, text(base, path)).expect("written");
    }
}
