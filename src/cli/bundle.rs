//! A compiled bundle as the commands read it: file by file, as JSON.

use std::path::{Path, PathBuf};

use serde_json::Value as Json;

use super::Failure;
use crate::load::disk::{self, MachineError};

/// A bundle's directory.
pub(super) struct Bundle(PathBuf);

impl Bundle {
    /// The bundle in `directory`, or in the handbook there.
    pub(super) fn open(directory: &Path) -> Result<Self, Failure> {
        let whole = disk::read_text(&directory.join("bundle/bundle.json"))?.is_some();
        Ok(Self(if whole { directory.join("bundle") } else { directory.to_owned() }))
    }

    /// A file of the bundle.
    pub(super) fn read(&self, name: &str) -> Result<Json, Failure> {
        let missing = || MachineError::new("cannot read", &self.0.join(name), "no such file in the bundle");
        self.read_if_there(name)?.ok_or_else(|| Failure::Machine(missing()))
    }

    /// The names of the files in a folder of the bundle, without their ending.
    pub(super) fn names_in(&self, folder: &str) -> Result<Vec<String>, Failure> {
        let files = disk::files_in(&self.0.join(folder), "json")?;
        let name = |file: &PathBuf| Some(file.file_stem()?.to_str()?.to_owned());
        Ok(files.iter().filter_map(name).collect())
    }

    /// A file of the bundle that need not be there.
    pub(super) fn read_if_there(&self, name: &str) -> Result<Option<Json>, Failure> {
        let path = self.0.join(name);
        let Some(text) = disk::read_text(&path)? else { return Ok(None) };
        let fault = |error: serde_json::Error| {
            let help = "`baybook verify` says whether a bundle is whole".to_owned();
            Failure::Input(format!("{} is not JSON: {error}", path.display()), help)
        };
        serde_json::from_str(&text).map(Some).map_err(fault)
    }
}

/// The items of a list under a key.
pub(super) fn list<'a>(json: &'a Json, key: &str) -> impl Iterator<Item = &'a Json> + Clone {
    json.get(key).and_then(Json::as_array).into_iter().flatten()
}

/// The text under a key.
pub(super) fn text<'a>(json: &'a Json, key: &str) -> Option<&'a str> {
    json.get(key).and_then(Json::as_str)
}

/// Whether a key holds this text.
pub(super) fn is(json: &Json, key: &str, wanted: &str) -> bool {
    text(json, key) == Some(wanted)
}

/// The texts of a list under a key.
pub(super) fn texts(json: &Json, key: &str) -> Vec<String> {
    list(json, key).filter_map(Json::as_str).map(str::to_owned).collect()
}

/// A bundle that lacks what every bundle has.
pub(super) fn damaged(key: &str) -> Failure {
    Failure::Input(format!("the bundle has no `{key}` where one is due"), "compile it again".to_owned())
}
