//! What else is known of a value that two printed forms contradict each other about.

use num_traits::One;

use super::super::exact::power_of_ten;
use super::super::{Exact, Grade, Kind, Limit, Value, grade};

/// Something beside the two forms that can tell which of them is the odd one out.
#[derive(Clone, Debug)]
pub enum Witness<'a> {
    /// The span in which an experienced eye expects the value.
    Plausible(&'a Value),
    /// The same value once more, with words for where it stands, such as `the second reading`.
    Again(&'a Value, &'a str),
    /// Values that should be about as large, with words for them, such as `the rear cylinder`.
    Like(Vec<&'a Value>, &'a str),
}

impl Witness<'_> {
    /// How much a value as it may have been meant gains or loses by it.
    pub(super) fn weighs(&self, primary: &Value, secondary: &Value) -> (u64, u64) {
        match self {
            Self::Plausible(span) => {
                if beyond(primary, span).is_none() {
                    (1, 1)
                } else {
                    (1, 200)
                }
            }
            Self::Again(value, _) => match grade(primary, value) {
                _ if value.text() == primary.text() || value.text() == secondary.text() => (20, 1),
                Some(Grade::Conflict) => (1, 1000),
                _ => (1, 1),
            },
            Self::Like(values, _) => {
                let nearest = values.iter().filter_map(|value| times_apart(primary, value)).min();
                nearest.map_or((1, 1), |times| closeness(&times))
            }
        }
    }

    /// False for what it all but rules out.
    pub(super) fn allows(&self, value: &Value) -> bool {
        !matches!(self, Self::Plausible(span) if beyond(value, span).is_some())
    }

    /// Why it is for `meant` and against `other`, if it is.
    pub(super) fn because(&self, meant: (&Value, &Value), other: (&Value, &Value)) -> Option<String> {
        let ((more, less), (other_more, other_less)) =
            (self.weighs(meant.0, meant.1), self.weighs(other.0, other.1));
        if more * other_less <= 2 * other_more * less {
            return None;
        }
        Some(match self {
            Self::Plausible(span) => format!("{} is plausible, {} is not ({span})", meant.0, other.0),
            Self::Again(value, words) => format!("{words} is {value}"),
            Self::Like(values, words) => {
                let nearest = values.iter().min_by_key(|value| times_apart(meant.0, value))?;
                format!("{words} is {nearest}")
            }
        })
    }
}

/// The further two values are apart that should be about as large, the less likely: a tenth more halves
/// it, as many times as large leaves a tenth.
pub(super) fn closeness(times: &Exact) -> (u64, u64) {
    let tenths = (times - Exact::one()) * power_of_ten(1);
    (1, 1 + u64::try_from(tenths.to_integer()).unwrap_or(u64::MAX / 2))
}

/// A limit of a value that lies outside a span.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Beyond {
    /// Below the least of the span.
    Below,
    /// Above the most of it.
    Above,
}

/// Whether a limit of `value` lies outside `span`, and on which side; `None` also where their kinds differ.
///
/// A limit on one side is held against both ends: `max 0.006 mm` is no end gap of a ring, though all it
/// forbids is large ones.
#[must_use]
pub fn beyond(value: &Value, span: &Value) -> Option<Beyond> {
    if !value.unit().converts_to(span.unit()) {
        return None;
    }
    let limits: Vec<Exact> =
        [value.min(), value.max()].into_iter().flatten().map(|one| value.unit().to_si(&one.exact)).collect();
    let end = |end: Option<Limit>| end.map(|one| span.unit().to_si(&one.exact));
    let (least, most) = (end(span.min()), end(span.max()));
    if limits.iter().any(|one| least.as_ref().is_some_and(|least| one < least)) {
        return Some(Beyond::Below);
    }
    limits.iter().any(|one| most.as_ref().is_some_and(|most| one > most)).then_some(Beyond::Above)
}

/// How many times one value is the other, the larger by the smaller; `None` unless both are above zero,
/// and for temperatures, whose zero says nothing.
#[must_use]
pub fn times_apart(one: &Value, other: &Value) -> Option<Exact> {
    if !one.unit().converts_to(other.unit()) || one.unit().kind() == Kind::Temperature {
        return None;
    }
    let (one, other) = (size(one)?, size(other)?);
    let zero = Exact::from_integer(0.into());
    if one <= zero || other <= zero {
        return None;
    }
    Some(if one > other { one / other } else { other / one })
}

/// The middle of a value, or its one limit, in SI.
fn size(value: &Value) -> Option<Exact> {
    let (min, max) = (value.min().map(|one| one.exact), value.max().map(|one| one.exact));
    let middle = match (min, max) {
        (Some(min), Some(max)) => (min + max) / Exact::from_integer(2.into()),
        (Some(only), None) | (None, Some(only)) => only,
        (None, None) => return None,
    };
    Some(middle * value.unit().factor())
}
