//! The bundle: the model as exact, typed JSON for other programs.
//!
//! Numbers are strings, as printed or as exact rationals, so that no reader rounds them by accident.
//! Every shape here has its JSON Schema, made from the type and shipped beside the data.

mod catalogue;
mod engine;
mod guides;
mod head;
mod ids;
mod machines;
mod procedure;
mod quantity;
mod reference;
mod relation;
mod signed;
mod statement;
pub use ids::ids;
pub use procedure::body as procedure_body;
pub use signed::sign;

pub mod tables;
mod types;
mod units;

use std::collections::BTreeMap;

use serde::Serialize;
use serde_json::Value;

use super::Tree;
use crate::bundle as json;
use crate::bundle::compare::{Changes, changes_since};
use crate::bundle::hash;
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
    /// What changed since an older release, where one was named.
    pub changes: Option<Changes>,
}

/// A part of the bundle could not be made: a defect of this program, never of the base.
#[derive(Debug)]
pub enum BundleFault {
    /// The JSON.
    Json(serde_json::Error),
    /// The database.
    Database(rusqlite::Error),
    /// The signature.
    Signature(String),
}

impl std::fmt::Display for BundleFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Json(error) => error.fmt(f),
            Self::Database(error) => error.fmt(f),
            Self::Signature(because) => write!(f, "cannot sign the bundle: {because}"),
        }
    }
}

impl std::error::Error for BundleFault {}

impl From<serde_json::Error> for BundleFault {
    fn from(error: serde_json::Error) -> Self {
        Self::Json(error)
    }
}

impl From<rusqlite::Error> for BundleFault {
    fn from(error: rusqlite::Error) -> Self {
        Self::Database(error)
    }
}

/// Everything the bundle of a model states, its content hash aside, which follows from the files.
///
/// What is withheld keeps its identity and provenance, and loses its value, unless it is asked for.
pub fn data(model: &Model, withheld: Withheld) -> json::Bundle {
    json::Bundle {
        head: head::head(model),
        units: units::units(),
        catalogue: catalogue::catalogue(model),
        relations: relation::relations(model),
        machines: machines::machines(model),
        sources: reference::sources(model),
        hazards: reference::hazards(model),
        gauges: reference::gauges(model),
        procedures: procedure::procedures(model),
        complaints: guides::complaints(model),
        codes: guides::codes(model),
        ids: ids(model),
        engines: model.engines.values().map(|one| engine::engine(model, one, withheld)).collect(),
        changes: None,
    }
}

/// What becomes of the values that are withheld until a second reading confirms them.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Withheld {
    /// They are left out: what is published.
    LeftOut,
    /// They are kept, still marked: for comparing one spec base with another.
    Kept,
}

/// The bundle of a model.
///
/// # Errors
///
/// When a value cannot be written as JSON, which no value of the model can cause.
pub fn bundle(model: &Model) -> Result<Bundle, BundleFault> {
    bundle_since(model, None)
}

/// The bundle of a model, with what changed since an older one.
///
/// # Errors
///
/// When a value cannot be written as JSON, which no value of the model can cause.
pub fn bundle_since(model: &Model, old: Option<&json::Bundle>) -> Result<Bundle, BundleFault> {
    let mut data = data(model, Withheld::LeftOut);
    data.changes = old.map(|old| changes_since(old, &data));
    let mut build_hashes = BTreeMap::new();
    for build in data.engines.iter().flat_map(|engine| &engine.builds) {
        build_hashes.insert(BuildId::new(&build.id), short_hash(&serde_json::to_vec(build)?));
    }
    let mut tree = parts(&data)?;
    let tables = tables::tables(&data);
    tree.extend(tables::package(&data, &tables));
    tree.insert("baybook.sqlite".into(), tables::database(&tables)?);
    if let Some(changes) = &data.changes {
        tree.insert("changes.json".into(), pretty(changes)?);
    }
    tree.insert("find.json".into(), serde_json::to_vec(&super::found::index(model))?);
    for (name, value) in schemas() {
        tree.insert(format!("schemas/{name}"), pretty(&value)?);
    }
    tree.extend(types::types());
    let content_hash = hash::content_hash(&tree);
    let head = json::Head { content_hash: content_hash.clone(), ..data.head };
    tree.insert(hash::HEAD.into(), pretty(&head)?);
    tree.insert(hash::SUMS.into(), hash::sums(&tree).into_bytes());
    let tree = tree.into_iter().map(|(path, bytes)| (format!("bundle/{path}"), bytes)).collect();
    Ok(Bundle { tree, content_hash, build_hashes, changes: data.changes })
}

/// The files of JSON, all but the head.
fn parts(data: &json::Bundle) -> Result<Tree, serde_json::Error> {
    let mut tree = Tree::new();
    for one in &data.engines {
        tree.insert(format!("engines/{}.json", one.id), pretty(one)?);
    }
    tree.insert("units.json".into(), pretty(&data.units)?);
    tree.insert("catalogue.json".into(), pretty(&data.catalogue)?);
    tree.insert("relations.json".into(), pretty(&data.relations)?);
    tree.insert("machines.json".into(), pretty(&data.machines)?);
    tree.insert("sources.json".into(), pretty(&data.sources)?);
    tree.insert("hazards.json".into(), pretty(&data.hazards)?);
    tree.insert("gauges.json".into(), pretty(&data.gauges)?);
    tree.insert("procedures.json".into(), pretty(&data.procedures)?);
    tree.insert("complaints.json".into(), pretty(&data.complaints)?);
    tree.insert("codes.json".into(), pretty(&data.codes)?);
    tree.insert("ids.json".into(), pretty(&data.ids)?);
    Ok(tree)
}

/// Every schema: of the input files, and under `bundle/` of the bundle's own.
pub fn schemas() -> BTreeMap<String, Value> {
    let inputs =
        FileKind::ALL.iter().map(|kind| (format!("{}.schema.json", kind.schema_name()), schema::of(*kind)));
    let outputs = own_schemas().map(|(name, value)| (format!("bundle/{name}.schema.json"), value));
    let find = ("bundle/find.schema.json".to_owned(), schema::output::<crate::find::Index>());
    inputs.chain(outputs).chain([find]).collect()
}

/// The schemas of the bundle's own files, by the name of the file.
fn own_schemas() -> [(&'static str, Value); 14] {
    [
        ("engine", schema::output::<json::Engine>()),
        ("bundle", schema::output::<json::Head>()),
        ("units", schema::output::<json::Units>()),
        ("catalogue", schema::output::<json::Catalogue>()),
        ("relations", schema::output::<json::Relations>()),
        ("machines", schema::output::<json::Machines>()),
        ("sources", schema::output::<json::Sources>()),
        ("hazards", schema::output::<json::Hazards>()),
        ("gauges", schema::output::<json::Gauges>()),
        ("procedures", schema::output::<json::Procedures>()),
        ("complaints", schema::output::<json::Complaints>()),
        ("codes", schema::output::<json::Codes>()),
        ("changes", schema::output::<Changes>()),
        ("ids", schema::output::<json::Ids>()),
    ]
}

fn pretty(value: &impl Serialize) -> Result<Vec<u8>, serde_json::Error> {
    let mut bytes = serde_json::to_vec_pretty(value)?;
    bytes.push(b'\n');
    Ok(bytes)
}

/// The first twelve digits of a hash: enough to tell two copies apart by eye.
fn short_hash(bytes: &[u8]) -> String {
    hash::sha256(bytes).chars().take(12).collect()
}
