//! The bundle: the model as exact, typed JSON for other programs.
//!
//! Numbers are strings, as printed or as exact rationals, so that no reader rounds them by accident.
//! Every shape here has its JSON Schema, made from the type and shipped beside the data.

mod catalogue;
mod engine;
mod guides;
mod head;
mod machines;
mod quantity;
mod reference;
mod statement;

use std::collections::BTreeMap;

use serde::Serialize;
use serde_json::Value;
use sha2::{Digest, Sha256};

use super::Tree;
use crate::find::Index;
use crate::load::place::FileKind;
use crate::load::schema;
use crate::model::{BuildId, Model};

/// The bundle, and the hashes that sheets show.
#[derive(Debug)]
pub struct Bundle {
    /// Its files, under `bundle/`.
    pub tree: Tree,
    /// Hash of everything in it but `bundle.json` and `SHA256SUMS`.
    pub content_hash: String,
    /// Hash of each build's own data.
    pub build_hashes: BTreeMap<BuildId, String>,
}

/// The bundle of a model.
///
/// # Errors
///
/// When a value cannot be written as JSON, which no value of the model can cause.
pub fn bundle(model: &Model) -> Result<Bundle, serde_json::Error> {
    let mut tree = Tree::new();
    let mut build_hashes = BTreeMap::new();
    for one in model.engines.values() {
        let engine = engine::engine(model, one);
        for build in &engine.builds {
            build_hashes.insert(BuildId::new(&build.id), short_hash(&serde_json::to_vec(build)?));
        }
        tree.insert(format!("engines/{}.json", one.id), pretty(&engine)?);
    }
    tree.insert("catalogue.json".into(), pretty(&catalogue::catalogue(model))?);
    tree.insert("machines.json".into(), pretty(&machines::machines(model))?);
    tree.insert("sources.json".into(), pretty(&reference::sources(model))?);
    tree.insert("hazards.json".into(), pretty(&reference::hazards(model))?);
    tree.insert("gauges.json".into(), pretty(&reference::gauges(model))?);
    tree.insert("procedures.json".into(), pretty(&guides::procedures(model))?);
    tree.insert("complaints.json".into(), pretty(&guides::complaints(model))?);
    tree.insert("codes.json".into(), pretty(&guides::codes(model))?);
    tree.insert("find.json".into(), serde_json::to_vec(&Index::of(model))?);
    for (name, value) in schemas() {
        tree.insert(format!("schemas/{name}"), pretty(&value)?);
    }
    let content_hash = hash_of_all(&tree);
    tree.insert("bundle.json".into(), pretty(&head::head(model, &content_hash))?);
    let sums = tree.iter().map(|(path, bytes)| format!("{}  {path}\n", hex(&Sha256::digest(bytes))));
    let sums: String = sums.collect();
    tree.insert("SHA256SUMS".into(), sums.into_bytes());
    let tree = tree.into_iter().map(|(path, bytes)| (format!("bundle/{path}"), bytes)).collect();
    Ok(Bundle { tree, content_hash, build_hashes })
}

/// Every schema: of the input files, and under `bundle/` of the bundle's own.
pub fn schemas() -> BTreeMap<String, Value> {
    let inputs =
        FileKind::ALL.iter().map(|kind| (format!("{}.schema.json", kind.schema_name()), schema::of(*kind)));
    let outputs = [
        ("engine", schema::output::<engine::EngineJson>()),
        ("bundle", schema::output::<head::HeadJson>()),
        ("catalogue", schema::output::<catalogue::CatalogueJson>()),
        ("machines", schema::output::<machines::MachinesJson>()),
        ("sources", schema::output::<reference::SourcesJson>()),
        ("hazards", schema::output::<reference::HazardsJson>()),
        ("gauges", schema::output::<reference::GaugesJson>()),
        ("procedures", schema::output::<guides::ProceduresJson>()),
        ("complaints", schema::output::<guides::ComplaintsJson>()),
        ("codes", schema::output::<guides::CodesJson>()),
        ("find", schema::output::<Index>()),
    ];
    inputs.chain(outputs.map(|(name, value)| (format!("bundle/{name}.schema.json"), value))).collect()
}

fn pretty(value: &impl Serialize) -> Result<Vec<u8>, serde_json::Error> {
    let mut bytes = serde_json::to_vec_pretty(value)?;
    bytes.push(b'\n');
    Ok(bytes)
}

/// One hash over paths and contents, in order of path.
fn hash_of_all(tree: &Tree) -> String {
    let mut hasher = Sha256::new();
    for (path, bytes) in tree {
        hasher.update(format!("{}  {path}\n", hex(&Sha256::digest(bytes))));
    }
    hex(&hasher.finalize())
}

/// The first twelve digits of a hash: enough to tell two copies apart by eye.
fn short_hash(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes)).chars().take(12).collect()
}

fn hex(bytes: &[u8]) -> String {
    use std::fmt::Write;
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
        _ = write!(text, "{byte:02x}");
        text
    })
}
