//! Quantities in JSON: the number as text, its unit in three codes, its exact value in SI.

use crate::bundle as json;
use crate::model::Printed;
use crate::quantity::{Exact, Limit, Number, Shape, Unit, Value};

/// Printed forms as JSON; none for an empty list.
pub fn range(printed: &[Printed]) -> Option<json::Range> {
    let first = printed.first()?;
    let unit = first.value.unit();
    Some(json::Range {
        min: first.value.min().map(|limit| at_limit(&limit, unit)),
        max: first.value.max().map(|limit| at_limit(&limit, unit)),
        printed: printed.iter().map(|one| form(&one.value)).collect(),
    })
}

/// One printed form as JSON.
pub fn form(value: &Value) -> json::Printed {
    let unit = value.unit();
    let (min, max) = (value.min(), value.max());
    let nominal = match value.shape() {
        Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => {
            Some(number(nominal, unit))
        }
        _ => None,
    };
    json::Printed {
        text: value.text(),
        min_inclusive: min.as_ref().is_none_or(|limit| limit.inclusive),
        max_inclusive: max.as_ref().is_none_or(|limit| limit.inclusive),
        min: min.map(|limit| at_limit(&limit, unit)),
        max: max.map(|limit| at_limit(&limit, unit)),
        nominal,
    }
}

fn at_limit(limit: &Limit, unit: Unit) -> json::Quantity {
    quantity(limit.text.clone(), unit, unit.to_si(&limit.exact))
}

fn number(number: &Number, unit: Unit) -> json::Quantity {
    quantity(number.text().to_owned(), unit, unit.to_si(number.exact()))
}

fn quantity(text: String, unit: Unit, si: Exact) -> json::Quantity {
    json::Quantity {
        text,
        unit: unit.symbol().to_owned(),
        ucum: unit.ucum().map(ToOwned::to_owned),
        unece: unit.unece().map(ToOwned::to_owned),
        si: si.into(),
    }
}
