//! One row of the table of units, and the small words the table is written in.

use super::super::Kind;

/// A unit, its exact size and its names. A number `x` in it is `x · numerator / denominator +
/// offset` in the SI unit of its kind.
#[derive(Debug)]
pub(super) struct Row {
    pub(super) symbol: &'static str,
    pub(super) spoken: &'static str,
    pub(super) kind: Kind,
    pub(super) factor: (u64, u64),
    pub(super) offset: (i64, i64),
    pub(super) ucum: Option<&'static str>,
    pub(super) unece: Option<&'static str>,
    pub(super) beside: Option<&'static str>,
    pub(super) spellings: &'static [&'static str],
}

/// A unit of `kind`: its symbol, its name in full, its size in the SI unit of the kind.
pub(super) const fn unit(
    kind: Kind,
    symbol: &'static str,
    spoken: &'static str,
    numerator: u64,
    denominator: u64,
) -> Row {
    Row {
        symbol,
        spoken,
        kind,
        factor: (numerator, denominator),
        offset: (0, 1),
        ucum: None,
        unece: None,
        beside: None,
        spellings: &[],
    }
}

impl Row {
    /// Adds its UCUM code.
    pub(super) const fn ucum(mut self, code: &'static str) -> Self {
        self.ucum = Some(code);
        self
    }

    /// Adds its code in UNECE Recommendation 20.
    pub(super) const fn unece(mut self, code: &'static str) -> Self {
        self.unece = Some(code);
        self
    }

    /// Names the unit a shop wants to see beside it, by its symbol.
    pub(super) const fn beside(mut self, symbol: &'static str) -> Self {
        self.beside = Some(symbol);
        self
    }

    /// Adds other spellings, in the normal form of `spelling.rs`.
    pub(super) const fn also(mut self, spellings: &'static [&'static str]) -> Self {
        self.spellings = spellings;
        self
    }

    /// Puts the zero of its scale at `numerator / denominator` of the SI unit.
    pub(super) const fn zero_at(mut self, numerator: i64, denominator: i64) -> Self {
        self.offset = (numerator, denominator);
        self
    }
}
