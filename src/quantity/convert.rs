//! A value given in another unit, so that a shown window never reaches past the real one.
//!
//! The step is the largest power of ten not above one unit of the finest printed digit, taken in
//! the target unit. A minimum rounds up, a maximum down, a single value half to even.

use std::fmt;

use super::exact::{decimal_text, exponent_not_above, power_of_ten, terminating_decimals};
use super::{Exact, Rounding, Shape, Unit, Value, round_to};

/// How many steps finer a window is rounded before it counts as too narrow to be shown.
const FINEST: i32 = 12;

/// A value in another unit.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Converted {
    /// The whole, such as `387..413 kPa`; a tolerance becomes the range of its limits.
    pub text: String,
    /// The lower limit as shown; for a single value the value itself.
    pub min: Option<String>,
    /// The upper limit as shown; for a single value the value itself.
    pub max: Option<String>,
    /// The unit asked for.
    pub unit: Unit,
    /// The lower limit before rounding, in that unit.
    pub exact_min: Option<Exact>,
    /// The upper limit before rounding, in that unit.
    pub exact_max: Option<Exact>,
}

/// Why a value cannot be given in a unit.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum ConvertError {
    /// The unit measures something else, or counts other things.
    OtherKind {
        /// The unit of the value.
        from: Unit,
        /// The unit asked for.
        to: Unit,
    },
    /// The window is so narrow that no rounded number lies in it.
    TooNarrow {
        /// The value, as written.
        value: String,
        /// The unit asked for.
        to: Unit,
    },
}

/// `value` in the unit `to`.
///
/// # Errors
/// [`ConvertError`] where the kinds differ, or no rounded window fits inside the real one.
pub fn convert(value: &Value, to: Unit) -> Result<Converted, ConvertError> {
    let from = value.unit();
    if !from.converts_to(to) {
        return Err(ConvertError::OtherKind { from, to });
    }
    let exactly = |exact: &Exact| to.from_si(&from.to_si(exact));
    let exact_min = value.min().map(|limit| exactly(&limit.exact));
    let exact_max = value.max().map(|limit| exactly(&limit.exact));
    let step = exponent_not_above(&(value.ulp() * from.ratio_to(to)));
    let single = matches!(value.shape(), Shape::Single(_) | Shape::Turn(_));
    let (min, max) = if single {
        let shown = exact_min.as_ref().map(|exact| rounded(exact, step, Rounding::HalfEven));
        (shown.clone(), shown)
    } else {
        window(exact_min.as_ref(), exact_max.as_ref(), step)
            .ok_or_else(|| ConvertError::TooNarrow { value: value.text(), to })?
    };
    let text = text_of(value.shape(), min.as_deref(), max.as_deref(), to);
    Ok(Converted { text, min, max, unit: to, exact_min, exact_max })
}

/// Both limits rounded inward, on a finer step where they would cross.
fn window(min: Option<&Exact>, max: Option<&Exact>, step: i32) -> Option<(Option<String>, Option<String>)> {
    (0..=FINEST).map(|finer| step - finer).find_map(|step| {
        let low = min.map(|exact| round_to(exact, &power_of_ten(step), Rounding::Up));
        let high = max.map(|exact| round_to(exact, &power_of_ten(step), Rounding::Down));
        let crossed = low.as_ref().zip(high.as_ref()).is_some_and(|(low, high)| low > high);
        let written = |exact: Exact| shown(&exact, step);
        (!crossed).then(|| (low.map(written), high.map(written)))
    })
}

fn rounded(exact: &Exact, step: i32, rounding: Rounding) -> String {
    shown(&round_to(exact, &power_of_ten(step), rounding), step)
}

/// A rounded number with the decimals of its step.
fn shown(exact: &Exact, step: i32) -> String {
    let decimals = u32::try_from(-step).unwrap_or_default();
    decimal_text(exact, decimals.max(terminating_decimals(exact).unwrap_or_default()))
}

fn text_of(shape: &Shape, min: Option<&str>, max: Option<&str>, to: Unit) -> String {
    match (shape, min, max) {
        (Shape::Single(_), Some(value), _) => to.after(value),
        (Shape::Turn(_), Some(value), _) => format!("+{}", to.after(value)),
        (_, Some(min), Some(max)) => to.after(&format!("{min}..{max}")),
        (Shape::Over(_), Some(min), None) => format!("over {}", to.after(min)),
        (_, Some(min), None) => format!("min {}", to.after(min)),
        (Shape::Under(_), None, Some(max)) => format!("under {}", to.after(max)),
        (_, None, Some(max)) => format!("max {}", to.after(max)),
        (_, None, None) => String::new(),
    }
}

impl fmt::Display for ConvertError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OtherKind { from, to } if from.kind() == to.kind() => {
                write!(f, "{from} do not convert into {to}")
            }
            Self::OtherKind { from, to } => {
                write!(
                    f,
                    "{from} ({}) does not convert into {to} ({})",
                    from.kind().title(),
                    to.kind().title()
                )
            }
            Self::TooNarrow { value, to } => {
                write!(f, "`{value}` is too narrow to be shown in {to}")
            }
        }
    }
}

impl std::error::Error for ConvertError {}
