//! Complaints, with every reference between causes, access steps and checks looked up.

use std::collections::BTreeMap;

use super::names::Names;
use super::procedure::fitting;
use super::reference::{known_hazards, owned};
use super::registry::Registry;
use super::values::Reader;
use crate::diag::Sink;
use crate::load::format::{self, Located, Text};
use crate::load::{Decoded, Loaded};
use crate::model::{Access, Cause, Check, Complaint, ComplaintId, Fitting, ProcedureId, VoidedState};
use crate::quantity::{Exact, parse_exact};

/// Every complaint.
pub fn complaints(loaded: &Loaded, names: &Names, sink: &mut Sink) -> BTreeMap<ComplaintId, Complaint> {
    let mut all = BTreeMap::new();
    for file in &loaded.complaints {
        let mut reader = Reader { sources: &loaded.sources, file: file.file, sink };
        let complaint = complaint(file, names, &mut reader);
        all.entry(complaint.id.clone()).or_insert(complaint);
    }
    all
}

fn complaint(file: &Decoded<format::ComplaintFile>, names: &Names, reader: &mut Reader<'_>) -> Complaint {
    let raw = &file.data;
    let mut causes = Registry::new("a cause", "`[[causes]]`", file.whole);
    let mut steps = Registry::new("an access step", "`[[access]]`", file.whole);
    let mut checks = Registry::new("a check", "`[[checks]]`", file.whole);
    let mut define = |registry: &mut Registry, id: &Text| registry.define(reader.file, id, reader.sink);
    let own_causes: Vec<_> =
        raw.causes.iter().map(Located::get).filter(|one| define(&mut causes, &one.id)).collect();
    let own_steps: Vec<_> =
        raw.access.iter().map(Located::get).filter(|one| define(&mut steps, &one.id)).collect();
    let own_checks: Vec<_> =
        raw.checks.iter().map(Located::get).filter(|one| define(&mut checks, &one.id)).collect();
    Complaint {
        id: ComplaintId::new(raw.id.as_str()),
        span: reader.span(&raw.id),
        title: raw.title.as_str().to_owned(),
        aka: raw.aka.iter().map(|one| one.as_str().to_owned()).collect(),
        causes: own_causes.into_iter().map(|one| cause(one, reader)).collect(),
        access: own_steps.into_iter().map(|one| access(one, &steps, reader)).collect(),
        checks: own_checks.into_iter().map(|one| check(one, &causes, &steps, names, reader)).collect(),
        fits: raw.fits.as_ref().map_or_else(Fitting::default, |fits| fitting(fits.get(), names, reader)),
    }
}

/// A number of a file is a short decimal, which its shortest text gives back exactly.
pub fn exact(number: f64) -> Exact {
    parse_exact(&number.to_string()).unwrap_or_default()
}

fn known(ids: &[Text], registry: &Registry, reader: &mut Reader<'_>) -> Vec<String> {
    let known = ids.iter().filter(|id| registry.knows(reader.file, id, reader.sink));
    known.map(|id| id.as_str().to_owned()).collect()
}

fn cause(raw: &format::Cause, reader: &Reader<'_>) -> Cause {
    Cause {
        id: raw.id.as_str().to_owned(),
        span: reader.span(&raw.id),
        title: raw.title.as_str().to_owned(),
        share: exact(raw.share),
        residual: raw.residual,
    }
}

fn access(raw: &format::Access, steps: &Registry, reader: &mut Reader<'_>) -> Access {
    Access {
        id: raw.id.as_str().to_owned(),
        span: reader.span(&raw.id),
        title: owned(raw.title.as_ref()),
        minutes: exact(raw.minutes),
        needs: known(&raw.needs, steps, reader),
    }
}

fn check(
    raw: &format::Check,
    causes: &Registry,
    steps: &Registry,
    names: &Names,
    reader: &mut Reader<'_>,
) -> Check {
    let procedure = raw.procedure.as_ref().filter(|id| names.procedures.knows(reader.file, id, reader.sink));
    Check {
        id: raw.id.as_str().to_owned(),
        title: raw.title.as_str().to_owned(),
        minutes: exact(raw.minutes),
        shows: known(&raw.shows, causes, reader),
        needs: known(&raw.needs, steps, reader),
        procedure: procedure.map(|id| ProcedureId::new(id.as_str())),
        state: raw.state,
        voids_cold: raw.voids.contains(&VoidedState::Cold),
        hazards: known_hazards(&raw.hazards, names, reader),
    }
}
