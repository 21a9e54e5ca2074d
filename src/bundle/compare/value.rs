//! How one printed value differs from another: by its exact limits, then by its units, then by its digits.

use std::collections::BTreeSet;

use super::kind::ChangeKind;
use crate::bundle::{Printed, Quantity, Range};
use crate::quantity::Exact;

/// One end of what a value allows: the number in SI, and whether it is itself allowed.
type End<'a> = Option<(&'a Exact, bool)>;

/// How an end moved.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
enum Move {
    Added,
    Removed,
    Inward,
    Outward,
}

/// The kinds of change between two values as limits: of the maker's own form, and of every other form
/// whose unit both print, for a reading in that unit is judged by it.
pub fn limits(old: &Range, new: &Range) -> BTreeSet<ChangeKind> {
    let mut kinds = BTreeSet::new();
    for (one, other) in pairs(&old.printed, &new.printed) {
        kinds.extend(between(one, other));
    }
    if kinds.is_empty() { spelling(&old.printed, &new.printed).into_iter().collect() } else { kinds }
}

/// The one kind of change between two values of which only being the same counts: `changed` if they are
/// not, else how they are printed otherwise.
pub fn whole(old: &[Printed], new: &[Printed], changed: ChangeKind) -> Option<ChangeKind> {
    let differ = pairs(old, new).iter().any(|(one, other)| !between(one, other).is_empty());
    if differ { Some(changed) } else { spelling(old, new) }
}

/// The kind of change between two rows of values, as stages or points.
pub fn rows(old: &[&[Printed]], new: &[&[Printed]], changed: ChangeKind) -> Option<ChangeKind> {
    if old.len() != new.len() {
        return Some(changed);
    }
    let kinds = old.iter().zip(new).filter_map(|(one, other)| whole(one, other, changed));
    kinds.min()
}

/// The forms that are judged by: the first of each, then those that share a unit.
fn pairs<'a>(old: &'a [Printed], new: &'a [Printed]) -> Vec<(&'a Printed, &'a Printed)> {
    let mut pairs: Vec<_> = old.first().zip(new.first()).into_iter().collect();
    for form in new.iter().skip(1) {
        let same_unit = |one: &&Printed| unit(one).is_some() && unit(one) == unit(form);
        pairs.extend(old.iter().skip(1).find(same_unit).map(|one| (one, form)));
    }
    pairs
}

fn unit(form: &Printed) -> Option<&str> {
    form.min.as_ref().or(form.max.as_ref()).map(|quantity| quantity.unit.as_str())
}

/// The kinds of change between the limits of two printed forms.
fn between(old: &Printed, new: &Printed) -> BTreeSet<ChangeKind> {
    let lower =
        moved(end(old.min.as_ref(), old.min_inclusive), end(new.min.as_ref(), new.min_inclusive), true);
    let upper =
        moved(end(old.max.as_ref(), old.max_inclusive), end(new.max.as_ref(), new.max_inclusive), false);
    let moves: BTreeSet<_> = lower.into_iter().chain(upper).collect();
    let mut kinds = BTreeSet::new();
    if moves.contains(&Move::Added) {
        kinds.insert(ChangeKind::LimitAdded);
    }
    if moves.contains(&Move::Removed) {
        kinds.insert(ChangeKind::LimitRemoved);
    }
    match (moves.contains(&Move::Inward), moves.contains(&Move::Outward)) {
        (true, true) => _ = kinds.insert(ChangeKind::Shifted),
        (true, false) => _ = kinds.insert(ChangeKind::Tightened),
        (false, true) => _ = kinds.insert(ChangeKind::Loosened),
        (false, false) => {}
    }
    let aimed = |form: &Printed| form.nominal.as_ref().map(|one| one.si.exact().clone());
    if kinds.is_empty() && aimed(old).zip(aimed(new)).is_some_and(|(one, other)| one != other) {
        // `0.20 +0.06/-0.04 mm` and `0.21 ± 0.05 mm` have the same limits and are set differently.
        kinds.insert(ChangeKind::Setting);
    }
    kinds
}

fn end(quantity: Option<&Quantity>, inclusive: bool) -> End<'_> {
    quantity.map(|quantity| (quantity.si.exact(), inclusive))
}

/// How an end moved; of a lower end, up is inward.
fn moved(old: End<'_>, new: End<'_>, lower: bool) -> Option<Move> {
    match (old, new) {
        (None, Some(_)) => Some(Move::Added),
        (Some(_), None) => Some(Move::Removed),
        (Some((one, _)), Some((other, _))) if one != other => {
            Some(if (other > one) == lower { Move::Inward } else { Move::Outward })
        }
        (Some((_, true)), Some((_, false))) => Some(Move::Inward),
        (Some((_, false)), Some((_, true))) => Some(Move::Outward),
        _ => None,
    }
}

/// How values with the same limits are printed otherwise.
fn spelling(old: &[Printed], new: &[Printed]) -> Option<ChangeKind> {
    let units = |forms: &[Printed]| -> Vec<String> {
        forms.iter().map(|form| unit(form).unwrap_or_default().to_owned()).collect()
    };
    let texts = |forms: &[Printed]| -> Vec<String> { forms.iter().map(|form| form.text.clone()).collect() };
    if units(old) == units(new) {
        (texts(old) != texts(new)).then_some(ChangeKind::DigitsOnly)
    } else {
        Some(ChangeKind::UnitsOnly)
    }
}

/// Every printed form, as a person reads them.
pub fn shown(forms: &[Printed]) -> String {
    forms.iter().map(|form| form.text.as_str()).collect::<Vec<_>>().join("; ")
}
