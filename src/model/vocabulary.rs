//! Words that are the same in a file and in the model: each a closed set.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The forms a statement can take, by the key that holds its value.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, Ord, PartialEq, PartialOrd)]
#[serde(rename_all = "snake_case")]
#[schemars(inline)]
pub enum FormName {
    /// Limits to set to or accept within.
    Window,
    /// The fit of new parts.
    New,
    /// The end of use.
    WearLimit,
    /// A value to apply.
    Setting,
    /// A value applied in steps.
    Stages,
    /// A table of points.
    Points,
    /// A direction of rotation.
    Direction,
    /// A service interval.
    Interval,
    /// A part chosen by one or two inputs.
    Selection,
    /// The cavities of a connector.
    Pins,
    /// Words.
    Text,
}

impl FormName {
    /// The key that holds such a value in a file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Window => "window",
            Self::New => "new",
            Self::WearLimit => "wear_limit",
            Self::Setting => "setting",
            Self::Stages => "stages",
            Self::Points => "points",
            Self::Direction => "direction",
            Self::Interval => "interval",
            Self::Selection => "selection",
            Self::Pins => "pins",
            Self::Text => "text",
        }
    }
}

/// A direction of rotation.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum Direction {
    /// As the hands of a clock go.
    Clockwise,
    /// Against the hands of a clock.
    CounterClockwise,
}

/// Why a statement has no value.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum Absence {
    /// The maker gives none: needs a source.
    NotGiven,
    /// The engine has no such thing.
    NotApplicable,
    /// Nobody has read it yet.
    NotRead,
}

/// What became of a retired id.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum Fate {
    /// Another id took its place.
    Moved,
    /// Several ids took its place.
    Split,
    /// Nothing took its place: it was wrong or is no longer kept.
    Withdrawn,
}

/// Hand of a thread.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum Hand {
    /// Tightens clockwise.
    Right,
    /// Tightens counter-clockwise.
    Left,
}

/// Whether a fastener may be used again.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum Reuse {
    /// New every time.
    Never,
    /// If it passes a check that the manual names.
    IfGood,
    /// As it is.
    Yes,
}

/// State of the engine a procedure is done in.
#[derive(Clone, Copy, Debug, Default, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum ProcedureState {
    /// Cold.
    Cold,
    /// Hot.
    Hot,
    /// Either.
    #[default]
    Any,
}

/// A state of the engine that a check takes away.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum VoidedState {
    /// The engine is started, or cranked long enough to warm it.
    Cold,
}

/// Beyond which of its limits a machine must not be run.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum StopSide {
    /// Below the lower one.
    Below,
    /// Above the upper one.
    Above,
    /// Beyond either.
    Either,
}

impl StopSide {
    /// Its word, as in a file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Below => "below",
            Self::Above => "above",
            Self::Either => "either",
        }
    }

    /// The side of a word.
    pub fn parse(word: &str) -> Option<Self> {
        [Self::Below, Self::Above, Self::Either].into_iter().find(|one| one.word() == word)
    }
}

/// What sort of source it is.
#[derive(Clone, Copy, Debug, Default, Deserialize, Eq, JsonSchema, PartialEq)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum SourceClass {
    /// A workshop manual, owner's manual or parts list.
    #[default]
    Manual,
    /// A service bulletin.
    Bulletin,
    /// A bulletin that says not to run the machine.
    Stop,
}

/// Signal words of ANSI Z535.6, the gravest first.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, Ord, PartialEq, PartialOrd, Serialize)]
#[serde(rename_all = "UPPERCASE")]
#[schemars(inline)]
pub enum SignalWord {
    /// Will result in death or serious injury if not avoided.
    Danger,
    /// Could result in death or serious injury.
    Warning,
    /// Could result in minor or moderate injury.
    Caution,
    /// Damage to the machine, not to people.
    Notice,
}

impl Direction {
    /// The word that files and sheets use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Clockwise => "clockwise",
            Self::CounterClockwise => "counter-clockwise",
        }
    }
}

impl ProcedureState {
    /// The word that files use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Cold => "cold",
            Self::Hot => "hot",
            Self::Any => "any",
        }
    }
}

impl Absence {
    /// The word that files use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::NotGiven => "not-given",
            Self::NotApplicable => "not-applicable",
            Self::NotRead => "not-read",
        }
    }
}

impl Fate {
    /// The word that files use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Moved => "moved",
            Self::Split => "split",
            Self::Withdrawn => "withdrawn",
        }
    }
}

impl Hand {
    /// The word that files use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Left => "left",
        }
    }
}

impl Reuse {
    /// The word that files use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Never => "never",
            Self::IfGood => "if-good",
            Self::Yes => "yes",
        }
    }
}

impl SignalWord {
    /// The word that panels and files use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Danger => "DANGER",
            Self::Warning => "WARNING",
            Self::Caution => "CAUTION",
            Self::Notice => "NOTICE",
        }
    }

    /// The word in small letters, as style sheets have it.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Danger => "danger",
            Self::Warning => "warning",
            Self::Caution => "caution",
            Self::Notice => "notice",
        }
    }
}

impl SourceClass {
    /// The word that files use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Manual => "manual",
            Self::Bulletin => "bulletin",
            Self::Stop => "stop",
        }
    }
}
