//! `verify`: a whole bundle is whole; a flipped byte, a missing file, one too many, or the wrong key is not.

mod shared;

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Output};
use std::sync::LazyLock;

use baybook::bundle::hash::{SIGNATURE, SUMS};
use baybook::bundle::sign::{Signature, SigningKey};
use baybook::bundle::verify::{Verified, verify_files};
use baybook::emit::{bundle, disk};
use serde_json::Value;

type Files = BTreeMap<String, Vec<u8>>;

/// The bundle of the small base, by path in it.
static FILES: LazyLock<Files> = LazyLock::new(|| made(None));

/// The same, signed by a key if there is one.
fn made(key: Option<&SigningKey>) -> Files {
    let examined = shared::examine(shared::rule_base());
    let mut tree = bundle::bundle(examined.checked.expect("no errors").model()).expect("made").tree;
    if let Some(key) = key {
        bundle::sign(&mut tree, key).expect("signed");
    }
    tree.into_iter().map(|(path, bytes)| (path.replacen("bundle/", "", 1), bytes)).collect()
}

/// A pair of keys, and the secret one as text.
fn keys() -> (minisign::KeyPair, String) {
    let pair = minisign::KeyPair::generate_unencrypted_keypair().expect("made");
    let secret = pair.sk.to_box(None).expect("boxed").into_string();
    (pair, secret)
}

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
fn a_flipped_byte_of_the_signature_is_refused_with_and_without_the_key() {
    let (pair, secret) = keys();
    let files = made(Some(&SigningKey::read(&secret).expect("a key")));
    let public = pair.pk.to_base64();
    let whole = verify_files(&files, None);
    assert!(whole.whole, "{:?}", whole.problems);
    assert_eq!((whole.signature, whole.signed_by.as_ref()), (Signature::NotChecked, Some(&public)));
    for at in 0..files[SIGNATURE].len() {
        let mut flipped = files.clone();
        flipped.get_mut(SIGNATURE).expect("there")[at] ^= 1 << (at % 7);
        for key in [None, Some(public.as_str())] {
            let verified = verify_files(&flipped, key);
            assert_eq!(named(&verified), [SIGNATURE], "at {at} with {key:?}");
        }
    }
    let text = String::from_utf8(files[SIGNATURE].clone()).expect("UTF-8");
    for cut in 0..text.len() {
        let mut short = files.clone();
        short.insert(SIGNATURE.into(), text.as_bytes()[..cut].to_vec());
        assert_eq!(named(&verify_files(&short, Some(&public))), [SIGNATURE], "cut at {cut}");
    }
    for more in ["\n", "more\n", "\u{e9}"] {
        let mut longer = files.clone();
        longer.insert(SIGNATURE.into(), format!("{text}{more}").into_bytes());
        assert_eq!(named(&verify_files(&longer, None)), [SIGNATURE], "with {more:?}");
    }
    let mut lost = files.clone();
    lost.remove(SIGNATURE);
    assert_eq!(named(&verify_files(&lost, None)), [SIGNATURE]);
    // Signed anew by somebody else, key and all: only who has the right key can tell.
    let (_, other) = keys();
    let forged = made(Some(&SigningKey::read(&other).expect("a key")));
    assert!(verify_files(&forged, None).whole);
    assert_eq!(named(&verify_files(&forged, Some(&public))), [SIGNATURE]);
}

#[test]
fn what_is_signed_is_otherwise_the_same() {
    let (_, secret) = keys();
    let signed = made(Some(&SigningKey::read(&secret).expect("a key")));
    for (path, bytes) in FILES.iter() {
        let may_differ = [SUMS, "bundle.json"].contains(&path.as_str());
        assert!(may_differ || signed[path] == *bytes, "{path} differs");
    }
    let head = |files: &Files| -> Value { serde_json::from_slice(&files["bundle.json"]).expect("JSON") };
    assert_eq!(head(&signed)["content_hash"], head(&FILES)["content_hash"]);
    assert!(head(&FILES).get("signed_by").is_none());
}

#[test]
fn a_list_of_hashes_is_as_it_was_written_or_refused() {
    let text = String::from_utf8(FILES[SUMS].clone()).expect("UTF-8");
    let mut turned: Vec<&str> = text.lines().collect();
    turned.swap(0, 1);
    let long = turned[2].replacen("  ", "   ", 1);
    let bundled = |lines: &[&str]| lines.join("\n") + "\n";
    for other in [
        text.replace('\n', "\r\n"),
        bundled(&turned),
        text.to_uppercase(),
        text.trim_end().to_owned(),
        String::new(),
        text.replacen(turned[2], &long, 1),
        text.clone() + &text,
    ] {
        let verified = broken(|files| _ = files.insert(SUMS.into(), other.clone().into_bytes()));
        assert!(named(&verified).contains(&SUMS), "{:?}", verified.problems);
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
    let ((ours, secret), (other, _)) = (keys(), keys());
    let text = |pair: &minisign::KeyPair| pair.pk.to_box().expect("boxed").into_string();
    // Signed beside, as any tool of the format does it: the bundle itself names no key.
    let mut files = FILES.clone();
    let signature = SigningKey::read(&secret).expect("a key").sign(&files[SUMS], "2026.11").expect("signed");
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
    assert!(SigningKey::read("no key").is_err());
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
    let (pair, secret) = keys();
    std::fs::write(path("shop.key"), secret).expect("written");
    std::fs::write(path("shop.pub"), pair.pk.to_box().expect("boxed").into_string()).expect("written");
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

    let unchecked = baybook(&["verify", &out, "--format", "json"]);
    assert_eq!((unchecked.status.code(), &json(&unchecked)["signature"]), (Some(0), &"not-checked".into()));

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

/// What a bundle on disk may have become: each is refused, its file named, and nothing panics.
#[test]
fn whatever_lies_in_the_place_of_a_bundle_is_answered() {
    let dir = tempfile::tempdir().expect("a directory");
    let root = dir.path();
    let fresh = |name: &str| -> std::path::PathBuf {
        let to = root.join(name);
        for (path, bytes) in FILES.iter() {
            let file = to.join(path);
            std::fs::create_dir_all(file.parent().expect("it has one")).expect("made");
            std::fs::write(file, bytes).expect("written");
        }
        to
    };
    let verify = |at: &Path| {
        let output = baybook(&["verify", &at.to_string_lossy(), "--format", "json"]);
        (output.status.code(), json(&output))
    };
    let refused = |at: &Path, file: &str| {
        let (code, said) = verify(at);
        assert_eq!(code, Some(1), "{file}: {said}");
        let problems = said["problems"].as_array().expect("a list");
        assert!(problems.iter().any(|one| one["file"] == file), "{file}: {said}");
    };
    let whole = fresh("whole");
    assert_eq!(verify(&whole).0, Some(0));
    let linked = fresh("linked");
    std::fs::remove_file(linked.join("sources.json")).expect("removed");
    std::os::unix::fs::symlink(whole.join("sources.json"), linked.join("sources.json")).expect("linked");
    refused(&linked, "sources.json");
    std::os::unix::fs::symlink(&whole, linked.join("more")).expect("linked");
    refused(&linked, "more");
    let deep = fresh("deep");
    let far = deep.join("a/b/c/d/e/f/g/h/i/j");
    std::fs::create_dir_all(&far).expect("made");
    std::fs::write(far.join("hidden.json"), "{}").expect("written");
    refused(&deep, "a/b/c/d/e/f/g/h");
    let folder = fresh("folder");
    std::fs::remove_file(folder.join("ids.json")).expect("removed");
    std::fs::create_dir(folder.join("ids.json")).expect("made");
    refused(&folder, "ids.json");
    let headless = fresh("headless");
    std::fs::remove_file(headless.join("bundle.json")).expect("removed");
    refused(&headless, "bundle.json");
    let (code, said) = verify(root);
    assert_eq!(code, Some(2), "{said}");
    assert!(said["error"]["message"].as_str().expect("a text").contains("no bundle is there"), "{said}");
}

#[test]
fn a_broken_part_is_named_to_whoever_compares() {
    let dir = tempfile::tempdir().expect("a directory");
    let base = shared::tests("rule-base").to_string_lossy().into_owned();
    let deep = "[".repeat(100_000);
    let huge = format!("{{\"groups\": {}}}", "9".repeat(400_000));
    for (at, file) in
        ["bundle.json", "engines/engine-a.json", "catalogue.json", "units.json"].into_iter().enumerate()
    {
        for (turn, text) in
            ["", "{", "null", "[]", "{\"id\": 1e999999}", "\u{0}", &deep, &huge].into_iter().enumerate()
        {
            let root = dir.path().join(format!("{at}-{turn}"));
            for (path, bytes) in FILES.iter().filter(|(path, _)| baybook::bundle::is_data(path)) {
                let to = root.join(path);
                std::fs::create_dir_all(to.parent().expect("it has one")).expect("made");
                std::fs::write(to, if path == file { text.as_bytes() } else { bytes }).expect("written");
            }
            let output = baybook(&["compare", &base, &root.to_string_lossy(), "--format", "json"]);
            assert_eq!(output.status.code(), Some(1), "{file} of {turn}");
            let said = json(&output);
            assert!(said["error"]["message"].as_str().expect("a text").contains(file), "{said}");
            let long = said["error"]["message"].as_str().expect("a text").len();
            assert!(long < 1000, "{long} bytes of message");
        }
    }
}

#[test]
fn a_recalled_value_is_told_to_whoever_verifies() {
    let dir = tempfile::tempdir().expect("a directory");
    let base = shared::tests("cases/clean/every-key/base").to_string_lossy().into_owned();
    let out = dir.path().join("public").to_string_lossy().into_owned();
    assert!(baybook(&["compile", &base, "--out", &out]).status.success());
    let said = baybook(&["verify", &out]);
    assert_eq!(said.status.code(), Some(0), "a recall is a warning");
    let text = String::from_utf8_lossy(&said.stdout).into_owned();
    let wanted = "warning: recalled: engine-a lash.exhaust cylinder front air under 35 °C engine hot: 0.32 ± 0.05 mm of release 2025.07, 2025.09 is wrong: Two digits were swapped";
    assert!(text.contains(wanted), "{text}");
    let answer = json(&baybook(&["verify", &out, "--format", "json"]));
    assert_eq!(answer["recall"][0]["value"], "0.32 ± 0.05 mm");
    assert_eq!(answer["recall"][0]["releases"], serde_json::json!(["2025.07", "2025.09"]));
}
