//! A complaint's causes, access and checks, with every reference looked up: what the search works on.

use std::collections::BTreeMap;

use num_bigint::BigInt;
use num_traits::{Signed as _, Zero as _};

use super::super::Refusal;
use crate::model::Complaint;
use crate::quantity::Exact;

/// The most causes, access steps and checks that a complaint may have, each.
const MOST: usize = 64;

/// A cause.
#[derive(Clone, Debug)]
pub struct Cause {
    /// Its id.
    pub id: String,
    /// Its share of past jobs, in any measure.
    pub share: Exact,
    /// True for what is left when no check shows it.
    pub residual: bool,
}

/// An access step.
#[derive(Clone, Debug)]
pub struct Access {
    /// Its id.
    pub id: String,
    /// Minutes it takes.
    pub minutes: Exact,
    /// Access steps that come before it.
    pub needs: Vec<String>,
}

/// A check.
#[derive(Clone, Debug)]
pub struct Check {
    /// Its id.
    pub id: String,
    /// Minutes it takes, access aside.
    pub minutes: Exact,
    /// The causes it shows.
    pub shows: Vec<String>,
    /// The access steps it needs.
    pub needs: Vec<String>,
}

/// What a check that was done has said.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Outcome {
    /// Nothing: the causes it shows are cleared.
    Clear,
    /// It showed: the cause is one of those in its list.
    Shown,
}

/// What the checks done so far have said.
pub type Findings = BTreeMap<String, Outcome>;

/// A set of causes, access steps or checks, by their place in the file.
pub(super) type Set = u64;

/// A complaint in the form that is searched: sets for lists, whole numbers for shares and minutes.
#[derive(Clone, Debug)]
pub struct Job {
    pub(super) causes: Vec<Cause>,
    pub(super) checks: Vec<Check>,
    pub(super) access: Vec<Access>,
    /// Shares of the causes, residual ones aside, to a common denominator.
    pub(super) weights: Vec<BigInt>,
    /// Minutes of the checks and of the access steps, to a common denominator.
    pub(super) check_minutes: Vec<BigInt>,
    pub(super) access_minutes: Vec<BigInt>,
    /// What one minute counts in them.
    pub(super) minute: BigInt,
    /// By check: the causes it shows, and every access step it needs, directly or for another.
    pub(super) shows: Vec<Set>,
    pub(super) needs: Vec<Set>,
}

impl Job {
    /// The job of a complaint of a base.
    ///
    /// # Errors
    /// As [`Job::new`]; a complaint that passed its checks has none of them.
    pub fn of(complaint: &Complaint) -> Result<Self, Refusal> {
        let causes = complaint.causes.iter().map(|one| Cause {
            id: one.id.clone(),
            share: one.share.clone(),
            residual: one.residual,
        });
        let access = complaint.access.iter().map(|one| Access {
            id: one.id.clone(),
            minutes: one.minutes.clone(),
            needs: one.needs.clone(),
        });
        let checks = complaint.checks.iter().map(|one| Check {
            id: one.id.clone(),
            minutes: one.minutes.clone(),
            shows: one.shows.clone(),
            needs: one.needs.clone(),
        });
        Self::new(causes.collect(), access.collect(), checks.collect())
    }

    /// Looks up every reference.
    ///
    /// # Errors
    /// [`Refusal`] where an id is unknown or stands twice, a number is below zero, an access step needs itself,
    /// or no check shows a cause.
    pub fn new(causes: Vec<Cause>, access: Vec<Access>, checks: Vec<Check>) -> Result<Self, Refusal> {
        let cause_ids = places("cause", causes.iter().map(|one| &one.id))?;
        let access_ids = places("access step", access.iter().map(|one| &one.id))?;
        places("check", checks.iter().map(|one| &one.id))?;
        let shares = causes.iter().map(|one| (&one.id, &one.share));
        let minutes = checks.iter().map(|one| (&one.id, &one.minutes));
        let opening = access.iter().map(|one| (&one.id, &one.minutes));
        if let Some((id, _)) = shares.chain(minutes).chain(opening).find(|(_, number)| number.is_negative()) {
            let help = "shares and minutes are zero or more";
            return Err(Refusal::new(format!("a number of `{id}` is below zero"), help));
        }
        let direct: Vec<Set> = access
            .iter()
            .map(|one| set("access step", &one.needs, &access_ids, &one.id))
            .collect::<Result<_, _>>()?;
        let closed = closures(&direct, &access)?;
        let residual = causes.iter().enumerate().filter(|(_, one)| one.residual).map(|(at, _)| bit(at));
        let residual = residual.fold(0, |all, one| all | one);
        let shows: Vec<Set> = checks
            .iter()
            .map(|one| set("cause", &one.shows, &cause_ids, &one.id).map(|shows| shows & !residual))
            .collect::<Result<_, _>>()?;
        let needs: Vec<Set> = checks
            .iter()
            .map(|one| {
                set("access step", &one.needs, &access_ids, &one.id).map(|needs| closure(needs, &closed))
            })
            .collect::<Result<_, _>>()?;
        let (weights, _) =
            whole(causes.iter().map(|one| if one.residual { Exact::zero() } else { one.share.clone() }));
        let (mut minutes, minute) = whole(
            checks.iter().map(|one| one.minutes.clone()).chain(access.iter().map(|one| one.minutes.clone())),
        );
        let access_minutes = minutes.split_off(checks.len());
        let job = Self {
            causes,
            checks,
            access,
            weights,
            check_minutes: minutes,
            access_minutes,
            minute,
            shows,
            needs,
        };
        job.shown(residual)?;
        Ok(job)
    }

    /// Every cause can be shown, and something is known of how often each was the one.
    fn shown(&self, residual: Set) -> Result<(), Refusal> {
        let shown = self.shows.iter().fold(residual, |all, one| all | one);
        let hidden = self.causes.iter().enumerate().find(|(at, _)| shown & bit(*at) == 0);
        if let Some((_, cause)) = hidden {
            let help = "add a check that shows it, or mark it `residual = true`";
            return Err(Refusal::new(format!("no check shows the cause `{}`", cause.id), help));
        }
        if self.weight(!residual).is_zero() {
            let help = "give each cause its share of past jobs, as a percentage or a count";
            return Err(Refusal::new("the shares of the causes add up to nothing", help));
        }
        Ok(())
    }

    /// The weight of the causes in a set.
    pub(super) fn weight(&self, causes: Set) -> BigInt {
        members(causes).filter_map(|at| self.weights.get(at)).sum()
    }

    /// The minutes of the access steps in a set.
    pub(super) fn opening(&self, access: Set) -> BigInt {
        members(access).filter_map(|at| self.access_minutes.get(at)).sum()
    }

    /// The checks in file order: place, causes shown, access needed, minutes.
    pub(super) fn each(&self) -> impl Iterator<Item = (usize, Set, Set, &BigInt)> {
        let sets = self.shows.iter().zip(&self.needs).zip(&self.check_minutes);
        sets.enumerate().map(|(at, ((shows, needs), minutes))| (at, *shows, *needs, minutes))
    }
}

/// The set of one place. Places are below [`MOST`].
pub(super) fn bit(at: usize) -> Set {
    u32::try_from(at).ok().and_then(|at| 1_u64.checked_shl(at)).unwrap_or_default()
}

/// The places in a set, in order.
pub(super) fn members(mut set: Set) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let at = usize::try_from(set.trailing_zeros()).ok().filter(|at| *at < MOST)?;
        set &= set - 1;
        Some(at)
    })
}

fn places<'a>(
    what: &str,
    ids: impl Iterator<Item = &'a String>,
) -> Result<BTreeMap<&'a String, usize>, Refusal> {
    let mut places = BTreeMap::new();
    for (at, id) in ids.enumerate() {
        if at == MOST {
            return Err(Refusal::new(
                format!("there are more than {MOST} of one sort"),
                "divide the complaint in two",
            ));
        }
        if places.insert(id, at).is_some() {
            return Err(Refusal::new(format!("there are two of the {what} `{id}`"), "give each its own id"));
        }
    }
    Ok(places)
}

fn set(what: &str, ids: &[String], places: &BTreeMap<&String, usize>, by: &str) -> Result<Set, Refusal> {
    ids.iter().try_fold(0, |all, id| match places.get(id) {
        Some(at) => Ok(all | bit(*at)),
        None => Err(Refusal::new(
            format!("`{by}` names the {what} `{id}`, which there is not"),
            format!("add the {what}, or take its name out"),
        )),
    })
}

fn closure(direct: Set, closed: &[Set]) -> Set {
    members(direct).filter_map(|at| closed.get(at)).fold(direct, |all, one| all | one)
}

/// Every access step with all that comes before it.
fn closures(direct: &[Set], access: &[Access]) -> Result<Vec<Set>, Refusal> {
    let mut closed = direct.to_vec();
    for _ in access {
        closed = closed.iter().map(|one| closure(*one, &closed)).collect();
    }
    let circle = access.iter().zip(&closed).enumerate().find(|(at, (_, one))| **one & bit(*at) != 0);
    if let Some((_, (step, _))) = circle {
        let help = "take one of the needs out of the circle";
        return Err(Refusal::new(format!("the access step `{}` needs itself", step.id), help));
    }
    Ok(closed)
}

/// Numbers as whole ones of a common denominator, and that denominator.
fn whole(numbers: impl Iterator<Item = Exact> + Clone) -> (Vec<BigInt>, BigInt) {
    let common =
        numbers.clone().fold(BigInt::from(1), |common, one| num_integer::lcm(common, one.denom().clone()));
    (numbers.map(|one| (one * &common).to_integer()).collect(), common)
}
