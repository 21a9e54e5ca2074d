//! Whether a clause holds for what its names are worth.
//!
//! The benefit of the doubt is the relation's, never the finding's: a clause is broken only if no value that prints the
//! same would let it hold. What the comparisons mean for windows stands beside each.

use num_traits::Signed;

use super::extent::{End, Extent, pi};
use super::tree::{Clause, Comparison, Expr, Link, Node, Operator, Slack};
use super::worth::Worth;
use crate::quantity::{Exact, Unit};

/// Where a clause is broken: the left side, and the link or the ends it is held against.
#[derive(Clone, Copy, Debug)]
pub enum Broken<'f> {
    /// A comparison of a chain.
    Link(&'f Expr, &'f Link),
    /// All of it.
    Whole,
}

/// Where a clause is broken; none where it holds, or where it looks at more than one occasion.
pub fn broken<'f>(clause: &'f Clause, worths: &[Worth]) -> Option<Broken<'f>> {
    match clause {
        Clause::Chain(first, links) => {
            let lefts = std::iter::once(first).chain(links.iter().map(|link| &link.right));
            let pairs = lefts.zip(links).map(|(left, link)| Broken::Link(left, link));
            pairs.into_iter().find(|pair| match pair {
                Broken::Link(left, link) => breaks(&extent(left, worths), link, &extent(&link.right, worths)),
                Broken::Whole => false,
            })
        }
        Clause::In(value, span) => {
            let (least, most) = (in_si(&span.least, span.unit), in_si(&span.most, span.unit));
            let extent = extent(value, worths);
            let outside = |end: &End| end.most < least || end.least > most;
            extent.low.iter().chain(&extent.high).any(outside).then_some(Broken::Whole)
        }
        Clause::Whole(value, within) => not_whole(&extent(value, worths), within).then_some(Broken::Whole),
        Clause::Trend(..) | Clause::Proportion(..) => None,
    }
}

/// What a part of a formula is worth, in SI.
pub fn extent(expr: &Expr, worths: &[Worth]) -> Extent {
    match &expr.node {
        Node::Quantity(value, unit) => Extent::exactly(in_si(value, *unit)),
        Node::Pi => Extent::exactly(pi()),
        Node::Name(place) => {
            worths.get(*place).map_or(Extent { low: None, high: None }, |worth| worth.extent.clone())
        }
        Node::Power(base, exponent) => extent(base, worths).power(*exponent),
        Node::Sine(angle) => extent(angle, worths).sine(),
        Node::Joined(operator, left, right) => {
            let (left, right) = (extent(left, worths), extent(right, worths));
            match operator {
                Operator::Plus => left.plus(&right),
                Operator::Minus => left.minus(&right),
                Operator::Times => left.times(&right),
                Operator::Over => left.over(&right),
            }
        }
    }
}

/// A number of a formula in SI.
pub fn in_si(value: &Exact, unit: Option<Unit>) -> Exact {
    unit.map_or_else(|| value.clone(), |unit| unit.to_si(value))
}

/// How far a right side may be off, as a distance in SI.
pub fn distance(slack: Option<&Slack>, of: &Exact) -> Exact {
    match slack {
        None => Exact::default(),
        Some(Slack::Share(share)) => (of * share).abs(),
        Some(Slack::Amount(value, unit, _)) => {
            unit.map_or_else(|| value.clone(), |unit| value * unit.factor())
        }
    }
}

fn breaks(left: &Extent, link: &Link, right: &Extent) -> bool {
    match link.sign {
        Comparison::Equal => apart(left, link.slack.as_ref(), right),
        Comparison::Below => out_of_order(left, right, true),
        Comparison::AtMost => out_of_order(left, right, false),
        Comparison::Above => out_of_order(right, left, true),
        Comparison::AtLeast => out_of_order(right, left, false),
        Comparison::Within => not_within(left, right),
    }
}

/// Two windows are equal as long as some value lies in both.
fn apart(left: &Extent, slack: Option<&Slack>, right: &Extent) -> bool {
    let reach = |end: &Option<End>| end.as_ref().map(|end| end.widened(&distance(slack, &end.nominal)));
    let (low, high) = (reach(&right.low), reach(&right.high));
    let beyond = |upper: &Option<End>, lower: &Option<End>| {
        upper.as_ref().zip(lower.as_ref()).is_some_and(|(upper, lower)| upper.most < lower.least)
    };
    beyond(&left.high, &low) || beyond(&high, &left.low)
}

/// A window lies below another unless both its ends lie above theirs: windows may overlap.
fn out_of_order(lower: &Extent, upper: &Extent, strict: bool) -> bool {
    let wrong = |(lower, upper): (&End, &End)| {
        let above = lower.nominal > upper.nominal && lower.least >= upper.most;
        above || (strict && lower.nominal == upper.nominal)
    };
    let same = [(&lower.low, &upper.low), (&lower.high, &upper.high)];
    let mut pairs = same.into_iter().filter_map(|(one, other)| one.as_ref().zip(other.as_ref())).peekable();
    if pairs.peek().is_some() {
        return pairs.all(wrong);
    }
    lower.low.as_ref().zip(upper.high.as_ref()).is_some_and(wrong)
}

/// The left lies inside the right at both ends. Where the digits are fine enough, both ends agree or neither does: parts
/// matched by size narrow both, and one that agrees beside one that does not is a slipped digit.
fn not_within(left: &Extent, right: &Extent) -> bool {
    let outside = |end: &Option<End>, bound: &Option<End>, below: bool| {
        end.as_ref()
            .zip(bound.as_ref())
            .is_some_and(|(end, bound)| if below { end.most < bound.least } else { end.least > bound.most })
    };
    if outside(&left.low, &right.low, true) || outside(&left.high, &right.high, false) {
        return true;
    }
    let (Some((low, high)), Some((least, most))) = (left.ends(), right.ends()) else { return false };
    let blur = |end: &End| &end.most - &end.least;
    let known = blur(least) + blur(most) + blur(low) + blur(high);
    let fine = &most.nominal - &least.nominal > known * Exact::from_integer(3.into());
    fine && low.meets(least) != high.meets(most)
}

/// True if no whole number lies in it.
fn not_whole(extent: &Extent, within: &Exact) -> bool {
    let Some((low, high)) = extent.ends() else { return false };
    let (low, high) = (&low.least - within, &high.most + within);
    low.ceil() > high
}
