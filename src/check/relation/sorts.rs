//! The sort of every part of a formula: nothing of one kind is added to or compared with another.

use std::ops::Range;

use super::sort::Sort;
use super::token::Problem;
use super::tree::{Clause, Expr, Node, Operator, Slack};
use crate::quantity::{Kind, Unit};

/// The sorts of the names of a formula.
pub struct Sorts {
    /// In the order of the names.
    pub names: Vec<Sort>,
}

impl Sorts {
    /// Holds a clause to its kinds.
    ///
    /// # Errors
    /// The first part of it that mixes two kinds.
    pub fn clause(&self, clause: &Clause) -> Result<(), Problem> {
        match clause {
            Clause::Chain(first, links) => {
                let mut left = first;
                for link in links {
                    let sort = self.comparable(left, &link.right)?;
                    if let Some(Slack::Amount(_, unit, range)) = &link.slack {
                        sort.joined(Operator::Plus, unit_sort(*unit))
                            .ok_or_else(|| mixed(sort, unit_sort(*unit), range.clone()))?;
                    }
                    left = &link.right;
                }
                Ok(())
            }
            Clause::In(value, span) => {
                let (value, ends) = (self.expr(value)?, unit_sort(span.unit));
                if value.compares_with(ends) { Ok(()) } else { Err(mixed(value, ends, span.range.clone())) }
            }
            Clause::Whole(value, _) => {
                let sort = self.expr(value)?;
                if sort.is_number() { Ok(()) } else { Err(mixed(sort, Sort::NUMBER, value.range.clone())) }
            }
            Clause::Trend(..) | Clause::Proportion(..) => Ok(()),
        }
    }

    fn comparable(&self, left: &Expr, right: &Expr) -> Result<Sort, Problem> {
        let (one, other) = (self.expr(left)?, self.expr(right)?);
        if one.compares_with(other) {
            Ok(one)
        } else {
            Err(mixed(one, other, left.range.start..right.range.end))
        }
    }

    fn expr(&self, expr: &Expr) -> Result<Sort, Problem> {
        Ok(match &expr.node {
            Node::Quantity(_, unit) => unit_sort(*unit),
            Node::Pi => Sort::NUMBER,
            Node::Name(place) => self.names.get(*place).copied().unwrap_or(Sort::NUMBER),
            Node::Power(base, exponent) => self.expr(base)?.power(*exponent),
            Node::Sine(angle) => {
                let sort = self.expr(angle)?;
                if !sort.is_angle() {
                    return Err(mixed(sort, Sort::of(Kind::Angle), angle.range.clone()));
                }
                Sort::SHARE
            }
            Node::Joined(operator, left, right) => {
                let (one, other) = (self.expr(left)?, self.expr(right)?);
                one.joined(*operator, other).ok_or_else(|| mixed(one, other, expr.range.clone()))?
            }
        })
    }
}

fn unit_sort(unit: Option<Unit>) -> Sort {
    unit.map_or(Sort::NUMBER, |unit| Sort::of(unit.kind()))
}

fn mixed(one: Sort, other: Sort, range: Range<usize>) -> Problem {
    let message = format!("{} and {} do not go together", one.words(), other.words());
    let help =
        "add and compare quantities of one kind only; a bare number is neither a quantity nor a percentage";
    Problem::new(range, message, help)
}
