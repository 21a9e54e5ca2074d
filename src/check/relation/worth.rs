//! What a name of a formula is worth for one statement or one layout: its extent in SI, and how it is shown.

use super::bind::{Face, Fact, Part, Wanted};
use super::extent::{End, Extent};
use crate::model::{Form, Layout, Printed, Statement};
use crate::quantity::{Exact, Kind, Limit, Shape, Unit, Value, exact_text};
use crate::source::Span;

/// What a name is worth.
#[derive(Clone, Debug)]
pub struct Worth {
    /// What it may be, in the SI unit of its kind.
    pub extent: Extent,
    /// As it is shown in the arithmetic.
    pub shown: String,
    /// The unit it is printed in.
    pub unit: Option<Unit>,
    /// How many decimals it is printed with.
    pub decimals: u32,
    /// Where it is printed; a number of cylinders has no place of its own.
    pub span: Option<Span>,
    /// True for the value of a statement, false for a fact of the layout.
    pub stated: bool,
}

/// The wanted value of a statement; none if it has no such value.
pub fn of_statement(statement: &Statement, wanted: &Wanted) -> Option<Worth> {
    let printed = printed(&statement.form, wanted.face)?.first()?;
    let worth = of_printed(printed, wanted.part)?;
    (wanted.kind == Some(printed.value.unit().kind())).then_some(Worth { stated: true, ..worth })
}

/// True if a statement has a value of this face.
pub fn has(form: &Form, face: Face) -> bool {
    printed(form, face).is_some_and(|printed| !printed.is_empty())
}

/// A fact of a layout.
pub fn of_layout(layout: &Layout, fact: Fact) -> Option<Worth> {
    let printed = match fact {
        Fact::Bore => layout.bore.as_ref(),
        Fact::Stroke => layout.stroke.as_ref(),
        Fact::Displacement => layout.displacement.as_ref(),
        Fact::Cylinders => {
            let extent = Extent::exactly(Exact::from_integer(layout.cylinders.into()));
            return Some(Worth {
                extent,
                shown: layout.cylinders.to_string(),
                unit: None,
                decimals: 0,
                span: None,
                stated: false,
            });
        }
    }?;
    of_printed(printed, Part::Whole).filter(|_| fact.kind() == Some(printed.value.unit().kind()))
}

/// The printed forms of a face of a statement.
fn printed(form: &Form, face: Face) -> Option<&[Printed]> {
    match (face, form) {
        (Face::Value, Form::Window { printed, .. } | Form::Setting(printed)) => Some(printed),
        (Face::Value, Form::Fit { new, .. }) => Some(new),
        (Face::WearLimit, Form::Fit { wear_limit, .. }) => Some(wear_limit),
        (Face::SetTo, Form::Window { set_to, .. }) => Some(set_to),
        _ => None,
    }
}

fn of_printed(printed: &Printed, part: Part) -> Option<Worth> {
    let value = &printed.value;
    let unit = value.unit();
    let whole = extent(value)?;
    let (extent, shown) = match part {
        Part::Whole => (whole, value.text()),
        Part::Least => (Extent::point(whole.low?), unit.after(&value.min()?.text)),
        Part::Most => (Extent::point(whole.high?), unit.after(&value.max()?.text)),
        Part::Middle => {
            let (low, high) = whole.ends()?;
            let half = |one: &Exact, other: &Exact| (one + other) / Exact::from_integer(2.into());
            let middle = End {
                least: half(&low.least, &high.least),
                nominal: half(&low.nominal, &high.nominal),
                most: half(&low.most, &high.most),
            };
            let shown = unit.after(&exact_text(&unit.from_si(&middle.nominal)));
            (Extent::point(middle), shown)
        }
    };
    Some(Worth {
        extent,
        shown,
        unit: Some(unit),
        decimals: value.decimals(),
        span: Some(printed.span),
        stated: false,
    })
}

/// What a printed value may be, in SI; none for a turn, which is no value but a step.
pub fn extent(value: &Value) -> Option<Extent> {
    if matches!(value.shape(), Shape::Turn(_)) {
        return None;
    }
    let numbers = value.numbers();
    let end = |limit: Option<Limit>, place: usize| {
        let exact = limit?.exact;
        let half = match value.shape() {
            // A count is whole: there is nothing behind its last digit.
            _ if value.unit().kind() == Kind::Count => Exact::default(),
            Shape::Range { .. } => numbers.get(place)?.ulp() / Exact::from_integer(2.into()),
            _ => value.ulp() / Exact::from_integer(2.into()),
        };
        let si = |amount: Exact| value.unit().to_si(&amount);
        Some(End { least: si(&exact - &half), most: si(&exact + half), nominal: si(exact) })
    };
    Some(Extent { low: end(value.min(), 0), high: end(value.max(), 1) })
}
