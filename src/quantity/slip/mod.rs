//! What was probably meant where two printed forms contradict each other.
//!
//! Invariant: an offer agrees with the primary, and where two offers would do equally well none is
//! made: a wrong guess is worse than none. Nothing here changes a value; a person decides.

mod miswriting;

use std::collections::BTreeSet;

use num_traits::{Signed, Zero};

use super::exact::power_of_ten;
use super::{Exact, Grade, Number, Unit, Value, convert, grade};
use miswriting::{moved, one_changed, swapped, undoubled, with_one_more};

/// How far a decimal point is thought to slip, in places.
const PLACES: [i32; 6] = [1, -1, 2, -2, 3, -3];

/// A likely slip in a secondary form.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Slip {
    /// What seems to have happened, such as `lbf·ft was meant: 12 N·m is 9 lbf·ft`.
    pub what: String,
    /// The secondary as it was probably meant, such as `9 lbf·ft`.
    pub offer: String,
}

/// What was probably meant by `secondary`, where it contradicts `primary`; `None` where they agree
/// or nothing simple explains it.
///
/// Tried in order of how often it happens: a number not converted, another unit of the same kind, a
/// decimal point moved, digits swapped, a digit doubled or missing, one digit wrong.
#[must_use]
pub fn likely_slip(primary: &Value, secondary: &Value) -> Option<Slip> {
    if grade(primary, secondary)? != Grade::Conflict {
        return None;
    }
    not_converted(primary, secondary)
        .or_else(|| other_unit(primary, secondary))
        .or_else(|| miswritten(primary, secondary))
}

fn not_converted(primary: &Value, secondary: &Value) -> Option<Slip> {
    let same_numbers = grade(primary, &secondary.with_unit(primary.unit()))? == Grade::Strict;
    let offer = convert(primary, secondary.unit()).ok()?.text;
    let agrees = grade(primary, &Value::parse(&offer).ok()?)? != Grade::Conflict;
    (same_numbers && agrees).then(|| slip("the number was not converted", primary, offer))
}

fn other_unit(primary: &Value, secondary: &Value) -> Option<Slip> {
    let (from, to) = (primary.unit(), secondary.unit());
    let others = Unit::of(to.kind()).filter(|unit| unit.factor() != to.factor());
    let candidates = others.filter(|unit| *unit != from);
    let fitting = candidates.filter_map(|unit| {
        let meant = secondary.with_unit(unit);
        let (grade, miss) = (grade(primary, &meant)?, miss(primary, &meant));
        let fits = grade == Grade::Strict || (grade == Grade::Loose && miss < power_of_ten(-1));
        fits.then_some((grade, miss, meant))
    });
    // `min_by` keeps the first of equals: units of one size stand in the table by how common they are.
    let (grade, _, meant) = fitting.min_by(|a, b| (a.0, &a.1).cmp(&(b.0, &b.1)))?;
    let is = if grade == Grade::Strict { "is" } else { "is about" };
    let what = format!("{} was meant: {primary} {is} {meant}", meant.unit());
    Some(Slip { what, offer: meant.text() })
}

/// How far two values are apart, as a part of the primary.
fn miss(primary: &Value, secondary: &Value) -> Exact {
    let in_si = |value: &Value| {
        let limits = value.min().into_iter().chain(value.max());
        limits.map(|limit| value.unit().to_si(&limit.exact)).sum::<Exact>()
    };
    let (wanted, found) = (in_si(primary), in_si(secondary));
    let apart = (&wanted - found).abs();
    if wanted.is_zero() { apart } else { apart / wanted.abs() }
}

/// One way of writing a number wrongly: every number that it could have been.
type Undo = fn(&Number) -> Vec<String>;

fn miswritten(primary: &Value, secondary: &Value) -> Option<Slip> {
    let ways: [(&str, Undo); 4] = [
        ("digits were swapped", swapped),
        ("a digit is doubled", undoubled),
        ("a digit is missing", with_one_more),
        ("one digit differs", one_changed),
    ];
    if let Some(offer) = only_fitting(primary, point_moved(secondary)) {
        return Some(slip("the decimal point moved", primary, offer));
    }
    ways.into_iter().find_map(|(what, undo)| {
        let offer = only_fitting(primary, one_number_undone(secondary, undo))?;
        Some(slip(what, primary, offer))
    })
}

fn slip(what: &str, primary: &Value, offer: String) -> Slip {
    Slip { what: format!("{what}: {primary} is {offer}"), offer }
}

/// The one candidate that agrees strictly, if there is just one; of `18` and `18.0` the first.
fn only_fitting(primary: &Value, candidates: BTreeSet<String>) -> Option<String> {
    let mut fitting = candidates.into_iter().filter_map(|text| {
        let value = Value::parse(&text).ok()?;
        (grade(primary, &value)? == Grade::Strict).then_some((text, value))
    });
    let limits =
        |value: &Value| [value.min(), value.max()].map(|limit| limit.map(|limit| limit.exact));
    let (text, first) = fitting.next()?;
    fitting.all(|(_, other)| limits(&other) == limits(&first)).then_some(text)
}

/// The secondary with the point of one number, or of all, moved.
fn point_moved(secondary: &Value) -> BTreeSet<String> {
    let mut texts = BTreeSet::new();
    for places in PLACES {
        texts.extend(one_number_undone(secondary, |number| moved(number, places)));
        let all: Option<Vec<_>> =
            secondary.numbers().into_iter().map(|number| moved(number, places).pop()).collect();
        texts.extend(all.and_then(|all| rewritten(secondary, |place, _| all.get(place).cloned())));
    }
    texts
}

/// The secondary with one of its numbers replaced, in every way `undo` gives.
fn one_number_undone(secondary: &Value, undo: impl Fn(&Number) -> Vec<String>) -> BTreeSet<String> {
    let mut texts = BTreeSet::new();
    for (place, number) in secondary.numbers().into_iter().enumerate() {
        if number.is_fraction() {
            continue;
        }
        for written in undo(number) {
            texts.extend(rewritten(secondary, |at, old| {
                Some(if at == place { written.clone() } else { old.text().to_owned() })
            }));
        }
    }
    texts
}

/// The canonical text of `value` with each number as `new` gives it.
fn rewritten(value: &Value, new: impl Fn(usize, &Number) -> Option<String>) -> Option<String> {
    let text = value.text();
    let canonical = Value::parse(&text).ok()?;
    let mut out = String::new();
    let mut done = 0;
    for (place, (number, range)) in
        canonical.numbers().into_iter().zip(canonical.number_ranges()).enumerate()
    {
        out.push_str(text.get(done..range.start)?);
        out.push_str(&new(place, number)?);
        done = range.end;
    }
    out.push_str(text.get(done..)?);
    Some(out)
}
