//! Prints home, the indexes, the rules and the page about the handbook.

use super::HandbookError;
use super::press::Press;
use super::sheets::markdown;
use super::view::{
    AboutView, AzView, CodeSetsView, ComplaintsView, CoveragesView, EntryView, GaugesView, GroupsView, HomeView,
    Links, MachineView, MachinesView, RuleGroup, RuleView, RulesView, SourcesView,
};
use crate::diag::{Group, Rule};

const GROUPS: [Group; 7] = [
    Group::Form,
    Group::Units,
    Group::Reference,
    Group::Provenance,
    Group::Physics,
    Group::Procedure,
    Group::Complaint,
];

/// Prints every page that belongs to no build.
pub(super) fn print(press: &mut Press<'_>) -> Result<(), HandbookError> {
    let model = press.model;
    press.print("index.html", "home.html", &HomeView::of(model))?;
    press.print("machines.html", "machines.html", &MachinesView::of(model))?;
    press.print("az.html", "az.html", &AzView::of(model))?;
    press.print("groups.html", "groups.html", &GroupsView::of(model))?;
    press.print("about.html", "about.html", &AboutView::of(model))?;
    press.print("rules.html", "rules.html", &rules(press.rules))?;
    press.print("complaints.html", "complaints.html", &ComplaintsView::of(model))?;
    press.print("codes.html", "codes.html", &CodeSetsView::of(model))?;
    press.print("gauges.html", "gauges.html", &GaugesView::of(model))?;
    press.print("sources.html", "sources.html", &SourcesView::of(model))?;
    press.print("coverage.html", "coverage.html", &CoveragesView::of(model))?;
    for machine in model.machines.values() {
        press.print(&Links::machine(&machine.id), "machine.html", &MachineView::of(model, machine))?;
    }
    for entry in model.entries.values() {
        if let Some(view) = EntryView::of(model, entry) {
            press.print(&Links::entry(&entry.id), "entry.html", &view)?;
        }
    }
    Ok(())
}

fn rules(rules: &[&'static Rule]) -> RulesView {
    let of_group = |group: Group| {
        let mut of_group: Vec<&Rule> = rules.iter().copied().filter(|rule| rule.group == group).collect();
        of_group.sort_by_key(|rule| rule.name);
        RuleGroup { title: group.title(), rules: of_group.into_iter().map(rule_view).collect() }
    };
    let groups = GROUPS.into_iter().map(of_group).filter(|group| !group.rules.is_empty());
    RulesView { groups: groups.collect(), counts: super::view::count(rules.len(), "rule", "rules") }
}

fn rule_view(rule: &Rule) -> RuleView {
    RuleView {
        name: rule.name,
        severity: rule.severity.word(),
        summary: super::view::sentence(rule.summary),
        page: markdown::page(rule.page),
        printed: rule.printed,
    }
}
