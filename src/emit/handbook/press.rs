//! The press: one template engine, what every page shares, and the tree of finished pages.

use std::collections::BTreeMap;

use serde::Serialize;
use tera::{Context, Tera};

use super::view::{Atlas, Shared, Stop, gauge_data, recall_data, stops};
use super::{Facts, HandbookError, assets, find, offline, templates};
use crate::bundle::compare::Changes;
use crate::diag::Rule;
use crate::emit::bundle::ids as retired_ids;
use crate::emit::{Tree, drawing, put};
use crate::model::{BuildId, Model};

/// A finished page: its path below the output, and its bytes.
pub(super) type Page = (String, Vec<u8>);

/// Prints pages into a tree.
pub(super) struct Press<'a> {
    pub(super) model: &'a Model,
    pub(super) atlas: Atlas<'a>,
    pub(super) rules: &'a [&'static Rule],
    pub(super) build_hashes: &'a BTreeMap<BuildId, String>,
    pub(super) changes: Option<&'a Changes>,
    shared: Shared,
    tera: Tera,
    tree: Tree,
}

impl<'a> Press<'a> {
    /// A press with the assets already in its tree.
    pub(super) fn new(facts: &Facts<'a>) -> Result<Self, HandbookError> {
        let fault = |cause| HandbookError { sheet: "templates".to_owned(), cause: Some(cause) };
        let model = facts.checked.model();
        let gauges = format!(
            "globalThis.baybookGauges = {};\nglobalThis.baybookRecalls = {};\n",
            gauge_data(model),
            recall_data(model)
        );
        let mut assets = assets::hashed();
        assets.push(assets::made("gauges.js", gauges));
        let linings = assets::quoted(drawing::shared().as_str());
        assets.push(assets::made("linings.js", format!("baybookLinings({linings});\n")));
        let mut tera = templates::engine().map_err(fault)?;
        let shared = Shared::new(&model.base, facts.content_hash, &assets);
        tera.global_context().insert("site", &shared);
        let (folder, parts) = find::index(model);
        tera.global_context().insert("find_in", &folder);
        let mut tree: Tree = assets.into_iter().map(|asset| (asset.path, asset.bytes)).collect();
        tree.extend(parts);
        tree.extend([offline::manifest(&shared)]);
        let Facts { rules, build_hashes, changes, .. } = *facts;
        Ok(Self { model, atlas: Atlas::of(model), rules, build_hashes, changes, shared, tera, tree })
    }

    /// Takes finished pages into the tree; two that want one place are a fault.
    pub(super) fn take(&mut self, pages: impl IntoIterator<Item = Page>) -> Result<(), HandbookError> {
        put(&mut self.tree, pages).map_err(|sheet| HandbookError { sheet, cause: None })
    }

    /// One page: `template` from `view`, at `path` below the output.
    pub(super) fn page<V: Serialize>(
        &self,
        path: &str,
        template: &str,
        view: &V,
    ) -> Result<Page, HandbookError> {
        let fault = |cause| HandbookError { sheet: path.to_owned(), cause: Some(cause) };
        let mut context = Context::from_serialize(view).map_err(fault)?;
        context.insert("root", &"../".repeat(path.matches('/').count()));
        context.insert("path", path);
        let page = self.tera.render(template, &context).map_err(fault)?;
        Ok((path.to_owned(), page.into_bytes()))
    }

    /// Renders a part of a page, for places where Markdown takes it in.
    pub(super) fn part<V: Serialize>(&self, template: &str, view: &V) -> Result<String, HandbookError> {
        let fault = |cause| HandbookError { sheet: template.to_owned(), cause: Some(cause) };
        let context = Context::from_serialize(view).map_err(fault)?;
        let part = self.tera.render(template, &context).map_err(fault)?;
        Ok(part.trim().to_owned())
    }

    /// Takes the script that says where the limits of each build are, what ids that moved are now, and which
    /// builds must not be run; its path.
    pub(super) fn builds_script(&mut self) -> String {
        let limits: BTreeMap<&str, &str> = self
            .tree
            .keys()
            .filter_map(|path| {
                let (build, file) = path.strip_prefix("builds/")?.split_once('/')?;
                file.starts_with("limits-").then_some((build, path.as_str()))
            })
            .collect();
        let ids = retired_ids(self.model);
        let moved: BTreeMap<&str, String> = ids
            .retired
            .iter()
            .filter_map(|one| match ids.now(&one.id).as_slice() {
                [now] => Some((one.id.as_str(), now.clone())),
                _ => None,
            })
            .collect();
        let stops: BTreeMap<&str, Vec<Stop>> = self
            .model
            .builds
            .values()
            .map(|build| (build.id.as_str(), stops(self.model, build)))
            .filter(|(_, stops)| !stops.is_empty())
            .collect();
        let facts = serde_json::json!({ "limits": limits, "moved": moved, "stops": stops });
        let asset = assets::made("builds.js", format!("globalThis.baybookBuilds = {facts};\n"));
        let path = asset.path.clone();
        self.tree.insert(asset.path, asset.bytes);
        path
    }

    /// What the tree takes so far, in words.
    pub(super) fn size(&self) -> String {
        offline::size(&self.tree)
    }

    /// The finished pages, and what keeps them on a device.
    pub(super) fn into_tree(self) -> Tree {
        let mut tree = self.tree;
        let kept = offline::kept(&tree, &self.shared);
        tree.extend(kept);
        tree
    }
}
