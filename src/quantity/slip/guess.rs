//! Every simple way in which one of two forms may have gone wrong, and what it then was before.

use num_traits::{Signed, Zero};

use super::super::exact::{decimal_text, power_of_ten};
use super::super::{Exact, Grade, Number, Rounding, Shape, Unit, Value, convert, grade, round_to};
use super::miswriting::{PLACES, moved, undone};
use super::odds::Odds;
use super::{Side, Slip};

/// One explanation: what happened, and both forms as they then were meant.
#[derive(Clone, Debug)]
pub(super) struct Guess {
    pub(super) side: Side,
    pub(super) happened: String,
    pub(super) primary: Value,
    pub(super) secondary: Value,
    pub(super) odds: Odds,
    grade: Grade,
}

impl Guess {
    /// The form that is mended.
    pub(super) const fn offer(&self) -> &Value {
        match self.side {
            Side::Primary => &self.primary,
            Side::Secondary => &self.secondary,
        }
    }

    pub(super) fn slip(&self, because: Option<String>) -> Slip {
        let as_shown = || {
            convert(&self.primary, self.secondary.unit())
                .is_ok_and(|shown| shown.text == self.secondary.text())
        };
        let is = if self.grade == Grade::Strict || as_shown() { "is" } else { "is about" };
        let what = format!("{}: {} {is} {}", self.happened, self.primary, self.secondary);
        Slip { side: self.side, what, offer: self.offer().text(), because }
    }
}

/// A value as it may have been meant.
#[derive(Clone, Debug)]
pub(super) struct Meant {
    pub(super) happened: String,
    pub(super) value: Value,
    pub(super) odds: Odds,
}

impl Meant {
    fn new(happened: impl Into<String>, value: Value, odds: Odds) -> Self {
        Self { happened: happened.into(), value, odds }
    }
}

/// Every explanation that has the form on `side` wrong and the other right, and makes them agree.
pub(super) fn guesses(side: Side, primary: &Value, secondary: &Value) -> Vec<Guess> {
    let (wrong, right) = match side {
        Side::Primary => (primary, secondary),
        Side::Secondary => (secondary, primary),
    };
    let mut all = miswritten(wrong);
    all.extend(other_unit(wrong).into_iter().filter(|meant| meant.value.unit() != right.unit()));
    all.extend(not_converted(side, wrong, right));
    all.extend(other_shape(wrong, right));
    all.into_iter().filter_map(|meant| agreeing(side, meant, right)).collect()
}

/// The guess, if it makes both forms agree; one that agrees only roughly is far less likely.
fn agreeing(side: Side, meant: Meant, right: &Value) -> Option<Guess> {
    let Meant { happened, value, odds } = meant;
    let (primary, secondary) = match side {
        Side::Primary => (value, right.clone()),
        Side::Secondary => (right.clone(), value),
    };
    let grade = grade(&primary, &secondary)?;
    let odds = match grade {
        Grade::Strict => odds,
        Grade::Loose if miss(&primary, &secondary) < power_of_ten(-1) => odds.times((1, 100)),
        _ => return None,
    };
    Some(Guess { side, happened, primary, secondary, odds, grade })
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

/// One number miswritten, or the point of all of them moved.
pub(super) fn miswritten(wrong: &Value) -> Vec<Meant> {
    let mut all = Vec::new();
    let numbers = wrong.numbers();
    for (place, number) in numbers.iter().enumerate() {
        for one in undone(number) {
            let shape =
                Number::parse(&one.meant).ok().map(|number| wrong.shape().with_number(place, &number));
            let value = shape.and_then(|shape| wrong.with_shape(shape));
            all.extend(value.map(|value| Meant::new(one.happened, value, one.odds)));
        }
    }
    if numbers.len() > 1 {
        let points = PLACES.into_iter().filter_map(|(places, share)| {
            let value = all_moved(wrong, places)?;
            Some(Meant::new("the decimal point moved", value, Odds::of(share, 500)))
        });
        all.extend(points);
    }
    all.retain(|meant| !is_empty_window(&meant.value));
    all
}

/// No page prints a window whose ends are one.
fn is_empty_window(value: &Value) -> bool {
    match value.shape() {
        Shape::Range { min, max } => min.exact() == max.exact(),
        Shape::Tolerance { plus, minus, .. } => plus.exact().is_zero() && minus.exact().is_zero(),
        _ => false,
    }
}

fn all_moved(wrong: &Value, places: i32) -> Option<Value> {
    let mut shape = wrong.shape().clone();
    for (place, number) in wrong.numbers().into_iter().enumerate() {
        let text = moved(number, places).pop().filter(|_| !number.is_fraction())?;
        shape = shape.with_number(place, &Number::parse(&text).ok()?);
    }
    wrong.with_shape(shape)
}

/// Another unit of the same kind; the commoner are likelier.
pub(super) fn other_unit(wrong: &Value) -> Vec<Meant> {
    let units = Unit::of(wrong.unit().kind()).enumerate();
    let others = units.filter(|(_, unit)| unit.factor() != wrong.unit().factor());
    others
        .map(|(rank, unit)| {
            let odds = Odds::of(7, 5 * (rank + 1));
            Meant::new(format!("{unit} was meant"), wrong.with_unit(unit), odds)
        })
        .collect()
}

/// The number of the other form, with the unit of this one.
fn not_converted(side: Side, wrong: &Value, right: &Value) -> Option<Meant> {
    let same = grade(right, &wrong.with_unit(right.unit()))? == Grade::Strict;
    let offer = convert(right, wrong.unit()).ok()?.text;
    let value = Value::parse(&offer).ok().filter(|_| same)?;
    // It is the secondary that is worked out from the other; the primary is no rough conversion.
    let ways = match side {
        Side::Secondary => 2,
        Side::Primary if grade(&value, right)? == Grade::Strict => 6,
        Side::Primary => return None,
    };
    Some(Meant::new("the number was not converted", value, Odds::of(7, ways)))
}

/// A tolerance or a limit lost or gained, a minimum for a maximum.
pub(super) fn other_shape(wrong: &Value, right: &Value) -> Vec<Meant> {
    let shapes: Vec<(&str, Shape)> = match (wrong.shape().lone(), right.shape()) {
        (Some(number), Shape::Tolerance { plus, minus, .. }) => {
            let gap = |gap: &Number| converted(gap.exact(), wrong, right, true);
            let pair = gap(plus).zip(gap(minus));
            pair.map(|(plus, minus)| {
                ("the tolerance was lost", Shape::Tolerance { nominal: number.clone(), plus, minus })
            })
            .into_iter()
            .collect()
        }
        (Some(number), Shape::Range { min, max }) => {
            let end = |end: &Number| converted(end.exact(), wrong, right, false);
            let low = end(min).map(|min| ("the minimum was lost", Shape::Range { min, max: number.clone() }));
            let high =
                end(max).map(|max| ("the maximum was lost", Shape::Range { min: number.clone(), max }));
            low.into_iter().chain(high).collect()
        }
        (Some(number), other) => {
            other.lone_with(number).map(|shape| (lone_words(other), shape)).into_iter().collect()
        }
        (None, other) => {
            let ends: Vec<&Number> = match wrong.shape() {
                Shape::Range { min, max } => vec![min, max],
                Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => vec![nominal],
                _ => Vec::new(),
            };
            ends.into_iter()
                .filter_map(|number| Some((lone_words(other), other.lone_with(number)?)))
                .collect()
        }
    };
    let meant = shapes.into_iter().filter(|(_, shape)| shape != wrong.shape());
    meant
        .filter_map(|(happened, shape)| Some(Meant::new(happened, wrong.with_shape(shape)?, Odds::of(5, 4))))
        .collect()
}

/// What a value with one number was meant as.
const fn lone_words(shape: &Shape) -> &'static str {
    match shape {
        Shape::Min(_) => "`min` was meant",
        Shape::Max(_) => "`max` was meant",
        Shape::Over(_) => "`over` was meant",
        Shape::Under(_) => "`under` was meant",
        _ => "a single value was meant",
    }
}

/// A number of the right form in the unit of the wrong one, to as many decimals as that prints.
fn converted(number: &Exact, wrong: &Value, right: &Value, difference: bool) -> Option<Number> {
    let (from, to) = (right.unit(), wrong.unit());
    let exact = if difference { number * from.ratio_to(to) } else { to.from_si(&from.to_si(number)) };
    let decimals = wrong.decimals();
    let step = power_of_ten(-i32::try_from(decimals).ok()?);
    Number::parse(&decimal_text(&round_to(&exact, &step, Rounding::HalfEven), decimals)).ok()
}
