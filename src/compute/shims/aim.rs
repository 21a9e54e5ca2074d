//! The lash that a valve is to have: limits and target, in metres.
//!
//! Invariant: the target lies in the window.

use num_traits::Signed;

use super::job::{JobError, JobProblem, Place, length, wrong};
use crate::quantity::{Exact, Shape, Value};

/// A window and the lash aimed at in it; each limit with whether it is itself allowed.
#[derive(Clone, Debug)]
pub(super) struct Aim {
    low: Option<(Exact, bool)>,
    high: Option<(Exact, bool)>,
    pub(super) target: Exact,
}

impl Aim {
    /// Reads a window and its target; without one the middle of the window is aimed at.
    pub(super) fn of(
        window: &Value,
        target: Option<&Value>,
        at: Place,
        target_at: Place,
    ) -> Result<Self, JobError> {
        length(window, at, "the window")?;
        let si = |value: &Exact| window.unit().to_si(value);
        let low = window.min().map(|limit| (si(&limit.exact), limit.inclusive));
        let high = window.max().map(|limit| (si(&limit.exact), limit.inclusive));
        let aimed = match (target, &low, &high) {
            (Some(target), ..) => stated(target, target_at)?,
            (None, Some((low, _)), Some((high, _))) => (low + high) / Exact::from_integer(2.into()),
            _ => {
                let message = format!("`{window}` has one end only, so it has no middle to aim at");
                let help = "say what to aim at with `target = \"…\"`";
                return Err(wrong(at, JobProblem::NoTarget, message, help));
            }
        };
        let aim = Self { low, high, target: aimed };
        if aim.allows(&aim.target) {
            return Ok(aim);
        }
        let (at, text) = target.map_or((at, String::new()), |target| (target_at, target.text()));
        let message = format!("the target `{text}` does not lie in the window `{window}`");
        Err(wrong(at, JobProblem::Outside, message, "aim at a lash that the window allows"))
    }

    /// Whether a lash lies in the window. A gap is never negative, whatever a one-sided window allows.
    pub(super) fn allows(&self, lash: &Exact) -> bool {
        let above = self.low.as_ref().is_none_or(|(low, itself)| lash > low || (*itself && lash == low));
        let below = self.high.as_ref().is_none_or(|(high, itself)| lash < high || (*itself && lash == high));
        above && below && !lash.is_negative()
    }

    /// How wide the window is, where it has two ends.
    pub(super) fn width(&self) -> Option<Exact> {
        Some(&self.high.as_ref()?.0 - &self.low.as_ref()?.0)
    }
}

/// A target as stated, in metres.
fn stated(target: &Value, at: Place) -> Result<Exact, JobError> {
    length(target, at, "the target")?;
    match target.shape() {
        Shape::Single(number) => Ok(target.unit().to_si(number.exact())),
        _ => {
            let message = format!("the target `{target}` is not one lash");
            Err(wrong(at, JobProblem::NoSuchValue, message, "write one value"))
        }
    }
}
