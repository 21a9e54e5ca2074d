//! What the same entry is in other engines of the same sort: a robust look for the one that is far from all the others.
//!
//! Values are compared by their logarithms, so that twice and half are equally far. Middle and spread are the median and
//! the median distance from it (MAD): a few wrong values do not move them. Few peers say something only if they agree with
//! one another, and very few say nothing. Floating point stays within this judgement; what is printed are the peers' own values as printed.

use std::collections::{BTreeMap, BTreeSet};

use num_traits::{Signed, ToPrimitive};

use super::Subject;
use crate::model::{Domain, EngineId, Entry, EntryId, Form, FormName, Printed, Statement, Words};
use crate::quantity::{Exact, Shape};
use crate::source::Span;

/// The fewest other values of the same sort, and the fewest other engines they must come from, for a look at their spread.
const FEWEST: Crowd = Crowd { values: 8, engines: 6 };
/// How many times the usual spread is far: 1.4826 MAD is one standard deviation of a normal distribution.
const FAR: f64 = 6.0 * 1.4826;
/// Less than this factor off is never far.
const LEAST_FACTOR: f64 = 5.0;
/// A value with another this near is of another sort than the rest, not slipped: injectors of 2 Ω beside those of 12 Ω.
const NEIGHBOUR: f64 = 2.0;

/// Where fewer are of the same sort, the fewest of any sort that say something, if they agree.
const FEWEST_THAT_AGREE: Crowd = Crowd { values: 5, engines: 5 };
/// Values that agree lie within this factor of one another.
const AGREE: f64 = 2.5;
/// So many times beyond all that agree is far.
const FAR_FROM_ALL: f64 = 6.0;

/// The fewest other engines that tell which of two values is the odd one out.
const FEWEST_TO_TELL: usize = 3;
/// A value this far beyond the least or the most of them is unlike them all.
const UNLIKE: f64 = 1.5;

/// How many values from how many engines.
struct Crowd {
    values: usize,
    engines: usize,
}

impl Crowd {
    fn is_in(&self, peers: &[Peer<'_>]) -> bool {
        peers.len() >= self.values && engines(peers).len() >= self.engines
    }
}

/// A value among its peers.
#[derive(Clone, Debug)]
pub struct Peer<'a> {
    /// The engine.
    pub engine: &'a EngineId,
    /// The statement.
    pub statement: &'a Statement,
    /// The value, in the maker's own unit.
    pub printed: &'a Printed,
    /// Cycle and fuel.
    sort: (&'a str, &'a str),
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

/// Entry, which of its values, and the condition without quantities.
type Group<'a> = (&'a EntryId, FormName, Words);

/// The values of every engine by what they are of, the smallest first.
#[derive(Debug)]
pub struct Groups<'a>(BTreeMap<Group<'a>, Vec<Peer<'a>>>);

/// The engines that values are of.
pub fn engines<'a>(peers: &[Peer<'a>]) -> BTreeSet<&'a EngineId> {
    peers.iter().map(|peer| peer.engine).collect()
}

/// Every value that is far from those of other engines.
pub fn outliers<'a>(subject: &Subject<'a>) -> Vec<Outlier<'a>> {
    Groups::of(subject).0.values().flat_map(|group| far(group)).collect()
}

impl<'a> Groups<'a> {
    /// The values of a base.
    pub fn of(subject: &Subject<'a>) -> Self {
        let mut groups: BTreeMap<Group<'a>, Vec<Peer<'a>>> = BTreeMap::new();
        for engine in subject.model.engines.values() {
            let Some(layout) = &engine.layout else { continue };
            let varied = engine.variants.iter().flat_map(|variant| &variant.statements);
            for statement in engine.statements.iter().chain(varied).map(AsRef::as_ref) {
                let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
                for (face, printed) in faces(&statement.form) {
                    let log = log_middle(printed).filter(|_| entry.kind == Some(printed.value.unit().kind()));
                    let Some(log) = log else { continue };
                    let sort = (layout.cycle.as_str(), layout.fuel.as_str());
                    let group = (&statement.identity.of, face, condition(entry, statement));
                    let peer = Peer { engine: &engine.id, statement, printed, sort, log };
                    groups.entry(group).or_default().push(peer);
                }
            }
        }
        groups.values_mut().for_each(|group| group.sort_by(|one, other| one.log.total_cmp(&other.log)));
        Self(groups)
    }

    /// The values of enough other engines, if this one lies well outside them all.
    pub fn unlike(&self, statement: &Statement, span: Span) -> Option<Vec<Peer<'a>>> {
        let mut own = self.0.iter().filter(|((of, ..), _)| **of == statement.identity.of);
        let (group, value) =
            own.find_map(|(_, group)| Some((group, group.iter().find(|peer| peer.printed.span == span)?)))?;
        let others = others(group, value, |_| true);
        let (least, most) = (others.first()?.log, others.last()?.log);
        let is_unlike = value.log < least - UNLIKE.ln() || value.log > most + UNLIKE.ln();
        (is_unlike && engines(&others).len() >= FEWEST_TO_TELL).then_some(others)
    }
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

/// The values of a group, the smallest first, that are far from those of other engines.
fn far<'a>(group: &[Peer<'a>]) -> Vec<Outlier<'a>> {
    let lonely = group.iter().enumerate().filter(|(place, value)| !has_neighbour(group, *place, value));
    let outlier = |(_, value): (usize, &Peer<'a>)| {
        let alike = others(group, value, |peer| peer.sort == value.sort);
        let peers = if FEWEST.is_in(&alike) {
            is_beyond_spread(value, &alike).then_some(alike)
        } else {
            let all = others(group, value, |_| true);
            (FEWEST_THAT_AGREE.is_in(&all) && is_beyond_all(value, &all)).then_some(all)
        };
        Some(Outlier { value: value.clone(), peers: peers? })
    };
    lonely.filter_map(outlier).collect()
}

fn others<'a>(group: &[Peer<'a>], value: &Peer<'a>, wanted: impl Fn(&Peer<'a>) -> bool) -> Vec<Peer<'a>> {
    group.iter().filter(|peer| peer.engine != value.engine && wanted(peer)).cloned().collect()
}

/// Whether another engine of the same sort has a value near this one.
fn has_neighbour(group: &[Peer<'_>], place: usize, value: &Peer<'_>) -> bool {
    let near = |peer: &&Peer<'_>| (peer.log - value.log).abs() < NEIGHBOUR.ln();
    let other = |peer: &Peer<'_>| peer.engine != value.engine && peer.sort == value.sort;
    let (below, above) = group.split_at(place);
    below.iter().rev().take_while(near).any(other) || above.iter().take_while(near).any(other)
}

/// Whether a value is further from the middle than the usual spread explains.
fn is_beyond_spread(value: &Peer<'_>, peers: &[Peer<'_>]) -> bool {
    let logs: Vec<f64> = peers.iter().map(|peer| peer.log).collect();
    let middle = median(&logs);
    let mut distances: Vec<f64> = logs.iter().map(|log| (log - middle).abs()).collect();
    distances.sort_by(f64::total_cmp);
    (value.log - middle).abs() > (FAR * median(&distances)).max(LEAST_FACTOR.ln())
}

/// Whether a value is far beyond values that agree with one another.
fn is_beyond_all(value: &Peer<'_>, peers: &[Peer<'_>]) -> bool {
    let (Some(least), Some(most)) = (peers.first(), peers.last()) else { return false };
    let agree = most.log - least.log < AGREE.ln();
    agree && (value.log < least.log - FAR_FROM_ALL.ln() || value.log > most.log + FAR_FROM_ALL.ln())
}

/// The middle of sorted numbers.
fn median(sorted: &[f64]) -> f64 {
    let upper = sorted.get(sorted.len() / 2).copied().unwrap_or_default();
    let lower = sorted.get(sorted.len().saturating_sub(1) / 2).copied().unwrap_or_default();
    f64::midpoint(lower, upper)
}
