//! A formula from its text: one pass, loosest join first.

use super::NoValue;
use crate::quantity::{Exact, parse_exact};

/// A formula that was read.
#[derive(Clone, Debug)]
pub struct Formula(pub(super) Node);

#[derive(Clone, Debug)]
pub(super) enum Node {
    Number(Exact),
    Name(String),
    Minus(Box<Node>),
    Not(Box<Node>),
    Join(Box<Node>, Join, Box<Node>),
    Call(String, Vec<Node>),
}

#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) enum Join {
    Plus,
    Minus,
    Times,
    Over,
    Power,
    Below,
    AtMost,
    Above,
    AtLeast,
    Equal,
    Unequal,
    And,
    Or,
}

/// Joins by how tightly they hold, the loosest first; of two that begin alike the longer first.
const LEVELS: [&[(&str, Join)]; 5] = [
    &[("or", Join::Or)],
    &[("and", Join::And)],
    &[
        ("<=", Join::AtMost),
        (">=", Join::AtLeast),
        ("!=", Join::Unequal),
        ("<", Join::Below),
        (">", Join::Above),
        ("=", Join::Equal),
    ],
    &[("+", Join::Plus), ("-", Join::Minus)],
    &[("*", Join::Times), ("/", Join::Over)],
];

/// How deep parentheses may go.
const DEEPEST: usize = 40;

/// Reads a formula.
///
/// # Errors
/// [`NoValue::Defect`] where the text is none.
pub fn parse(text: &str) -> Result<Formula, NoValue> {
    let mut reader = Reader { rest: text.trim_start(), depth: 0 };
    let node = reader.level(0)?;
    if reader.rest.is_empty() { Ok(Formula(node)) } else { Err(reader.odd()) }
}

struct Reader<'a> {
    rest: &'a str,
    depth: usize,
}

impl Reader<'_> {
    fn odd(&self) -> NoValue {
        NoValue::Defect(format!("`{}` is not understood", self.rest))
    }

    /// Takes a sign or word, and the spaces after it.
    fn eat(&mut self, token: &str) -> bool {
        let Some(rest) = self.rest.strip_prefix(token) else { return false };
        let is_word = token.starts_with(|c: char| c.is_ascii_alphabetic());
        if is_word && rest.starts_with(|c: char| c.is_ascii_alphanumeric() || c == '_') {
            return false;
        }
        self.rest = rest.trim_start();
        true
    }

    fn level(&mut self, level: usize) -> Result<Node, NoValue> {
        let Some(joins) = LEVELS.get(level) else { return self.power() };
        let mut node = self.level(level + 1)?;
        while let Some((_, join)) = joins.iter().find(|(token, _)| self.eat(token)) {
            let right = self.level(level + 1)?;
            node = Node::Join(Box::new(node), *join, Box::new(right));
        }
        Ok(node)
    }

    fn power(&mut self) -> Result<Node, NoValue> {
        if self.eat("-") {
            return Ok(Node::Minus(Box::new(self.power()?)));
        }
        if self.eat("not") {
            return Ok(Node::Not(Box::new(self.power()?)));
        }
        let base = self.atom()?;
        if self.eat("^") {
            let exponent = self.power()?;
            return Ok(Node::Join(Box::new(base), Join::Power, Box::new(exponent)));
        }
        Ok(base)
    }

    fn atom(&mut self) -> Result<Node, NoValue> {
        if self.eat("(") {
            self.depth += 1;
            if self.depth > DEEPEST {
                return Err(NoValue::Defect("too many parentheses".to_owned()));
            }
            let inner = self.level(0)?;
            self.depth -= 1;
            return if self.eat(")") { Ok(inner) } else { Err(self.odd()) };
        }
        let digits = self.take(|c| c.is_ascii_digit() || c == '.');
        if !digits.is_empty() {
            return parse_exact(&digits).map(Node::Number).ok_or_else(|| self.odd());
        }
        let name = self.take(|c| c.is_ascii_alphanumeric() || c == '_');
        if name.is_empty() {
            return Err(self.odd());
        }
        if !self.eat("(") {
            return Ok(Node::Name(name));
        }
        let mut arguments = vec![self.level(0)?];
        while self.eat(",") {
            arguments.push(self.level(0)?);
        }
        if self.eat(")") { Ok(Node::Call(name, arguments)) } else { Err(self.odd()) }
    }

    /// Takes characters of a sort, and the spaces after them.
    fn take(&mut self, sort: impl Fn(char) -> bool) -> String {
        let end = self.rest.find(|c| !sort(c)).unwrap_or(self.rest.len());
        let (taken, rest) = self.rest.split_at(end);
        let taken = taken.to_owned();
        self.rest = rest.trim_start();
        taken
    }
}
