//! The order as it is answered: the checks, what they cost on average, and what is left.

use num_bigint::BigInt;
use num_traits::Zero as _;
use serde::ser::SerializeMap as _;
use serde::{Serialize, Serializer};

use super::super::Refusal;
use super::job::{Findings, Job, Outcome, Set, bit, members};
use super::search::{Search, State};
use crate::quantity::{Exact, exact_text};

/// One check where it stands.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Step {
    /// Id of the check.
    pub check: String,
    /// Ids of the access steps opened for it.
    pub opens: Vec<String>,
    /// Minutes it takes, access with it.
    pub minutes: Exact,
    /// Minutes gone when it is done, if none before it has shown.
    pub by: Exact,
    /// Share of the jobs that are left in which it is the first to show.
    pub finds: Exact,
    /// Why it stands where it stands.
    pub why: Why,
}

/// Why a check stands where it stands in the best order.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Why {
    /// No other check would find more for its minutes here, access with them.
    MostForItsMinutes,
    /// Its access serves checks after it.
    OpensForOthers,
    /// What it clears makes the rest quicker.
    ClearsForOthers,
    /// It is the last that can show something.
    AllThatIsLeft,
    /// The checks before it would have shown all that it could; once one of them has shown, it tells which
    /// of several causes that was.
    TellsApart,
    /// The checks before it would have shown all that it could.
    NothingLeft,
}

impl Why {
    /// In words, after a colon.
    pub const fn words(self) -> &'static str {
        match self {
            Self::MostForItsMinutes => "the most for its minutes",
            Self::OpensForOthers => "what it opens serves those after it",
            Self::ClearsForOthers => "with it out of the way the rest goes quicker",
            Self::AllThatIsLeft => "all that is left",
            Self::TellsApart => "once one before it has shown, it tells the causes apart",
            Self::NothingLeft => "nothing is left for it to show",
        }
    }
}

/// The best order. As JSON, the answer of `order`.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Order {
    /// The checks that are still to be done, in order.
    pub steps: Vec<Step>,
    /// Minutes to the cause, on average.
    pub expected_minutes: Exact,
    /// The same in the order of the file.
    pub as_written_minutes: Exact,
    /// The causes left and their shares of one, in file order.
    pub left: Vec<(String, Exact)>,
    /// False if several causes are left and no check still to be done shows some of them but not all.
    pub told_apart: bool,
    /// False if there are too many checks that hang together for a proof: then the order is a good one.
    pub proved: bool,
}

/// The best order of the checks that are still to be done.
///
/// # Errors
/// [`Refusal`] where a finding names no check, or the findings leave no cause for a check that showed.
pub fn order(job: &Job, findings: &Findings) -> Result<Order, Refusal> {
    let (start, to_do) = start(job, findings)?;
    // A cause that no check still to be done shows has no minutes, and weighs nothing in the order.
    let shown =
        job.each().filter(|(at, ..)| to_do & bit(*at) != 0).fold(0, |all, (_, shows, ..)| all | shows);
    let sought = State { left: start.left & shown, ..start };
    let (mut sequence, proved) = Search::new(job, to_do).sequence(sought);
    let rest: Vec<usize> = members(to_do).filter(|check| !sequence.contains(check)).collect();
    sequence.extend(rest);
    let total = job.weight(start.left);
    let steps = walk(job, start, &sequence, &total);
    let written: Vec<usize> = members(to_do).collect();
    let as_written = walk(job, start, &written, &total);
    let left = members(start.left)
        .filter_map(|at| Some((job.causes.get(at)?.id.clone(), share(job.weights.get(at)?, &total))));
    Ok(Order {
        expected_minutes: expected(&steps),
        as_written_minutes: expected(&as_written),
        left: left.collect(),
        told_apart: members(start.left).nth(1).is_none()
            || members(to_do).filter_map(|at| job.shows.get(at)).any(|shows| parts(*shows, start.left)),
        steps,
        proved,
    })
}

/// What is left and open after the findings, and the checks still to be done.
fn start(job: &Job, findings: &Findings) -> Result<(State, Set), Refusal> {
    let every = |ids: usize| (0..ids).fold(0, |all, at| all | bit(at));
    let unknown = findings.keys().find(|id| !job.checks.iter().any(|check| check.id == **id));
    if let Some(id) = unknown {
        let known: Vec<_> = job.checks.iter().map(|check| check.id.as_str()).collect();
        return Err(Refusal::new(
            format!("there is no check `{id}`"),
            format!("checks are {}", known.join(", ")),
        ));
    }
    let residual = job.causes.iter().enumerate().filter(|(_, cause)| cause.residual);
    let residual = residual.fold(0, |all, (at, _)| all | bit(at));
    let mut state = State { left: every(job.causes.len()) & !residual, open: 0 };
    let mut to_do = every(job.checks.len());
    for (at, shows, needs, _) in job.each() {
        let Some(check) = job.checks.get(at) else { continue };
        let Some(outcome) = findings.get(&check.id) else { continue };
        to_do &= !bit(at);
        state.open |= needs;
        state.left &= if *outcome == Outcome::Shown { shows } else { !shows };
    }
    let showed = job.checks.iter().find(|check| findings.get(&check.id) == Some(&Outcome::Shown));
    if let Some(check) = showed.filter(|_| state.left == 0) {
        let message = format!("`{}` showed, but the other checks leave none of its causes", check.id);
        return Err(Refusal::new(
            message,
            "one of the results is wrong, or there are two causes: do them again",
        ));
    }
    Ok((state, to_do))
}

/// The checks one after another.
fn walk(job: &Job, start: State, sequence: &[usize], total: &BigInt) -> Vec<Step> {
    let (mut state, mut gone) = (start, BigInt::zero());
    let mut steps = Vec::with_capacity(sequence.len());
    for (at, check) in sequence.iter().filter_map(|at| Some((*at, job.checks.get(*at)?))) {
        let Some(here) = rate(job, state, at) else { continue };
        gone += &here.minutes;
        let rest = sequence.iter().skip(steps.len() + 1).filter_map(|at| rate(job, state, *at));
        let before =
            sequence.iter().take(steps.len()).filter_map(|at| Some(job.shows.get(*at)? & start.left));
        let why = match here.why(rest, state.left) {
            Why::NothingLeft if tells_apart(here.shows, before) => Why::TellsApart,
            why => why,
        };
        steps.push(Step {
            check: check.id.clone(),
            opens: members(here.opens).filter_map(|at| Some(job.access.get(at)?.id.clone())).collect(),
            by: Exact::new(gone.clone(), job.minute.clone()),
            finds: share(&here.finds, total),
            why,
            minutes: Exact::new(here.minutes, job.minute.clone()),
        });
        state = State { left: state.left & !here.shows, open: state.open | here.opens };
    }
    steps
}

/// Whether a check shows some, but not all, of the causes that one before it shows.
fn tells_apart(shows: Set, mut before: impl Iterator<Item = Set>) -> bool {
    before.any(|earlier| parts(shows, earlier))
}

/// Whether a check shows some, but not all, of several causes.
const fn parts(shows: Set, causes: Set) -> bool {
    causes & shows != 0 && causes & !shows != 0
}

/// What a check would find, and what that would take.
struct Rate {
    shows: Set,
    opens: Set,
    finds: BigInt,
    minutes: BigInt,
}

impl Rate {
    /// Why it comes before `rest`, while `left` is left.
    fn why(&self, rest: impl Iterator<Item = Self>, left: Set) -> Why {
        let rest: Vec<Self> = rest.filter(|other| other.shows & left != 0).collect();
        let after = left & !self.shows;
        if self.shows & left == 0 {
            Why::NothingLeft
        } else if !rest.iter().any(|other| other.shows & after != 0) {
            Why::AllThatIsLeft
        } else if !rest.iter().any(|other| other.beats(self)) {
            Why::MostForItsMinutes
        } else if rest.iter().any(|other| other.opens & self.opens != 0) {
            Why::OpensForOthers
        } else {
            Why::ClearsForOthers
        }
    }

    /// Cross-multiplied, so that a check of no minutes has the highest rate.
    fn beats(&self, other: &Self) -> bool {
        &self.finds * &other.minutes > &other.finds * &self.minutes
    }
}

fn rate(job: &Job, state: State, check: usize) -> Option<Rate> {
    let (_, shows, needs, minutes) = job.each().nth(check)?;
    let opens = needs & !state.open;
    let finds = job.weight(shows & state.left);
    Some(Rate { shows, opens, finds, minutes: minutes + job.opening(opens) })
}

fn expected(steps: &[Step]) -> Exact {
    steps.iter().map(|step| &step.finds * &step.by).sum()
}

/// A part of a whole; of nothing, nothing.
fn share(part: &BigInt, whole: &BigInt) -> Exact {
    if whole.is_zero() { Exact::zero() } else { Exact::new(part.clone(), whole.clone()) }
}

impl Serialize for Order {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let left: serde_json::Map<_, _> =
            self.left.iter().map(|(cause, share)| (cause.clone(), exact_text(share).into())).collect();
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("order", &self.steps.iter().map(|step| &step.check).collect::<Vec<_>>())?;
        map.serialize_entry("expected_minutes", &exact_text(&self.expected_minutes))?;
        map.serialize_entry("as_written_minutes", &exact_text(&self.as_written_minutes))?;
        map.serialize_entry("left", &left)?;
        if !self.proved {
            map.serialize_entry("proved", &false)?;
        }
        map.end()
    }
}
