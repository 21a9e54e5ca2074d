//! A complaint from a base, a bundle or a file of its own: its job, and what to call the parts of it.

use std::collections::BTreeMap;

use serde_json::Value as Json;

use super::super::Failure;
use super::super::bundle::{Bundle, damaged, is, list, text, texts};
use super::super::unknown;
use super::cautions::{self, ByCheck};
use crate::compute::Refusal;
use crate::compute::order::{Access, Cause, Check, Job, Warmth};
use crate::load::format::{ComplaintFile, Located, Text};
use crate::model::{BuildId, Complaint, ComplaintId, Model, ProcedureState, VoidedState};
use crate::quantity::{Exact, parse_exact};
use crate::resolve::exact;

/// A complaint to be ordered.
pub(super) struct Asked {
    /// What the owner says.
    pub(super) title: String,
    /// Causes, access and checks.
    pub(super) job: Job,
    /// Titles of the causes.
    pub(super) causes: BTreeMap<String, String>,
    /// Titles of the access steps.
    pub(super) access: BTreeMap<String, String>,
    /// Titles of the checks, in file order.
    pub(super) checks: Vec<(String, String)>,
    /// What each asks of the engine's heat.
    pub(super) heat: BTreeMap<String, Warmth>,
    /// Where the shares are from: none of a file of its own; of a base, whether it is invented.
    pub(super) invented: Option<bool>,
    /// What can hurt at them.
    pub(super) cautions: ByCheck,
}

/// The parts as they are gathered.
#[derive(Default)]
struct Parts {
    causes: Vec<(Cause, String)>,
    access: Vec<(Access, String)>,
    checks: Vec<(Check, String)>,
    heat: BTreeMap<String, Warmth>,
    invented: Option<bool>,
}

impl Parts {
    fn asked(self, title: String, cautions: ByCheck) -> Result<Asked, Refusal> {
        let causes = self.causes.iter().map(|(one, title)| (one.id.clone(), title.clone())).collect();
        let access = self.access.iter().map(|(one, title)| (one.id.clone(), title.clone())).collect();
        let checks = self.checks.iter().map(|(one, title)| (one.id.clone(), title.clone())).collect();
        let job = Job::new(
            self.causes.into_iter().map(|(one, _)| one).collect(),
            self.access.into_iter().map(|(one, _)| one).collect(),
            self.checks.into_iter().map(|(one, _)| one).collect(),
        )?;
        let (heat, invented) = (self.heat, self.invented);
        Ok(Asked { title, job, causes, access, checks, heat, invented, cautions })
    }
}

/// A complaint of a base, for a build if one is named.
pub(super) fn of_base(model: &Model, id: &str, build: Option<&str>) -> Result<Asked, Failure> {
    let known = model.complaints.keys().map(ComplaintId::as_str);
    let complaint =
        model.complaints.get(&ComplaintId::new(id)).ok_or_else(|| unknown("complaint", id, known))?;
    let mut fitted = None;
    if let Some(name) = build {
        let builds = model.builds.keys().map(BuildId::as_str);
        let build = model.builds.get(&BuildId::new(name)).ok_or_else(|| unknown("build", name, builds))?;
        if !model.fits_build(&complaint.fits, build) {
            return Err(does_not_fit(id, name));
        }
        fitted = Some(build);
    }
    Ok(named_parts(complaint, model.base.invented, cautions::of_base(model, complaint, fitted))?)
}

/// What the parts of a complaint are called.
fn named_parts(complaint: &Complaint, invented: bool, cautions: ByCheck) -> Result<Asked, Refusal> {
    let step =
        |one: &crate::model::Access| (one.id.clone(), one.title.clone().unwrap_or_else(|| one.id.clone()));
    Ok(Asked {
        title: complaint.title.clone(),
        job: Job::of(complaint)?,
        causes: complaint.causes.iter().map(|one| (one.id.clone(), one.title.clone())).collect(),
        access: complaint.access.iter().map(step).collect(),
        checks: complaint.checks.iter().map(|one| (one.id.clone(), one.title.clone())).collect(),
        heat: complaint.checks.iter().map(|one| (one.id.clone(), Warmth::of(one))).collect(),
        invented: Some(invented),
        cautions,
    })
}

/// A complaint of a file of its own.
pub(super) fn of_file(file: &ComplaintFile) -> Result<Asked, Failure> {
    let word = |text: &Text| text.as_str().to_owned();
    let words = |texts: &[Text]| texts.iter().map(word).collect();
    let mut parts = Parts::default();
    for one in file.causes.iter().map(Located::get) {
        let cause = Cause { id: word(&one.id), share: exact(one.share), residual: one.residual };
        parts.causes.push((cause, word(&one.title)));
    }
    for one in file.access.iter().map(Located::get) {
        let step = Access { id: word(&one.id), minutes: exact(one.minutes), needs: words(&one.needs) };
        parts.access.push((step, one.title.as_ref().map_or_else(|| word(&one.id), word)));
    }
    for one in file.checks.iter().map(Located::get) {
        let minutes = exact(one.minutes);
        let check = Check { id: word(&one.id), minutes, shows: words(&one.shows), needs: words(&one.needs) };
        let warmth = Warmth { state: one.state, voids_cold: one.voids.contains(&VoidedState::Cold) };
        parts.heat.insert(word(&one.id), warmth);
        parts.checks.push((check, word(&one.title)));
    }
    Ok(parts.asked(word(&file.title), cautions::of_file(file))?)
}

/// A complaint of a bundle, for a build if one is named.
pub(super) fn of_bundle(bundle: &Bundle, id: &str, build: Option<&str>) -> Result<Asked, Failure> {
    let file = bundle.read("complaints.json")?;
    let known = list(&file, "complaints").filter_map(|one| text(one, "id"));
    let complaint = list(&file, "complaints").find(|one| is(one, "id", id));
    let complaint = complaint.ok_or_else(|| unknown("complaint", id, known))?;
    if let Some(build) = build.filter(|build| !texts(complaint, "builds").iter().any(|one| one == build)) {
        return Err(does_not_fit(id, build));
    }
    let mut parts = Parts::default();
    for one in list(complaint, "causes") {
        let residual = one.get("residual").and_then(Json::as_bool).unwrap_or_default();
        let cause = Cause { id: named(one)?, share: number(one, "share")?, residual };
        parts.causes.push((cause, titled(one)));
    }
    for one in list(complaint, "access") {
        let step = Access { id: named(one)?, minutes: number(one, "minutes")?, needs: texts(one, "needs") };
        parts.access.push((step, titled(one)));
    }
    for one in list(complaint, "checks") {
        let minutes = number(one, "minutes")?;
        let check =
            Check { id: named(one)?, minutes, shows: texts(one, "shows"), needs: texts(one, "needs") };
        parts.heat.insert(check.id.clone(), warmth(one));
        parts.checks.push((check, titled(one)));
    }
    let head = bundle.read("bundle.json")?;
    parts.invented = Some(head.get("invented").and_then(Json::as_bool).unwrap_or_default());
    Ok(parts.asked(titled(complaint), cautions::of_bundle(bundle, complaint, build)?)?)
}

fn named(json: &Json) -> Result<String, Failure> {
    text(json, "id").map(str::to_owned).ok_or_else(|| damaged("id"))
}

fn warmth(check: &Json) -> Warmth {
    let states = [ProcedureState::Cold, ProcedureState::Hot];
    let state = states.into_iter().find(|state| is(check, "state", state.word())).unwrap_or_default();
    Warmth { state, voids_cold: texts(check, "voids").iter().any(|one| one == "cold") }
}

fn titled(json: &Json) -> String {
    text(json, "title").or_else(|| text(json, "id")).unwrap_or_default().to_owned()
}

fn number(json: &Json, key: &str) -> Result<Exact, Failure> {
    text(json, key).and_then(parse_exact).ok_or_else(|| damaged(key))
}

fn does_not_fit(complaint: &str, build: &str) -> Failure {
    let help = "leave `--build` out, or name a build that has what the complaint asks for";
    Failure::Usage(format!("the complaint `{complaint}` does not fit the build `{build}`"), help.to_owned())
}
