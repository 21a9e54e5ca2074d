//! The functions that a formula can call.

use num_traits::{One, Zero};

use super::parse::Node;
use super::{Bound, Names, NoValue, truth, worth};
use crate::compute::real::{self, Real};
use crate::quantity::Exact;

pub(super) fn call(name: &str, arguments: &[Node], names: &Names) -> Result<Real, NoValue> {
    match (name, arguments) {
        ("if", [condition, then, other]) => {
            let holds = !worth(condition, names)?.value.is_zero();
            worth(if holds { then } else { other }, names)
        }
        ("given", [Node::Name(name)]) => Ok(truth(!matches!(names.get(name), None | Some(Bound::Nothing)))),
        ("sum" | "mean" | "largest" | "smallest" | "count", [Node::Name(list)]) => of_list(name, list, names),
        ("straight" | "thermistor" | "back_straight" | "back_thermistor", [Node::Name(points), at]) => {
            let at = worth(at, names)?;
            let Some(Bound::Points(points)) = names.get(points) else {
                return Err(NoValue::Defect(format!("`{points}` holds no points")));
            };
            let found = along(name, points, &at.value)?;
            Ok(Real { rough: found.rough || at.rough, ..found })
        }
        (_, [argument]) => of_one(name, worth(argument, names)?),
        ("min" | "max", [first, second]) => {
            let (first, second) = (worth(first, names)?, worth(second, names)?);
            Ok(if (first.value <= second.value) == (name == "min") { first } else { second })
        }
        _ => Err(unknown(name)),
    }
}

fn unknown(name: &str) -> NoValue {
    NoValue::Defect(format!("there is no function `{name}` of so many numbers"))
}

fn of_one(name: &str, argument: Real) -> Result<Real, NoValue> {
    let of = argument.value;
    let found = match name {
        "sqrt" => real::sqrt(&of).ok_or(NoValue::Undefined("square root"))?,
        "ln" => real::ln(&of).ok_or(NoValue::Undefined("logarithm"))?,
        "exp" => real::exp(&of).ok_or(NoValue::Undefined("power"))?,
        "cos" => real::cos(&of),
        "sin" => real::sin(&of),
        "acos" => real::acos(&of).ok_or(NoValue::Undefined("angle"))?,
        "floor" => Real::exact(of.floor()),
        "abs" => Real::exact(if of < Exact::zero() { -of } else { of }),
        _ => return Err(unknown(name)),
    };
    Ok(Real { rough: found.rough || argument.rough, ..found })
}

fn of_list(name: &str, list: &str, names: &Names) -> Result<Real, NoValue> {
    let Some(Bound::Many(all)) = names.get(list) else {
        return Err(NoValue::Defect(format!("`{list}` is no list")));
    };
    let sum = || all.iter().fold(Exact::zero(), |sum, one| sum + one);
    let count = Exact::from_integer(all.len().into());
    let empty = || NoValue::Defect(format!("`{list}` is empty"));
    Ok(Real::exact(match name {
        "sum" => sum(),
        "count" => count,
        "mean" if count.is_zero() => return Err(empty()),
        "mean" => sum() / count,
        "largest" => all.iter().max().cloned().ok_or_else(empty)?,
        _ => all.iter().min().cloned().ok_or_else(empty)?,
    }))
}

/// What lies between two points: on a straight line, or, for a thermistor, with the logarithm of its
/// resistance a straight line over the reciprocal of the absolute temperature (the equation
/// R = R₀·exp[β(1/T − 1/T₀)] held between two points). A point itself comes out as it stands.
fn along(name: &str, points: &[(Exact, Exact)], at: &Exact) -> Result<Real, NoValue> {
    let mut points: Vec<(&Exact, &Exact)> = points.iter().map(|(x, y)| (x, y)).collect();
    let back = name.starts_with("back_");
    points.sort();
    let pairs = || points.iter().zip(points.iter().skip(1));
    let rising = pairs().all(|(a, b)| a.1 < b.1);
    let falling = pairs().all(|(a, b)| a.1 > b.1);
    if points.len() < 2 || pairs().any(|(a, b)| a.0 == b.0) || (back && !rising && !falling) {
        return Err(NoValue::BadPoints);
    }
    let input = |point: &(&Exact, &Exact)| if back { point.1.clone() } else { point.0.clone() };
    let output = |point: &(&Exact, &Exact)| if back { point.0.clone() } else { point.1.clone() };
    if let Some(point) = points.iter().find(|point| input(point) == *at) {
        return Ok(Real::exact(output(point)));
    }
    let around = pairs().find(|(a, b)| (input(a) < *at) != (input(b) < *at)).ok_or(NoValue::Beyond)?;
    let ends = [(input(around.0), output(around.0)), (input(around.1), output(around.1))];
    match name {
        "thermistor" => {
            let share = share(&kelvin_part(&ends[0].0)?, &kelvin_part(&ends[1].0)?, &kelvin_part(at)?)?;
            let logs = [ln(&ends[0].1)?, ln(&ends[1].1)?];
            real::exp(&between(&logs[0], &logs[1], &share)).ok_or(NoValue::Undefined("power"))
        }
        "back_thermistor" => {
            let share = share(&ln(&ends[0].0)?, &ln(&ends[1].0)?, &ln(at)?)?;
            let part = between(&kelvin_part(&ends[0].1)?, &kelvin_part(&ends[1].1)?, &share);
            if part.is_zero() {
                return Err(NoValue::DividedByZero);
            }
            Ok(Real { value: Exact::one() / part - zero_celsius(), rough: true })
        }
        _ => Ok(Real::exact(between(&ends[0].1, &ends[1].1, &share(&ends[0].0, &ends[1].0, at)?))),
    }
}

fn zero_celsius() -> Exact {
    Exact::new(27315.into(), 100.into())
}

/// The reciprocal of an absolute temperature, from degrees Celsius.
fn kelvin_part(celsius: &Exact) -> Result<Exact, NoValue> {
    let kelvin = celsius + zero_celsius();
    if kelvin <= Exact::zero() {
        Err(NoValue::Undefined("absolute temperature"))
    } else {
        Ok(Exact::one() / kelvin)
    }
}

fn ln(of: &Exact) -> Result<Exact, NoValue> {
    real::ln(of).map(|real| real.value).ok_or(NoValue::Undefined("logarithm"))
}

/// How far `at` lies on the way from `from` to `to`.
fn share(from: &Exact, to: &Exact, at: &Exact) -> Result<Exact, NoValue> {
    let whole = to - from;
    if whole.is_zero() { Err(NoValue::DividedByZero) } else { Ok((at - from) / whole) }
}

fn between(from: &Exact, to: &Exact, share: &Exact) -> Exact {
    from + (to - from) * share
}
