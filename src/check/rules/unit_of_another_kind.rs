//! `unit-of-another-kind`: a torque in joules or a pressure in bar absolute is another quantity.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Engine, Entry, Form, Printed};
use crate::quantity::{Kind, Shape, Unit};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "unit_of_another_kind",
    "unit-of-another-kind",
    Error,
    Units,
    "a unit is of another kind than the entry"
);

/// Every printed form and every plausible span, against the kind of its entry; the units of the base, against theirs.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for (kind, unit, span) in &subject.model.base.units_typed {
        if unit.kind() != *kind {
            let (symbol, title) = (unit.symbol(), unit.kind().title());
            let message = format!("`{symbol}` is a unit of {title}, and is to show {}", kind.title());
            sink.push(Finding::new(&RULE, *span, message, usual(*kind)));
        }
    }
    for engine in subject.model.engines.values() {
        layout(subject, engine, sink);
    }
    for entry in subject.model.entries.values() {
        let Some((plausible, kind)) = entry.plausible.as_ref().zip(entry.kind) else { continue };
        if plausible.value.unit().kind() != kind {
            sink.push(finding(subject, entry, plausible, Role::Value));
        }
    }
    for statement in subject.statements() {
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        for (printed, role) in quantities(&statement.form) {
            let unit = printed.value.unit();
            if wanted(entry, role).is_some_and(|kind| kind != unit.kind()) && !is_turn(printed, role) {
                sink.push(finding(subject, entry, printed, role).about(statement.span));
            }
        }
    }
}

/// The sizes of an engine's layout.
fn layout(subject: &Subject<'_>, engine: &Engine, sink: &mut Sink) {
    let Some(layout) = &engine.layout else { return };
    let sizes = [
        ("bore", &layout.bore, Kind::Length),
        ("stroke", &layout.stroke, Kind::Length),
        ("displacement", &layout.displacement, Kind::Volume),
    ];
    for (key, printed, kind) in sizes {
        let Some(printed) = printed.as_ref().filter(|one| one.value.unit().kind() != kind) else { continue };
        let unit = printed.value.unit();
        let span = subject.sources.inside(printed.span, &printed.typed, printed.value.unit_range());
        let (symbol, title) = (unit.symbol(), unit.kind().title());
        let message = format!("`{symbol}` is a unit of {title}, and `{key}` takes units of {}", kind.title());
        sink.push(Finding::new(&RULE, span, message, usual(kind)));
    }
}

/// What a printed form is for.
#[derive(Clone, Copy, PartialEq)]
enum Role {
    Value,
    Stage,
    Input,
}

fn quantities(form: &Form) -> Vec<(&Printed, Role)> {
    match form {
        Form::Stages(stages) => stages.iter().flatten().map(|one| (one, Role::Stage)).collect(),
        Form::Points(points) => {
            points.iter().flat_map(|point| [(&point.at, Role::Input), (&point.reads, Role::Value)]).collect()
        }
        other => other.alternatives().into_iter().flatten().map(|one| (one, Role::Value)).collect(),
    }
}

fn wanted(entry: &Entry, role: Role) -> Option<Kind> {
    if role == Role::Input { entry.input } else { entry.kind }
}

/// A stage may be a turn, whatever its entry is measured in.
fn is_turn(printed: &Printed, role: Role) -> bool {
    role == Role::Stage && matches!(printed.value.shape(), Shape::Turn(_))
}

fn finding(subject: &Subject<'_>, entry: &Entry, printed: &Printed, role: Role) -> Finding {
    let unit = printed.value.unit();
    let span = subject.sources.inside(printed.span, &printed.typed, printed.value.unit_range());
    let wanted = wanted(entry, role);
    let message = format!(
        "`{}` is a unit of {}, and `{}` takes units of {}",
        unit.symbol(),
        unit.kind().title(),
        entry.id,
        wanted.map_or("", |kind| kind.title())
    );
    Finding::new(&RULE, span, message, wanted.map(usual).unwrap_or_default())
        .with(entry.span, "the entry is defined here")
}

/// The commoner units of a kind, as help.
fn usual(kind: Kind) -> String {
    let units: Vec<_> = Unit::of(kind).map(Unit::symbol).take(8).collect();
    format!("units of {}: `{}`", kind.title(), units.join("`, `"))
}
