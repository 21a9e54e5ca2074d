//! What the templates see: plain structs with every word already chosen.

mod drawings;
mod form;
mod hazard;
mod indexes;
mod links;
mod machine;
mod procedure;
mod row;
mod scope;
mod shared;
mod standing;
mod text;
mod title_block;

pub(super) use hazard::Panel;
pub(super) use indexes::{AboutView, AzView, EntryView, GroupsView, HomeView, MachinesView, RulesView};
pub(super) use links::Links;
pub(super) use machine::MachineView;
pub(super) use indexes::{RuleGroup, RuleView};
pub(super) use procedure::{Inline, ProcedureView, Readings, TurnPart, beside, fitting, link};
pub(super) use row::EngineView;
pub(super) use shared::Shared;
pub(super) use text::{count, sentence};
