//! The first page, and all machines year by year.

use serde::Serialize;

use super::atlas::Atlas;
use super::complaint::ComplaintsView;
use super::links::Links;
use super::scope;
use super::text::count;
use crate::bundle::compare::Changes;
use crate::model::{BuildId, Machine, Model, Recall, Years};
use crate::quantity::Value;

/// The first page.
#[derive(Debug, Serialize)]
pub struct HomeView {
    /// Machines by maker.
    pub makers: Vec<MakerView>,
    /// Counts in words.
    pub counts: Vec<String>,
    /// Complaints: title and place in their list.
    pub complaints: Vec<(String, String)>,
    /// Since which release changes are shown, if they are.
    pub changes_since: Option<String>,
    /// Values of earlier releases that are known to be wrong.
    pub recalls: Vec<RecallView>,
    /// True if an engine gives fault codes.
    pub codes: bool,
    /// Ids of the builds there are, with a space between two: what a device remembers may be gone.
    pub builds: String,
}

/// A value of earlier releases that is known to be wrong.
#[derive(Debug, Serialize)]
pub struct RecallView {
    /// Engine, value, place and condition in words.
    pub what: String,
    /// The wrong value.
    pub value: String,
    /// Releases that stated it.
    pub releases: String,
    /// Why it is wrong.
    pub because: String,
}

fn recall(model: &Model, recall: &Recall) -> RecallView {
    let engine = model.engines.get(recall.engine.as_str()).map_or(&recall.engine, |one| &one.title);
    let of = model.entries.get(recall.of.as_str()).map_or(&recall.of, |one| &one.title);
    let words = recall.place.iter().chain(&recall.when).map(|(key, word)| format!(", {key} {word}"));
    RecallView {
        what: format!("{engine}: {of}{}", words.collect::<String>()),
        value: recall.value.clone(),
        releases: recall.releases.join(", "),
        because: recall.because.clone(),
    }
}

/// Every recalled value for scripts, its place and state as a row's attributes have them.
pub fn recall_data(model: &Model) -> serde_json::Value {
    let recall = |one: &Recall| {
        serde_json::json!({
            "engine": one.engine,
            "of": one.of,
            "where": scope::attribute(&one.place),
            "when": scope::attribute(&one.when),
            // A record keeps its limits in our one way of writing them.
            "value": Value::parse(&one.value).map_or_else(|_| one.value.clone(), |value| value.text()),
            "releases": one.releases,
            "because": one.because,
        })
    };
    model.recalls.iter().map(recall).collect()
}

/// A maker and its machines.
#[derive(Debug, Serialize)]
pub struct MakerView {
    /// Its name.
    pub name: String,
    /// Its machines.
    pub machines: Vec<MachineLink>,
}

/// A machine in a list.
#[derive(Debug, Serialize)]
pub struct MachineLink {
    /// Its name.
    pub name: String,
    /// Its chooser.
    pub href: String,
    /// What sort of machine.
    pub sort: Option<String>,
    /// First and last year.
    pub years: String,
    /// Each year with its link, the newest first.
    pub each: Vec<(u16, String)>,
}

/// All machines, year by year.
#[derive(Debug, Serialize)]
pub struct MachinesView {
    /// Machines by maker.
    pub makers: Vec<MakerView>,
}

/// What the base holds, in words.
pub fn counts(model: &Model) -> Vec<String> {
    let values = model.builds.values().map(|build| build.statements.len()).sum();
    vec![
        count(model.machines.len(), "machine", "machines"),
        count(model.engines.len(), "engine", "engines"),
        count(model.builds.len(), "build", "builds"),
        count(values, "value", "values"),
        count(model.procedures.len(), "procedure", "procedures"),
    ]
}

fn makers(atlas: &Atlas<'_>) -> Vec<MakerView> {
    let model = atlas.model;
    let of_maker = |id| {
        let mut machines: Vec<&Machine> = model.machines.values().filter(|one| one.maker == id).collect();
        machines.sort_by(|one, other| one.name.cmp(&other.name));
        machines
    };
    let views = model.makers.values().map(|maker| MakerView {
        name: maker.name.clone(),
        machines: of_maker(maker.id.clone())
            .into_iter()
            .filter_map(|machine| machine_link(atlas, machine))
            .collect(),
    });
    let mut views: Vec<MakerView> = views.filter(|view| !view.machines.is_empty()).collect();
    views.sort_by(|one, other| one.name.cmp(&other.name));
    views
}

/// A machine of no year has no engine, and so nothing to open.
fn machine_link(atlas: &Atlas<'_>, machine: &Machine) -> Option<MachineLink> {
    let fits = atlas.fits_of_machine(&machine.id).iter();
    let mut years: Vec<u16> = fits.flat_map(|fit| fit.years.from..=fit.years.to).collect();
    years.sort_unstable();
    years.dedup();
    let (first, last) = (*years.first()?, *years.last()?);
    Some(MachineLink {
        name: machine.name.clone(),
        href: Links::machine(&machine.id),
        sort: machine.sort.clone(),
        years: Years { from: first, to: last }.to_string(),
        each: years.iter().rev().map(|year| (*year, Links::year(&machine.id, *year))).collect(),
    })
}

impl HomeView {
    /// The first page.
    pub fn of(atlas: &Atlas<'_>, changes: Option<&Changes>) -> Self {
        let complaints = ComplaintsView::of(atlas.model).complaints.into_iter();
        Self {
            makers: makers(atlas),
            counts: counts(atlas.model),
            complaints: complaints
                .map(|one| (one.title, format!("complaints.html#{}", one.anchor)))
                .collect(),
            changes_since: changes.map(|changes| changes.since.release.clone()),
            recalls: atlas.model.recalls.iter().map(|one| recall(atlas.model, one)).collect(),
            codes: !atlas.model.codes.is_empty(),
            builds: atlas.model.builds.keys().map(BuildId::as_str).collect::<Vec<_>>().join(" "),
        }
    }
}

impl MachinesView {
    /// All machines.
    pub fn of(atlas: &Atlas<'_>) -> Self {
        Self { makers: makers(atlas) }
    }
}
