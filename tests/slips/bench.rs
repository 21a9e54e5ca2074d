//! The demo base cut down to one engine, to be examined with one slip in it.
//!
//! Nothing that a rule could hold a statement against is left out: the engine, the catalogue with its relations,
//! machines and sources stay whole, and every other engine keeps its statements of the entry that the slip is in.
//! What no statement depends on, such as procedures and complaints, goes.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::path::Path;
use std::sync::Mutex;

use baybook::diag::{Finding, Severity};
use baybook::load::disk::{Content, Found, read_base};
use serde_json::{Value, json};

use super::page::{Block, blocks};

/// A change to the engine file or to its second readings.
#[derive(Clone, Debug)]
pub struct Edit {
    pub file: File,
    pub range: Range<usize>,
    pub text: String,
}

#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum File {
    Engine,
    Rereads,
}

/// One engine with what belongs to it.
pub struct Bench {
    pub id: String,
    pub maker: String,
    /// The engine file and its blocks.
    pub text: String,
    pub blocks: Vec<Block>,
    /// Its second readings; empty if it has none.
    pub rereads: String,
    pub reread_blocks: Vec<Block>,
    /// The plausible span of each entry.
    pub plausible: BTreeMap<String, String>,
    /// What each state of each entry can be.
    pub states: BTreeMap<(String, String), Vec<String>>,
    /// For each source the one it supersedes.
    pub superseded: BTreeMap<String, String>,
    paths: [String; 2],
    others: Vec<(String, String)>,
    /// Path, text and blocks of every other engine.
    peers: Vec<(String, String, Vec<Block>)>,
    /// What is found before any slip, by the entries that peers keep, with and without second readings.
    usual: Mutex<BTreeMap<(BTreeSet<String>, bool), Known>>,
}

/// Rule and message of findings.
type Known = BTreeSet<(String, String)>;

/// Every engine of the demo base.
pub fn benches() -> Vec<Bench> {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let found = read_base(&specs).expect("the demo base is there");
    let all: BTreeMap<String, String> = found
        .into_iter()
        .filter_map(|one| match one.content {
            Content::Bytes(bytes) => Some((one.path, String::from_utf8(bytes).expect("UTF-8"))),
            _ => None,
        })
        .collect();
    all.keys().filter(|path| path.starts_with("engines/")).map(|path| Bench::of(path, &all)).collect()
}

/// Folders and files that no statement depends on.
const APART: [&str; 6] = ["engines/", "rereads/", "procedures/", "complaints/", "codes/", "ids.toml"];

impl Bench {
    fn of(path: &str, all: &BTreeMap<String, String>) -> Self {
        let text = all[path].clone();
        let reread_path = path.replacen("engines", "rereads", 1);
        let rereads = all.get(&reread_path).cloned().unwrap_or_default();
        let blocks = blocks(&text);
        let (maker, id) =
            path.trim_start_matches("engines/").trim_end_matches(".toml").split_once('/').expect("a maker");
        let kept = all.iter().filter(|(path, _)| !APART.iter().any(|apart| path.starts_with(apart)));
        let others: Vec<_> = kept.map(|(path, text)| (path.clone(), text.clone())).collect();
        let (plausible, states) = catalogue(&others);
        let engines = all.iter().filter(|(other, _)| other.starts_with("engines/") && *other != path);
        Self {
            id: id.to_owned(),
            maker: maker.to_owned(),
            reread_blocks: if rereads.is_empty() { Vec::new() } else { self::blocks(&rereads) },
            text,
            blocks,
            rereads,
            plausible,
            states,
            superseded: superseded(&others),
            paths: [path.to_owned(), reread_path],
            others,
            peers: engines.map(|(path, text)| (path.clone(), text.clone(), self::blocks(text))).collect(),
            usual: Mutex::default(),
        }
    }

    fn found(&self, text: &str, rereads: &str, with_rereads: bool, entries: &BTreeSet<String>) -> Vec<Found> {
        let file = |path: &str, text: &str| Found {
            path: path.to_owned(),
            content: Content::Bytes(text.as_bytes().to_vec()),
        };
        let mut found: Vec<_> = self.others.iter().map(|(path, text)| file(path, text)).collect();
        found.extend(self.peers.iter().map(|(path, text, blocks)| file(path, &peer(text, blocks, entries))));
        found.push(file(&self.paths[0], text));
        if with_rereads && !rereads.is_empty() {
            found.push(file(&self.paths[1], rereads));
        }
        found.sort_by(|one, other| one.path.cmp(&other.path));
        found
    }

    /// What is found before any slip.
    fn usual(&self, with_rereads: bool, entries: &BTreeSet<String>) -> Known {
        let key = (entries.clone(), with_rereads);
        if let Some(known) = self.usual.lock().expect("no thread panics").get(&key) {
            return known.clone();
        }
        let examined = baybook::examine(self.found(&self.text, &self.rereads, with_rereads, entries), None);
        let known: Known =
            examined.findings.iter().map(|one| (one.rule.name.to_owned(), one.message.clone())).collect();
        self.usual.lock().expect("no thread panics").insert(key, known.clone());
        known
    }

    /// What is found with these edits and was not before, each with where it stands: in one of `blocks`, in a
    /// second reading's block, related to one of them, or elsewhere.
    pub fn findings(
        &self,
        edits: &[Edit],
        at: &[&Block],
        at_rereads: &[&Block],
        with_rereads: bool,
    ) -> Vec<Value> {
        let (text, moves) = edited(&self.text, edits, File::Engine);
        let (rereads, reread_moves) = edited(&self.rereads, edits, File::Rereads);
        let entries: BTreeSet<String> = at.iter().map(|block| block.of.clone()).collect();
        let examined = baybook::examine(self.found(&text, &rereads, with_rereads, &entries), None);
        let usual = self.usual(with_rereads, &entries);
        let place = |span: baybook::source::Span| {
            let path = examined.sources.path(span.file);
            let within = |blocks: &[&Block], moves: &Moves| {
                blocks.iter().any(|block| {
                    moves.at(block.range.start) <= span.start && span.start < moves.at(block.range.end)
                })
            };
            match path {
                _ if path == self.paths[0] && within(at, &moves) => "statement",
                _ if path == self.paths[1] && within(at_rereads, &reread_moves) => "reread",
                _ => "elsewhere",
            }
        };
        let new = examined.findings.iter().filter(|one| {
            one.severity() != Severity::Note
                && !usual.contains(&(one.rule.name.to_owned(), one.message.clone()))
        });
        new.map(|one| described(one, &place)).collect()
    }
}

fn described(finding: &Finding, place: &dyn Fn(baybook::source::Span) -> &'static str) -> Value {
    let own = place(finding.span);
    let related = finding.related.iter().any(|one| place(one.span) != "elsewhere");
    let at = if own == "elsewhere" && related { "related" } else { own };
    json!({
        "rule": finding.rule.name,
        "severity": finding.severity().word(),
        "at": at,
        "message": finding.message,
        "help": finding.help,
    })
}

/// Where places of a text go when it is edited.
struct Moves(Vec<(usize, isize)>);

impl Moves {
    fn at(&self, place: usize) -> usize {
        let by: isize = self.0.iter().filter(|(end, _)| *end <= place).map(|(_, by)| by).sum();
        place.saturating_add_signed(by)
    }
}

fn edited(text: &str, edits: &[Edit], file: File) -> (String, Moves) {
    let mut own: Vec<_> = edits.iter().filter(|one| one.file == file).collect();
    own.sort_by_key(|one| one.range.start);
    let mut out = text.to_owned();
    for edit in own.iter().rev() {
        out.replace_range(edit.range.clone(), &edit.text);
    }
    let length = |size: usize| isize::try_from(size).expect("short");
    let moves = own.iter().map(|one| (one.range.end, length(one.text.len()) - length(one.range.len())));
    (out, Moves(moves.collect()))
}

/// An engine file with its statements of these entries alone.
fn peer(text: &str, blocks: &[Block], entries: &BTreeSet<String>) -> String {
    let head = blocks.first().map_or(text.len(), |block| block.range.start);
    let kept = blocks.iter().filter(|block| block.variant.is_none() && entries.contains(&block.of));
    kept.fold(text[..head].to_owned(), |all, block| all + &text[block.range.clone()])
}

type States = BTreeMap<(String, String), Vec<String>>;

fn catalogue(files: &[(String, String)]) -> (BTreeMap<String, String>, States) {
    let (mut plausible, mut states) = (BTreeMap::new(), States::new());
    for (_, text) in files.iter().filter(|(path, _)| path.starts_with("catalogue/")) {
        let table: toml::Table = text.parse().expect("the catalogue is TOML");
        for entry in table.get("entry").and_then(toml::Value::as_array).into_iter().flatten() {
            let id = entry["id"].as_str().expect("an id").to_owned();
            if let Some(span) = entry.get("plausible").and_then(toml::Value::as_str) {
                plausible.insert(id.clone(), span.to_owned());
            }
            for (state, words) in entry.get("states").and_then(toml::Value::as_table).into_iter().flatten() {
                let words =
                    words.as_array().into_iter().flatten().filter_map(|word| Some(word.as_str()?.to_owned()));
                states.insert((id.clone(), state.clone()), words.collect());
            }
        }
    }
    (plausible, states)
}

fn superseded(files: &[(String, String)]) -> BTreeMap<String, String> {
    let text = files.iter().find(|(path, _)| path == "sources.toml").map_or("", |(_, text)| text);
    let table: toml::Table = text.parse().expect("sources are TOML");
    let sources = table["source"].as_array().expect("there are sources");
    let pair = |source: &toml::Value| {
        let old = source.get("supersedes")?.as_array()?.first()?.as_str()?;
        Some((source["id"].as_str()?.to_owned(), old.to_owned()))
    };
    sources.iter().filter_map(pair).collect()
}
