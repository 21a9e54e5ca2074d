//! What was probably meant where a value is odd by itself, or does not go with one that stands beside it,
//! such as new with its wear limit: there is no second print of it to hold it against.

use super::super::Value;
use super::guess::{Meant, miswritten, other_unit};
use super::odds::Odds;
use super::witness::closeness;
use super::{Side, Slip, Witness, print, times_apart};

/// The likeliest slip that explains a value that cannot be as it stands: what it was meant as `fits`.
///
/// None where nothing simple makes it fit.
#[must_use]
pub fn likely_slip_alone(
    value: &Value,
    witnesses: &[Witness<'_>],
    fits: impl Fn(&Value) -> bool,
) -> Option<Slip> {
    let (_, meant) =
        likeliest(value, witnesses, &|meant| fits(&meant.value).then(|| alone(meant, witnesses)))?;
    Some(slip(Side::Primary, &meant))
}

/// What was probably meant where two values do not go together: at most one slip for each, the likelier
/// first. `fits` says whether they would; the closer they then are, the likelier.
#[must_use]
pub fn likely_slips_beside(
    (first, of_first): (&Value, &[Witness<'_>]),
    (second, of_second): (&Value, &[Witness<'_>]),
    fits: impl Fn(&Value, &Value) -> bool,
) -> Vec<Slip> {
    let as_it_is = |odds: Odds, value: &Value, witnesses: &[Witness<'_>]| heard(odds, value, witnesses);
    let near = |odds: Odds, one: &Value, other: &Value| {
        times_apart(one, other).map_or(odds, |times| odds.times(closeness(&times)))
    };
    let mended_first = likeliest(first, of_first, &|meant| {
        let odds = as_it_is(alone(meant, of_first), second, of_second);
        fits(&meant.value, second).then(|| near(odds, &meant.value, second))
    });
    let mended_second = likeliest(second, of_second, &|meant| {
        let odds = as_it_is(alone(meant, of_second), first, of_first);
        fits(first, &meant.value).then(|| near(odds, first, &meant.value))
    });
    let mut found: Vec<_> = [(Side::Secondary, mended_second), (Side::Primary, mended_first)]
        .into_iter()
        .filter_map(|(side, found)| found.map(|(odds, meant)| (odds, slip(side, &meant))))
        .collect();
    found.sort_by(|(odds, _), (other, _)| other.cmp(odds));
    found.into_iter().map(|(_, slip)| slip).collect()
}

/// The likeliest of all that `value` may have been meant as, by what `weigh` makes of each.
fn likeliest(
    value: &Value,
    witnesses: &[Witness<'_>],
    weigh: &dyn Fn(&Meant) -> Option<Odds>,
) -> Option<(Odds, Meant)> {
    let plausible = |meant: &Meant| witnesses.iter().all(|one| one.allows(&meant.value));
    let all = miswritten(value).into_iter().chain(other_unit(value)).filter(plausible);
    let weighed = all.filter_map(|meant| Some((weigh(&meant)?, meant)));
    weighed.max_by(|(odds, one), (other_odds, other)| {
        odds.cmp(other_odds).then_with(|| other.value.text().cmp(&one.value.text()))
    })
}

fn alone(meant: &Meant, witnesses: &[Witness<'_>]) -> Odds {
    heard(print::weighed_alone(meant.odds, &meant.value), &meant.value, witnesses)
}

fn heard(odds: Odds, value: &Value, witnesses: &[Witness<'_>]) -> Odds {
    witnesses.iter().fold(odds, |odds, one| odds.times(one.weighs(value, value)))
}

fn slip(side: Side, meant: &Meant) -> Slip {
    Slip { side, what: meant.happened.clone(), offer: meant.value.text(), because: None }
}
