//! The sheet of a set of fault codes: how they are read, what each says, and where to go from there.

use serde::Serialize;

use super::atlas::Atlas;
use super::links::Links;
use super::places::{RowLink, builds_of, first_row};
use super::text::{bind, count, sentence};
use crate::model::{Build, BuildId, Code, CodeSet, Model};

/// The sheet of a set of codes.
#[derive(Debug, Serialize)]
pub struct CodesView {
    /// Title.
    pub title: String,
    /// `6 codes`.
    pub count: String,
    /// How they are read.
    pub read: String,
    /// How they are cleared.
    pub clear: String,
    /// Title of the source and page, with its sheet.
    pub source: Option<(String, String)>,
    /// Engines that give them, each with its builds.
    pub engines: Vec<(String, Vec<RowLink>)>,
    /// The codes, in file order.
    pub codes: Vec<CodeView>,
}

/// One code.
#[derive(Debug, Serialize)]
pub struct CodeView {
    /// Its id.
    pub id: String,
    /// Anchor.
    pub anchor: String,
    /// What it says.
    pub title: String,
    /// When it is set.
    pub set_when: String,
    /// Causes it raises.
    pub raises: Vec<Onward>,
    /// Entries to measure.
    pub measure: Vec<Onward>,
}

/// A cause or an entry, and the sheets of the builds that have it.
#[derive(Debug, Serialize)]
pub struct Onward {
    /// Title.
    pub title: String,
    /// The complaint a cause belongs to.
    pub of: Option<String>,
    /// One link a build.
    pub links: Vec<RowLink>,
}

/// A set of codes in a list.
#[derive(Clone, Debug, Serialize)]
pub struct CodesLink {
    /// Title.
    pub title: String,
    /// Its sheet.
    pub href: String,
    /// Engines that give the codes.
    pub engines: Vec<String>,
    /// `6 codes`.
    pub count: String,
}

/// All sets of codes.
#[derive(Debug, Serialize)]
pub struct CodeSetsView {
    /// The sets.
    pub sets: Vec<CodesLink>,
}

impl CodesView {
    /// The sheet of a set of codes.
    pub fn of<'a>(atlas: &Atlas<'a>, set: &'a CodeSet) -> Self {
        let model = atlas.model;
        let source = set.source.as_ref().and_then(|id| model.sources.get(id));
        let engines = set.engines.iter().filter_map(|id| model.engines.get(id)).map(|engine| {
            let builds = builds_of(model, std::slice::from_ref(&engine.id));
            let links = builds.map(|(id, _)| RowLink { build: id.to_string(), href: Links::engine(id) });
            (engine.title.clone(), links.collect())
        });
        Self {
            title: set.title.clone(),
            count: count(set.codes.len(), "code", "codes"),
            read: sentence(&set.read),
            clear: sentence(&set.clear),
            source: source.map(|source| {
                let page = set.page.as_ref().map(|page| format!(", page\u{a0}{page}")).unwrap_or_default();
                (format!("{}{page}", source.title), Links::source_sheet(&source.id))
            }),
            engines: engines.collect(),
            codes: set.codes.iter().map(|code| code_view(atlas, set, code)).collect(),
        }
    }
}

fn code_view<'a>(atlas: &Atlas<'a>, set: &'a CodeSet, code: &Code) -> CodeView {
    let model = atlas.model;
    let raises = code.raises.iter().filter_map(|(id, cause)| {
        let complaint = model.complaints.get(id)?;
        let cause = complaint.causes.iter().find(|one| one.id == *cause)?;
        let fits = |build: &Build| model.fits_build(&complaint.fits, build);
        let href = |build: &Build| {
            fits(build).then(|| format!("{}#cause-{}", Links::complaint(&build.id, id), cause.id))
        };
        Some(Onward {
            title: bind(&cause.title),
            of: Some(bind(&complaint.title)),
            links: links(model, set, href),
        })
    });
    let measure = code.measure.iter().filter_map(|id| {
        let entry = model.entries.get(id)?;
        Some(Onward {
            title: entry.title.clone(),
            of: None,
            links: links(model, set, |build| first_row(atlas, build, id)),
        })
    });
    CodeView {
        id: code.id.clone(),
        anchor: format!("code-{}", code.id),
        title: bind(&code.title),
        set_when: sentence(&code.set_when),
        raises: raises.collect(),
        measure: measure.collect(),
    }
}

fn links<'a>(model: &'a Model, set: &'a CodeSet, href: impl Fn(&'a Build) -> Option<String>) -> Vec<RowLink> {
    let builds = builds_of(model, &set.engines);
    let link =
        |(id, build): (&BuildId, &'a Build)| Some(RowLink { build: id.to_string(), href: href(build)? });
    builds.filter_map(link).collect()
}

/// The sets of codes that a build's engine gives.
pub fn given_by(model: &Model, build: &Build) -> Vec<CodesLink> {
    let sets = model.codes.values().filter(|set| set.engines.contains(&build.engine));
    sets.map(|set| codes_link(model, set)).collect()
}

fn codes_link(model: &Model, set: &CodeSet) -> CodesLink {
    let engines = set.engines.iter().filter_map(|id| model.engines.get(id));
    CodesLink {
        title: set.title.clone(),
        href: Links::codes(&set.id),
        engines: engines.map(|engine| engine.title.clone()).collect(),
        count: count(set.codes.len(), "code", "codes"),
    }
}

impl CodeSetsView {
    /// All sets of codes.
    pub fn of(model: &Model) -> Self {
        Self { sets: model.codes.values().map(|set| codes_link(model, set)).collect() }
    }
}
