//! Where a measured thing may lie, and where it is allowed to lie: intervals with open or closed ends.

use super::answer::{Beyond, Side, Verdict};
use crate::quantity::{Exact, Limit, Unit, Value};

/// Where a measured thing may lie, in the unit of the limits; the lower end always belongs to it.
#[derive(Clone, Debug)]
pub(super) struct Span {
    low: Exact,
    /// The upper end, and whether it belongs to it; none if there is no end.
    high: Option<(Exact, bool)>,
}

impl Span {
    pub(super) fn at(value: Exact) -> Self {
        Self { high: Some((value.clone(), true)), low: value }
    }

    pub(super) fn around(value: Exact, error: Exact) -> Self {
        Self { low: &value - &error, high: Some((value + error, true)) }
    }

    pub(super) const fn between(goes: Exact, stops: Exact) -> Self {
        Self { low: goes, high: Some((stops, false)) }
    }

    pub(super) const fn from(goes: Exact) -> Self {
        Self { low: goes, high: None }
    }

    pub(super) fn below(stops: Exact) -> Self {
        Self { low: Exact::default(), high: Some((stops, false)) }
    }
}

/// Where it is allowed to lie.
pub(super) struct Bounds {
    pub(super) min: Option<Limit>,
    pub(super) max: Option<Limit>,
}

impl Bounds {
    pub(super) fn of(limits: &Value) -> Self {
        Self { min: limits.min(), max: limits.max() }
    }

    pub(super) fn verdict(&self, span: &Span) -> Verdict {
        if self.wholly_below(span) || self.wholly_above(span) {
            Verdict::OutOfSpec
        } else if self.crosses_min(span) || self.crosses_max(span) {
            Verdict::TooClose
        } else {
            Verdict::InSpec
        }
    }

    pub(super) fn wholly_below(&self, span: &Span) -> bool {
        self.min.as_ref().zip(span.high.as_ref()).is_some_and(|(min, (high, belongs))| {
            *high < min.exact || (*high == min.exact && !(*belongs && min.inclusive))
        })
    }

    pub(super) fn wholly_above(&self, span: &Span) -> bool {
        let above = |max: &Limit| span.low > max.exact || (span.low == max.exact && !max.inclusive);
        self.max.as_ref().is_some_and(above)
    }

    /// Whether some of the span lies below the lower limit.
    pub(super) fn crosses_min(&self, span: &Span) -> bool {
        let below = |min: &Limit| span.low < min.exact || (span.low == min.exact && !min.inclusive);
        self.min.as_ref().is_some_and(below)
    }

    /// Whether some of the span lies above the upper limit.
    pub(super) fn crosses_max(&self, span: &Span) -> bool {
        self.max.as_ref().is_some_and(|max| match &span.high {
            None => true,
            Some((high, belongs)) => *high > max.exact || (*high == max.exact && *belongs && !max.inclusive),
        })
    }

    /// The one side that some of the span lies beyond; none if that is neither, or both.
    pub(super) fn beyond_one(&self, span: &Span) -> Option<Side> {
        match (self.crosses_min(span), self.crosses_max(span)) {
            (true, false) => Some(Side::Below),
            (false, true) => Some(Side::Above),
            _ => None,
        }
    }

    /// How far a span that is wholly outside lies beyond the limit.
    pub(super) fn beyond(&self, span: &Span, unit: Unit) -> Beyond {
        match (&self.min, &self.max) {
            (_, Some(max)) if self.wholly_above(span) => Self::over(span, &max.exact, unit),
            (Some(min), _) => Self::under(span, &min.exact, unit),
            (None, _) => Beyond { min: None, max: None, unit },
        }
    }

    /// How far a span that is wholly inside lies from the nearer limit.
    pub(super) fn left(&self, span: &Span, unit: Unit) -> Beyond {
        let below = self.max.as_ref().map(|max| Self::under(span, &max.exact, unit));
        let above = self.min.as_ref().map(|min| Self::over(span, &min.exact, unit));
        match (below, above) {
            (Some(below), Some(above)) => Beyond {
                min: below.min.into_iter().chain(above.min).min(),
                max: below.max.into_iter().chain(above.max).min(),
                unit,
            },
            (Some(one), None) | (None, Some(one)) => one,
            (None, None) => Beyond { min: None, max: None, unit },
        }
    }

    /// How far the span lies above a number.
    fn over(span: &Span, from: &Exact, unit: Unit) -> Beyond {
        Beyond { min: Some(&span.low - from), max: span.high.as_ref().map(|(high, _)| high - from), unit }
    }

    /// How far the span lies below a number.
    fn under(span: &Span, from: &Exact, unit: Unit) -> Beyond {
        Beyond { min: span.high.as_ref().map(|(high, _)| from - high), max: Some(from - &span.low), unit }
    }
}
