//! Whether a reading lies within what the maker states, by how much it does not, and what would tell.
//!
//! A reading is the closed interval of what may be there: the number, and the gauge's limit of error either
//! side. A leaf that goes and one that stops are [goes, stops). Wholly within the limits it is in spec,
//! wholly without them out of spec, else too close to call (the decision rule of ISO 14253-1, with the
//! limits' own ends inclusive but for `under` and `over`). It is judged by the printed form in the reading's
//! own unit where there is one, else by the first, always as printed and never as rounded.
//!
//! Invariant: what cannot be judged is said to be so, with the reason; a state not asked for is not assumed.

mod answer;
mod gauge;
mod settle;
mod span;

pub use answer::{Answer, Beyond, Judged, Side, Verdict};
pub use gauge::{Accuracy, GaugeInHand};

use super::Refusal;
use super::reading::{Reading, alike, reading};
use crate::quantity::{Unit, Value};
use span::{Bounds, Span};

/// What a reading is held against: printed forms of one and the same limits, the maker's own first.
#[derive(Clone, Debug)]
pub enum Limits {
    /// Limits to set to or accept within; never empty.
    Window(Vec<Value>),
    /// The fit of new parts and the end of use; one of them may be empty.
    Fit {
        /// New parts.
        new: Vec<Value>,
        /// End of use.
        wear_limit: Vec<Value>,
    },
}

/// Whether the state that the limits are meant for was there.
#[derive(Clone, Copy, Debug, Default, Eq, PartialEq)]
pub enum State {
    /// It was.
    Met,
    /// It was not.
    Unmet,
    /// Nobody said.
    #[default]
    Unanswered,
}

/// What was measured, as typed.
#[derive(Clone, Debug)]
pub enum Seen {
    /// One number.
    Reading(String),
    /// Leaves of a feeler gauge; one of them may be missing.
    Leaves {
        /// The thickest that goes.
        goes: Option<String>,
        /// The thinnest that does not.
        stops: Option<String>,
    },
}

/// All that a reading is judged by.
#[derive(Clone, Debug)]
pub struct Question {
    /// The limits.
    pub limits: Limits,
    /// The trade's word for a reading below them.
    pub below: String,
    /// The trade's word for a reading above them.
    pub above: String,
    /// True for parts being fitted, false for parts in use.
    pub fitting_new: bool,
    /// The state the limits are meant for, in words such as `engine cold`; empty if any.
    pub needs_state: Vec<String>,
    /// Whether it was there.
    pub state: State,
    /// What it was measured with, if that is said.
    pub gauge: Option<GaugeInHand>,
    /// How true the reading is, in place of the gauge's own limit of error.
    pub accuracy: Option<Accuracy>,
    /// What was measured.
    pub seen: Seen,
}

/// Which of the limits decides.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Against {
    /// The window.
    Window,
    /// The fit of new parts.
    New,
    /// The end of use.
    WearLimit,
}

/// Said of a used part that is better than a new one.
const LESS_WORN: &str = "less worn than a new part: measure again, check the part";

/// Judges one reading.
///
/// # Errors
/// [`Refusal`] where what was typed is no reading, or there are no limits.
pub fn judge(question: &Question) -> Result<Judged, Refusal> {
    let (against, forms) = question.forms()?;
    let first = forms.first().ok_or_else(no_limits)?;
    let seen = seen(&question.seen, first.unit())?;
    let limit = forms.iter().find(|form| form.unit() == seen.unit()).unwrap_or(first);
    let judged = |answer, beyond| Judged { answer, limit: limit.clone(), seen: seen.clone(), beyond };
    if let Some(because) = question.not_judged(&seen, limit.unit()) {
        return Ok(judged(Answer::cannot(against, because), None));
    }
    let allowance = match (&question.accuracy, &question.gauge) {
        (Some(accuracy), _) => Some(accuracy),
        (None, Some(gauge)) => Some(&gauge.error),
        (None, None) => None,
    };
    let span = seen.span(limit.unit(), allowance)?;
    let mut answer = question.weigh(against, &span, &seen, limit);
    if against == Against::WearLimit && answer.verdict == Verdict::InSpec {
        answer.because = question.less_worn(&seen, limit, allowance)?;
    }
    Ok(judged(answer, Bounds::of(limit).beyond_one(&span)))
}

impl Limits {
    /// The unit that the maker states first; none if there are no limits.
    pub fn unit(&self) -> Option<Unit> {
        let first = match self {
            Self::Window(window) => window.first(),
            Self::Fit { new, wear_limit } => new.first().or_else(|| wear_limit.first()),
        };
        first.map(Value::unit)
    }
}

impl Question {
    /// The limits that decide, and which they are.
    fn forms(&self) -> Result<(Against, &[Value]), Refusal> {
        match &self.limits {
            Limits::Window(window) => Ok((Against::Window, window)),
            Limits::Fit { new, wear_limit } if new.is_empty() && wear_limit.is_empty() => Err(no_limits()),
            Limits::Fit { new, wear_limit }
                if wear_limit.is_empty() || (self.fitting_new && !new.is_empty()) =>
            {
                Ok((Against::New, new))
            }
            Limits::Fit { wear_limit, .. } => Ok((Against::WearLimit, wear_limit)),
        }
    }

    /// Why nothing can be judged by this reading; none if it can.
    fn not_judged(&self, seen: &Measured, unit: Unit) -> Option<String> {
        seen.other_sort(unit).or_else(|| self.state_missing()).or_else(|| {
            let gauge = self.gauge.as_ref()?;
            gauge.other_sort(unit).or_else(|| seen.readings().find_map(|one| gauge.off_span(one)))
        })
    }

    fn state_missing(&self) -> Option<String> {
        let words = self.needs_state.join(", ");
        match self.state {
            State::Unmet if words.is_empty() => Some("the limit does not hold in this state".to_owned()),
            State::Unmet => Some(format!("the limit holds with {words}, and it was not so")),
            State::Unanswered if !words.is_empty() => {
                Some(format!("the limit holds with {words}: say whether it was so"))
            }
            State::Met | State::Unanswered => None,
        }
    }

    /// The verdict on what lies in `span`, in the unit of `limit`.
    fn weigh(&self, against: Against, span: &Span, seen: &Measured, limit: &Value) -> Answer {
        let bounds = Bounds::of(limit);
        let verdict = bounds.verdict(span);
        if self.only_wear_limit() && verdict != Verdict::OutOfSpec {
            let because = "the maker states a wear limit, but not the fit of new parts";
            return Answer::cannot(against, because.to_owned());
        }
        let used = against == Against::WearLimit && verdict == Verdict::InSpec;
        let only_new = against == Against::New && !self.fitting_new;
        let point = seen.point().map(|point| Span::at(point.exact_in(limit.unit())));
        Answer {
            verdict,
            as_read: point.map_or(verdict, |point| bounds.verdict(&point)),
            direction: self.direction(bounds.beyond_one(span)),
            by: (verdict == Verdict::OutOfSpec).then(|| bounds.beyond(span, limit.unit())),
            against,
            left: used.then(|| bounds.left(span, limit.unit())),
            settle: (verdict == Verdict::TooClose).then(|| settle::settle(&bounds, seen, limit.unit())),
            because: only_new.then(|| "the maker states no wear limit, only the fit of new parts".to_owned()),
        }
    }

    /// What is said of a used part that lies wholly on the better side of a new one: a slip or another part sooner
    /// than good luck, and a gap that small is dangerous.
    fn less_worn(
        &self,
        seen: &Measured,
        limit: &Value,
        allowance: Option<&Accuracy>,
    ) -> Result<Option<String>, Refusal> {
        let Limits::Fit { new, .. } = &self.limits else { return Ok(None) };
        let Some(fresh) = new.iter().find(|form| form.unit() == seen.unit()).or_else(|| new.first()) else {
            return Ok(None);
        };
        let span = seen.span(fresh.unit(), allowance)?;
        let bounds = Bounds::of(fresh);
        Ok(match (limit.min(), limit.max()) {
            (None, Some(_)) if bounds.wholly_below(&span) && self.below == "tight" => {
                Some(format!("{LESS_WORN}; tighter than new it can seize, so do not run it like that"))
            }
            (None, Some(_)) if bounds.wholly_below(&span) => Some(format!(
                "{LESS_WORN}; a gap or clearance below new can seize, so do not run it like that"
            )),
            (Some(_), None) if bounds.wholly_above(&span) => Some(LESS_WORN.to_owned()),
            _ => None,
        })
    }

    /// The word for the one side that the reading reaches beyond.
    fn direction(&self, beyond: Option<Side>) -> Option<String> {
        beyond.map(|side| match side {
            Side::Below => self.below.clone(),
            Side::Above => self.above.clone(),
        })
    }

    /// True for a part being fitted of which only the end of use is stated.
    fn only_wear_limit(&self) -> bool {
        self.fitting_new && matches!(&self.limits, Limits::Fit { new, .. } if new.is_empty())
    }
}

fn no_limits() -> Refusal {
    Refusal::new(
        "there are no limits to judge against",
        "give a window, or the fit of new parts or a wear limit",
    )
}

/// What was measured, as read.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum Measured {
    /// One number.
    Reading(Reading),
    /// A leaf that goes and one that does not.
    Between(Reading, Reading),
    /// The thickest leaf that was tried goes.
    Goes(Reading),
    /// The thinnest leaf that was tried does not go.
    Stops(Reading),
}

fn seen(seen: &Seen, unit: Unit) -> Result<Measured, Refusal> {
    match seen {
        Seen::Reading(text) => Ok(Measured::Reading(reading(text, unit)?)),
        Seen::Leaves { goes: None, stops: None } => {
            Err(Refusal::new("no reading is typed", "type a leaf that goes, one that stops, or both"))
        }
        Seen::Leaves { goes, stops } => {
            let leaf = |text: &Option<String>| text.as_ref().map(|text| leaf(text, unit)).transpose();
            leaves(leaf(goes)?, leaf(stops)?)
        }
    }
}

fn leaf(text: &str, unit: Unit) -> Result<Reading, Refusal> {
    let leaf = reading(text, unit)?;
    if leaf.value < crate::quantity::Exact::default() {
        return Err(Refusal::new(
            format!("`{}` is less than nothing", leaf.text),
            "type the thickness of the leaf",
        ));
    }
    Ok(leaf)
}

fn leaves(goes: Option<Reading>, stops: Option<Reading>) -> Result<Measured, Refusal> {
    match (goes, stops) {
        (Some(goes), Some(stops)) if stops.exact_in(goes.unit) <= goes.value => Err(Refusal::new(
            format!("`{}` stops, but `{}` goes", stops.text, goes.text),
            "a thinner leaf goes wherever a thicker one does: try both again",
        )),
        (Some(goes), Some(stops)) => Ok(Measured::Between(goes, stops)),
        (Some(goes), None) => Ok(Measured::Goes(goes)),
        (None, Some(stops)) if stops.value == crate::quantity::Exact::default() => {
            Err(Refusal::new(format!("`{}` is no leaf", stops.text), "type the thickness of the leaf"))
        }
        (None, Some(stops)) => Ok(Measured::Stops(stops)),
        (None, None) => Err(no_limits()),
    }
}

impl Measured {
    /// The unit of the first number typed.
    pub fn unit(&self) -> Unit {
        match self {
            Self::Reading(one) | Self::Between(one, _) | Self::Goes(one) | Self::Stops(one) => one.unit,
        }
    }

    /// Every number typed.
    pub fn readings(&self) -> impl Iterator<Item = &Reading> {
        let (first, second) = match self {
            Self::Reading(one) | Self::Goes(one) | Self::Stops(one) => (one, None),
            Self::Between(goes, stops) => (goes, Some(stops)),
        };
        std::iter::once(first).chain(second)
    }

    /// The number that the reading is taken for where no error is allowed for; none if no leaf goes.
    const fn point(&self) -> Option<&Reading> {
        match self {
            Self::Reading(one) | Self::Between(one, _) | Self::Goes(one) => Some(one),
            Self::Stops(_) => None,
        }
    }

    /// Where what was measured may lie.
    fn span(&self, unit: Unit, allowance: Option<&Accuracy>) -> Result<Span, Refusal> {
        let at = |reading: &Reading| reading.exact_in(unit);
        Ok(match self {
            Self::Reading(reading) => match allowance {
                Some(allowance) => Span::around(at(reading), allowance.at(reading, unit)?),
                None => Span::at(at(reading)),
            },
            Self::Between(goes, stops) => Span::between(at(goes), at(stops)),
            Self::Goes(goes) => Span::from(at(goes)),
            Self::Stops(stops) => Span::below(at(stops)),
        })
    }

    /// Why a reading in another sort of unit says nothing.
    fn other_sort(&self, unit: Unit) -> Option<String> {
        let other =
            self.readings().find(|one| !one.unit.converts_to(unit) && alike(one.unit.kind(), unit.kind()))?;
        let (found, wanted) = (other.unit.kind().title(), unit.kind().title());
        Some(format!("{} is {found}, and the limit is {wanted}", other.text))
    }
}
