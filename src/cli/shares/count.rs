//! Counts which causes past jobs had, complaint by complaint: a cause counts where it was found, and where the repair
//! was proved to have cured the complaint; once a job, however often its record was saved.

use std::collections::BTreeMap;

use crate::bundle::{Bundle, Complaint};
use crate::load::job_record::{CheckedComplaint, JobRecord};
use crate::quantity::{Exact, exact_text};

/// What was counted for one complaint.
#[derive(Debug)]
pub struct Counted {
    /// Its id: the one it has in the guide now, where it moved.
    pub id: String,
    /// Its title.
    pub title: String,
    /// False if a guide was given that has no such complaint.
    pub known: bool,
    /// Jobs whose cause was found and proved.
    pub proved: usize,
    /// Jobs whose cause was found, and not proved.
    pub found_only: usize,
    /// Jobs that were checked for it, and found none.
    pub not_found: usize,
    /// Its causes, in the order of the guide, then by their count.
    pub causes: Vec<CountedCause>,
}

/// One cause.
#[derive(Debug)]
pub struct CountedCause {
    /// Its id in the complaint.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Jobs that had it, proved.
    pub jobs: usize,
    /// Its share as the guide has it; none where there is no guide, or where the guide has no such cause.
    pub written: Option<String>,
}

impl CountedCause {
    /// Its part of all proved jobs of its complaint, exact.
    pub fn share(&self, all: usize) -> Option<String> {
        let whole = |count: usize| num_bigint::BigInt::from(count);
        (all > 0).then(|| exact_text(&Exact::new(whole(self.jobs), whole(all))))
    }
}

/// What one record of a job says of one complaint, in the order in which it outweighs another of the same job: that of
/// the closed job was saved last; then the last that was proved stands, and what was found over nothing.
#[derive(Clone, Debug, Eq, Ord, PartialEq, PartialOrd)]
struct Said {
    closed: Option<String>,
    /// When the repair was proved.
    confirmed: Option<String>,
    found: Option<(String, String)>,
    title: String,
}

impl Said {
    fn of(job: &JobRecord, checked: &CheckedComplaint) -> Self {
        let found = checked.found.as_ref().map(|found| (found.cause.clone(), found.title.clone()));
        let confirmed = found.as_ref().and(checked.confirmed.clone());
        Self { closed: job.closed.clone(), confirmed, found, title: checked.title.clone() }
    }
}

/// Counts the causes of some records; `guide` has the complaints as they are written now.
pub fn count(records: &[JobRecord], guide: Option<&Bundle>) -> Vec<Counted> {
    let mut jobs: BTreeMap<(String, &str, &str), Said> = BTreeMap::new();
    for job in records {
        for (id, checked) in &job.complaints {
            let (said, id) = (Said::of(job, checked), now(id, guide));
            let known = jobs.entry((id, &job.base.title, &job.id)).or_insert_with(|| said.clone());
            if *known < said {
                *known = said;
            }
        }
    }
    let mut complaints: BTreeMap<String, Vec<Said>> = BTreeMap::new();
    for ((id, ..), said) in jobs {
        complaints.entry(id).or_default().push(said);
    }
    complaints.into_iter().map(|(id, said)| counted(id, &said, guide)).collect()
}

/// The id that a complaint has now.
fn now(id: &str, guide: Option<&Bundle>) -> String {
    let now = guide.map(|guide| guide.ids.now(id)).unwrap_or_default();
    match now.as_slice() {
        [one] => one.clone(),
        _ => id.to_owned(),
    }
}

fn counted(id: String, said: &[Said], guide: Option<&Bundle>) -> Counted {
    let written = guide.and_then(|guide| guide.complaints.complaints.iter().find(|one| one.id == id));
    let proved = said.iter().filter(|one| one.confirmed.is_some());
    let found = said.iter().filter(|one| one.found.is_some()).count();
    let causes = causes(proved.clone().filter_map(|one| one.found.as_ref()), written);
    let proved = proved.count();
    let last_title = said.iter().map(|one| one.title.clone()).next_back().unwrap_or_default();
    Counted {
        title: written.map_or(last_title, |one| one.title.clone()),
        known: guide.is_none() || written.is_some(),
        id,
        proved,
        found_only: found.saturating_sub(proved),
        not_found: said.len().saturating_sub(found),
        causes,
    }
}

/// The causes of a complaint: those of the guide, none left out, then those that it does not have.
fn causes<'a>(
    found: impl Iterator<Item = &'a (String, String)>,
    written: Option<&Complaint>,
) -> Vec<CountedCause> {
    let of_guide = written.map(|one| one.causes.as_slice()).unwrap_or_default().iter();
    let mut all: Vec<CountedCause> = of_guide
        .map(|cause| CountedCause {
            id: cause.id.clone(),
            title: cause.title.clone(),
            jobs: 0,
            written: Some(cause.share.as_str().to_owned()),
        })
        .collect();
    let known = all.len();
    for (id, title) in found {
        let at = all.iter().position(|one| one.id == *id).unwrap_or_else(|| {
            all.push(CountedCause { id: id.clone(), title: title.clone(), jobs: 0, written: None });
            all.len().saturating_sub(1)
        });
        if let Some(cause) = all.get_mut(at) {
            cause.jobs = cause.jobs.saturating_add(1);
        }
    }
    if let Some(others) = all.get_mut(known..) {
        others.sort_by(|one, other| other.jobs.cmp(&one.jobs).then_with(|| one.id.cmp(&other.id)));
    }
    all
}
