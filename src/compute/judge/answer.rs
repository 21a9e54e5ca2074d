//! What is said of a reading: the object that the command, the bundle's readers and the sheets share.

use serde::ser::SerializeMap as _;
use serde::{Serialize, Serializer};

use super::{Against, Measured};
use crate::quantity::{Exact, Unit, Value, exact_text};

/// The verdict on a reading.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Verdict {
    /// Wholly within the limits.
    InSpec,
    /// Wholly outside.
    OutOfSpec,
    /// It may lie on either side of a limit.
    TooClose,
    /// The reading says nothing about the limits.
    CannotJudge,
}

impl Verdict {
    /// The verdict in words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::InSpec => "in spec",
            Self::OutOfSpec => "out of spec",
            Self::TooClose => "too close to call",
            Self::CannotJudge => "cannot judge",
        }
    }
}

impl Against {
    /// The key of these limits in a spec base.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Window => "window",
            Self::New => "new",
            Self::WearLimit => "wear_limit",
        }
    }
}

/// A distance that is known to lie between two ends, in a unit; an open end is none.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Beyond {
    /// At least so much.
    pub min: Option<Exact>,
    /// At most so much.
    pub max: Option<Exact>,
    /// The unit of both.
    pub unit: Unit,
}

/// What is said of a reading; as JSON, the answer of `judge`.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Answer {
    /// The verdict, the gauge's limit of error allowed for.
    pub verdict: Verdict,
    /// The verdict on the number alone, or on the leaf that goes.
    pub as_read: Verdict,
    /// The trade's word for the side it lies on, or may lie on; none in spec, or on both sides.
    pub direction: Option<String>,
    /// How far beyond the limit, where it is out of spec.
    pub by: Option<Beyond>,
    /// Which limits decided.
    pub against: Against,
    /// How far from the end of use, for a part that may stay in use.
    pub left: Option<Beyond>,
    /// What would settle a close call.
    pub settle: Option<String>,
    /// Why nothing can be judged, or what the verdict does not say.
    pub because: Option<String>,
}

/// An answer with what it was made from.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Judged {
    /// The answer.
    pub answer: Answer,
    /// The printed form that decided.
    pub limit: Value,
    /// The reading as taken.
    pub seen: Measured,
    /// The one side of the limits that it reaches beyond, whatever the trade calls it.
    pub beyond: Option<Side>,
}

/// A side of the limits.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Side {
    /// Below the lower one.
    Below,
    /// Above the upper one.
    Above,
}

impl Answer {
    /// Nothing can be judged, and why.
    pub(super) const fn cannot(against: Against, because: String) -> Self {
        Self {
            verdict: Verdict::CannotJudge,
            as_read: Verdict::CannotJudge,
            direction: None,
            by: None,
            against,
            left: None,
            settle: None,
            because: Some(because),
        }
    }
}

impl Serialize for Answer {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(8))?;
        map.serialize_entry("verdict", self.verdict.word())?;
        map.serialize_entry("as_read", self.as_read.word())?;
        map.serialize_entry("direction", &self.direction)?;
        map.serialize_entry("by", &self.by)?;
        map.serialize_entry("against", self.against.word())?;
        map.serialize_entry("left", &self.left)?;
        map.serialize_entry("settle", &self.settle)?;
        map.serialize_entry("because", &self.because)?;
        map.end()
    }
}

impl Serialize for Beyond {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(3))?;
        map.serialize_entry("min", &self.min.as_ref().map(exact_text))?;
        map.serialize_entry("max", &self.max.as_ref().map(exact_text))?;
        map.serialize_entry("unit", self.unit.symbol())?;
        map.end()
    }
}
