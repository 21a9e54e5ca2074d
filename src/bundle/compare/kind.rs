//! The kinds of change and the step each asks for, the gravest first.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How far a reader of bundles must take notice, as in semantic versioning.
#[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, Ord, PartialEq, PartialOrd, Serialize)]
#[serde(rename_all = "kebab-case")]
#[schemars(inline)]
pub enum Step {
    /// What was right to do may be wrong now.
    Major,
    /// There is more, or it is known better.
    Minor,
    /// The same values, told otherwise.
    Patch,
}

macro_rules! kinds {
    ($($variant:ident $word:literal $step:ident $doc:literal)*) => {
        /// What sort of change.
        #[derive(Clone, Copy, Debug, Deserialize, Eq, JsonSchema, Ord, PartialEq, PartialOrd, Serialize)]
        #[serde(rename_all = "kebab-case")]
        #[schemars(inline)]
        pub enum ChangeKind {
            $(#[doc = $doc] $variant,)*
        }

        impl ChangeKind {
            /// Every kind, the gravest first.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// The word that JSON and sheets use.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)* }
            }

            /// The step it asks for.
            pub const fn step(self) -> Step {
                match self { $(Self::$variant => Step::$step,)* }
            }

            /// What it means, in one sentence.
            pub const fn meaning(self) -> &'static str {
                match self { $(Self::$variant => $doc,)* }
            }
        }
    };
}

kinds! {
    Tightened "tightened" Major "What was within the limits may be out of them now."
    Shifted "shifted" Major "The limits moved: part of what was within them is out now, and the other way round."
    Loosened "loosened" Major "What was out of the limits may be within them now."
    LimitAdded "limit-added" Major "There is a limit where there was none."
    LimitRemoved "limit-removed" Major "A limit is gone."
    Setting "setting" Major "A value to apply, an interval, a chosen part or a pin is another."
    Direction "direction" Major "It turns the other way, or is seen from elsewhere."
    Stages "stages" Major "The steps of tightening, or their order over the bolts, are others."
    Points "points" Major "A table reads otherwise."
    Condition "condition" Major "The state, fastener, gauge or serial numbers that a value holds for are others."
    Withdrawn "withdrawn" Major "It is no longer stated."
    HazardLowered "hazard-lowered" Major "A caution is gone, or says less."
    Added "added" Minor "It is stated for the first time."
    HazardRaised "hazard-raised" Minor "There is a caution where there was none, or it says more."
    Unconfirmed "unconfirmed" Minor "No second reading confirms it any more."
    Confirmed "confirmed" Minor "A second reading confirms it now."
    IdMoved "id-moved" Minor "It goes by another id, or by several."
    Absence "absence" Minor "That there is no value, or why, is said otherwise."
    UnitsOnly "units-only" Patch "The same exact limits, printed in other units."
    DigitsOnly "digits-only" Patch "The same exact limits, printed with other digits."
    SourceOnly "source-only" Patch "The same value, read elsewhere or by someone else."
    Text "text" Patch "Words changed, no value did."
}

impl ChangeKind {
    /// True for the kinds that `--refuse limits` refuses: every major one but those that only take away.
    pub const fn is_of_limits(self) -> bool {
        matches!(self.step(), Step::Major) && !matches!(self, Self::Withdrawn | Self::HazardLowered)
    }
}

impl Step {
    /// The word that JSON and sheets use.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Major => "major",
            Self::Minor => "minor",
            Self::Patch => "patch",
        }
    }
}
