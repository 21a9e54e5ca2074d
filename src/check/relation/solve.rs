//! What one name would have to be worth for a broken comparison to hold, all others as they are.
//!
//! The comparison is turned round one operator at a time. Only nominal ends are used: this is a hint where to look, and
//! never changes a number.

use num_bigint::BigInt;
use num_traits::{Signed, Zero};

use super::extent::Extent;
use super::judge::{Broken, extent, in_si};
use super::tree::{Clause, Comparison, Expr, Link, Node, Operator, Slack};
use super::worth::Worth;
use crate::quantity::{Exact, power_of_ten};

/// Two ends, each open if none.
#[derive(Clone, Debug, PartialEq)]
pub struct Ends {
    /// The lower end.
    pub low: Option<Exact>,
    /// The upper end.
    pub high: Option<Exact>,
}

/// What the name at `place` would have to be, in SI; none where it stands twice or cannot be worked out.
pub fn solve(clause: &Clause, broken: Broken<'_>, place: usize, worths: &[Worth]) -> Option<Ends> {
    let (side, wanted) = match (clause, broken) {
        (Clause::In(value, span), _) => {
            let ends =
                Ends { low: Some(in_si(&span.least, span.unit)), high: Some(in_si(&span.most, span.unit)) };
            (value, ends)
        }
        (_, Broken::Link(left, link)) => match (count(left, place), count(&link.right, place)) {
            (1, 0) => (left, of_left(link, &extent(&link.right, worths))),
            (0, 1) => (&link.right, of_right(link, &extent(left, worths))),
            _ => return None,
        },
        _ => return None,
    };
    (count(side, place) == 1).then(|| turned(side, place, wanted, worths))?
}

/// How often a name stands in a part.
fn count(expr: &Expr, place: usize) -> usize {
    match &expr.node {
        Node::Name(name) => usize::from(*name == place),
        Node::Joined(_, left, right) => count(left, place) + count(right, place),
        Node::Power(inner, _) | Node::Sine(inner) => count(inner, place),
        Node::Quantity(..) | Node::Pi => 0,
    }
}

fn nominal(extent: &Extent) -> Ends {
    let end = |end: &Option<super::extent::End>| end.as_ref().map(|end| end.nominal.clone());
    Ends { low: end(&extent.low), high: end(&extent.high) }
}

fn of_left(link: &Link, right: &Extent) -> Ends {
    let right = nominal(right);
    let one = power_of_ten(0);
    match (link.sign, &link.slack) {
        (Comparison::Equal, Some(Slack::Share(share))) => Ends {
            low: right.low.map(|low| low * (&one - share)),
            high: right.high.map(|high| high * (&one + share)),
        },
        (Comparison::Below | Comparison::AtMost, _) => Ends { low: None, high: right.high },
        (Comparison::Above | Comparison::AtLeast, _) => Ends { low: right.low, high: None },
        _ => right,
    }
}

fn of_right(link: &Link, left: &Extent) -> Ends {
    let left = nominal(left);
    let one = power_of_ten(0);
    match (link.sign, &link.slack) {
        (Comparison::Equal, Some(Slack::Share(share))) if share < &one => Ends {
            low: left.low.map(|low| low / (&one + share)),
            high: left.high.map(|high| high / (&one - share)),
        },
        (Comparison::Below | Comparison::AtMost, _) => Ends { low: left.low, high: None },
        (Comparison::Above | Comparison::AtLeast, _) => Ends { low: None, high: left.high },
        _ => left,
    }
}

/// What the name inside a part must be for the part to be `wanted`.
fn turned(expr: &Expr, place: usize, wanted: Ends, worths: &[Worth]) -> Option<Ends> {
    match &expr.node {
        Node::Name(_) => Some(in_order(wanted)),
        Node::Joined(operator, left, right) if count(left, place) == 1 => {
            let known = nominal(&extent(right, worths));
            turned(left, place, left_of(*operator, &wanted, &known)?, worths)
        }
        Node::Joined(operator, left, right) => {
            let known = nominal(&extent(left, worths));
            turned(right, place, right_of(*operator, &wanted, &known)?, worths)
        }
        Node::Power(base, exponent) => {
            let root = |end: Option<Exact>| end.map(|end| root(&end, *exponent));
            turned(base, place, Ends { low: root(wanted.low), high: root(wanted.high) }, worths)
        }
        Node::Sine(_) | Node::Quantity(..) | Node::Pi => None,
    }
}

type Work = fn(&Exact, &Exact) -> Exact;

/// `of` both of two ends, if there are both.
fn work(of: Work, one: Option<&Exact>, other: Option<&Exact>) -> Option<Exact> {
    one.zip(other).map(|(one, other)| of(one, other))
}

/// The left part of `left ∘ known = wanted`.
fn left_of(operator: Operator, wanted: &Ends, known: &Ends) -> Option<Ends> {
    let (low, high) = (wanted.low.as_ref(), wanted.high.as_ref());
    let (least, most) = (known.low.as_ref(), known.high.as_ref());
    let positive = least.is_some_and(Signed::is_positive);
    Some(match operator {
        Operator::Plus => Ends { low: work(|w, k| w - k, low, least), high: work(|w, k| w - k, high, most) },
        Operator::Minus => Ends { low: work(|w, k| w + k, low, most), high: work(|w, k| w + k, high, least) },
        _ if !positive => return None,
        Operator::Times => Ends { low: work(|w, k| w / k, low, least), high: work(|w, k| w / k, high, most) },
        Operator::Over => Ends { low: work(|w, k| w * k, low, most), high: work(|w, k| w * k, high, least) },
    })
}

/// The right part of `known ∘ right = wanted`.
fn right_of(operator: Operator, wanted: &Ends, known: &Ends) -> Option<Ends> {
    let (low, high) = (wanted.low.as_ref(), wanted.high.as_ref());
    let (least, most) = (known.low.as_ref(), known.high.as_ref());
    let positive = low.or(high).is_some_and(Signed::is_positive) && high.is_none_or(Signed::is_positive);
    match operator {
        Operator::Plus | Operator::Times => left_of(operator, wanted, known),
        Operator::Minus => {
            Some(Ends { low: work(|w, k| k - w, high, most), high: work(|w, k| k - w, low, least) })
        }
        Operator::Over if positive => {
            Some(Ends { low: work(|w, k| k / w, high, most), high: work(|w, k| k / w, low, least) })
        }
        Operator::Over => None,
    }
}

/// Ends the right way round: limits that cross come out turned.
fn in_order(ends: Ends) -> Ends {
    match (&ends.low, &ends.high) {
        (Some(low), Some(high)) if low > high => Ends { low: ends.high, high: ends.low },
        _ => ends,
    }
}

/// A root to nine decimals, towards zero.
fn root(value: &Exact, exponent: u8) -> Exact {
    if !value.is_positive() {
        return Exact::zero();
    }
    let scaled: BigInt = (value * power_of_ten(9 * i32::from(exponent))).to_integer();
    Exact::from_integer(scaled.nth_root(exponent.into())) * power_of_ten(-9)
}
