//! What keeps the handbook on a device: the web manifest, the list of every file, and the service worker.
//!
//! Invariant: the list names each file of the handbook with its SHA-256, so that a release is kept whole or not at
//! all. It holds neither itself nor the worker, which has the hash of the list, nor the bundle, which is for programs.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::json;
use sha2::{Digest as _, Sha256};

use super::assets;
use super::press::Page;
use super::view::Shared;
use crate::emit::Tree;

/// The service worker, whose first line says where the list of every file stands.
pub const WORKER: &str = "offline.js";

/// Most letters of a name under an icon (web.dev's advice for `short_name`).
const SHORT: usize = 12;

/// The web manifest (W3C Web Application Manifest): names, icons, and where it starts, relative to itself.
pub(super) fn manifest(shared: &Shared) -> Page {
    let icon = |key: &str, kind: &str, sizes: &str| {
        let src = shared.asset.get(key).map_or("", String::as_str);
        json!({ "src": src, "type": kind, "sizes": sizes })
    };
    let manifest = json!({
        "name": shared.title,
        "short_name": short(&shared.title),
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "lang": "en-GB",
        "background_color": "#fbfbfc",
        "theme_color": "#fbfbfc",
        "icons": [
            icon("icon_svg", "image/svg+xml", "any"),
            icon("icon_192_png", "image/png", "192x192"),
            icon("icon_512_png", "image/png", "512x512"),
        ],
    });
    ("handbook.webmanifest".to_owned(), format!("{manifest:#}\n").into_bytes())
}

/// As many whole words of a title as stand under an icon, the first of them in any case.
fn short(title: &str) -> String {
    let mut words = title.split_whitespace();
    let first = words.next().unwrap_or_default().to_owned();
    words
        .scan(first.clone(), |said, word| {
            *said = format!("{said} {word}");
            (said.chars().count() <= SHORT).then(|| said.clone())
        })
        .last()
        .unwrap_or(first)
}

/// The list of every file of a finished handbook, and the worker that keeps them.
pub(super) fn kept(tree: &Tree, shared: &Shared) -> [Page; 2] {
    let files: Vec<(&str, String)> =
        tree.iter().map(|(path, bytes)| (path.as_str(), sha256(bytes))).collect();
    let list = assets::made("files.json", json!(files).to_string());
    let release = json!({
        "release": shared.release,
        "content": shared.content_hash.get(..16).unwrap_or(&shared.content_hash),
        "list": list.path,
        "digest": sha256(&list.bytes),
    });
    let worker = format!("globalThis.baybookRelease={release};\n{}", assets::worker());
    [(list.path, list.bytes), (WORKER.to_owned(), worker.into_bytes())]
}

/// SHA-256 in Base64, as the worker compares it.
fn sha256(bytes: &[u8]) -> String {
    STANDARD.encode(Sha256::digest(bytes))
}

/// What a handbook takes on a device, in words: `3.2 MB` or `410 kB`, rounded up.
pub(super) fn size(tree: &Tree) -> String {
    let bytes: usize = tree.values().map(Vec::len).sum();
    if bytes < 1_000_000 {
        return format!("{} kB", bytes.div_ceil(1000));
    }
    let tenths = bytes.div_ceil(100_000);
    format!("{}.{} MB", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_is_rounded_up_and_changes_its_unit() {
        let of = |bytes: usize| size(&Tree::from([("a".to_owned(), vec![0; bytes])]));
        assert_eq!(of(1), "1 kB");
        assert_eq!(of(999_000), "999 kB");
        assert_eq!(of(1_000_000), "1.0 MB");
        assert_eq!(of(3_100_001), "3.2 MB");
    }

    #[test]
    fn a_short_name_ends_with_a_whole_word() {
        assert_eq!(short("Motor pool of a depot"), "Motor pool");
        assert_eq!(short("Smallest base"), "Smallest");
        assert_eq!(short("One shop"), "One shop");
        assert_eq!(short("Werkstatthandbuch neu"), "Werkstatthandbuch");
        assert_eq!(short(""), "");
    }
}
