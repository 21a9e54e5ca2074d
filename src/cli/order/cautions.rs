//! What can hurt at a check, for the order as people read it: the check's own cautions in full, those of its
//! procedure by name, as its sheet says the rest.

use std::collections::BTreeMap;

use serde_json::Value as Json;

use super::super::Failure;
use super::super::bundle::{Bundle, is, list, text, texts};
use crate::load::format::{ComplaintFile, Located};
use crate::model::{Build, Complaint, HazardId, Model};

/// One hazard; of a file of its own only the id is known.
struct Caution {
    signal: String,
    hazard: String,
    avoid: String,
}

/// The hazards of one check.
#[derive(Default)]
pub(super) struct Cautions {
    own: Vec<Caution>,
    /// The procedure's id, and its hazards.
    procedure: Option<(String, Vec<Caution>)>,
}

/// The hazards of the checks, by id of the check.
pub(super) type ByCheck = BTreeMap<String, Cautions>;

impl Caution {
    /// The gravest first: the place of its signal word in ANSI Z535.6.
    fn gravity(&self) -> usize {
        let words = ["DANGER", "WARNING", "CAUTION", "NOTICE"];
        words.iter().position(|word| *word == self.signal).unwrap_or(words.len())
    }

    fn named(&self) -> String {
        if self.signal.is_empty() { self.hazard.clone() } else { format!("{}: {}", self.signal, self.hazard) }
    }

    fn in_full(&self) -> String {
        let end = if self.avoid.is_empty() || self.avoid.ends_with('.') { "" } else { "." };
        format!("{}. {}{end}", self.named(), self.avoid).trim_end().to_owned()
    }
}

impl Cautions {
    fn new(mut own: Vec<Caution>, mut procedure: Option<(String, Vec<Caution>)>) -> Self {
        own.sort_by_key(Caution::gravity);
        if let Some((_, hazards)) = &mut procedure {
            hazards.sort_by_key(Caution::gravity);
        }
        Self { own, procedure }
    }

    /// One line a hazard of the check, one for its procedure.
    pub(super) fn lines(&self) -> Vec<String> {
        let own = self.own.iter().map(Caution::in_full);
        let procedure = self.procedure.iter().map(|(id, hazards)| {
            let hazards: Vec<_> = hazards.iter().map(Caution::named).collect();
            let said = if hazards.is_empty() { String::new() } else { format!("; {}", hazards.join("; ")) };
            format!("how: procedure {id}{said}")
        });
        own.chain(procedure).collect()
    }
}

/// Of a complaint of a base. A procedure that does not fit the build says nothing of it.
pub(super) fn of_base(model: &Model, complaint: &Complaint, build: Option<&Build>) -> ByCheck {
    let caution = |id: &HazardId| {
        model.hazards.get(id).map(|one| Caution {
            signal: one.signal.word().to_owned(),
            hazard: one.hazard.clone(),
            avoid: one.avoid.clone(),
        })
    };
    let all = |ids: &[HazardId]| ids.iter().filter_map(caution).collect();
    let of = |check: &crate::model::Check| {
        let procedure = check.procedure.as_ref().and_then(|id| model.procedures.get(id));
        let procedure = procedure.filter(|one| build.is_none_or(|build| model.fits_build(&one.fits, build)));
        let procedure = procedure.map(|one| (one.id.to_string(), all(&one.hazards)));
        Cautions::new(all(&check.hazards), procedure)
    };
    complaint.checks.iter().map(|check| (check.id.clone(), of(check))).collect()
}

/// Of a complaint of a bundle.
pub(super) fn of_bundle(bundle: &Bundle, complaint: &Json, build: Option<&str>) -> Result<ByCheck, Failure> {
    let (hazards, procedures) = (bundle.read("hazards.json")?, bundle.read("procedures.json")?);
    let word = |json: &Json, key: &str| text(json, key).unwrap_or_default().to_owned();
    let caution = |id: String| {
        list(&hazards, "hazards").find(|one| is(one, "id", &id)).map(|one| Caution {
            signal: word(one, "signal"),
            hazard: word(one, "hazard"),
            avoid: word(one, "avoid"),
        })
    };
    let all = |json: &Json| texts(json, "hazards").into_iter().filter_map(caution).collect();
    let fits = |one: &&Json| build.is_none_or(|build| texts(one, "builds").iter().any(|id| id == build));
    let of = |check: &Json| {
        let id = text(check, "procedure");
        let procedure = id.and_then(|id| list(&procedures, "procedures").find(|one| is(one, "id", id)));
        let procedure = procedure.filter(fits).map(|one| (word(one, "id"), all(one)));
        (word(check, "id"), Cautions::new(all(check), procedure))
    };
    Ok(list(complaint, "checks").map(of).collect())
}

/// Of a file of its own: what its ids say.
pub(super) fn of_file(file: &ComplaintFile) -> ByCheck {
    let caution = |id: &crate::load::format::Text| Caution {
        signal: String::new(),
        hazard: format!("hazard: {}", id.as_str().replace(['-', '_'], " ")),
        avoid: String::new(),
    };
    let of = |check: &crate::load::format::Check| Cautions {
        own: check.hazards.iter().map(caution).collect(),
        procedure: check.procedure.as_ref().map(|id| (id.as_str().to_owned(), Vec::new())),
    };
    file.checks.iter().map(Located::get).map(|one| (one.id.as_str().to_owned(), of(one))).collect()
}
