//! A formula as a tree. Every part keeps its bytes, so that what is wrong with it is found where it stands.

use std::ops::Range;

use crate::quantity::{Exact, Unit};

/// A formula: it holds if one of its clauses does.
#[derive(Clone, Debug)]
pub struct Formula {
    /// Every name in it, each spelling once.
    pub names: Vec<Name>,
    /// Its clauses, of which one must hold.
    pub clauses: Vec<Clause>,
}

/// A name as typed.
#[derive(Clone, Debug)]
pub struct Name {
    /// The name without what stands in brackets.
    pub text: String,
    /// Its bytes.
    pub range: Range<usize>,
    /// What stands in brackets behind it, and its bytes.
    pub narrowed: Option<(String, Range<usize>)>,
}

/// One thing that may hold.
#[derive(Clone, Debug)]
pub enum Clause {
    /// `a < b <= c`, `a = b ± 1 %`, `a within b`.
    Chain(Expr, Vec<Link>),
    /// `a in 1..2 mm`.
    In(Expr, Span),
    /// `a is whole ± 0.1`.
    Whole(Expr, Exact),
    /// `a rises with speed`, `a falls with altitude`.
    Trend(usize, Way, String),
    /// `a in proportion to speed ± 10 %`: the share it may be off.
    Proportion(usize, String, Exact),
}

/// Which way something goes.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Way {
    /// It gets more.
    Rises,
    /// It gets less.
    Falls,
}

/// One comparison of a chain and what stands on its right.
#[derive(Clone, Debug)]
pub struct Link {
    /// The comparison.
    pub sign: Comparison,
    /// Its right side.
    pub right: Expr,
    /// How far off an equality may be.
    pub slack: Option<Slack>,
}

/// How two sides are compared.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Comparison {
    /// `=`
    Equal,
    /// `<`
    Below,
    /// `<=`
    AtMost,
    /// `>`
    Above,
    /// `>=`
    AtLeast,
    /// `within`
    Within,
}

/// How far off an equality may be.
#[derive(Clone, Debug, PartialEq)]
pub enum Slack {
    /// A share of the right side.
    Share(Exact),
    /// A quantity, and its bytes.
    Amount(Exact, Option<Unit>, Range<usize>),
}

/// Two ends with their unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// The lower end.
    pub least: Exact,
    /// The upper end.
    pub most: Exact,
    /// Their unit.
    pub unit: Option<Unit>,
    /// Their bytes.
    pub range: Range<usize>,
}

/// A part of a formula with its bytes.
#[derive(Clone, Debug)]
pub struct Expr {
    /// What it is.
    pub node: Node,
    /// Its bytes.
    pub range: Range<usize>,
}

/// What a part of a formula is.
#[derive(Clone, Debug)]
pub enum Node {
    /// A number, with its unit if it has one.
    Quantity(Exact, Option<Unit>),
    /// Half the way round a circle of radius one.
    Pi,
    /// A name, by its place in [`Formula::names`].
    Name(usize),
    /// Two parts and what joins them.
    Joined(Operator, Box<Expr>, Box<Expr>),
    /// A part multiplied by itself, two or three times over.
    Power(Box<Expr>, u8),
    /// The sine of an angle.
    Sine(Box<Expr>),
}

/// What joins two parts.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Operator {
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `*`
    Times,
    /// `/`
    Over,
}

impl Name {
    /// The name for a finding: `` `valve.timing` (intake opens before top) ``. What it may be besides, as `any speed`, says
    /// nothing of the value at hand.
    pub fn shown(&self) -> String {
        let inner = self.narrowed.as_ref().map_or("", |(inner, _)| inner);
        let parts = inner.split(',').map(str::trim);
        let besides = |part: &&str| ["any ", "no ", "not "].iter().any(|word| part.starts_with(word));
        let parts: Vec<_> = parts
            .filter(|part| !part.is_empty() && !besides(part))
            .map(|part| part.replace(" = ", " "))
            .collect();
        match parts.as_slice() {
            [] => format!("`{}`", self.text),
            parts => format!("`{}` ({})", self.text, parts.join(", ")),
        }
    }
}

impl Expr {
    /// The place of the name that it is, if it is a name alone.
    pub fn as_name(&self) -> Option<usize> {
        match self.node {
            Node::Name(place) => Some(place),
            _ => None,
        }
    }
}
