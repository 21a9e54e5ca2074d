//! What a printed number means: its digits, its unit, its limits, and how two printed forms agree.
//!
//! Everything here is pure: no files, no clock, no floating point. A value is read from its text
//! once ([`Value::parse`]), keeps its digits for ever, and is compared and converted as an exact
//! rational; rounding happens in one step, when a number is shown.

mod convert;
mod exact;
mod grade;
mod kind;
mod number;
mod slip;
mod unit;
mod value;

pub use convert::{ConvertError, Converted, convert};
pub use exact::{
    Exact, Rounding, decimal_text, exact_text, exponent_not_above, parse_exact, power_of_ten, round_to,
};
pub use grade::{Grade, Part, PartName, disagreement, grade, parts};
pub use kind::Kind;
pub use number::Number;
pub use slip::{
    Beyond, Difference, Side, Slip, Witness, beyond, likely_slip_alone, likely_slips, likely_slips_beside,
    likely_text, readings_differ, times_apart,
};
pub use unit::{Unit, UnitError};
pub use value::{Limit, Shape, Value, ValueError, ValueProblem, mending};
