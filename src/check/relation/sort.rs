//! What sort of quantity a part of a formula is: its dimensions, and its kind as long as that is known.
//!
//! A name or a quantity has the kind of its unit. Sums and comparisons keep kinds apart even where dimensions agree
//! (gauge and absolute pressure); a product has dimensions only.

use super::tree::Operator;
use crate::quantity::Kind;

/// Exponents of length, mass, time, current, temperature, angle, rotation, calendar time and turns.
type Dimensions = [i8; 9];

/// The sort of a part of a formula.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Sort {
    dimensions: Dimensions,
    kind: Option<Kind>,
    /// A number typed without a unit.
    bare: bool,
}

impl Sort {
    /// A number without a unit.
    pub const NUMBER: Self = Self { dimensions: [0; 9], kind: None, bare: true };

    /// A number worked out from others.
    pub const SHARE: Self = Self { dimensions: [0; 9], kind: None, bare: false };

    /// The sort of a quantity of a kind.
    pub const fn of(kind: Kind) -> Self {
        Self { dimensions: dimensions(kind), kind: Some(kind), bare: false }
    }

    /// True for a number, a ratio, a percentage or a count.
    pub fn is_number(self) -> bool {
        self.dimensions == [0; 9]
    }

    /// True for an angle.
    pub fn is_angle(self) -> bool {
        self.dimensions == dimensions(Kind::Angle)
    }

    /// True if the two have the same dimensions.
    pub fn measures_like(self, other: Self) -> bool {
        self.dimensions == other.dimensions
    }

    /// Whether the two may be compared; kinds must be one where both are known.
    pub fn compares_with(self, other: Self) -> bool {
        let kinds = match (self.kind, other.kind) {
            (Some(one), Some(other)) => one == other,
            (Some(Kind::Percent), None) => !other.bare,
            (None, Some(Kind::Percent)) => !self.bare,
            _ => true,
        };
        kinds && self.dimensions == other.dimensions
    }

    /// The sort of two joined parts; none where they cannot be joined.
    pub fn joined(self, operator: Operator, other: Self) -> Option<Self> {
        match operator {
            Operator::Plus => self.sum(other),
            Operator::Minus => self.difference(other),
            Operator::Times => Some(self.combined(other, 1)),
            Operator::Over => Some(self.combined(other, -1)),
        }
    }

    /// The sort of a part multiplied by itself.
    pub fn power(self, exponent: u8) -> Self {
        (1..exponent).fold(self, |power, _| power.combined(self, 1))
    }

    fn sum(self, other: Self) -> Option<Self> {
        match (self.kind, other.kind) {
            (Some(Kind::Temperature), Some(Kind::Temperature)) => None,
            (Some(Kind::Temperature), Some(Kind::TemperatureDifference) | None)
                if self.measures_like(other) =>
            {
                Some(self)
            }
            (Some(Kind::TemperatureDifference) | None, Some(Kind::Temperature))
                if self.measures_like(other) =>
            {
                Some(other)
            }
            _ => self.alike(other),
        }
    }

    fn difference(self, other: Self) -> Option<Self> {
        match (self.kind, other.kind) {
            (Some(Kind::Temperature), Some(Kind::Temperature)) => Some(Self::of(Kind::TemperatureDifference)),
            (Some(Kind::Temperature), Some(Kind::TemperatureDifference) | None)
                if self.measures_like(other) =>
            {
                Some(self)
            }
            _ => self.alike(other),
        }
    }

    fn alike(self, other: Self) -> Option<Self> {
        let kind = self.kind.or(other.kind);
        self.compares_with(other).then_some(Self { kind, bare: self.bare && other.bare, ..self })
    }

    /// Dimensions added, `sign` times those of the other; the kind is lost.
    fn combined(self, other: Self, sign: i8) -> Self {
        let mut dimensions = self.dimensions;
        for (one, more) in dimensions.iter_mut().zip(other.dimensions) {
            *one = one.saturating_add(more.saturating_mul(sign));
        }
        Self { dimensions, kind: None, bare: self.bare && other.bare }
    }

    /// What it is, for a person: `a pressure`.
    pub fn words(self) -> String {
        let known = self.kind.or_else(|| {
            Kind::all().iter().copied().find(|kind| Self::of(*kind).dimensions == self.dimensions)
        });
        match known {
            _ if self.is_number() && self.kind.is_none() => "a number".to_owned(),
            Some(kind) if kind.title().starts_with(['a', 'e', 'i', 'o', 'u']) => {
                format!("an {}", kind.title())
            }
            Some(kind) => format!("a {}", kind.title()),
            None => "a quantity without a name".to_owned(),
        }
    }
}

/// The dimensions of the SI unit of a kind (the Baybook one for angles, speeds of rotation and calendar times).
const fn dimensions(kind: Kind) -> Dimensions {
    match kind {
        Kind::Length => [1, 0, 0, 0, 0, 0, 0, 0, 0],
        Kind::Area => [2, 0, 0, 0, 0, 0, 0, 0, 0],
        Kind::Volume => [3, 0, 0, 0, 0, 0, 0, 0, 0],
        Kind::Mass => [0, 1, 0, 0, 0, 0, 0, 0, 0],
        Kind::Force => [1, 1, -2, 0, 0, 0, 0, 0, 0],
        Kind::Torque | Kind::Energy => [2, 1, -2, 0, 0, 0, 0, 0, 0],
        Kind::Power => [2, 1, -3, 0, 0, 0, 0, 0, 0],
        Kind::Pressure | Kind::AbsolutePressure => [-1, 1, -2, 0, 0, 0, 0, 0, 0],
        Kind::Temperature | Kind::TemperatureDifference => [0, 0, 0, 0, 1, 0, 0, 0, 0],
        Kind::Time => [0, 0, 1, 0, 0, 0, 0, 0, 0],
        Kind::CalendarTime => [0, 0, 0, 0, 0, 0, 0, 1, 0],
        Kind::Angle => [0, 0, 0, 0, 0, 1, 0, 0, 0],
        Kind::Turns => [0, 0, 0, 0, 0, 0, 0, 0, 1],
        Kind::RotationalSpeed => [0, 0, 0, 0, 0, 0, 1, 0, 0],
        Kind::Frequency => [0, 0, -1, 0, 0, 0, 0, 0, 0],
        Kind::Speed => [1, 0, -1, 0, 0, 0, 0, 0, 0],
        Kind::Voltage | Kind::AcVoltage | Kind::PeakVoltage => [2, 1, -3, -1, 0, 0, 0, 0, 0],
        Kind::Current | Kind::ColdCrankingCurrent | Kind::CrankingCurrent | Kind::MarineCrankingCurrent => {
            [0, 0, 0, 1, 0, 0, 0, 0, 0]
        }
        Kind::Resistance => [2, 1, -3, -2, 0, 0, 0, 0, 0],
        Kind::Capacitance => [-2, -1, 4, 2, 0, 0, 0, 0, 0],
        Kind::Charge => [0, 0, 1, 1, 0, 0, 0, 0, 0],
        Kind::Flow => [3, 0, -1, 0, 0, 0, 0, 0, 0],
        Kind::Ratio | Kind::Percent | Kind::SpecificGravity | Kind::Count => [0; 9],
        Kind::SpringRate => [0, 1, -2, 0, 0, 0, 0, 0, 0],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_of_one_dimension_stay_apart() {
        let sort = Sort::of;
        assert!(sort(Kind::Torque).joined(Operator::Plus, sort(Kind::Energy)).is_none());
        assert!(!sort(Kind::Pressure).compares_with(sort(Kind::AbsolutePressure)));
        assert!(!sort(Kind::Pressure).compares_with(sort(Kind::Length)));
        let current = sort(Kind::Power).joined(Operator::Over, sort(Kind::Voltage)).expect("a quotient");
        assert!(current.compares_with(sort(Kind::Current)));
        assert_eq!(current.words(), "a current");
    }

    #[test]
    fn temperatures_add_only_to_differences() {
        let (at, by) = (Sort::of(Kind::Temperature), Sort::of(Kind::TemperatureDifference));
        assert_eq!(at.joined(Operator::Minus, at), Some(by));
        assert_eq!(at.joined(Operator::Plus, by), Some(at));
        assert_eq!(at.joined(Operator::Plus, at), None);
    }

    #[test]
    fn a_bare_number_is_a_ratio_but_no_percentage() {
        assert!(Sort::NUMBER.compares_with(Sort::of(Kind::Ratio)));
        assert!(!Sort::NUMBER.compares_with(Sort::of(Kind::Percent)));
        let quotient =
            Sort::of(Kind::Length).joined(Operator::Over, Sort::of(Kind::Length)).expect("a quotient");
        assert!(quotient.compares_with(Sort::of(Kind::Percent)));
    }
}
