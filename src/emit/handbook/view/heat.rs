//! What heat costs between the checks of a complaint, in words for its sheet.

use crate::compute::order::{COOLING, Change, Heat, Step, Warmth, heat};
use crate::model::{Check, Complaint};
use num_traits::Zero as _;

use super::text::bind;

/// Heat along the printed order, by check.
pub struct HeatWords<'a> {
    /// Checks that can show something, in their order, with what comes before each.
    along: Vec<(&'a Check, Heat)>,
}

impl<'a> HeatWords<'a> {
    /// Of checks in their order; one with nothing left to show is not done, and changes no heat.
    pub fn of(complaint: &'a Complaint, steps: &[Step]) -> Self {
        let useful = steps.iter().filter(|step| !step.finds.is_zero());
        let checks: Vec<&Check> =
            useful.filter_map(|step| complaint.checks.iter().find(|one| one.id == step.check)).collect();
        let ahead: Vec<Warmth> = checks.iter().map(|one| Warmth::of(one)).collect();
        Self { along: checks.into_iter().zip(heat(&[], &ahead)).collect() }
    }

    /// Minutes of warming and cooling along the whole order; none if there are none.
    pub fn minutes(&self) -> Option<u32> {
        let all: u32 = self.along.iter().filter_map(|(_, heat)| heat.first).map(Change::minutes).sum();
        (all > 0).then_some(all)
    }

    /// What the engine must first become.
    pub fn first(&self, check: &Check) -> Option<String> {
        let change = self.heat(check)?.first?;
        Some(format!("{}, {} min more", change.words(), change.minutes()))
    }

    /// The checks whose cold engine this one takes away, and how long it then cools.
    pub fn voids(&self, check: &Check) -> Option<(String, u32)> {
        let later = self.heat(check)?.voids.iter().filter_map(|at| self.along.get(*at));
        let titles: Vec<String> = later.map(|(check, _)| bind(&check.title)).collect();
        (!titles.is_empty()).then(|| (titles.join("; "), COOLING))
    }

    fn heat(&self, check: &Check) -> Option<&Heat> {
        self.along.iter().find(|(one, _)| one.id == check.id).map(|(_, heat)| heat)
    }
}
