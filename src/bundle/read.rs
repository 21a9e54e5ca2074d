//! Reads a bundle from its files: every part is there and holds what its type says, or the error
//! names the file, the line and what is wrong.

use std::collections::BTreeMap;
use std::fmt;
use std::path::{Path, PathBuf};

use serde::de::DeserializeOwned;

use super::Bundle;
use crate::load::disk::{self, MachineError};

/// Why a bundle could not be read.
#[derive(Debug)]
pub enum BundleError {
    /// A part of it is not there.
    Missing {
        /// The file, relative to the bundle.
        file: String,
    },
    /// A part of it is not what its schema says.
    Malformed {
        /// The file, relative to the bundle.
        file: String,
        /// What is wrong, with line and column.
        because: String,
    },
    /// The machine failed.
    Machine(MachineError),
}

impl fmt::Display for BundleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing { file } => write!(f, "the bundle has no {file}"),
            Self::Malformed { file, because } => write!(f, "{file} is not as its schema says: {because}"),
            Self::Machine(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for BundleError {}

impl From<MachineError> for BundleError {
    fn from(error: MachineError) -> Self {
        Self::Machine(error)
    }
}

/// The directory of the bundle at a path: the path itself, or `bundle/` in an output directory.
pub fn root_of(path: &Path) -> Option<PathBuf> {
    [path.to_owned(), path.join("bundle")].into_iter().find(|root| disk::is_file(&root.join("bundle.json")))
}

/// True for the files that hold the data of a bundle, by their path in it.
pub fn is_data(path: &str) -> bool {
    path.ends_with(".json") && (!path.contains('/') || path.starts_with("engines/"))
}

impl Bundle {
    /// Reads the bundle at a path: the directory that holds `bundle.json`, or an output directory with
    /// `bundle/` in it.
    ///
    /// # Errors
    ///
    /// When a file is missing, is not what its schema says, or cannot be read.
    pub fn read(path: &Path) -> Result<Self, BundleError> {
        let root = root_of(path).ok_or_else(|| BundleError::Missing { file: "bundle.json".to_owned() })?;
        Self::from_files(&disk::read_tree(&root, &is_data)?)
    }

    /// Reads a bundle from its files, by their path in it.
    ///
    /// # Errors
    ///
    /// When a file is missing or is not what its schema says.
    pub fn from_files(files: &BTreeMap<String, Vec<u8>>) -> Result<Self, BundleError> {
        let engines = files.keys().filter(|path| path.starts_with("engines/") && path.ends_with(".json"));
        Ok(Self {
            head: part(files, "bundle.json")?,
            units: part(files, "units.json")?,
            catalogue: part(files, "catalogue.json")?,
            relations: part(files, "relations.json")?,
            machines: part(files, "machines.json")?,
            sources: part(files, "sources.json")?,
            hazards: part(files, "hazards.json")?,
            gauges: part(files, "gauges.json")?,
            procedures: part(files, "procedures.json")?,
            complaints: part(files, "complaints.json")?,
            codes: part(files, "codes.json")?,
            ids: part(files, "ids.json")?,
            changes: files.contains_key("changes.json").then(|| part(files, "changes.json")).transpose()?,
            engines: engines.map(|path| part(files, path)).collect::<Result<_, _>>()?,
        })
    }
}

fn part<T: DeserializeOwned>(files: &BTreeMap<String, Vec<u8>>, file: &str) -> Result<T, BundleError> {
    let bytes = files.get(file).ok_or_else(|| BundleError::Missing { file: file.to_owned() })?;
    serde_json::from_slice(bytes)
        .map_err(|error| BundleError::Malformed { file: file.to_owned(), because: error.to_string() })
}
