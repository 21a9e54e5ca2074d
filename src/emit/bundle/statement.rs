//! One statement in JSON: its value under the key of its form, its provenance, whether it is confirmed.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::quantity::{PrintedJson, RangeJson, form, range};
use crate::model::{
    Confirmation, Fastener, Form, Hand, Misprint, Model, Pin, Point, Printed, Reuse, Statement,
};
use crate::quantity::exact_text;

/// One statement. Exactly one of the keys of a value is not null; `new` and `wear_limit` are one value.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub struct SpecJson {
    /// Id of the entry.
    pub of: String,
    /// The place it holds for: axis and word; empty is everywhere.
    #[serde(rename = "where")]
    pub place: BTreeMap<String, String>,
    /// The state it is meant for; empty is any.
    pub when: BTreeMap<String, String>,
    /// Key of the value below: `window`, `new`, `wear_limit`, `setting` …
    pub form: String,
    /// Limits to set to or accept within.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub window: Option<RangeJson>,
    /// Where the maker asks for less than the whole window.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set_to: Option<RangeJson>,
    /// The fit of new parts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub new: Option<RangeJson>,
    /// The end of use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wear_limit: Option<RangeJson>,
    /// A value to apply.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setting: Option<RangeJson>,
    /// A value applied in steps, in order.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stages: Option<Vec<RangeJson>>,
    /// A table: what is read at which input.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub points: Option<Vec<PointJson>>,
    /// `clockwise` or `counter-clockwise`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub direction: Option<String>,
    /// Where one stands to see it turn that way.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seen_from: Option<String>,
    /// Service interval: whichever comes first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub interval: Option<Vec<PrintedJson>>,
    /// The first interval of a new or rebuilt machine.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first: Option<Vec<PrintedJson>>,
    /// The interval in severe use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub severe: Option<Vec<PrintedJson>>,
    /// A part chosen by one or two inputs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub selection: Option<SelectionJson>,
    /// The cavities of a connector.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pins: Option<Vec<PinJson>>,
    /// Words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// Why there is no value: `not-given`, `not-applicable` or `not-read`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub absent: Option<String>,
    /// The fastener a torque is for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fastener: Option<FastenerJson>,
    /// Bolt centres in millimetres, in tightening order; exact decimals.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pattern: Option<Vec<[String; 2]>>,
    /// Where it was read, by whom.
    pub source: SourceRefJson,
    /// The variant that makes it; null for the engine's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variant: Option<String>,
    /// Whether a second reading confirms it.
    pub confirmation: ConfirmationJson,
    /// Why the value is left out here although the base states it; it is then not known to be safe to use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withheld: Option<&'static str>,
    /// Warnings that the lead accepts for this value.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub waivers: Vec<WaiverJson>,
    /// What the manual prints wrongly.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub misprint: Option<MisprintJson>,
    /// What the technician should know.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// Whether a second, independent reading of the page confirms a value.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub struct ConfirmationJson {
    /// `confirmed`, `read-once`, `differs` or `not-needed`.
    pub state: &'static str,
    /// Initials of the second reader.
    pub by: Option<String>,
    /// Day of the second reading, ISO 8601.
    pub on: Option<String>,
}

/// A warning that the lead accepts.
#[derive(Debug, Serialize, JsonSchema)]
pub struct WaiverJson {
    /// The rule that is waived.
    pub rule: String,
    /// Why.
    pub because: String,
    /// Last day it holds, ISO 8601.
    pub until: String,
}

/// One point of a table.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PointJson {
    /// What it is read at.
    pub at: PrintedJson,
    /// What is read.
    pub reads: PrintedJson,
}

/// A part chosen from a table; nothing outside it is ever chosen.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SelectionJson {
    /// Names of the inputs.
    pub by: Vec<String>,
    /// Rows.
    pub rows: Vec<ChoiceJson>,
}

/// One row of a selection.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChoiceJson {
    /// The inputs.
    pub inputs: Vec<String>,
    /// The part they choose.
    pub part: String,
}

/// One cavity of a connector.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PinJson {
    /// Cavity.
    pub cavity: String,
    /// Colour of its wire.
    pub wire: Option<String>,
    /// What it carries.
    pub function: String,
    /// What is measured there, by state.
    pub expect: BTreeMap<String, String>,
}

/// The fastener a torque is for.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FastenerJson {
    /// Thread designation.
    pub thread: Option<String>,
    /// Property class.
    pub class: Option<String>,
    /// State of the threads.
    pub threads: Option<String>,
    /// `right` or `left`.
    pub hand: Option<&'static str>,
    /// How many.
    pub count: Option<u32>,
    /// `never`, `if-good` or `yes`.
    pub reuse: Option<&'static str>,
    /// What it goes into.
    pub into: Option<String>,
}

/// Where a value was read, by whom.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub struct SourceRefJson {
    /// Id of the source.
    pub id: Option<String>,
    /// Page as printed.
    pub page: Option<String>,
    /// Row label.
    pub row: Option<String>,
    /// Column heading.
    pub column: Option<String>,
    /// Footnote that bears on it.
    pub footnote: Option<String>,
    /// Initials of the reader.
    pub read_by: Option<String>,
}

/// What the manual prints wrongly.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MisprintJson {
    /// As printed.
    pub printed: String,
    /// As meant.
    pub meant: String,
    /// Why.
    pub because: String,
    /// Who decided.
    pub decided_by: String,
}

/// A statement as JSON; what is withheld keeps its identity and provenance, and loses its value.
pub fn spec(model: &Model, statement: &Statement) -> SpecJson {
    let provenance = &statement.provenance;
    let label = |text: &Option<String>| text.clone().filter(|_| model.base.publish.labels);
    let centres = statement.pattern.iter().map(|(across, up)| [exact_text(across), exact_text(up)]);
    let spec = SpecJson {
        of: statement.identity.of.to_string(),
        place: statement.identity.place.clone(),
        when: statement.identity.when.clone(),
        form: statement.form.key().to_owned(),
        fastener: statement.fastener.as_ref().map(fastener),
        pattern: (!statement.pattern.is_empty()).then(|| centres.collect()),
        source: SourceRefJson {
            id: provenance.source.as_ref().map(ToString::to_string),
            page: provenance.page.clone(),
            row: label(&provenance.row),
            column: label(&provenance.column),
            footnote: label(&provenance.footnote),
            read_by: provenance.read_by.clone(),
        },
        variant: statement.variant.as_ref().map(ToString::to_string),
        misprint: statement.misprint.as_ref().map(misprint),
        note: statement.note.clone(),
        confirmation: confirmation(&statement.confirmation),
        waivers: waivers(model, statement),
        ..SpecJson::default()
    };
    if model.withholds(statement) {
        // Bolt pattern, fastener, misprint, remarks and the labels of the page may carry parts of the value.
        return SpecJson {
            withheld: Some("not confirmed by a second reading"),
            fastener: None,
            pattern: None,
            misprint: None,
            note: None,
            waivers: Vec::new(),
            source: SourceRefJson { row: None, column: None, footnote: None, ..spec.source },
            ..spec
        };
    }
    with_value(spec, &statement.form)
}

fn confirmation(confirmation: &Confirmation) -> ConfirmationJson {
    let state = confirmation.word();
    match confirmation {
        Confirmation::Confirmed { by, on } => {
            ConfirmationJson { state, by: Some(by.clone()), on: on.map(|day| day.to_string()) }
        }
        _ => ConfirmationJson { state, by: None, on: None },
    }
}

/// The waivers that act on a statement, in whichever engine it is stated.
fn waivers(model: &Model, statement: &Statement) -> Vec<WaiverJson> {
    let acting = model.waivers_on(statement).map(|waiver| WaiverJson {
        rule: waiver.rule.clone(),
        because: waiver.because.clone(),
        until: waiver.until.to_string(),
    });
    acting.collect()
}

/// Puts the value of a form under its key.
fn with_value(spec: SpecJson, value: &Form) -> SpecJson {
    let forms = |printed: &[Printed]| -> Option<Vec<PrintedJson>> {
        (!printed.is_empty()).then(|| printed.iter().map(|one| form(&one.value)).collect())
    };
    match value {
        Form::Window { printed, set_to } => {
            SpecJson { window: range(printed), set_to: range(set_to), ..spec }
        }
        Form::Fit { new, wear_limit } => SpecJson { new: range(new), wear_limit: range(wear_limit), ..spec },
        Form::Setting(printed) => SpecJson { setting: range(printed), ..spec },
        Form::Stages(stages) => {
            SpecJson { stages: Some(stages.iter().filter_map(|stage| range(stage)).collect()), ..spec }
        }
        Form::Points(points) => {
            let point = |one: &Point| PointJson { at: form(&one.at.value), reads: form(&one.reads.value) };
            SpecJson { points: Some(points.iter().map(point).collect()), ..spec }
        }
        Form::Direction { turns, seen_from } => {
            SpecJson { direction: Some(turns.word().to_owned()), seen_from: seen_from.clone(), ..spec }
        }
        Form::Interval { regular, first, severe } => {
            SpecJson { interval: forms(regular), first: forms(first), severe: forms(severe), ..spec }
        }
        Form::Selection(selection) => {
            let row = |(inputs, part): &(Vec<String>, String)| ChoiceJson {
                inputs: inputs.clone(),
                part: part.clone(),
            };
            let rows = selection.rows.iter().map(row).collect();
            SpecJson { selection: Some(SelectionJson { by: selection.by.clone(), rows }), ..spec }
        }
        Form::Pins(pins) => SpecJson { pins: Some(pins.iter().map(pin).collect()), ..spec },
        Form::Text(text) => SpecJson { text: Some(text.clone()), ..spec },
        Form::Absent(why) => SpecJson { absent: Some(why.word().to_owned()), ..spec },
    }
}

fn pin(pin: &Pin) -> PinJson {
    PinJson {
        cavity: pin.cavity.clone(),
        wire: pin.wire.clone(),
        function: pin.function.clone(),
        expect: pin.expect.clone(),
    }
}

fn fastener(fastener: &Fastener) -> FastenerJson {
    FastenerJson {
        thread: fastener.thread.clone(),
        class: fastener.class.clone(),
        threads: fastener.threads.clone(),
        hand: fastener.hand.map(Hand::word),
        count: fastener.count,
        reuse: fastener.reuse.map(Reuse::word),
        into: fastener.into.clone(),
    }
}

fn misprint(misprint: &Misprint) -> MisprintJson {
    MisprintJson {
        printed: misprint.printed.clone(),
        meant: misprint.meant.clone(),
        because: misprint.because.clone(),
        decided_by: misprint.decided_by.clone(),
    }
}
