//! The handbook's own style sheet, scripts and fonts, each under a name that holds its hash.
//!
//! One table lists them all; a test holds it and the folder `site/` together. A file that refers to
//! another writes its plain name in `url(…)`; the hashed name is put in its place here, so the table
//! lists what is referred to before what refers to it.

use sha2::{Digest as _, Sha256};

/// One file of the table.
struct Source {
    /// Name in `site/`.
    name: &'static str,
    bytes: &'static [u8],
}

macro_rules! table {
    ($($name:literal),* $(,)?) => {
        &[$(Source { name: $name, bytes: include_bytes!(concat!("../../../site/", $name)) }),*]
    };
}

/// Every asset, referred-to files first.
const TABLE: &[Source] = table![
    "fonts/b612-400.woff2",
    "fonts/b612-700.woff2",
    "fonts/OFL.txt",
    "icon.svg",
    "handbook.css",
    "sheets.css",
    "print.css",
    "theme.js",
    "age.js",
    "serial.js",
    "chooser.js",
];

/// An asset as it is written.
pub(super) struct Asset {
    /// Name in `site/`.
    pub(super) name: &'static str,
    /// Path below the output.
    pub(super) path: String,
    /// What is written.
    pub(super) bytes: Vec<u8>,
}

/// Every asset under its hashed name, references rewritten.
pub(super) fn hashed() -> Vec<Asset> {
    let mut done: Vec<Asset> = Vec::with_capacity(TABLE.len());
    for source in TABLE {
        let bytes = match std::str::from_utf8(source.bytes) {
            Ok(text) if source.name.ends_with(".css") => rewrite(text, &done).into_bytes(),
            _ => source.bytes.to_vec(),
        };
        let path = hashed_path(source.name, &bytes);
        done.push(Asset { name: source.name, path, bytes });
    }
    done
}

/// `assets/handbook-1a2b3c4d5e.css`.
fn hashed_path(name: &str, bytes: &[u8]) -> String {
    let file = name.rsplit('/').next().unwrap_or(name);
    let (stem, extension) = file.rsplit_once('.').unwrap_or((file, "bin"));
    let digest = Sha256::digest(bytes);
    let hash: String = digest.iter().take(5).map(|byte| format!("{byte:02x}")).collect();
    format!("assets/{stem}-{hash}.{extension}")
}

/// Puts hashed names into `url("fonts/…")`; all assets lie in one folder.
fn rewrite(text: &str, done: &[Asset]) -> String {
    done.iter().fold(text.to_owned(), |text, asset| {
        let path = asset.path.strip_prefix("assets/").unwrap_or(&asset.path);
        text.replace(&format!("url(\"{}\")", asset.name), &format!("url(\"{path}\")"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_and_the_folder_agree() {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("site");
        let files = walkdir::WalkDir::new(&root).into_iter().map(|entry| entry.expect("readable"));
        let mut found: Vec<String> = files
            .filter(|entry| entry.file_type().is_file())
            .map(|entry| entry.path().strip_prefix(&root).expect("below").to_string_lossy().replace('\\', "/"))
            .collect();
        found.sort();
        let mut listed: Vec<String> = TABLE.iter().map(|source| source.name.to_owned()).collect();
        listed.sort();
        assert_eq!(found, listed);
    }

    #[test]
    fn no_reference_is_left_unhashed() {
        let assets = hashed();
        let names: Vec<&str> = assets.iter().filter_map(|asset| asset.path.strip_prefix("assets/")).collect();
        for asset in assets.iter().filter(|asset| asset.path.ends_with(".css")) {
            let text = std::str::from_utf8(&asset.bytes).expect("text");
            for reference in text.split("url(\"").skip(1) {
                let target = reference.split('"').next().expect("a closing quote");
                assert!(names.contains(&target), "{}: {target}", asset.name);
            }
        }
    }
}
