//! Formulas as data: `torque * wrench / (wrench + adapter * cos(angle))`, read from text and worked out in exact
//! numbers. What a sheet shows as its formula is what is worked out, here and in the browser
//! (`site/compute/formula.js`, the same grammar).
//!
//! Grammar: numbers, names, `+ - * /`, `^`, unary minus, parentheses, calls; comparisons `< <= > >= = !=` and
//! `and`, `or`, `not` give 1 or 0. Invariant: a formula never panics; what has no value is a [`NoValue`].

mod call;
mod parse;

use std::collections::BTreeMap;
use std::fmt;

use num_traits::{One, Zero};

use super::real::{self, Real};
use crate::quantity::Exact;
pub use parse::{Formula, parse};
use parse::{Join, Node};

/// What a name stands for.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum Bound {
    /// A number.
    One(Real),
    /// A list of numbers.
    Many(Vec<Exact>),
    /// Points: at which input, what.
    Points(Vec<(Exact, Exact)>),
    /// Nothing was given.
    Nothing,
}

/// What every name of a formula stands for.
pub type Names = BTreeMap<String, Bound>;

/// Why a formula has no value.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum NoValue {
    /// It is not written as a formula, or names what is not there: a defect of the sum.
    Defect(String),
    /// A division by zero.
    DividedByZero,
    /// A function that is not defined there.
    Undefined(&'static str),
    /// An input outside the points of a table: nothing is guessed beyond them.
    Beyond,
    /// Points of which two have one input, or which do not run one way.
    BadPoints,
}

impl fmt::Display for NoValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Defect(what) => write!(f, "the formula is wrong: {what}"),
            Self::DividedByZero => f.write_str("these numbers lead to a division by zero"),
            Self::Undefined(name) => write!(f, "these numbers have no {name}"),
            Self::Beyond => {
                f.write_str("it lies outside the points that are given, and nothing is guessed beyond them")
            }
            Self::BadPoints => f.write_str("the points do not run one way"),
        }
    }
}

impl std::error::Error for NoValue {}

/// The value of a formula, when its names stand for what `names` says.
///
/// # Errors
/// [`NoValue`] where it has none.
pub fn value(formula: &Formula, names: &Names) -> Result<Real, NoValue> {
    worth(&formula.0, names)
}

fn worth(node: &Node, names: &Names) -> Result<Real, NoValue> {
    match node {
        Node::Number(number) => Ok(Real::exact(number.clone())),
        Node::Name(name) => match names.get(name) {
            Some(Bound::One(real)) => Ok(real.clone()),
            Some(_) => Err(NoValue::Defect(format!("`{name}` is no single number"))),
            None if name == "pi" => Ok(real::pi()),
            None => Err(NoValue::Defect(format!("`{name}` is not known"))),
        },
        Node::Minus(inner) => {
            let real = worth(inner, names)?;
            Ok(Real { value: -real.value, rough: real.rough })
        }
        Node::Not(inner) => Ok(truth(worth(inner, names)?.value.is_zero())),
        Node::Join(left, join, right) => joined(left, *join, right, names),
        Node::Call(name, arguments) => call::call(name, arguments, names),
    }
}

fn joined(left: &Node, join: Join, right: &Node, names: &Names) -> Result<Real, NoValue> {
    let a = worth(left, names)?;
    match join {
        Join::And if a.value.is_zero() => return Ok(truth(false)),
        Join::Or if !a.value.is_zero() => return Ok(truth(true)),
        _ => {}
    }
    let b = worth(right, names)?;
    let rough = a.rough || b.rough;
    let (a, b) = (a.value, b.value);
    let value = match join {
        Join::Plus => a + b,
        Join::Minus => a - b,
        Join::Times => a * b,
        Join::Over if b.is_zero() => return Err(NoValue::DividedByZero),
        Join::Over => a / b,
        Join::Power => {
            let raised = real::power(&a, &b).ok_or(NoValue::Undefined("power"))?;
            return Ok(Real { rough: rough || raised.rough, ..raised });
        }
        Join::Below => return Ok(truth(a < b)),
        Join::AtMost => return Ok(truth(a <= b)),
        Join::Above => return Ok(truth(a > b)),
        Join::AtLeast => return Ok(truth(a >= b)),
        Join::Equal => return Ok(truth(a == b)),
        Join::Unequal => return Ok(truth(a != b)),
        Join::And | Join::Or => return Ok(truth(!b.is_zero())),
    };
    Ok(Real { value, rough })
}

fn truth(holds: bool) -> Real {
    Real::exact(if holds { Exact::one() } else { Exact::zero() })
}
