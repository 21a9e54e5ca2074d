//! Baybook compiles a spec base, a directory of plain files that a shop keeps of its engines, into an
//! offline handbook for the bench and an exact bundle for other programs.
//!
//! Data flows one way:
//!
//! 1. [`load`]: files to typed files, each value with its span, each held against its JSON Schema.
//! 2. [`resolve`]: references looked up, values parsed as exact [`quantity`]s, variants worked into
//!    builds: a [`model::Model`].
//! 3. [`check`]: rules over the model; what passes without an error is a [`check::Checked`].
//! 4. [`emit`]: handbook and bundle as a map of path → bytes, then put on disk as a whole.
//!
//! Every phase goes on after an error and puts what it finds into one [`diag::Sink`], so that a run
//! shows all findings at once. [`examine`] is the first three phases, [`emit::compile`] the last.

pub mod bundle;
pub mod check;
pub mod cli;
pub mod compute;
pub mod diag;
pub mod emit;
pub mod find;
pub mod load;
pub mod model;
pub mod quantity;
pub mod resolve;
pub mod source;

use std::collections::BTreeSet;

use check::{Checked, Subject};
use diag::json::Summary;
use diag::{Finding, Sink};
use load::disk::Found;
use model::Date;
use source::Sources;

/// What an examination of a spec base found.
#[derive(Debug)]
pub struct Examined {
    /// The texts, for showing findings.
    pub sources: Sources,
    /// The findings, sorted, notes among them.
    pub findings: Vec<Finding>,
    /// The counts.
    pub summary: Summary,
    /// The base, if no finding is an error.
    pub checked: Option<Checked>,
}

/// Loads, resolves and checks what was read from a spec base.
///
/// Lapses are judged at `today`, or, without it, at the date of the base itself.
pub fn examine(found: Vec<Found>, today: Option<Date>) -> Examined {
    examine_since(found, today, &BTreeSet::new())
}

/// The same, held against the ids that the release before made public: none may be gone without a word.
pub fn examine_since(found: Vec<Found>, today: Option<Date>, public_before: &BTreeSet<String>) -> Examined {
    let mut sink = Sink::default();
    let loaded = load::load(found, &mut sink);
    let model = resolve::resolve(&loaded, &mut sink);
    let today = today.unwrap_or(model.base.date);
    let subject =
        Subject { model: &model, sources: &loaded.sources, damaged: &loaded.damaged, public_before, today };
    check::run(&subject, &mut sink);
    let summary = Summary {
        engines: model.engines.len(),
        builds: model.builds.len(),
        statements: subject.statements().count(),
    };
    let checked = Checked::new(model, &sink);
    let findings = sink.into_sorted(&loaded.sources);
    Examined { sources: loaded.sources, findings, summary, checked }
}
