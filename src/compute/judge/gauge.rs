//! What a reading was taken with: its span, the sort of thing it shows, and how true it is.

use num_traits::Signed as _;

use super::super::Refusal;
use super::super::reading::{Reading, other_kind, value};
use crate::quantity::{Exact, Kind, Unit, Value, power_of_ten};

/// A gauge in the technician's hand.
#[derive(Clone, Debug)]
pub struct GaugeInHand {
    /// What the shop calls it.
    pub title: String,
    /// Kind of what it shows.
    pub sort: Kind,
    /// Span it measures over, ends included.
    pub span: Value,
    /// Its limit of error.
    pub error: Accuracy,
}

/// How far a reading may be off: expanded uncertainty, k = 2 (ISO 14253-1).
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Accuracy(Value);

impl Accuracy {
    /// A limit of error as a gauge states it, in a unit or in per cent of the reading.
    pub const fn new(value: Value) -> Self {
        Self(value)
    }

    /// Reads what was typed: `0.005 mm`, `± 0.005`, `1 %`; without a unit it is in `unit`.
    ///
    /// # Errors
    /// [`Refusal`] where the text is no quantity.
    pub fn read(text: &str, unit: Unit) -> Result<Self, Refusal> {
        let trimmed = text.trim();
        let bare = ["±", "+/-", "+-"].iter().find_map(|sign| trimmed.strip_prefix(sign)).unwrap_or(trimmed);
        Ok(Self(value(bare, unit)?.0))
    }

    /// How far `reading` may be off, in `unit`.
    pub(super) fn at(&self, reading: &Reading, unit: Unit) -> Result<Exact, Refusal> {
        let own = self.0.unit();
        let size = self.0.max().map(|limit| limit.exact).unwrap_or_default();
        if size.is_negative() {
            let help = "type how far the reading may be off either way";
            return Err(Refusal::new(format!("an accuracy of `{}` is less than nothing", self.0), help));
        }
        if own.kind() == Kind::Percent && unit.kind() != Kind::Percent {
            return Ok(reading.exact_in(unit).abs() * size * power_of_ten(-2));
        }
        let difference = own.kind() == Kind::TemperatureDifference && unit.kind() == Kind::Temperature;
        if difference || own.converts_to(unit) {
            return Ok(size * own.ratio_to(unit));
        }
        Err(other_kind(own, unit))
    }
}

impl GaugeInHand {
    /// Why it says nothing about limits in `unit`.
    pub(super) fn other_sort(&self, unit: Unit) -> Option<String> {
        let (shows, wanted) = (self.sort.title(), unit.kind().title());
        (self.sort != unit.kind()).then(|| format!("{} shows {shows}, and the limit is {wanted}", self.title))
    }

    /// Why a reading cannot have been taken with it.
    pub(super) fn off_span(&self, reading: &Reading) -> Option<String> {
        let value = reading.exact_in(self.span.unit());
        let below = self.span.min().is_some_and(|min| value < min.exact);
        let above = self.span.max().is_some_and(|max| value > max.exact);
        let off = below || above;
        off.then(|| format!("{} measures {}, and {} lies off it", self.title, self.span, reading.text))
    }
}
