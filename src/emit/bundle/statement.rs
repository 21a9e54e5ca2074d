//! One statement in JSON: its value under the key of its form, its provenance, whether it is confirmed.

use std::collections::BTreeMap;

use super::Withheld;
use super::quantity::{form, range};
use crate::bundle as json;
use crate::model::{
    Confirmation, Domain, Fastener, Form, Misprint, Model, Pin, Point, Printed, Provenance, Statement, Words,
};
use crate::quantity::Value;

/// A statement as JSON; what is withheld keeps its identity and provenance, and loses its value.
pub fn spec(model: &Model, statement: &Statement, withheld: Withheld) -> json::Spec {
    let centres = statement.pattern.iter().map(|(across, up)| [across.clone().into(), up.clone().into()]);
    let spec = json::Spec {
        of: statement.identity.of.to_string(),
        place: statement.identity.place.clone(),
        when: statement.identity.when.clone(),
        conditions: conditions(model, statement),
        form: statement.form.key().to_owned(),
        fastener: statement.fastener.as_ref().map(fastener),
        pattern: (!statement.pattern.is_empty()).then(|| centres.collect()),
        source: source(model, &statement.provenance),
        variant: statement.variant.as_ref().map(ToString::to_string),
        misprint: statement.misprint.as_ref().map(misprint),
        note: statement.note.clone(),
        confirmation: confirmation(model, &statement.confirmation),
        waivers: waivers(model, statement),
        ..json::Spec::default()
    };
    if !model.withholds(statement) {
        return with_value(spec, &statement.form);
    }
    let spec = json::Spec { withheld: Some("not confirmed by a second reading".to_owned()), ..spec };
    match withheld {
        Withheld::Kept => with_value(spec, &statement.form),
        // Bolt pattern, fastener, misprint, remarks and the labels of the page may carry parts of the value.
        Withheld::LeftOut => json::Spec {
            fastener: None,
            pattern: None,
            misprint: None,
            note: None,
            waivers: Vec::new(),
            source: unlabelled(spec.source),
            confirmation: json::Confirmation {
                found: spec.confirmation.found.map(unlabelled),
                ..spec.confirmation
            },
            ..spec
        },
    }
}

/// Those of the states that the catalogue says are quantities.
fn conditions(model: &Model, statement: &Statement) -> BTreeMap<String, json::Printed> {
    let states = model.entries.get(&statement.identity.of).map(|entry| &entry.states);
    let measured =
        |name: &String| states.is_some_and(|states| matches!(states.get(name), Some(Domain::Kind(_))));
    let of_kind = statement.identity.when.iter().filter(|(name, _)| measured(name));
    of_kind.filter_map(|(name, word)| Some((name.clone(), exactly(word)?))).collect()
}

/// Those of some words that are quantities.
fn quantities(words: &Words) -> BTreeMap<String, json::Printed> {
    words.iter().filter_map(|(name, word)| Some((name.clone(), exactly(word)?))).collect()
}

/// Words as a value, where they are one.
fn exactly(words: &str) -> Option<json::Printed> {
    Value::parse(words).ok().map(|value| form(&value))
}

/// Where a value was read; labels of the page only where the base lets them out.
fn source(model: &Model, provenance: &Provenance) -> json::SourceRef {
    let label = |text: &Option<String>| text.clone().filter(|_| model.base.publish.labels);
    json::SourceRef {
        id: provenance.source.as_ref().map(ToString::to_string),
        page: provenance.page.clone(),
        row: label(&provenance.row),
        column: label(&provenance.column),
        footnote: label(&provenance.footnote),
        read_by: provenance.read_by.clone(),
    }
}

fn unlabelled(source: json::SourceRef) -> json::SourceRef {
    json::SourceRef { row: None, column: None, footnote: None, ..source }
}

fn confirmation(model: &Model, confirmation: &Confirmation) -> json::Confirmation {
    let state = confirmation.word().to_owned();
    let (by, on, found) = match confirmation {
        Confirmation::Confirmed { by, on } => (Some(by), *on, None),
        Confirmation::Differs { by, on, found } => (Some(by), *on, Some(source(model, found))),
        Confirmation::ReadOnce | Confirmation::NotNeeded => (None, None, None),
    };
    json::Confirmation { state, by: by.cloned(), on: on.map(|day| day.to_string()), found }
}

/// The waivers that act on a statement, in whichever engine it is stated.
fn waivers(model: &Model, statement: &Statement) -> Vec<json::Waiver> {
    let acting = model.waivers_on(statement).map(|waiver| json::Waiver {
        rule: waiver.rule.clone(),
        value: waiver.on.value.clone(),
        because: waiver.because.clone(),
        until: waiver.until.to_string(),
    });
    acting.collect()
}

/// Puts the value of a form under its key.
fn with_value(spec: json::Spec, value: &Form) -> json::Spec {
    let forms = |printed: &[Printed]| -> Option<Vec<json::Printed>> {
        (!printed.is_empty()).then(|| printed.iter().map(|one| form(&one.value)).collect())
    };
    match value {
        Form::Window { printed, set_to } => {
            json::Spec { window: range(printed), set_to: range(set_to), ..spec }
        }
        Form::Fit { new, wear_limit } => {
            json::Spec { new: range(new), wear_limit: range(wear_limit), ..spec }
        }
        Form::Setting(printed) => json::Spec { setting: range(printed), ..spec },
        Form::Stages(stages) => {
            json::Spec { stages: Some(stages.iter().filter_map(|stage| range(stage)).collect()), ..spec }
        }
        Form::Points(points) => {
            let point = |one: &Point| json::Point { at: form(&one.at.value), reads: form(&one.reads.value) };
            json::Spec { points: Some(points.iter().map(point).collect()), ..spec }
        }
        Form::Direction { turns, seen_from } => {
            json::Spec { direction: Some(turns.word().to_owned()), seen_from: seen_from.clone(), ..spec }
        }
        Form::Interval { regular, first, severe } => {
            json::Spec { interval: forms(regular), first: forms(first), severe: forms(severe), ..spec }
        }
        Form::Selection(selection) => {
            let row = |(inputs, part): &(Vec<String>, String)| json::Choice {
                exact: inputs.iter().map(|input| exactly(input)).collect(),
                inputs: inputs.clone(),
                part: part.clone(),
            };
            let rows = selection.rows.iter().map(row).collect();
            json::Spec { selection: Some(json::Selection { by: selection.by.clone(), rows }), ..spec }
        }
        Form::Pins(pins) => json::Spec { pins: Some(pins.iter().map(pin).collect()), ..spec },
        Form::Text(text) => json::Spec { text: Some(text.clone()), ..spec },
        Form::Absent(why) => json::Spec { absent: Some(why.word().to_owned()), ..spec },
    }
}

fn pin(pin: &Pin) -> json::Pin {
    json::Pin {
        cavity: pin.cavity.clone(),
        wire: pin.wire.clone(),
        function: pin.function.clone(),
        expect: pin.expect.clone(),
        measured: quantities(&pin.expect),
    }
}

fn fastener(fastener: &Fastener) -> json::Fastener {
    json::Fastener {
        thread: fastener.thread.clone(),
        class: fastener.class.clone(),
        threads: fastener.threads.clone(),
        hand: fastener.hand.map(|hand| hand.word().to_owned()),
        count: fastener.count,
        reuse: fastener.reuse.map(|reuse| reuse.word().to_owned()),
        into: fastener.into.clone(),
    }
}

fn misprint(misprint: &Misprint) -> json::Misprint {
    json::Misprint {
        printed: misprint.printed.clone(),
        meant: misprint.meant.clone(),
        because: misprint.because.clone(),
        decided_by: misprint.decided_by.clone(),
    }
}
