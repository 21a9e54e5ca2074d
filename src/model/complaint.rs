//! Complaints: what the owner reports, its causes, and the checks that show them.

use super::{ComplaintId, Fitting, HazardId, ProcedureId, ProcedureState};
use crate::quantity::Exact;
use crate::source::Span;

/// One complaint.
#[derive(Debug)]
pub struct Complaint {
    /// Its id.
    pub id: ComplaintId,
    /// Where its id is typed.
    pub span: Span,
    /// What the owner says.
    pub title: String,
    /// Other words for it.
    pub aka: Vec<String>,
    /// Causes it can have.
    pub causes: Vec<Cause>,
    /// Access steps that checks share.
    pub access: Vec<Access>,
    /// Checks that show causes, in file order.
    pub checks: Vec<Check>,
    /// The builds it fits.
    pub fits: Fitting,
}

/// One cause of a complaint.
#[derive(Debug)]
pub struct Cause {
    /// Its id, unique in the complaint.
    pub id: String,
    /// Where its id is typed.
    pub span: Span,
    /// What is wrong.
    pub title: String,
    /// Share of past jobs, not normalised.
    pub share: Exact,
    /// True for what is left when no check shows it.
    pub residual: bool,
}

/// One access step.
#[derive(Debug)]
pub struct Access {
    /// Its id, unique in the complaint.
    pub id: String,
    /// Where its id is typed.
    pub span: Span,
    /// What is opened or taken off.
    pub title: Option<String>,
    /// Minutes it takes.
    pub minutes: Exact,
    /// Access steps that come before it.
    pub needs: Vec<String>,
}

/// One check.
#[derive(Debug)]
pub struct Check {
    /// Its id, unique in the complaint.
    pub id: String,
    /// What is looked at or measured.
    pub title: String,
    /// Minutes it takes, access aside.
    pub minutes: Exact,
    /// Ids of the causes it shows.
    pub shows: Vec<String>,
    /// Ids of the access steps it needs.
    pub needs: Vec<String>,
    /// Procedure that says how.
    pub procedure: Option<ProcedureId>,
    /// State of the engine.
    pub state: ProcedureState,
    /// True if the engine is no longer cold after it.
    pub voids_cold: bool,
    /// Hazards of the check itself, in its order; its procedure has its own.
    pub hazards: Vec<HazardId>,
}
