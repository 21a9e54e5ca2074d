//! The handbook's own style sheet, scripts and fonts, each under a name that holds its hash.
//!
//! One table lists them all; a test holds it and the folder `site/` together. A file that refers to
//! another writes its plain name in `url(…)`; the hashed name is put in its place here, so the table
//! lists what is referred to before what refers to it.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

use super::slim::slim;

/// One asset, of one file or of several written one after another.
struct Source {
    /// Name it is referred to by.
    name: &'static str,
    /// Files of `site/` and what they hold.
    files: &'static [(&'static str, &'static [u8])],
}

macro_rules! table {
    ($($name:literal: [$($file:literal),* $(,)?]),* $(,)?) => {
        &[$(Source {
            name: $name,
            files: &[$(($file, include_bytes!(concat!("../../../site/", $file)))),*],
        }),*]
    };
}

/// Every asset, referred-to ones first.
const TABLE: &[Source] = table![
    "fonts/b612-400-core.woff2": ["fonts/b612-400-core.woff2"],
    "fonts/b612-700-core.woff2": ["fonts/b612-700-core.woff2"],
    "fonts/b612-400.woff2": ["fonts/b612-400.woff2"],
    "fonts/b612-700.woff2": ["fonts/b612-700.woff2"],
    "fonts/OFL.txt": ["fonts/OFL.txt"],
    "icon.svg": ["icon.svg"],
    "icon-192.png": ["icon-192.png"],
    "icon-512.png": ["icon-512.png"],
    "handbook.css": [
        "css/base.css",
        "css/sheet.css",
        "css/panel.css",
        "css/statement.css",
        "css/table.css",
        "css/drawing.css",
        "css/doors.css",
        "css/narrow.css",
        "css/marks.css",
        "css/reading.css",
        "css/plan.css",
        "css/bar.css",
        "css/find.css",
    ],
    "late.css": ["css/hits.css", "css/kept.css"],
    "bench.css": ["css/verdict.css", "css/keypad.css", "css/job.css"],
    "guides.css": [
        "css/plain.css",
        "css/steps.css",
        "css/lists.css",
        "css/procedure.css",
        "css/reference.css",
        "css/checks.css",
        "css/guides-print.css",
    ],
    "reckon.css": ["css/reckon.css"],
    "print.css": ["css/print.css"],
    "theme.js": ["theme.js"],
    "age.js": ["age.js"],
    "drawn.js": ["drawn.js"],
    "serial.js": ["serial.js"],
    "chooser.js": ["chooser.js"],
    "compute.js": [
        "compute/rational.js",
        "compute/unit-table.js",
        "compute/units.js",
        "compute/problems.js",
        "compute/number.js",
        "compute/meant.js",
        "compute/ending.js",
        "compute/cursor.js",
        "compute/grammar.js",
        "compute/value.js",
        "compute/convert.js",
        "compute/reading.js",
        "compute/span.js",
        "compute/gauge.js",
        "compute/settle.js",
        "compute/judge.js",
    ],
    "numbers.js": [
        "compute/rational.js",
        "compute/unit-table.js",
        "compute/units.js",
        "find/no-value.js",
        "compute/number.js",
        "compute/ending.js",
        "compute/cursor.js",
        "compute/grammar.js",
        "compute/value.js",
    ],
    "order.js": [
        "compute/order-job.js",
        "compute/order-search.js",
        "compute/order.js",
        "compute/order-heat.js",
    ],
    "checks.js": ["bench/checked.js", "bench/last.js", "checks-kept.js", "checks.js"],
    "sums.js": [
        "compute/real.js",
        "compute/curve.js",
        "compute/formula.js",
        "compute/sum-table.js",
        "compute/sum-given.js",
        "compute/sums.js",
        "bench/make.js",
        "bench/keys.js",
        "keypad.js",
        "sums.js",
        "bench/stops.js",
        "sums-given.js",
    ],
    "shims.js": [
        "compute/assignment.js",
        "compute/shim-job.js",
        "compute/shims.js",
        "bench/keys.js",
        "keypad.js",
        "shim-plan.js",
    ],
    "kept.js": ["offline/kept.js"],
    "find.js": ["find/door.js"],
    "find-panel.js": [
        "find/words.js",
        "find/matching.js",
        "find/places.js",
        "find/stated.js",
        "find/pairs.js",
        "find/fits.js",
        "find/head.js",
        "find/search.js",
        "find/panel.js",
    ],
    "find-held.js": ["find/held.js"],
    "find-said.js": ["find/said.js"],
    "find-ahead.js": ["find/guess.js", "find/ahead.js"],
    "opening.js": [
        "bench/make.js",
        "bench/condition.js",
        "bench/opening.js",
        "bench/last.js",
    ],
    "record.js": [
        "bench/make.js",
        "bench/condition.js",
        "bench/record.js",
        "bench/words.js",
        "bench/recall.js",
        "bench/scale.js",
        "bench/storage.js",
        "bench/draw.js",
        "bench/job-file.js",
    ],
    "unfinished.js": ["bench/unfinished.js"],
    "paper.js": [
        "bench/stops.js",
        "bench/report.js",
        "bench/verdict.js",
        "bench/today.js",
        "bench/paper-line.js",
        "bench/job-page.js",
    ],
    "bench.js": [
        "bench/keys.js",
        "bench/ends.js",
        "bench/rows.js",
        "bench/verdict.js",
        "bench/judging.js",
        "bench/fields.js",
        "bench/state.js",
        "bench/options.js",
        "bench/panel.js",
        "bench/settings.js",
        "bench/leave.js",
        "bench/bar.js",
        "bench/guard.js",
        "bench/proof.js",
        "bench/steps.js",
        "bench/awake.js",
        "bench/sheet.js",
    ],
];

/// What is not written as a file of its own: the style sheets of pages that stand alone (a bench card, a build as one
/// file), and the text of the service worker, which follows its list of files.
const INLINE: &[Source] = table![
    "card.css": ["css/card-page.css", "css/card.css", "css/drawing.css"],
    "single.css": [
        "css/base.css",
        "css/sheet.css",
        "css/panel.css",
        "css/statement.css",
        "css/table.css",
        "css/drawing.css",
        "css/doors.css",
        "css/narrow.css",
        "css/marks.css",
        "css/plain.css",
        "css/lists.css",
        "css/procedure.css",
        "css/reference.css",
        "css/plan.css",
        "css/guides-print.css",
        "css/single.css",
        "css/card.css",
    ],
    "single-print.css": ["css/print.css"],
    "offline/worker.js": ["offline/worker.js"],
];

/// A style sheet that a page holds in itself, its faces with it, and the hash that the page's policy names.
pub(super) struct Inlined {
    /// The style sheet.
    pub(super) text: String,
    /// `sha256-…`, as a Content-Security-Policy has it.
    pub(super) hash: String,
}

/// The style sheet of the bench card.
pub(super) fn card_style() -> Inlined {
    Inlined::of(inline("card.css"))
}

/// The style sheet of a build as one file.
pub(super) fn single_style() -> Inlined {
    Inlined::of(format!("{}@media print{{{}}}", inline("single.css"), inline("single-print.css")))
}

/// The service worker, without its list of files.
pub(super) fn worker() -> String {
    inline("offline/worker.js")
}

impl Inlined {
    fn of(text: String) -> Self {
        let hash = format!("sha256-{}", STANDARD.encode(Sha256::digest(&text)));
        Self { text, hash }
    }
}

/// A text of [`INLINE`], with its faces in it where it is a style sheet.
fn inline(name: &str) -> String {
    let of_name = INLINE.iter().filter(|source| source.name == name).flat_map(|source| source.files);
    let text: String = of_name.map(|(_, bytes)| String::from_utf8_lossy(bytes)).collect();
    let faces = TABLE.iter().filter(|source| source.name.ends_with(".woff2"));
    faces.fold(slim(name, &text), |text, source| {
        let bytes: Vec<u8> = source.files.iter().flat_map(|(_, bytes)| bytes.iter().copied()).collect();
        let data = format!("url(\"data:font/woff2;base64,{}\")", STANDARD.encode(bytes));
        text.replace(&format!("url(\"{}\")", source.name), &data)
    })
}

/// An asset as it is written.
pub(super) struct Asset {
    /// Name it is referred to by.
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
        let bytes: Vec<u8> = source.files.iter().flat_map(|(_, bytes)| bytes.iter().copied()).collect();
        let bytes = match String::from_utf8(bytes) {
            Ok(text) => slim(source.name, &rewrite(text, &done)).into_bytes(),
            Err(binary) => binary.into_bytes(),
        };
        let path = hashed_path(source.name, &bytes);
        done.push(Asset { name: source.name, path, bytes });
    }
    done
}

/// An asset made from the base, under a hashed name like the others.
pub(super) fn made(name: &'static str, text: String) -> Asset {
    let bytes = text.into_bytes();
    Asset { name, path: hashed_path(name, &bytes), bytes }
}

/// A text as a script has it. Drawings are full of quotation marks, so apostrophes hold it: nothing but these, and what
/// escapes, is longer than it was.
pub(super) fn quoted(text: &str) -> String {
    let inside = text.replace('\\', "\\\\").replace('\'', "\\'").replace('\n', "\\n").replace('\r', "\\r");
    format!("'{inside}'")
}

/// `assets/handbook-1a2b3c4d5e.css`.
fn hashed_path(name: &str, bytes: &[u8]) -> String {
    let file = name.rsplit('/').next().unwrap_or(name);
    let (stem, extension) = file.rsplit_once('.').unwrap_or((file, "bin"));
    format!("assets/{stem}-{}.{extension}", short_hash([bytes]))
}

/// Ten digits of the SHA-256 of what is given: the part of a name that is another where the content is.
pub(super) fn short_hash<B: AsRef<[u8]>>(parts: impl IntoIterator<Item = B>) -> String {
    let mut digest = Sha256::new();
    parts.into_iter().for_each(|part| digest.update(part));
    digest.finalize().iter().take(5).map(|byte| format!("{byte:02x}")).collect()
}

/// Puts hashed names into `url("fonts/…")`; all assets lie in one folder.
fn rewrite(text: String, done: &[Asset]) -> String {
    done.iter().fold(text, |text, asset| {
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
            .map(|entry| {
                entry.path().strip_prefix(&root).expect("below").to_string_lossy().replace('\\', "/")
            })
            .collect();
        found.sort();
        let mut listed: Vec<String> = TABLE
            .iter()
            .chain(INLINE)
            .flat_map(|source| source.files)
            .map(|(file, _)| (*file).to_owned())
            .collect();
        listed.sort();
        listed.dedup();
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
