//! Ten questions to a bundle, answered by a Rust program through `baybook::bundle`.
//!
//! `tests/consumers/agree.py` names a bundle in `BAYBOOK_BUNDLE`, and holds these answers to those of four
//! other languages; without it the bundle is made here, and the answers are held to be there.

mod shared;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use baybook::bundle::compare::ChangeKind;
use baybook::bundle::{Bundle, Spec};
use baybook::emit::bundle::{Withheld, data};
use baybook::quantity::parse_exact;
use serde_json::{Value, json};

fn words(words: &BTreeMap<String, String>) -> String {
    words.iter().map(|(key, word)| format!("{key}={word}")).collect::<Vec<_>>().join(";")
}

fn answers(bundle: &Bundle) -> Value {
    let builds = || bundle.engines.iter().flat_map(|engine| &engine.builds);
    let specs = || builds().flat_map(|build| build.specs.iter().map(move |spec| (build.id.as_str(), spec)));
    let named = |wanted: &dyn Fn(&Spec) -> bool| -> BTreeSet<String> {
        let of = specs().filter(|(_, spec)| wanted(spec));
        of.map(|(build, spec)| format!("{build} {} {}", spec.of, words(&spec.place))).collect()
    };
    let lash = |build: &str, entry: &str| -> BTreeSet<String> {
        let (_, build) = bundle.build(build).expect("there");
        let said = build.of(&bundle.entry(entry).expect("there").id).map(|spec| {
            let window = spec.window.as_ref().expect("a window");
            format!("{} {}", words(&spec.place), window.printed[0].text)
        });
        said.collect()
    };
    let machine = bundle.machines.machines.iter().find(|one| one.id == "tarnhawk-887").expect("there");
    let fitted: BTreeMap<&str, Vec<&str>> = ["TH22-500", "TH22-2500"]
        .into_iter()
        .map(|serial| {
            (serial, machine.builds(2022, Some(serial)).iter().map(|fit| fit.build.as_str()).collect())
        })
        .collect();
    let title =
        |id: &str| bundle.sources.sources.iter().find(|one| one.id == id).map(|one| one.title.clone());
    let read: BTreeSet<String> = specs()
        .filter(|(_, spec)| spec.of == "lash.exhaust")
        .filter_map(|(_, spec)| {
            let title = title(spec.source.id.as_ref()?)?;
            Some(format!("{title}, page {}", spec.source.page.as_ref()?))
        })
        .collect();
    let most = parse_exact("0.00075").expect("a number");
    let gaps: BTreeSet<&str> = specs()
        .filter(|(_, spec)| spec.of == "plug.gap")
        .filter(|(_, spec)| {
            let max = spec.window.as_ref().and_then(|window| window.max.as_ref());
            max.is_some_and(|max| *max.si.exact() <= most)
        })
        .map(|(build, _)| build)
        .collect();
    let unconfirmed = |spec: &Spec| ["read-once", "differs"].contains(&spec.confirmation.state.as_str());
    let tightened: BTreeSet<String> = bundle
        .changes
        .iter()
        .flat_map(|changes| &changes.changes)
        .filter(|one| one.kind == ChangeKind::Tightened)
        .map(|one| {
            let said = |text: &Option<String>| text.clone().expect("said");
            format!("{} {} {} {}", said(&one.engine), said(&one.of), words(&one.place), said(&one.after))
        })
        .collect();
    let counted: BTreeMap<&str, usize> = bundle
        .engines
        .iter()
        .map(|one| (one.id.as_str(), one.builds.iter().map(|build| build.specs.len()).sum()))
        .collect();
    let split: BTreeSet<String> = bundle.ids.now("charging-and-drain").into_iter().collect();
    json!({
        "lash of a build": lash("ox-887~sb-23-11", "lash.exhaust"),
        "build of a serial number": fitted,
        "what a moved id is now": {
            "id": bundle.ids.now("clearance.inlet"),
            "lash": lash("ox-887~sb-21-09", "clearance.inlet"),
        },
        "what a split id is now": split,
        "unconfirmed torques": named(&|spec| spec.of.starts_with("torque.") && unconfirmed(spec)),
        "statements by engine": counted,
        "withheld": named(&|spec| spec.withheld.is_some()),
        "where it was read": read,
        "plug gaps up to 0.75 mm": gaps,
        "limits tightened": tightened,
    })
}

#[test]
fn ten_questions_are_answered() {
    let Some(path) = std::env::var_os("BAYBOOK_BUNDLE") else {
        let examined = shared::examine(shared::read(&shared::tests("../specs")));
        let bundle = data(examined.checked.expect("no errors").model(), Withheld::LeftOut);
        let answers = answers(&bundle);
        for question in ["lash of a build", "where it was read"] {
            assert!(!answers[question].as_array().expect("a list").is_empty(), "{question}");
        }
        assert_eq!(answers["build of a serial number"]["TH22-500"], json!(["ox-887~sb-22-04~sb-23-11"]));
        assert_eq!(answers["build of a serial number"]["TH22-2500"], json!(["ox-887~sb-23-11"]));
        return;
    };
    let path = Path::new(&path);
    let answers = answers(&Bundle::read(path).expect("whole"));
    std::fs::write(std::env::var_os("BAYBOOK_ANSWERS").expect("named"), answers.to_string())
        .expect("written");
}
