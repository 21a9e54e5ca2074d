//! What the same entry is in other engines of the same sort: a robust look for the one that is far from all the others.
//!
//! Values are compared by their logarithms, so that twice and half are equally far. Middle and spread are the median and
//! the median distance from it (MAD): a few wrong values do not move them. Few peers say nothing, and nothing is said of
//! them. Floating point stays within this judgement; what is printed are the peers' own values as printed.

use std::collections::BTreeMap;

use num_traits::{Signed, ToPrimitive};

use super::Subject;
use crate::model::{Domain, EngineId, Entry, EntryId, Form, FormName, Printed, Statement, Words};
use crate::quantity::{Exact, Shape};

/// The fewest other values that say anything.
const FEWEST_VALUES: usize = 8;
/// The fewest other engines they must come from.
const FEWEST_ENGINES: usize = 6;
/// How many times the usual spread is far: 1.4826 MAD is one standard deviation of a normal distribution.
const FAR: f64 = 6.0 * 1.4826;
/// Less than this factor off is never far.
const LEAST_FACTOR: f64 = 3.0;

/// A value among its peers.
#[derive(Clone, Debug)]
pub struct Peer<'a> {
    /// The engine.
    pub engine: &'a EngineId,
    /// The statement.
    pub statement: &'a Statement,
    /// The value, in the maker's own unit.
    pub printed: &'a Printed,
    /// The logarithm of its middle.
    log: f64,
}

/// A value far from its peers.
#[derive(Debug)]
pub struct Outlier<'a> {
    /// The value.
    pub value: Peer<'a>,
    /// The values of other engines, the smallest first.
    pub peers: Vec<Peer<'a>>,
}

/// Entry, which of its values, cycle, fuel, and the condition without quantities.
type Group<'a> = (&'a EntryId, FormName, &'a str, &'a str, Words);

/// Every value that is far from those of other engines.
pub fn outliers<'a>(subject: &Subject<'a>) -> Vec<Outlier<'a>> {
    let mut groups: BTreeMap<Group<'a>, Vec<Peer<'a>>> = BTreeMap::new();
    for engine in subject.model.engines.values() {
        let Some(layout) = &engine.layout else { continue };
        let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
        for statement in engine.statements.iter().chain(varied).map(AsRef::as_ref) {
            let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
            for (face, printed) in faces(&statement.form) {
                let Some(log) =
                    log_middle(printed).filter(|_| entry.kind == Some(printed.value.unit().kind()))
                else {
                    continue;
                };
                let group = (
                    &statement.identity.of,
                    face,
                    layout.cycle.as_str(),
                    layout.fuel.as_str(),
                    condition(entry, statement),
                );
                groups.entry(group).or_default().push(Peer { engine: &engine.id, statement, printed, log });
            }
        }
    }
    groups.into_values().flat_map(far).collect()
}

/// The condition in words; a speed or a temperature differs from engine to engine.
fn condition(entry: &Entry, statement: &Statement) -> Words {
    let words = statement
        .identity
        .when
        .iter()
        .filter(|(state, _)| matches!(entry.states.get(*state), Some(Domain::Words(_))));
    words.map(|(state, word)| (state.clone(), word.clone())).collect()
}

fn faces(form: &Form) -> Vec<(FormName, &Printed)> {
    let all: Vec<(FormName, Option<&Printed>)> = match form {
        Form::Window { printed, .. } => vec![(FormName::Window, printed.first())],
        Form::Fit { new, wear_limit } => {
            vec![(FormName::New, new.first()), (FormName::WearLimit, wear_limit.first())]
        }
        Form::Setting(printed) => vec![(FormName::Setting, printed.first())],
        _ => Vec::new(),
    };
    all.into_iter().filter_map(|(face, printed)| Some((face, printed?))).collect()
}

/// The logarithm of the middle of a value; none for a turn, or where the middle is not above zero.
fn log_middle(printed: &Printed) -> Option<f64> {
    let value = &printed.value;
    if matches!(value.shape(), Shape::Turn(_)) {
        return None;
    }
    let ends = (value.min().map(|end| end.exact), value.max().map(|end| end.exact));
    let middle = match (value.nominal(), ends) {
        (Some(nominal), _) => nominal.clone(),
        (None, (Some(low), Some(high))) => (low + high) / Exact::from_integer(2.into()),
        (None, (low, high)) => low.or(high)?,
    };
    let si = value.unit().to_si(&middle);
    si.is_positive().then(|| si.to_f64().map(f64::ln))?.filter(|log| log.is_finite())
}

/// The values of a group that are far from those of other engines.
fn far(mut group: Vec<Peer<'_>>) -> Vec<Outlier<'_>> {
    group.sort_by(|one, other| one.log.total_cmp(&other.log));
    let outlier = |value: &Peer<'_>| {
        let others: Vec<&Peer<'_>> = group.iter().filter(|peer| peer.engine != value.engine).collect();
        let engines: std::collections::BTreeSet<_> = others.iter().map(|peer| peer.engine).collect();
        if others.len() < FEWEST_VALUES || engines.len() < FEWEST_ENGINES {
            return false;
        }
        let logs: Vec<f64> = others.iter().map(|peer| peer.log).collect();
        let middle = median(&logs);
        let mut distances: Vec<f64> = logs.iter().map(|log| (log - middle).abs()).collect();
        distances.sort_by(f64::total_cmp);
        (value.log - middle).abs() > (FAR * median(&distances)).max(LEAST_FACTOR.ln())
    };
    let found: Vec<Peer<'_>> = group.iter().filter(|value| outlier(value)).cloned().collect();
    found
        .into_iter()
        .map(|value| {
            let peers = group.iter().filter(|peer| peer.engine != value.engine).cloned().collect();
            Outlier { value, peers }
        })
        .collect()
}

/// The middle of sorted numbers.
fn median(sorted: &[f64]) -> f64 {
    let upper = sorted.get(sorted.len() / 2).copied().unwrap_or_default();
    let lower = sorted.get(sorted.len().saturating_sub(1) / 2).copied().unwrap_or_default();
    f64::midpoint(lower, upper)
}
