//! Quantities in JSON: the number as text, its unit in three codes, its exact value in SI.

use schemars::JsonSchema;
use serde::Serialize;

use crate::model::Printed;
use crate::quantity::{Limit, Number, Shape, Unit, Value, exact_text};

/// One number with its unit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct QuantityJson {
    /// The number as printed, or as it follows exactly from what is printed.
    pub text: String,
    /// The unit as written in this bundle.
    pub unit: &'static str,
    /// The unit in UCUM, where UCUM has it.
    pub ucum: Option<&'static str>,
    /// The unit in UNECE Recommendation 20, where it has it.
    pub unece: Option<&'static str>,
    /// The exact value in the unit of `bundle.json`'s `si` table for its kind: a decimal, or `n/d`.
    pub si: String,
}

/// One printed form.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PrintedJson {
    /// The whole form in canonical spelling, digits as printed.
    pub text: String,
    /// Lower limit, or the value itself; null if there is none.
    pub min: Option<QuantityJson>,
    /// Upper limit, or the value itself; null if there is none.
    pub max: Option<QuantityJson>,
    /// The middle of a tolerance as printed; null for any other form.
    pub nominal: Option<QuantityJson>,
    /// False where the lower limit itself is outside.
    pub min_inclusive: bool,
    /// False where the upper limit itself is outside.
    pub max_inclusive: bool,
}

/// A limit of the maker's own form, and every printed form.
#[derive(Debug, Serialize, JsonSchema)]
pub struct RangeJson {
    /// Lower limit in the maker's own unit; null if there is none.
    pub min: Option<QuantityJson>,
    /// Upper limit in the maker's own unit; null if there is none.
    pub max: Option<QuantityJson>,
    /// Every form the manual prints, the maker's own first.
    pub printed: Vec<PrintedJson>,
}

/// Printed forms as JSON; none for an empty list.
pub fn range(printed: &[Printed]) -> Option<RangeJson> {
    let first = printed.first()?;
    let unit = first.value.unit();
    Some(RangeJson {
        min: first.value.min().map(|limit| at_limit(&limit, unit)),
        max: first.value.max().map(|limit| at_limit(&limit, unit)),
        printed: printed.iter().map(|one| form(&one.value)).collect(),
    })
}

/// One printed form as JSON.
pub fn form(value: &Value) -> PrintedJson {
    let unit = value.unit();
    let (min, max) = (value.min(), value.max());
    let nominal = match value.shape() {
        Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => {
            Some(number(nominal, unit))
        }
        _ => None,
    };
    PrintedJson {
        text: value.text(),
        min_inclusive: min.as_ref().is_none_or(|limit| limit.inclusive),
        max_inclusive: max.as_ref().is_none_or(|limit| limit.inclusive),
        min: min.map(|limit| at_limit(&limit, unit)),
        max: max.map(|limit| at_limit(&limit, unit)),
        nominal,
    }
}

fn at_limit(limit: &Limit, unit: Unit) -> QuantityJson {
    quantity(limit.text.clone(), unit, exact_text(&unit.to_si(&limit.exact)))
}

fn number(number: &Number, unit: Unit) -> QuantityJson {
    quantity(number.text().to_owned(), unit, exact_text(&unit.to_si(number.exact())))
}

const fn quantity(text: String, unit: Unit, si: String) -> QuantityJson {
    QuantityJson { text, unit: unit.symbol(), ucum: unit.ucum(), unece: unit.unece(), si }
}
