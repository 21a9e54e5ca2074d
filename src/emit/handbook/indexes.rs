//! Prints home, the indexes, the rules and the page about the handbook.

use super::HandbookError;
use super::press::Press;
use super::sheets::markdown;
use super::view::{
    AboutView, AzView, ChangesView, CodeSetsView, ComplaintsView, CoveragesView, EntryView, GaugesView,
    GroupsView, HomeView, Links, MachineView, MachinesView, RuleGroup, RuleView, RulesView, SourcesView,
    SumsView,
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
    let (model, atlas) = (press.model, &press.atlas);
    let mut pages = vec![
        press.page("index.html", "home.html", &HomeView::of(atlas, press.changes))?,
        press.page("machines.html", "machines.html", &MachinesView::of(atlas))?,
        press.page("az.html", "az.html", &AzView::of(atlas))?,
        press.page("groups.html", "groups.html", &GroupsView::of(atlas))?,
        press.page("complaints.html", "complaints.html", &ComplaintsView::of(model))?,
        press.page("codes.html", "codes.html", &CodeSetsView::of(model))?,
        press.page("gauges.html", "gauges.html", &GaugesView::of(model))?,
        press.page("sums.html", "sums.html", &SumsView::of(model))?,
        press.page("sources.html", "sources.html", &SourcesView::of(model))?,
        press.page("coverage.html", "coverage.html", &CoveragesView::of(model))?,
        press.page("rules.html", "rules.html", &rules(press.rules))?,
    ];
    if let Some(changes) = press.changes {
        pages.push(press.page("changes.html", "changes.html", &ChangesView::of(model, changes))?);
    }
    for machine in model.machines.values() {
        pages.push(press.page(
            &Links::machine(&machine.id),
            "machine.html",
            &MachineView::of(atlas, machine),
        )?);
    }
    for entry in model.entries.values() {
        if let Some(view) = EntryView::of(atlas, entry) {
            pages.push(press.page(&Links::entry(&entry.id), "entry.html", &view)?);
        }
    }
    press.take(pages)
}

/// Prints the page of jobs, which finds the limits of every build, once their scripts are there.
pub(super) fn jobs(press: &mut Press<'_>) -> Result<(), HandbookError> {
    let builds = press.builds_script();
    let page = press.page("job.html", "job.html", &serde_json::json!({ "builds": builds }))?;
    press.take([page])
}

/// Prints the page about the handbook, once every other page is there.
pub(super) fn about(press: &mut Press<'_>) -> Result<(), HandbookError> {
    let view = AboutView::of(press.model, press.size());
    let page = press.page("about.html", "about.html", &view)?;
    press.take([page])
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
