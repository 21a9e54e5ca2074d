//! What a reading is judged by, as attributes of its row: the limits as printed, the trade's words,
//! the units it may be typed in, the usual gauge.
//!
//! Invariant: a value that is withheld gives nothing to judge by, so no field is offered for it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::scope;
use crate::model::{Entry, Form, Model, Printed, Statement, StopSide};
use crate::quantity::{Exact, Kind, Unit, Value};

/// What stands between two printed forms in an attribute; no value holds it.
const BETWEEN: &str = " | ";

/// The limits of one statement. Empty texts are left out by the template.
#[derive(Clone, Debug, Serialize)]
pub struct Judged {
    /// Every printed form of the window.
    pub window: String,
    /// Every printed form of the fit of new parts.
    pub new: String,
    /// Every printed form of the end of use.
    pub wear_limit: String,
    /// The trade's word for a reading below, if it has one of its own.
    pub below: String,
    /// The trade's word for a reading above.
    pub above: String,
    /// Beyond which of the limits the machine must not be run.
    pub stop: &'static str,
    /// Kind of quantity, which says what gauges fit.
    pub kind: &'static str,
    /// Unit that a reading is taken to be in: the first of those it may be typed in.
    pub unit: String,
    /// Units a reading may be typed in: those printed, then the one that a shop wants beside them.
    pub units: String,
    /// The usual gauge.
    pub gauge: String,
    /// What must be so for any reading of the entry, as `data-when` is written.
    pub needs: String,
    /// True where a reading may be less than nothing: the keys then have a sign.
    pub signed: bool,
    /// True where the statement holds for several places, each with a reading of its own.
    pub several: bool,
}

impl Judged {
    /// What a reading of this statement is judged by; none if it has no limits, or they are withheld.
    pub fn of(model: &Model, entry: &Entry, statement: &Statement) -> Option<Self> {
        let (window, new, wear_limit): (&[Printed], &[Printed], &[Printed]) = match &statement.form {
            _ if model.withholds(statement) => return None,
            Form::Window { printed, .. } => (printed, &[], &[]),
            Form::Fit { new, wear_limit } => (&[], new, wear_limit),
            _ => return None,
        };
        let printed = || window.iter().chain(new).chain(wear_limit);
        let kind = printed().next()?.value.unit().kind();
        let place = &statement.identity.place;
        let units = units(printed(), &model.base.units);
        Some(Self {
            window: list(window),
            new: list(new),
            wear_limit: list(wear_limit),
            below: entry.below.clone(),
            above: entry.above.clone(),
            stop: entry.stop.map(StopSide::word).unwrap_or_default(),
            kind: kind.name(),
            unit: units.split(BETWEEN).next().unwrap_or_default().to_owned(),
            units,
            gauge: entry.gauge.as_ref().map(ToString::to_string).unwrap_or_default(),
            needs: scope::attribute(&entry.needs_state),
            signed: printed().chain(&entry.plausible).any(|one| reaches_below_nothing(&one.value)),
            several: entry.axes.keys().any(|axis| !place.contains_key(axis)),
        })
    }
}

impl Judged {
    /// The same for a script, under the names that the attributes have in `dataset`.
    pub fn facts(&self) -> BTreeMap<&'static str, &str> {
        let named = [
            ("units", self.units.as_str()),
            ("window", &self.window),
            ("new", &self.new),
            ("wear", &self.wear_limit),
            ("below", &self.below),
            ("above", &self.above),
            ("stop", self.stop),
            ("gauge", &self.gauge),
            ("needs", &self.needs),
        ];
        let given = named.into_iter().filter(|(_, text)| !text.is_empty());
        let marks = [("several", self.several), ("signed", self.signed)];
        let marks = marks.into_iter().filter_map(|(name, is)| is.then_some((name, "")));
        given.chain([("kind", self.kind)]).chain(marks).collect()
    }
}

/// Whether some of it is less than nothing, as toe-out is and a spark after top dead centre.
fn reaches_below_nothing(value: &Value) -> bool {
    [value.min(), value.max()].into_iter().flatten().any(|limit| limit.exact < Exact::default())
}

fn list(printed: &[Printed]) -> String {
    let texts: Vec<String> = printed.iter().map(|one| one.value.text()).collect();
    texts.join(BETWEEN)
}

fn units<'a>(printed: impl Iterator<Item = &'a Printed>, asked: &BTreeMap<Kind, Unit>) -> String {
    let mut symbols: Vec<&'static str> = Vec::new();
    let mut first = None;
    for unit in printed.map(|one| one.value.unit()) {
        first.get_or_insert(unit);
        if !symbols.contains(&unit.symbol()) {
            symbols.push(unit.symbol());
        }
    }
    let beside = first.and_then(|unit| asked.get(&unit.kind()).copied().or_else(|| unit.counterpart()));
    if let Some(symbol) = beside.map(Unit::symbol).filter(|symbol| !symbols.contains(symbol)) {
        symbols.push(symbol);
    }
    symbols.join(BETWEEN)
}
