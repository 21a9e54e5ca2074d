//! Reads a formula: clauses of comparisons over sums and products, by operator precedence.
//!
//! Nothing is looked up here; every name keeps its bytes, so that what is unknown later is found where it stands.

use std::ops::Range;

use num_traits::Zero;

use super::token::{Problem, Token, tokens};
use super::tree::{Clause, Comparison, Expr, Formula, Link, Name, Node, Operator, Slack, Span, Way};
use crate::quantity::{Exact, Unit};

/// Reads a formula.
///
/// # Errors
/// The first thing that is wrong in it.
pub fn parse(text: &str) -> Result<Formula, Problem> {
    let mut parser = Parser { tokens: tokens(text)?, at: 0, end: text.len(), names: Vec::new() };
    let mut clauses = vec![parser.clause()?];
    while parser.word("or") {
        clauses.push(parser.clause()?);
    }
    match parser.peek() {
        None => Ok(Formula { names: parser.names, clauses }),
        Some(_) => Err(parser.unexpected("an operator, a comparison or the end")),
    }
}

struct Parser {
    tokens: Vec<(Token, Range<usize>)>,
    at: usize,
    end: usize,
    names: Vec<Name>,
}

impl Parser {
    fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.at).map(|(token, _)| token)
    }

    fn range(&self) -> Range<usize> {
        self.tokens.get(self.at).map_or(self.end.saturating_sub(1)..self.end, |(_, range)| range.clone())
    }

    /// Takes a sign if it comes next.
    fn sign(&mut self, sign: char) -> bool {
        let comes = self.peek() == Some(&Token::Sign(sign));
        self.at += usize::from(comes);
        comes
    }

    /// Takes a word of the notation if it comes next.
    fn word(&mut self, word: &str) -> bool {
        let comes = matches!(self.peek(), Some(Token::Word(next)) if next == word);
        self.at += usize::from(comes);
        comes
    }

    fn expect_word(&mut self, word: &str) -> Result<(), Problem> {
        if self.word(word) { Ok(()) } else { Err(self.unexpected(&format!("`{word}`"))) }
    }

    fn unexpected(&self, wanted: &str) -> Problem {
        let ends = self.peek().is_none();
        let message = if ends { "the formula ends too early" } else { "this does not belong here" };
        Problem::new(self.range(), message, format!("{wanted} is expected here"))
    }

    fn clause(&mut self) -> Result<Clause, Problem> {
        let first = self.sum()?;
        if self.word("in") {
            if self.word("proportion") {
                self.expect_word("to")?;
                let (name, state) = (Self::lone(&first)?, self.state()?);
                return Ok(Clause::Proportion(name, state, self.share()?));
            }
            return Ok(Clause::In(first, self.span()?));
        }
        if self.word("is") {
            self.expect_word("whole")?;
            let within = if self.sign('±') { self.number()?.0 } else { Exact::zero() };
            return Ok(Clause::Whole(first, within));
        }
        for (word, way) in [("rises", Way::Rises), ("falls", Way::Falls)] {
            if self.word(word) {
                self.expect_word("with")?;
                return Ok(Clause::Trend(Self::lone(&first)?, way, self.state()?));
            }
        }
        let mut links = Vec::new();
        while let Some(sign) = self.comparison() {
            let right = self.sum()?;
            let slack = if self.sign('±') { Some(self.slack(sign)?) } else { None };
            links.push(Link { sign, right, slack });
        }
        if links.is_empty() {
            Err(self.unexpected("a comparison, as `<=`, `=`, `within` or `in`,"))
        } else {
            Ok(Clause::Chain(first, links))
        }
    }

    fn comparison(&mut self) -> Option<Comparison> {
        let sign = match self.peek()? {
            Token::Sign('=') => Comparison::Equal,
            Token::Sign('<') => Comparison::Below,
            Token::Sign('≤') => Comparison::AtMost,
            Token::Sign('>') => Comparison::Above,
            Token::Sign('≥') => Comparison::AtLeast,
            Token::Word(word) if word == "within" => Comparison::Within,
            _ => return None,
        };
        self.at += 1;
        Some(sign)
    }

    fn slack(&mut self, sign: Comparison) -> Result<Slack, Problem> {
        let range = self.range();
        if sign != Comparison::Equal {
            return Err(Problem::new(
                range,
                "only `=` may be off by something",
                "write the bound itself on the right",
            ));
        }
        let (value, unit) = self.number()?;
        Ok(match unit {
            Some(unit) if unit.symbol() == "%" => Slack::Share(unit.to_si(&value)),
            unit => Slack::Amount(value, unit, range),
        })
    }

    /// `± 10 %`
    fn share(&mut self) -> Result<Exact, Problem> {
        let range = self.range();
        match self.sign('±').then(|| self.slack(Comparison::Equal)) {
            Some(Ok(Slack::Share(share))) => Ok(share),
            Some(Err(problem)) => Err(problem),
            _ => Err(Problem::new(
                range,
                "how far it may be off is missing",
                "write it in percent, as `± 10 %`",
            )),
        }
    }

    fn number(&mut self) -> Result<(Exact, Option<Unit>), Problem> {
        let Some(Token::Number(value, unit)) = self.peek() else { return Err(self.unexpected("a number")) };
        let read = (value.clone(), *unit);
        self.at += 1;
        Ok(read)
    }

    /// `0.03..0.40 mm`
    fn span(&mut self) -> Result<Span, Problem> {
        let start = self.range().start;
        let end = |parser: &mut Self| {
            let negative = parser.sign('-');
            parser.number().map(|(value, unit)| (if negative { -value } else { value }, unit))
        };
        let (least, first) = end(self)?;
        if !self.sign('…') {
            return Err(self.unexpected("`..` and the upper end"));
        }
        let (most, unit) = end(self)?;
        let range = start..self.tokens.get(self.at - 1).map_or(self.end, |(_, range)| range.end);
        if first.is_some_and(|first| Some(first) != unit) {
            return Err(Problem::new(
                range,
                "the ends are in two units",
                "write the unit once, behind the upper end",
            ));
        }
        if least > most {
            return Err(Problem::new(range, "the lower end lies above the upper end", "turn them round"));
        }
        Ok(Span { least, most, unit, range })
    }

    fn state(&mut self) -> Result<String, Problem> {
        let Some(Token::Word(state)) = self.peek() else {
            return Err(self.unexpected("a state, as `speed`,"));
        };
        let state = state.clone();
        self.at += 1;
        Ok(state)
    }

    /// The name that an expression is.
    fn lone(expr: &Expr) -> Result<usize, Problem> {
        match expr.node {
            Node::Name(name) => Ok(name),
            _ => Err(Problem::new(
                expr.range.clone(),
                "only one name can rise, fall or keep in proportion",
                "name one entry alone",
            )),
        }
    }

    fn sum(&mut self) -> Result<Expr, Problem> {
        self.joined(&[('+', Operator::Plus), ('-', Operator::Minus)], Self::product)
    }

    fn product(&mut self) -> Result<Expr, Problem> {
        self.joined(&[('*', Operator::Times), ('/', Operator::Over)], Self::power)
    }

    fn joined(
        &mut self,
        signs: &[(char, Operator)],
        part: fn(&mut Self) -> Result<Expr, Problem>,
    ) -> Result<Expr, Problem> {
        let mut left = part(self)?;
        while let Some((_, operator)) =
            signs.iter().find(|(sign, _)| self.peek() == Some(&Token::Sign(*sign)))
        {
            self.at += 1;
            let right = part(self)?;
            let range = left.range.start..right.range.end;
            left = Expr { node: Node::Joined(*operator, Box::new(left), Box::new(right)), range };
        }
        Ok(left)
    }

    fn power(&mut self) -> Result<Expr, Problem> {
        let base = self.atom()?;
        let start = base.range.start;
        let range = self.range();
        let exponent = if self.sign('²') {
            2
        } else if self.sign('³') {
            3
        } else if self.sign('^') {
            let (value, unit) = self.number()?;
            let known = [2u8, 3]
                .into_iter()
                .find(|known| value == Exact::from_integer((*known).into()) && unit.is_none());
            known.ok_or_else(|| {
                Problem::new(range.clone(), "only squares and cubes are known", "write `^2` or `^3`")
            })?
        } else {
            return Ok(base);
        };
        Ok(Expr { node: Node::Power(Box::new(base), exponent), range: start..range.end })
    }

    fn atom(&mut self) -> Result<Expr, Problem> {
        let range = self.range();
        if self.sign('(') {
            let inner = self.sum()?;
            let close = self.range();
            return if self.sign(')') {
                Ok(Expr { range: range.start..close.end, ..inner })
            } else {
                Err(self.unexpected("`)`"))
            };
        }
        let node = match self.peek() {
            Some(Token::Number(value, unit)) => Node::Quantity(value.clone(), *unit),
            Some(Token::Word(word)) if word == "pi" || word == "π" => Node::Pi,
            Some(Token::Word(word)) if word == "sin" => {
                self.at += 1;
                let inner = self.atom()?;
                let end = inner.range.end;
                return Ok(Expr { node: Node::Sine(Box::new(inner)), range: range.start..end });
            }
            Some(Token::Word(word)) => {
                let word = word.clone();
                self.at += 1;
                return Ok(self.name(word, range));
            }
            _ => return Err(self.unexpected("a name, a number or `(`")),
        };
        self.at += 1;
        Ok(Expr { node, range })
    }

    fn name(&mut self, text: String, range: Range<usize>) -> Expr {
        let mut end = range.end;
        let mut narrowed = None;
        if let Some((Token::Bracket(inner), bracket)) = self.tokens.get(self.at) {
            narrowed = Some((inner.clone(), bracket.start + 1..bracket.end - 1));
            end = bracket.end;
            self.at += 1;
        }
        let inner = |name: &Name| name.narrowed.as_ref().map(|(inner, _)| inner.clone());
        let this = Name { text, range: range.clone(), narrowed };
        let known = self.names.iter().position(|name| name.text == this.text && inner(name) == inner(&this));
        let place = known.unwrap_or(self.names.len());
        if known.is_none() {
            self.names.push(this);
        }
        Expr { node: Node::Name(place), range: range.start..end }
    }
}
