//! Units: one static table, each row the exact size of a unit and every name it goes by.
//!
//! Invariant: a conversion is one exact rational factor (and, for temperatures, an offset); no
//! unit of one kind ever converts into a unit of another.

#[cfg(test)]
mod browser;
mod row;
mod spelling;
mod table;

use std::fmt;
use std::hash::{Hash, Hasher};

use num_bigint::BigInt;

use super::{Exact, Kind};
use row::Row;
use spelling::Meaning;

/// The longest text taken for a unit, in bytes.
const LONGEST: usize = 80;

/// A handle to one unit of the table.
#[derive(Clone, Copy)]
pub struct Unit(&'static Row);

/// Why a text is no unit.
#[derive(Clone, Debug, Eq, PartialEq)]
pub enum UnitError {
    /// No unit goes by this name.
    Unknown {
        /// The unit that is probably meant, if one is close.
        near: Option<Unit>,
    },
    /// The name could mean more than one thing.
    Ambiguous {
        /// How to write each of them, and what it is.
        meanings: Vec<(&'static str, &'static str)>,
    },
}

impl Unit {
    /// Reads a unit in any accepted spelling.
    ///
    /// # Errors
    /// [`UnitError`] where the text names no unit, or could name several.
    pub fn parse(text: &str) -> Result<Self, UnitError> {
        if text.len() > LONGEST {
            return Err(UnitError::Unknown { near: None });
        }
        match spelling::look_up(text) {
            Some(Meaning::One(row)) => Ok(Self(row)),
            Some(Meaning::Several(meanings)) => Err(UnitError::Ambiguous { meanings: meanings.to_vec() }),
            None => Err(UnitError::Unknown { near: spelling::nearest(text).map(Self) }),
        }
    }

    /// Reads a unit as [`Unit::parse`] does, but looks for nothing similar.
    pub(super) fn known(text: &str) -> Option<Self> {
        match spelling::look_up(text) {
            Some(Meaning::One(row)) => Some(Self(row)),
            _ => None,
        }
    }

    /// Every unit, by field of use; within a kind the commoner first.
    pub fn all() -> impl Iterator<Item = Self> {
        table::rows().map(Self)
    }

    /// Every unit of `kind`, the commoner first.
    pub fn of(kind: Kind) -> impl Iterator<Item = Self> {
        Self::all().filter(move |unit| unit.kind() == kind)
    }

    /// How it is written, such as `lbf·ft`.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        self.0.symbol
    }

    /// Its name in full, in the plural, such as `pound-feet`.
    #[must_use]
    pub const fn spoken(self) -> &'static str {
        self.0.spoken
    }

    /// What it measures.
    #[must_use]
    pub const fn kind(self) -> Kind {
        self.0.kind
    }

    /// Its code in the Unified Code for Units of Measure; a test condition stands in braces.
    #[must_use]
    pub const fn ucum(self) -> Option<&'static str> {
        self.0.ucum
    }

    /// Its code in UNECE Recommendation 20; `None` where the list has none for it.
    #[must_use]
    pub const fn unece(self) -> Option<&'static str> {
        self.0.unece
    }

    /// The unit a shop wants to see beside it: N·m for lbf·ft, inches for millimetres.
    #[must_use]
    pub fn counterpart(self) -> Option<Self> {
        self.0.beside.and_then(|symbol| Self::parse(symbol).ok())
    }

    /// Its size in the SI unit of its kind: the factor of a difference, without any offset.
    #[must_use]
    pub fn factor(self) -> Exact {
        let (numerator, denominator) = self.0.factor;
        Exact::new_raw(numerator.into(), denominator.into()) // A test holds that it is in lowest terms.
    }

    /// How many of `other` one of this unit is, as a difference, without any offset.
    #[must_use]
    pub fn ratio_to(self, other: Self) -> Exact {
        self.factor() / other.factor()
    }

    /// `value` of this unit in the SI unit of its kind, see [`Kind::si_symbol`].
    #[must_use]
    pub fn to_si(self, value: &Exact) -> Exact {
        value * self.factor() + self.offset()
    }

    /// `value` of the SI unit of its kind in this unit.
    #[must_use]
    pub fn from_si(self, value: &Exact) -> Exact {
        (value - self.offset()) / self.factor()
    }

    /// Whether a value in this unit can be given in `other`: the same kind, and for counts the
    /// same things.
    #[must_use]
    pub fn converts_to(self, other: Self) -> bool {
        self == other || (self.kind() == other.kind() && self.kind() != Kind::Count)
    }

    /// `number` followed by this unit as we write it: `20 N·m`, `90°`, `9.5:1`.
    #[must_use]
    pub fn after(self, number: &str) -> String {
        let space = if self.is_close() { "" } else { " " };
        format!("{number}{space}{}", self.symbol())
    }

    /// Whether it stands close to its number, without a space.
    #[must_use]
    pub fn is_close(self) -> bool {
        matches!(self.symbol(), "°" | ":1")
    }

    fn offset(self) -> Exact {
        let (numerator, denominator) = self.0.offset;
        Exact::new_raw(BigInt::from(numerator), BigInt::from(denominator))
    }
}

impl UnitError {
    /// What is wrong with `found`, for a person.
    #[must_use]
    pub fn message(&self, found: &str) -> String {
        match self {
            Self::Unknown { .. } => format!("unknown unit `{found}`"),
            Self::Ambiguous { meanings } => {
                let names: Vec<_> = meanings.iter().map(|(_, meaning)| *meaning).collect();
                format!("`{found}` could mean {}", names.join(" or "))
            }
        }
    }

    /// How to write what is meant.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::Unknown { near: Some(unit) } => {
                format!("did you mean `{unit}` ({})?", unit.spoken())
            }
            Self::Unknown { near: None } => {
                "write a unit of the table, such as mm, N·m, kPa or °C".to_owned()
            }
            Self::Ambiguous { meanings } => {
                let ways: Vec<_> =
                    meanings.iter().map(|(write, meaning)| format!("`{write}` for {meaning}")).collect();
                format!("write {}", ways.join(", or "))
            }
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

impl fmt::Debug for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Unit({})", self.symbol())
    }
}

/// Symbols are unique in the table, so that two units are the same when theirs are.
impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.symbol() == other.symbol()
    }
}

impl Eq for Unit {}

impl Hash for Unit {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.symbol().hash(state);
    }
}

impl PartialOrd for Unit {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Unit {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        (self.kind(), self.symbol()).cmp(&(other.kind(), other.symbol()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_and_offsets_are_in_lowest_terms() {
        for unit in Unit::all() {
            for part in [unit.factor(), unit.offset()] {
                assert_eq!(part.reduced(), Exact::new(part.numer().clone(), part.denom().clone()), "{unit}");
                assert_eq!(part.reduced().denom(), part.denom(), "{unit}");
            }
        }
    }
}
