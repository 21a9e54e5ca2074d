//! The sheet of a complaint for one build: what past jobs found, and the checks that show it.

use std::collections::BTreeMap;

use num_traits::Zero as _;
use serde::Serialize;
use serde_json::json;

use super::atlas::Atlas;
use super::codes::{CodesLink, given_by};
use super::hazard::{Hazards, Panel};
use super::heat::HeatWords;
use super::links::Links;
use super::places::RowLink;
use super::procedure::{beside, state_words};
use super::text::{bind, words};
use super::title_block::TitleBlock;
use crate::compute::order::{Findings, Job, Step, order};
use crate::emit::drawing::{Drawing, divided, position};
use crate::model::{Access, Build, Check, Complaint, HazardId, Model};
use crate::quantity::{Exact, Rounding, exact_text, power_of_ten, round_to};

/// The sheet of a complaint.
#[derive(Debug, Serialize)]
pub struct ComplaintView {
    /// Title block of its build.
    pub block: TitleBlock,
    /// Its id.
    pub id: String,
    /// What the owner says.
    pub title: String,
    /// Other words for it.
    pub aka: Vec<String>,
    /// Causes in the order of the file.
    pub causes: Vec<CauseLine>,
    /// Past jobs on one line, divided by cause.
    pub drawing: Option<Drawing>,
    /// Codes of this engine that point here: name and link.
    pub raised_by: Vec<(String, String)>,
    /// Sets of codes that this engine gives.
    pub codes: Vec<CodesLink>,
    /// Dangers of the checks and of the procedures they follow; lesser hazards stand at their check.
    pub panels: Vec<Panel>,
    /// Minutes to the cause on average: in this order, and in that of the file.
    pub minutes: Option<(String, String)>,
    /// Minutes of warming and cooling that come on top if every check is done.
    pub heat_minutes: Option<u32>,
    /// The complaint as JSON, for the script that goes on from results.
    pub data: String,
    /// Past jobs that the order counts: those whose cause a check shows.
    pub counted: String,
    /// Checks in the order that finds the cause soonest on average.
    pub checks: Vec<CheckLine>,
}

/// One cause.
#[derive(Debug, Serialize)]
pub struct CauseLine {
    /// Its number on the line.
    pub number: usize,
    /// Anchor.
    pub anchor: String,
    /// What is wrong.
    pub title: String,
    /// `7 of 20 past jobs`.
    pub share: String,
    /// True for what is left when no check shows it.
    pub residual: bool,
}

/// One check.
#[derive(Debug, Serialize)]
pub struct CheckLine {
    /// Its id.
    pub id: String,
    /// Anchor.
    pub anchor: String,
    /// What is looked at or measured.
    pub title: String,
    /// Minutes it takes, access aside.
    pub minutes: String,
    /// State of the engine in words.
    pub state: &'static str,
    /// What the engine must first become, with the minutes.
    pub heat: Option<String>,
    /// Later checks that want the cold engine it takes away, and minutes until it is cold again.
    pub voids: Option<(String, u32)>,
    /// Access steps that it is the first to need: title and minutes.
    pub opens: Vec<(String, String)>,
    /// Access steps that an earlier check needed: title and number of that check.
    pub open: Vec<(String, usize)>,
    /// The procedure: title, and link if it fits the build.
    pub procedure: Option<(String, Option<String>)>,
    /// Hazards of the check itself, in full; dangers stand in full at the head of the sheet.
    pub cautions: Vec<Hazards>,
    /// Hazards that are named only: the procedure's, whose own sheet says how to avoid them, and dangers.
    pub hazards: Vec<Panel>,
    /// Causes it shows: title and anchor.
    pub shows: Vec<(String, String)>,
    /// Minutes gone when it is done, those of the checks before it with them.
    pub by: String,
    /// In how many of the jobs counted it is the first to show; none if nothing is left for it.
    pub finds: Option<String>,
    /// Why it stands where it stands.
    pub why: &'static str,
}

/// A complaint in a list.
#[derive(Debug, Serialize)]
pub struct ComplaintLink {
    /// What the owner says.
    pub title: String,
    /// Anchor in the list of complaints.
    pub anchor: String,
    /// Other words for it.
    pub aka: Vec<String>,
    /// Its sheet for each engine and build.
    pub engines: Vec<(String, Vec<RowLink>)>,
}

/// All complaints.
#[derive(Debug, Serialize)]
pub struct ComplaintsView {
    /// The complaints, in order of title.
    pub complaints: Vec<ComplaintLink>,
}

/// Complaints that fit a build, in order of title.
pub fn fitting_complaints<'a>(model: &'a Model, build: &Build) -> Vec<&'a Complaint> {
    let all = model.complaints.values();
    let mut fitting: Vec<&Complaint> = all.filter(|one| model.fits_build(&one.fits, build)).collect();
    fitting.sort_by(|one, other| one.title.cmp(&other.title));
    fitting
}

impl ComplaintView {
    /// The sheet of a complaint for a build.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, complaint: &Complaint, hash: &str) -> Self {
        let model = atlas.model;
        let all = complaint.checks.iter().flat_map(|check| hazards(model, build, check));
        let dangers = Panel::several(model, all).into_iter().filter(Panel::is_danger);
        let order = Job::of(complaint).and_then(|job| order(&job, &Findings::new())).ok();
        let steps = order.as_ref().map_or(&[][..], |order| &order.steps);
        let heat = HeatWords::of(complaint, steps);
        Self {
            heat_minutes: heat.minutes(),
            block: TitleBlock::of(atlas, build, hash),
            id: complaint.id.to_string(),
            title: bind(&complaint.title),
            aka: complaint.aka.iter().map(|name| bind(name)).collect(),
            causes: causes(complaint),
            drawing: line_of_jobs(complaint),
            raised_by: raised_by(model, build, complaint),
            codes: given_by(model, build),
            panels: dangers.collect(),
            minutes: order
                .as_ref()
                .map(|found| (tenths(&found.expected_minutes), tenths(&found.as_written_minutes))),
            data: data(complaint),
            counted: exact_text(&counted(complaint)),
            checks: checks(model, build, complaint, steps, &heat),
        }
    }
}

/// Shares are written as counts of jobs; others are said as they are written.
fn causes(complaint: &Complaint) -> Vec<CauseLine> {
    let all: Exact = complaint.causes.iter().map(|one| &one.share).sum();
    let whole = complaint.causes.iter().all(|one| one.share.is_integer());
    let noun = if whole { "past jobs" } else { "of past jobs, by share" };
    let line = |(cause, number): (&crate::model::Cause, usize)| CauseLine {
        number,
        anchor: format!("cause-{}", cause.id),
        title: bind(&cause.title),
        share: format!("{} of {} {noun}", exact_text(&cause.share), exact_text(&all)),
        residual: cause.residual,
    };
    complaint.causes.iter().zip(1..).map(line).collect()
}

fn line_of_jobs(complaint: &Complaint) -> Option<Drawing> {
    let shares: Option<Vec<f64>> = complaint.causes.iter().map(|one| position(&one.share)).collect();
    let spoken: Vec<String> = causes(complaint)
        .into_iter()
        .map(|one| format!("{}, {}: {}", one.number, one.title, one.share))
        .collect();
    divided::draw(&shares?, &format!("Past jobs on one line, divided by cause. {}", spoken.join("; ")))
}

fn raised_by(model: &Model, build: &Build, complaint: &Complaint) -> Vec<(String, String)> {
    let sets = model.codes.values().filter(|set| set.engines.contains(&build.engine));
    let codes = sets.flat_map(|set| set.codes.iter().map(move |code| (set, code)));
    let raising = codes.filter(|(_, code)| code.raises.iter().any(|(id, _)| *id == complaint.id));
    let named = raising.map(|(set, code)| {
        let name = bind(&format!("{}: {}", code.id, code.title));
        (name, format!("{}#code-{}", Links::codes(&set.id), code.id))
    });
    named.collect()
}

/// What the script is given: the numbers as in the bundle, and what access is called.
fn data(complaint: &Complaint) -> String {
    let causes = complaint
        .causes
        .iter()
        .map(|one| json!({ "id": one.id, "share": exact_text(&one.share), "residual": one.residual }));
    let access = complaint.access.iter().map(|one| {
        let title = bind(&one.title.clone().unwrap_or_else(|| words(&one.id)));
        json!({ "id": one.id, "title": title, "minutes": exact_text(&one.minutes), "needs": one.needs })
    });
    let checks = complaint.checks.iter().map(|one| {
        let voids: &[&str] = if one.voids_cold { &["cold"] } else { &[] };
        json!({
            "id": one.id, "minutes": exact_text(&one.minutes), "shows": one.shows, "needs": one.needs,
            "state": one.state.word(), "voids": voids,
        })
    });
    let [causes, access, checks] = [causes.collect::<Vec<_>>(), access.collect(), checks.collect()];
    json!({ "causes": causes, "access": access, "checks": checks }).to_string()
}

/// The sum of the shares whose cause a check shows.
fn counted(complaint: &Complaint) -> Exact {
    complaint.causes.iter().filter(|one| !one.residual).map(|one| &one.share).sum()
}

/// Minutes to a tenth.
fn tenths(minutes: &Exact) -> String {
    exact_text(&round_to(minutes, &power_of_ten(-1), Rounding::HalfEven))
}

/// The checks in their order; a complaint whose order cannot be worked out has the file's.
fn checks(
    model: &Model,
    build: &Build,
    complaint: &Complaint,
    steps: &[Step],
    heat: &HeatWords<'_>,
) -> Vec<CheckLine> {
    let mut opened: BTreeMap<&str, usize> = BTreeMap::new();
    let of = |step: &Step| complaint.checks.iter().find(|check| check.id == step.check);
    let ordered: Vec<(&Check, Option<&Step>)> = if steps.is_empty() {
        complaint.checks.iter().map(|check| (check, None)).collect()
    } else {
        steps.iter().filter_map(|step| Some((of(step)?, Some(step)))).collect()
    };
    let total = counted(complaint);
    let lines = ordered.into_iter().enumerate().map(|(at, (check, step))| {
        let line = check_line(model, build, complaint, check, at + 1, &mut opened);
        let Some(step) = step else { return line };
        CheckLine {
            by: tenths(&step.by),
            finds: (!step.finds.is_zero()).then(|| tenths(&(&step.finds * &total))),
            why: step.why.words(),
            heat: heat.first(check),
            voids: heat.voids(check),
            ..line
        }
    });
    lines.collect()
}

fn check_line<'a>(
    model: &Model,
    build: &Build,
    complaint: &'a Complaint,
    check: &'a Check,
    number: usize,
    opened: &mut BTreeMap<&'a str, usize>,
) -> CheckLine {
    let (mut opens, mut open) = (Vec::new(), Vec::new());
    for access in access_of(complaint, check) {
        let title = bind(&access.title.clone().unwrap_or_else(|| words(&access.id)));
        match opened.get(access.id.as_str()) {
            Some(by) => open.push((title, *by)),
            None => {
                opened.insert(&access.id, number);
                opens.push((title, exact_text(&access.minutes)));
            }
        }
    }
    let cause = |id: &String| complaint.causes.iter().find(|one| one.id == *id);
    let shows =
        check.shows.iter().filter_map(cause).map(|one| (bind(&one.title), format!("cause-{}", one.id)));
    let procedure = check.procedure.as_ref().map(|id| match beside(model, build, id) {
        Some((href, title)) => (title, Some(href)),
        None => (model.procedures.get(id).map_or_else(|| id.to_string(), |one| one.title.clone()), None),
    });
    let in_full = |id: &&HazardId| Panel::of(model, id).is_some_and(|panel| !panel.is_danger());
    let cautions: Vec<&HazardId> = check.hazards.iter().filter(in_full).collect();
    let named = hazards(model, build, check).into_iter().filter(|id| !cautions.contains(id));
    CheckLine {
        hazards: Panel::several(model, named),
        cautions: Hazards::of(model, cautions),
        id: check.id.clone(),
        anchor: format!("check-{}", check.id),
        title: bind(&check.title),
        minutes: exact_text(&check.minutes),
        state: state_words(check.state),
        opens,
        open,
        procedure,
        shows: shows.collect(),
        by: String::new(),
        finds: None,
        heat: None,
        voids: None,
        why: "",
    }
}

/// The hazards of a check itself, then those of its procedure if that fits the build.
fn hazards<'a>(model: &'a Model, build: &Build, check: &'a Check) -> Vec<&'a HazardId> {
    let followed = check.procedure.as_ref().and_then(|id| model.procedures.get(id));
    let followed = followed.filter(|one| model.fits_build(&one.fits, build));
    check.hazards.iter().chain(followed.into_iter().flat_map(|one| &one.hazards)).collect()
}

/// Every access step of a check, each once, what comes first before what needs it.
fn access_of<'a>(complaint: &'a Complaint, check: &'a Check) -> Vec<&'a Access> {
    let mut reached: Vec<&Access> = Vec::new();
    let mut wanted: Vec<&str> = check.needs.iter().map(String::as_str).collect();
    while let Some(id) = wanted.pop() {
        if reached.iter().any(|one| one.id == id) {
            continue;
        }
        if let Some(access) = complaint.access.iter().find(|one| one.id == id) {
            reached.push(access);
            wanted.extend(access.needs.iter().map(String::as_str));
        }
    }
    in_turn(reached)
}

/// Takes, again and again, the first step in file order whose own needs are done; a circle ends it.
fn in_turn(mut left: Vec<&Access>) -> Vec<&Access> {
    left.sort_by_key(|access| access.span);
    let mut done: Vec<&Access> = Vec::with_capacity(left.len());
    loop {
        let waits = |access: &Access| access.needs.iter().any(|need| left.iter().any(|one| one.id == *need));
        let Some(at) = left.iter().position(|access| !waits(access)) else { break };
        done.push(left.remove(at));
    }
    done.extend(left);
    done
}

impl ComplaintsView {
    /// All complaints, each with the builds it fits.
    pub fn of(model: &Model) -> Self {
        let mut complaints: Vec<ComplaintLink> =
            model.complaints.values().map(|one| complaint_link(model, one)).collect();
        complaints.sort_by(|one, other| one.title.cmp(&other.title));
        Self { complaints }
    }
}

fn complaint_link(model: &Model, complaint: &Complaint) -> ComplaintLink {
    let mut engines: Vec<(String, Vec<RowLink>)> = Vec::new();
    for build in model.builds.values().filter(|build| model.fits_build(&complaint.fits, build)) {
        let title = model
            .engines
            .get(&build.engine)
            .map_or_else(|| build.engine.to_string(), |one| one.title.clone());
        let link = RowLink { build: build.id.to_string(), href: Links::complaint(&build.id, &complaint.id) };
        match engines.iter_mut().find(|(engine, _)| *engine == title) {
            Some((_, links)) => links.push(link),
            None => engines.push((title, vec![link])),
        }
    }
    ComplaintLink {
        title: bind(&complaint.title),
        anchor: format!("complaint-{}", complaint.id),
        aka: complaint.aka.iter().map(|name| bind(name)).collect(),
        engines,
    }
}
