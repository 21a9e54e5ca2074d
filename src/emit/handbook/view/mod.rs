//! What the templates see: plain structs with every word already chosen.

mod codes;
mod complaint;
mod coverage;
mod drawings;
mod form;
mod gauges;
mod hazard;
mod indexes;
mod links;
mod machine;
mod places;
mod procedure;
mod row;
mod scope;
mod shared;
mod source;
mod standing;
mod text;
mod title_block;

pub(super) use codes::{CodeSetsView, CodesView};
pub(super) use complaint::{ComplaintView, ComplaintsView, fitting_complaints};
pub(super) use coverage::{CoverageView, CoveragesView};
pub(super) use gauges::GaugesView;
pub(super) use hazard::Panel;
pub(super) use indexes::{AboutView, AzView, EntryView, GroupsView, HomeView, MachinesView, RulesView};
pub(super) use links::Links;
pub(super) use machine::MachineView;
pub(super) use indexes::{RuleGroup, RuleView};
pub(super) use places::Places;
pub(super) use procedure::{Inline, ProcedureView, Readings, TurnPart, beside, fitting, link};
pub(super) use row::EngineView;
pub(super) use shared::Shared;
pub(super) use source::{SourceView, SourcesView};
pub(super) use text::{count, sentence};
