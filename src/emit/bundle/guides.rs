//! `procedures.json`, `complaints.json` and `codes.json`.

use schemars::JsonSchema;
use serde::Serialize;

use crate::model::{
    Code, CodeSet, Complaint, EntryId, Fitting, LeftOpen, Link, Model, Need, Piece, Procedure, ProcedureState,
};
use crate::quantity::exact_text;

/// The procedures.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Procedures of a bundle")]
pub struct ProceduresJson {
    /// The procedures.
    pub procedures: Vec<ProcedureJson>,
}

/// One procedure: what it is, needs and uses; its steps are in the handbook.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ProcedureJson {
    /// Its id.
    pub id: String,
    /// What is done.
    pub title: String,
    /// Minutes it takes.
    pub minutes: Option<u32>,
    /// `cold`, `hot` or `any`.
    pub state: &'static str,
    /// Ids of gauges it needs.
    pub gauges: Vec<String>,
    /// Tools and access it needs, in words.
    pub tools: Vec<String>,
    /// Ids of its hazards.
    pub hazards: Vec<String>,
    /// Ids of the entries it uses, in order of first use.
    pub uses: Vec<String>,
    /// Number of its steps.
    pub steps: usize,
    /// What stands open between two steps.
    pub left_open: Vec<LeftOpenJson>,
    /// What shows that the work holds.
    pub proof: Option<String>,
    /// Ids of the builds it fits.
    pub builds: Vec<String>,
}

/// Something that stands open between two steps: drained, unplugged, loosened.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LeftOpenJson {
    /// What stands open.
    pub what: String,
    /// The step that opens it, from 1.
    pub from: u32,
    /// The step that closes it.
    pub until: u32,
}

impl LeftOpenJson {
    fn of(one: &LeftOpen) -> Self {
        Self { what: one.what.clone(), from: one.from, until: one.until }
    }
}

/// The complaints.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Complaints of a bundle")]
pub struct ComplaintsJson {
    /// The complaints.
    pub complaints: Vec<ComplaintJson>,
}

/// One complaint.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ComplaintJson {
    /// Its id.
    pub id: String,
    /// What the owner says.
    pub title: String,
    /// Other words for it.
    pub aka: Vec<String>,
    /// Causes it can have.
    pub causes: Vec<CauseJson>,
    /// Access steps that checks share.
    pub access: Vec<AccessJson>,
    /// Checks, in the order they are written.
    pub checks: Vec<CheckJson>,
    /// Ids of the builds it fits.
    pub builds: Vec<String>,
}

/// One cause.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CauseJson {
    /// Its id.
    pub id: String,
    /// What is wrong.
    pub title: String,
    /// Share of past jobs as written, exact.
    pub share: String,
    /// True for what is left when no check shows it.
    pub residual: bool,
}

/// One access step.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AccessJson {
    /// Its id.
    pub id: String,
    /// What is opened or taken off.
    pub title: Option<String>,
    /// Minutes, exact.
    pub minutes: String,
    /// Access steps that come before it.
    pub needs: Vec<String>,
}

/// One check.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CheckJson {
    /// Its id.
    pub id: String,
    /// What is looked at or measured.
    pub title: String,
    /// Minutes, access aside, exact.
    pub minutes: String,
    /// Causes it shows.
    pub shows: Vec<String>,
    /// Access steps it needs.
    pub needs: Vec<String>,
    /// Id of the procedure that says how.
    pub procedure: Option<String>,
    /// `cold`, `hot` or `any`.
    pub state: &'static str,
}

/// The fault codes.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Fault codes of a bundle")]
pub struct CodesJson {
    /// The sets of codes.
    pub sets: Vec<CodeSetJson>,
}

/// The codes of some engines.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CodeSetJson {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Ids of the engines that give them.
    pub engines: Vec<String>,
    /// How they are read.
    pub read: String,
    /// How they are cleared.
    pub clear: String,
    /// Id of the source.
    pub source: Option<String>,
    /// Page of the source.
    pub page: Option<String>,
    /// The codes.
    pub codes: Vec<CodeJson>,
}

/// One code.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CodeJson {
    /// Its id.
    pub id: String,
    /// What it says.
    pub title: String,
    /// When it is set.
    pub set_when: String,
    /// Causes it raises.
    pub raises: Vec<RaisedJson>,
    /// Ids of the entries to measure.
    pub measure: Vec<String>,
}

/// A cause that a code raises.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RaisedJson {
    /// Id of the complaint.
    pub complaint: String,
    /// Id of the cause in it.
    pub cause: String,
}

fn builds(model: &Model, fits: &Fitting) -> Vec<String> {
    model
        .builds
        .values()
        .filter(|build| model.fits_build(fits, build))
        .map(|build| build.id.to_string())
        .collect()
}

const fn state(state: ProcedureState) -> &'static str {
    match state {
        ProcedureState::Cold => "cold",
        ProcedureState::Hot => "hot",
        ProcedureState::Any => "any",
    }
}

/// The procedures as JSON.
pub fn procedures(model: &Model) -> ProceduresJson {
    ProceduresJson { procedures: model.procedures.values().map(|one| procedure(model, one)).collect() }
}

fn procedure(model: &Model, procedure: &Procedure) -> ProcedureJson {
    let (mut gauges, mut tools) = (Vec::new(), Vec::new());
    for need in &procedure.needs {
        match need {
            Need::Gauge(id) => gauges.push(id.to_string()),
            Need::Words(words) => tools.push(words.clone()),
        }
    }
    let mut uses: Vec<String> = Vec::new();
    for of in procedure.body.iter().filter_map(used) {
        if !uses.iter().any(|one| one == of.as_str()) {
            uses.push(of.to_string());
        }
    }
    ProcedureJson {
        id: procedure.id.to_string(),
        title: procedure.title.clone(),
        minutes: procedure.minutes,
        state: state(procedure.state),
        gauges,
        tools,
        hazards: procedure.hazards.iter().map(ToString::to_string).collect(),
        uses,
        steps: procedure.steps(),
        left_open: procedure.left_open.iter().map(LeftOpenJson::of).collect(),
        proof: procedure.proof.clone(),
        builds: builds(model, &procedure.fits),
    }
}

/// The entry that a piece of a procedure uses.
fn used(piece: &Piece) -> Option<&EntryId> {
    match piece {
        Piece::Link { link, .. } => Link::entry(link).map(|(of, _)| of),
        Piece::Markup { .. } => None,
    }
}

/// The complaints as JSON.
pub fn complaints(model: &Model) -> ComplaintsJson {
    ComplaintsJson { complaints: model.complaints.values().map(|one| complaint(model, one)).collect() }
}

fn complaint(model: &Model, complaint: &Complaint) -> ComplaintJson {
    let causes = complaint.causes.iter().map(|one| CauseJson {
        id: one.id.clone(),
        title: one.title.clone(),
        share: exact_text(&one.share),
        residual: one.residual,
    });
    let access = complaint.access.iter().map(|one| AccessJson {
        id: one.id.clone(),
        title: one.title.clone(),
        minutes: exact_text(&one.minutes),
        needs: one.needs.clone(),
    });
    let checks = complaint.checks.iter().map(|one| CheckJson {
        id: one.id.clone(),
        title: one.title.clone(),
        minutes: exact_text(&one.minutes),
        shows: one.shows.clone(),
        needs: one.needs.clone(),
        procedure: one.procedure.as_ref().map(ToString::to_string),
        state: state(one.state),
    });
    ComplaintJson {
        id: complaint.id.to_string(),
        title: complaint.title.clone(),
        aka: complaint.aka.clone(),
        causes: causes.collect(),
        access: access.collect(),
        checks: checks.collect(),
        builds: builds(model, &complaint.fits),
    }
}

/// The fault codes as JSON.
pub fn codes(model: &Model) -> CodesJson {
    CodesJson { sets: model.codes.values().map(code_set).collect() }
}

fn code_set(set: &CodeSet) -> CodeSetJson {
    CodeSetJson {
        id: set.id.to_string(),
        title: set.title.clone(),
        engines: set.engines.iter().map(ToString::to_string).collect(),
        read: set.read.clone(),
        clear: set.clear.clone(),
        source: set.source.as_ref().map(ToString::to_string),
        page: set.page.clone(),
        codes: set.codes.iter().map(code).collect(),
    }
}

fn code(code: &Code) -> CodeJson {
    let raises = code
        .raises
        .iter()
        .map(|(complaint, cause)| RaisedJson { complaint: complaint.to_string(), cause: cause.clone() });
    CodeJson {
        id: code.id.clone(),
        title: code.title.clone(),
        set_when: code.set_when.clone(),
        raises: raises.collect(),
        measure: code.measure.iter().map(ToString::to_string).collect(),
    }
}
