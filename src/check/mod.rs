//! Check: the rules, run over a resolved base, and the proof that it passed them.

mod alike;
pub mod curve;
pub mod fastener;
mod fitting;
mod left_out;
pub mod peers;
pub mod prose;
pub mod registry;
pub mod relation;
pub mod rules;
mod table;
mod waivers;
pub mod witnesses;

use std::collections::BTreeSet;

use crate::diag::Sink;
use crate::load::place::FileKind;
use crate::model::{Build, Date, Model, Statement};
use crate::source::Sources;

/// What the rules look at.
#[derive(Debug)]
pub struct Subject<'a> {
    /// The base as understood.
    pub model: &'a Model,
    /// Its texts, for spans inside strings.
    pub sources: &'a Sources,
    /// Kinds of file of which not all was read; what depends on them is not reported missing.
    pub damaged: &'a BTreeSet<FileKind>,
    /// Ids that the release before made public; empty where nobody asked.
    pub public_before: &'a BTreeSet<String>,
    /// The day that lapses are judged at.
    pub today: Date,
}

impl<'a> Subject<'a> {
    /// Every statement of every engine and variant, once.
    pub fn statements(&self) -> impl Iterator<Item = &'a Statement> + use<'a> {
        self.model.engines.values().flat_map(|engine| {
            let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
            engine.statements.iter().chain(varied).map(AsRef::as_ref)
        })
    }

    /// False if part of the engine of a build could not be read.
    pub fn engine_is_whole(&self, build: &Build) -> bool {
        self.model.engines.get(&build.engine).is_some_and(|engine| engine.whole)
    }
}

/// Runs every rule.
pub fn run(subject: &Subject<'_>, sink: &mut Sink) {
    for check in rules::CHECKS {
        (check.run)(subject, sink);
    }
    waivers::apply(subject, sink);
}

/// A model that passed every rule: what emitters accept, so that nothing unproved is ever rendered.
#[derive(Debug)]
pub struct Checked(Model);

impl Checked {
    /// The proof: given only for a run without errors.
    pub fn new(model: Model, sink: &Sink) -> Option<Self> {
        (!sink.has_errors()).then_some(Self(model))
    }

    /// The model.
    pub const fn model(&self) -> &Model {
        &self.0
    }
}
