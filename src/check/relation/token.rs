//! The words, numbers and signs of a formula, each with its bytes.

use std::ops::Range;

use crate::quantity::{Exact, Number, Unit, UnitError};

/// The longest formula that is read, in bytes.
const LONGEST: usize = 500;

/// What is wrong in a formula, and where.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Problem {
    /// Its bytes in the formula.
    pub range: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// How to mend it.
    pub help: String,
}

impl Problem {
    /// A problem at `range`.
    pub fn new(range: Range<usize>, message: impl Into<String>, help: impl Into<String>) -> Self {
        Self { range, message: message.into(), help: help.into() }
    }
}

/// One word, number or sign.
#[derive(Clone, Debug, PartialEq)]
pub enum Token {
    /// A number, with its unit if it has one.
    Number(Exact, Option<Unit>),
    /// A name or a word of the notation.
    Word(String),
    /// What stands between brackets.
    Bracket(String),
    /// A sign in its one spelling: `+ - * / ^ ( ) = < > ≤ ≥ ± … ² ³`.
    Sign(char),
}

/// Signs in every spelling, the longer first, with their one spelling.
const SIGNS: [(&str, char); 23] = [
    ("+/-", '±'),
    ("<=", '≤'),
    (">=", '≥'),
    ("..", '…'),
    ("+", '+'),
    ("-", '-'),
    ("−", '-'),
    ("*", '*'),
    ("×", '*'),
    ("·", '*'),
    ("/", '/'),
    ("÷", '/'),
    ("^", '^'),
    ("(", '('),
    (")", ')'),
    ("=", '='),
    ("<", '<'),
    (">", '>'),
    ("≤", '≤'),
    ("≥", '≥'),
    ("±", '±'),
    ("²", '²'),
    ("³", '³'),
];

/// The tokens of a formula.
pub fn tokens(text: &str) -> Result<Vec<(Token, Range<usize>)>, Problem> {
    if text.len() > LONGEST {
        let message = format!("the formula is longer than {LONGEST} bytes");
        return Err(Problem::new(0..text.len(), message, "split it into several relations"));
    }
    let mut all = Vec::new();
    let mut at = 0;
    while let Some(first) = text.get(at..).and_then(|rest| rest.chars().next()) {
        if first.is_whitespace() {
            at += first.len_utf8();
            continue;
        }
        let (token, end) = token(text, at, first)?;
        all.push((token, at..end));
        at = end;
    }
    Ok(all)
}

/// The token that begins at a byte, and where it ends.
fn token(text: &str, at: usize, first: char) -> Result<(Token, usize), Problem> {
    let rest = text.get(at..).unwrap_or_default();
    if first.is_ascii_digit() {
        return number(text, at);
    }
    if let Some(letters) = word_length(rest) {
        return Ok((Token::Word(rest.get(..letters).unwrap_or_default().to_owned()), at + letters));
    }
    if let Some(inner) = rest.strip_prefix('[') {
        let Some(length) = inner.find(']') else {
            return Err(Problem::new(at..text.len(), "a bracket is not closed", "close it with `]`"));
        };
        return Ok((Token::Bracket(inner.get(..length).unwrap_or_default().to_owned()), at + length + 2));
    }
    let sign = SIGNS.iter().find(|(typed, _)| rest.starts_with(typed));
    if let Some((typed, sign)) = sign {
        return Ok((Token::Sign(*sign), at + typed.len()));
    }
    let help = "a formula is made of names, numbers with their units, + - * / ^ ( ) and a comparison";
    Err(Problem::new(at..at + first.len_utf8(), format!("`{first}` means nothing in a formula"), help))
}

/// Bytes of the name or word that begins a text: `ring.end-gap.wear_limit`, `in`, `π`.
fn word_length(rest: &str) -> Option<usize> {
    if rest.starts_with('π') {
        return Some('π'.len_utf8());
    }
    rest.starts_with(|c: char| c.is_ascii_alphabetic()).then_some(())?;
    let mut end = 0;
    let mut letters = rest.char_indices().peekable();
    while let Some((at, letter)) = letters.next() {
        let joins = matches!(letter, '.' | '-')
            && letters.peek().is_some_and(|(_, next)| next.is_ascii_alphanumeric());
        if !(letter.is_ascii_alphanumeric() || letter == '_' || joins) {
            break;
        }
        end = at + letter.len_utf8();
    }
    Some(end)
}

/// A number and the unit that follows it. `in` is the comparison, never inches.
fn number(text: &str, at: usize) -> Result<(Token, usize), Problem> {
    let rest = text.get(at..).unwrap_or_default();
    let digits =
        |from: usize| rest.get(from..).unwrap_or_default().bytes().take_while(u8::is_ascii_digit).count();
    let whole = digits(0);
    let point = rest.get(whole..).is_some_and(|after| after.starts_with('.') && !after.starts_with(".."));
    let length = if point { whole + 1 + digits(whole + 1) } else { whole };
    let typed = rest.get(..length).unwrap_or_default();
    let read =
        Number::parse(typed).map_err(|error| Problem::new(at..at + length, error.message(), error.help()))?;
    let value = read.exact().clone();
    let after = rest.get(length..).unwrap_or_default();
    let gap = after.len() - after.trim_start_matches(' ').len();
    let start = at + length + gap;
    match unit(text.get(start..).unwrap_or_default()) {
        Ok(Some((unit, size))) => Ok((Token::Number(value, Some(unit)), start + size)),
        Ok(None) => Ok((Token::Number(value, None), at + length)),
        Err((error, size)) => {
            let found = text.get(start..start + size).unwrap_or_default();
            Err(Problem::new(start..start + size, error.message(found), error.help()))
        }
    }
}

/// The unit that begins a text and its bytes; none where no unit follows.
fn unit(rest: &str) -> Result<Option<(Unit, usize)>, (UnitError, usize)> {
    let ends = |c: char| c.is_whitespace() || "()[]<>=≤≥±+*^,;".contains(c);
    let word = rest.find(ends).unwrap_or(rest.len());
    let typed = rest.get(..word).unwrap_or_default();
    if ["in", "or", "is", "within", "and"].contains(&typed) || !typed.starts_with(begins_unit) {
        return Ok(None);
    }
    let next = rest.get(word..).unwrap_or_default().trim_start_matches(' ');
    let second = next.find(ends).unwrap_or(next.len());
    let two = rest.len() - next.len() + second;
    if let Some(unit) = rest.get(..two).and_then(|typed| Unit::parse(typed).ok()) {
        return Ok(Some((unit, two)));
    }
    // `1 Hz/x` or `1 Hz..`: the longest beginning that is a unit.
    let cuts = typed.char_indices().map(|(at, _)| at).skip(1).chain([typed.len()]).collect::<Vec<_>>();
    for end in cuts.into_iter().rev() {
        let follows = typed.get(end..).and_then(|after| after.chars().next());
        let unit = typed.get(..end).and_then(|typed| Unit::parse(typed).ok());
        if let Some(unit) = unit.filter(|_| !follows.is_some_and(char::is_alphanumeric)) {
            return Ok(Some((unit, end)));
        }
    }
    Err((Unit::parse(typed).err().unwrap_or(UnitError::Unknown { near: None }), word))
}

fn begins_unit(letter: char) -> bool {
    letter.is_alphabetic() && letter != 'π' || "°%:Ωµμ".contains(letter)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> String {
        let shown = |(token, _): (Token, Range<usize>)| match token {
            Token::Number(value, unit) => {
                format!("#{value}{}", unit.map_or_else(String::new, |unit| format!("_{unit}")))
            }
            Token::Word(word) => word,
            Token::Bracket(inner) => format!("[{inner}]"),
            Token::Sign(sign) => sign.to_string(),
        };
        tokens(text).map_or_else(
            |problem| problem.message,
            |all| all.into_iter().map(shown).collect::<Vec<_>>().join(" "),
        )
    }

    #[test]
    fn names_keep_their_points_and_hyphens() {
        assert_eq!(
            read("ring.end-gap.wear_limit[not oil] / bore in 0.002..0.013"),
            "ring.end-gap.wear_limit [not oil] / bore in #1/500 … #13/1000"
        );
        assert_eq!(read("a.b - c-d"), "a.b - c-d");
    }

    #[test]
    fn a_unit_belongs_to_its_number() {
        assert_eq!(read("pump.flow / 1 mL/min >= 7 * 1.3"), "pump.flow / #1_mL/min ≥ #7 * #13/10");
        assert_eq!(read("battery.cca > 5 A CCA"), "battery.cca > #5_A CCA");
        assert_eq!(read("2 in 94..99.5 %"), "#2 in #94 … #199/2_%");
        assert_eq!(read("x / 1 Hz*2 ± 4 %"), "x / #1_Hz * #2 ± #4_%");
    }

    #[test]
    fn what_is_no_token_is_named() {
        assert_eq!(read("a & b"), "`&` means nothing in a formula");
        assert_eq!(read("a < 5 furlongs"), "unknown unit `furlongs`");
        assert_eq!(read("a[x < 1"), "a bracket is not closed");
        assert_eq!(read(&"a".repeat(600)), "the formula is longer than 500 bytes");
    }
}
