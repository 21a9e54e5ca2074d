//! What the templates see: plain structs with every word already chosen.

mod about;
mod atlas;
mod drawings;
mod entry;
mod form;
mod hazard;
mod home;
mod links;
mod machine;
mod names;
mod procedure;
mod row;
mod scope;
mod shared;
mod text;
mod title_block;

pub(super) use hazard::Panel;
pub(super) use about::{AboutView, RuleGroup, RuleView, RulesView};
pub(super) use atlas::Atlas;
pub(super) use entry::EntryView;
pub(super) use home::{HomeView, MachinesView};
pub(super) use names::{AzView, GroupsView};
pub(super) use links::Links;
pub(super) use machine::MachineView;
pub(super) use procedure::{Inline, ProcedureView, Readings, TurnPart, beside, fitting, link};
pub(super) use row::EngineView;
pub(super) use shared::Shared;
pub(super) use text::{count, sentence};
