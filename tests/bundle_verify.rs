//! `verify`: a whole bundle is whole; a flipped byte, a missing file, one too many, or the wrong key is not.

mod shared;

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Output};
use std::sync::LazyLock;

use baybook::bundle::hash::{SIGNATURE, SUMS};
use baybook::bundle::sign::{Signature, sign};
use baybook::bundle::verify::{Verified, verify_files};
use baybook::emit::{bundle, disk};
use serde_json::Value;

type Files = BTreeMap<String, Vec<u8>>;

/// The bundle of the small base, by path in it.
static FILES: LazyLock<Files> = LazyLock::new(|| {
    let examined = shared::examine(shared::rule_base());
    let tree = bundle::bundle(examined.checked.expect("no errors").model()).expect("made").tree;
    tree.into_iter().map(|(path, bytes)| (path.replacen("bundle/", "", 1), bytes)).collect()
});

fn broken(change: impl FnOnce(&mut Files)) -> Verified {
    let mut files = FILES.clone();
    change(&mut files);
    verify_files(&files, None)
}

fn named(verified: &Verified) -> Vec<&str> {
    verified.problems.iter().map(|one| one.file.as_str()).collect()
}

#[test]
fn what_was_written_is_whole() {
    let verified = verify_files(&FILES, None);
    assert!(verified.whole, "{:?}", verified.problems);
    assert_eq!((verified.files, verified.signature), (FILES.len(), Signature::None));
}

#[test]
fn a_flipped_byte_anywhere_is_refused_and_its_file_named() {
    for (path, bytes) in FILES.iter() {
        // The first, the last, and some between; every bit takes its turn.
        let places = [0, bytes.len() / 2, bytes.len() - 1];
        for (turn, at) in places.into_iter().enumerate() {
            let verified = broken(|files| files.get_mut(path).expect("there")[at] ^= 1 << (turn % 8));
            assert!(named(&verified).contains(&path.as_str()), "{path} at {at}: {:?}", verified.problems);
        }
    }
    let sums = FILES[SUMS].len();
    for at in (0..sums).step_by(61) {
        let verified = broken(|files| files.get_mut(SUMS).expect("there")[at] ^= 1);
        assert!(named(&verified).contains(&SUMS), "{SUMS} at {at}: {:?}", verified.problems);
    }
}

#[test]
fn a_missing_file_and_one_too_many_are_named() {
    for path in FILES.keys() {
        let verified = broken(|files| _ = files.remove(path));
        assert!(named(&verified).contains(&path.as_str()), "{path}: {:?}", verified.problems);
    }
    let verified = broken(|files| _ = files.insert("engines/extra.json".into(), b"{}".to_vec()));
    assert_eq!(named(&verified), ["engines/extra.json"]);
}

#[test]
fn a_list_that_was_written_anew_does_not_hide_a_change() {
    let verified = broken(|files| {
        files.get_mut("sources.json").expect("there").push(b'\n');
        files.remove(SUMS);
        let sums = baybook::bundle::hash::sums(files);
        files.insert(SUMS.into(), sums.into_bytes());
    });
    assert_eq!(named(&verified), ["bundle.json"], "the content hash is another");
}

#[test]
fn a_signature_is_good_by_its_own_key_and_bad_by_any_other() {
    let pair = || minisign::KeyPair::generate_unencrypted_keypair().expect("made");
    let (ours, other) = (pair(), pair());
    let text = |pair: &minisign::KeyPair| pair.pk.to_box().expect("boxed").into_string();
    let secret = ours.sk.to_box(None).expect("boxed").into_string();
    let mut files = FILES.clone();
    let signature = sign(&files[SUMS], &secret, "2026.11").expect("signed");
    assert!(signature.contains("trusted comment: release 2026.11"));
    files.insert(SIGNATURE.into(), signature.into_bytes());
    let by = |files: &Files, key: &str| verify_files(files, Some(key)).signature;
    assert!(verify_files(&files, Some(&text(&ours))).whole);
    assert_eq!(by(&files, &ours.pk.to_base64()), Signature::Good, "the bare line of a key does too");
    assert_eq!(by(&files, &text(&other)), Signature::Bad);
    assert!(!verify_files(&files, Some(&text(&other))).whole);
    assert_eq!(by(&files, "no key"), Signature::NoKey);
    assert_eq!(by(&FILES, &text(&ours)), Signature::Missing);
    let sums = FILES[SUMS].len();
    for at in [0, sums / 2, sums - 1] {
        let mut forged = files.clone();
        forged.get_mut(SUMS).expect("there")[at] ^= 1;
        assert_eq!(by(&forged, &text(&ours)), Signature::Bad);
    }
    assert!(sign(b"", "no key", "1").is_err());
}

fn baybook(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baybook")).args(arguments).output().expect("it runs")
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).expect("JSON")
}

#[test]
fn the_commands_answer_with_their_statuses() {
    let dir = tempfile::tempdir().expect("a directory");
    let path = |name: &str| dir.path().join(name).to_string_lossy().into_owned();
    let keys = minisign::KeyPair::generate_unencrypted_keypair().expect("made");
    std::fs::write(path("shop.key"), keys.sk.to_box(None).expect("boxed").into_string()).expect("written");
    std::fs::write(path("shop.pub"), keys.pk.to_box().expect("boxed").into_string()).expect("written");
    let base = shared::tests("rule-base").to_string_lossy().into_owned();
    let out = path("public");
    let compiled = baybook(&["compile", &base, "--out", &out, "--sign", &path("shop.key")]);
    assert!(compiled.status.success(), "{}", String::from_utf8_lossy(&compiled.stderr));

    let good = baybook(&["verify", &out, "--key", &path("shop.pub"), "--format", "json"]);
    assert_eq!((good.status.code(), &json(&good)["signature"]), (Some(0), &"good".into()));
    assert_eq!(baybook(&["verify", &out, "--key", &path("nowhere.pub")]).status.code(), Some(2));
    let nowhere = baybook(&["verify", &path("nowhere"), "--format", "json"]);
    assert_eq!(nowhere.status.code(), Some(2));
    assert!(json(&nowhere)["error"]["message"].is_string());

    let same = baybook(&["compare", &base, &out, "--format", "json"]);
    assert_eq!(json(&same), serde_json::json!({ "changes": [], "step": "patch" }));
    let hazards = Path::new(&out).join("bundle/hazards.json");
    let text = std::fs::read_to_string(&hazards).expect("there");
    // A file of its own: the writer may have linked it to another tree.
    std::fs::remove_file(&hazards).expect("removed");
    std::fs::write(&hazards, text.replace("CAUTION", "WARNING")).expect("written");
    let flipped = baybook(&["verify", &out]);
    assert_eq!(flipped.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&flipped.stdout).contains("hazards.json"));
    let raised = baybook(&["compare", &base, &out, "--refuse", "limits", "--format", "json"]);
    assert_eq!((raised.status.code(), &json(&raised)["step"]), (Some(0), &"minor".into()));
    std::fs::write(&hazards, "{").expect("written");
    let unreadable = baybook(&["compare", &base, &out, "--format", "json"]);
    assert_eq!(unreadable.status.code(), Some(1));
    assert!(json(&unreadable)["error"]["message"].as_str().expect("a text").contains("hazards.json"));
}

#[test]
fn changed_limits_are_refused_where_that_is_asked() {
    let dir = tempfile::tempdir().expect("a directory");
    let mut tree = BTreeMap::new();
    for (path, content) in shared::rule_base() {
        let baybook::load::disk::Content::Bytes(bytes) = content else { continue };
        let text = String::from_utf8(bytes).expect("UTF-8");
        tree.insert(path, text.replace("[\"0.15..0.25 mm\"]", "[\"0.16..0.24 mm\"]").into_bytes());
    }
    // Anything that is written here is a base; the marker lets it be written by the one writer.
    tree.insert("bundle/bundle.json".to_owned(), Vec::new());
    let edited = dir.path().join("specs");
    disk::write(&tree, &edited).expect("written");
    std::fs::remove_dir_all(edited.join("bundle")).expect("removed");
    let base = shared::tests("rule-base").to_string_lossy().into_owned();
    let edited = edited.to_string_lossy().into_owned();
    let refused = baybook(&["compare", &base, &edited, "--refuse", "limits", "--format", "json"]);
    assert_eq!(refused.status.code(), Some(1), "{}", String::from_utf8_lossy(&refused.stdout));
    assert!(
        json(&refused)["changes"].as_array().expect("a list").iter().any(|one| one["kind"] == "tightened")
    );
    assert_eq!(baybook(&["compare", &base, &edited]).status.code(), Some(0));
}
