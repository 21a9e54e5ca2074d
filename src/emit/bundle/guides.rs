//! `procedures.json`, `complaints.json` and `codes.json`.

use crate::bundle as json;
use crate::model::{
    Code, CodeSet, Complaint, EntryId, Fitting, LeftOpen, Link, Model, Need, Piece, Procedure, ProcedureState,
};

fn builds(model: &Model, fits: &Fitting) -> Vec<String> {
    model
        .builds
        .values()
        .filter(|build| model.fits_build(fits, build))
        .map(|build| build.id.to_string())
        .collect()
}

fn state(state: ProcedureState) -> String {
    let word = match state {
        ProcedureState::Cold => "cold",
        ProcedureState::Hot => "hot",
        ProcedureState::Any => "any",
    };
    word.to_owned()
}

/// The procedures as JSON.
pub fn procedures(model: &Model) -> json::Procedures {
    json::Procedures { procedures: model.procedures.values().map(|one| procedure(model, one)).collect() }
}

fn procedure(model: &Model, procedure: &Procedure) -> json::Procedure {
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
    json::Procedure {
        id: procedure.id.to_string(),
        title: procedure.title.clone(),
        minutes: procedure.minutes,
        state: state(procedure.state),
        gauges,
        tools,
        hazards: procedure.hazards.iter().map(ToString::to_string).collect(),
        uses,
        steps: procedure.steps(),
        left_open: procedure.left_open.iter().map(left_open).collect(),
        proof: procedure.proof.clone(),
        builds: builds(model, &procedure.fits),
    }
}

fn left_open(one: &LeftOpen) -> json::LeftOpen {
    json::LeftOpen { what: one.what.clone(), from: one.from, until: one.until }
}

/// The entry that a piece of a procedure uses.
fn used(piece: &Piece) -> Option<&EntryId> {
    match piece {
        Piece::Link { link, .. } => Link::entry(link).map(|(of, _)| of),
        Piece::Markup { .. } => None,
    }
}

/// The complaints as JSON.
pub fn complaints(model: &Model) -> json::Complaints {
    json::Complaints { complaints: model.complaints.values().map(|one| complaint(model, one)).collect() }
}

fn complaint(model: &Model, complaint: &Complaint) -> json::Complaint {
    let causes = complaint.causes.iter().map(|one| json::Cause {
        id: one.id.clone(),
        title: one.title.clone(),
        share: one.share.clone().into(),
        residual: one.residual,
    });
    let access = complaint.access.iter().map(|one| json::Access {
        id: one.id.clone(),
        title: one.title.clone(),
        minutes: one.minutes.clone().into(),
        needs: one.needs.clone(),
    });
    let checks = complaint.checks.iter().map(|one| json::Check {
        id: one.id.clone(),
        title: one.title.clone(),
        minutes: one.minutes.clone().into(),
        shows: one.shows.clone(),
        needs: one.needs.clone(),
        procedure: one.procedure.as_ref().map(ToString::to_string),
        state: state(one.state),
    });
    json::Complaint {
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
pub fn codes(model: &Model) -> json::Codes {
    json::Codes { sets: model.codes.values().map(code_set).collect() }
}

fn code_set(set: &CodeSet) -> json::CodeSet {
    json::CodeSet {
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

fn code(code: &Code) -> json::Code {
    let raises = code
        .raises
        .iter()
        .map(|(complaint, cause)| json::Raised { complaint: complaint.to_string(), cause: cause.clone() });
    json::Code {
        id: code.id.clone(),
        title: code.title.clone(),
        set_when: code.set_when.clone(),
        raises: raises.collect(),
        measure: code.measure.iter().map(ToString::to_string).collect(),
    }
}
