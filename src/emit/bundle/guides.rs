//! `complaints.json` and `codes.json`, and what procedures have in common with complaints.

use crate::bundle as json;
use crate::model::{Code, CodeSet, Complaint, Fitting, Model, ProcedureState};

/// The builds that something fits.
pub fn builds(model: &Model, fits: &Fitting) -> Vec<String> {
    model
        .builds
        .values()
        .filter(|build| model.fits_build(fits, build))
        .map(|build| build.id.to_string())
        .collect()
}

/// Which builds something fits, as the base says it.
pub fn fitting(fits: &Fitting) -> json::Fitting {
    json::Fitting {
        has: fits.has.iter().map(ToString::to_string).collect(),
        engines: fits.engines.iter().map(ToString::to_string).collect(),
        cycle: fits.cycle.clone(),
        fuel: fits.fuel.clone(),
    }
}

/// The word of a state of the engine.
pub fn state(state: ProcedureState) -> String {
    state.word().to_owned()
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
        voids: one.voids_cold.then(|| state(ProcedureState::Cold)).into_iter().collect(),
        hazards: one.hazards.iter().map(ToString::to_string).collect(),
    });
    json::Complaint {
        id: complaint.id.to_string(),
        title: complaint.title.clone(),
        aka: complaint.aka.clone(),
        causes: causes.collect(),
        access: access.collect(),
        checks: checks.collect(),
        fits: fitting(&complaint.fits),
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
