//! Which row of serial ranges a serial number falls in.
//!
//! A number is never guessed into a row: what only looks like a named range is answered as unsure.
//! The handbook's script answers alike; `tests/vectors/serial.json` tests both.

use super::SerialRange;

/// The row of a serial number, or why none is answered.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum SerialRow {
    /// The row, counted from 0.
    Found(usize),
    /// It begins like a named range without being one of its numbers, or is not written out.
    Unsure,
    /// No row has it.
    NotFound,
}

impl SerialRange {
    /// True if the range names the serial number: a span by prefix and running number, leading zeros
    /// aside; [`SerialRange::All`] always; [`SerialRange::Rest`] never, for it depends on the others.
    pub fn contains(&self, serial: &str) -> bool {
        match self {
            Self::All => true,
            Self::Rest => false,
            Self::Span { prefix, from, to } => running(prefix, serial).is_some_and(|number| {
                from.is_none_or(|from| number >= u128::from(from))
                    && to.is_none_or(|to| number <= u128::from(to))
            }),
        }
    }

    /// True if a serial number begins like this span without being written as one of its numbers.
    fn looks_like(&self, serial: &str) -> bool {
        let Self::Span { prefix, .. } = self else { return false };
        let (head, typed) = (folded(prefix), folded(serial));
        !head.is_empty()
            && running(prefix, serial).is_none()
            && (typed.starts_with(&head) || head.starts_with(&typed))
    }
}

/// The first span that names a serial number, else the row for all others.
pub fn row_of(ranges: &[SerialRange], serial: &str) -> SerialRow {
    if folded(serial).is_empty() {
        return SerialRow::NotFound;
    }
    let is_span = |range: &SerialRange| matches!(range, SerialRange::Span { .. });
    if let Some(at) = ranges.iter().position(|range| is_span(range) && range.contains(serial)) {
        return SerialRow::Found(at);
    }
    if ranges.iter().any(|range| range.looks_like(serial)) {
        return SerialRow::Unsure;
    }
    ranges.iter().position(|range| !is_span(range)).map_or(SerialRow::NotFound, SerialRow::Found)
}

/// The running number behind a prefix, if nothing else stands there; one too long to count is the
/// largest there is.
fn running(prefix: &str, serial: &str) -> Option<u128> {
    let whole = normal(serial);
    let digits = whole.strip_prefix(&normal(prefix))?;
    let counts = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    counts.then(|| digits.trim_start_matches('0')).map(|digits| match digits {
        "" => 0,
        digits => digits.parse().unwrap_or(u128::MAX),
    })
}

/// Capitals, one sort of dash, no spaces.
fn normal(text: &str) -> String {
    let kept = text.chars().filter(|c| !matches!(c, ' ' | '\t' | '\r' | '\n' | '\u{a0}'));
    kept.map(|c| if matches!(c, '\u{2010}'..='\u{2015}' | '\u{2212}') { '-' } else { c.to_ascii_uppercase() })
        .collect()
}

fn folded(text: &str) -> String {
    normal(text).replace('-', "")
}
