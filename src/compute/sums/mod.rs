//! The bench sums: what a shop reckons weekly, each with its formula, its source and its caution.
//!
//! A sum is data: inputs, formulas over them, answers, and what to say of them. The command line, the
//! handbook's sheet and the browser read the same table, so that what is shown as a formula is what is worked
//! out. Invariant: every formula of the table reads as one and names only what the sum has (a test holds it).

mod given;
mod table;
mod work;

use serde::Serialize;

use crate::model::SignalWord;
pub use table::{all, find, of_group};
pub use work::{Found, Outcome, SumError, work};

/// Which command a sum belongs to.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Group {
    /// Torque and threads.
    Torque,
    /// Screw adjusters.
    Screw,
    /// Sensors.
    Sensor,
    /// Batteries and what charges them.
    Battery,
    /// Compression and leak-down.
    Compression,
    /// The rest of the bench.
    Sums,
}

impl Group {
    /// Every group, in the order of the sheet.
    pub const ALL: [Self; 6] =
        [Self::Torque, Self::Screw, Self::Sensor, Self::Battery, Self::Compression, Self::Sums];

    /// The command, `baybook <word>`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Torque => "torque",
            Self::Screw => "screw",
            Self::Sensor => "sensor",
            Self::Battery => "battery",
            Self::Compression => "compression",
            Self::Sums => "sums",
        }
    }

    /// The heading on the sheet.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Torque => "Torque",
            Self::Screw => "Screw adjusters",
            Self::Sensor => "Sensors",
            Self::Battery => "Battery and charging",
            Self::Compression => "Compression and leak-down",
            Self::Sums => "Fuel, timing, drive, wear",
        }
    }
}

/// One sum.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Sum {
    /// Its id, the word of its command.
    pub id: &'static str,
    /// Which command it belongs to.
    pub group: Group,
    /// Its heading.
    pub title: &'static str,
    /// What else people call it, for the find.
    #[serde(skip)]
    pub aka: &'static [&'static str],
    /// What it answers, in a sentence.
    pub answers_what: &'static str,
    /// What is asked.
    pub inputs: &'static [Input],
    /// Tables that its formulas look things up in: name, and points in rising order of input.
    pub tables: &'static [(&'static str, &'static [(&'static str, &'static str)])],
    /// Names worked out on the way, in order: name and formula.
    pub steps: &'static [(&'static str, &'static str)],
    /// What must hold, and what to say where it does not.
    pub must: &'static [(&'static str, &'static str)],
    /// What comes out.
    pub answers: &'static [Answer],
    /// What to say, and when.
    pub notes: &'static [(&'static str, &'static str)],
    /// The formula as people write it.
    pub formula: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// What can hurt.
    pub cautions: &'static [(SignalWord, &'static str)],
}

/// One input of a sum.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Input {
    /// Its name in the formulas and on the command line.
    pub key: &'static str,
    /// What it is.
    pub title: &'static str,
    /// What is typed.
    #[serde(flatten)]
    pub sort: Sort,
    /// What stands if nothing is typed; without it the input is needed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unless: Option<&'static str>,
    /// What could be typed.
    pub example: &'static str,
}

/// What an input takes. A formula works in the unit that is named here, whatever unit was typed.
#[derive(Clone, Copy, Debug, Serialize)]
#[serde(tag = "sort", rename_all = "lowercase")]
pub enum Sort {
    /// One quantity.
    Quantity {
        /// The unit the formulas work in.
        unit: &'static str,
    },
    /// One quantity of whatever kind, in the unit that an input was typed in: of that input itself, in its own. The
    /// others may leave the unit to it.
    Alike {
        /// The input whose unit the formulas work in.
        of: &'static str,
    },
    /// A list of quantities.
    Quantities {
        /// The unit the formulas work in.
        unit: &'static str,
    },
    /// Points, as `20 °C = 2.45 kΩ`.
    Points {
        /// The unit of the input of a point.
        at: &'static str,
        /// The unit of what is read there.
        unit: &'static str,
    },
    /// A number without a unit.
    Number,
    /// One of some words; in formulas each stands for its place.
    Word {
        /// The words.
        words: &'static [&'static str],
    },
}

/// One answer of a sum.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Answer {
    /// Its name.
    pub key: &'static str,
    /// What it is.
    pub title: &'static str,
    /// How it is worked out.
    pub formula: &'static str,
    /// The unit the formula comes out in; empty for a plain number.
    pub unit: &'static str,
    /// The input whose typed unit it is given in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub like: Option<&'static str>,
    /// The list over each member of which, as `one`, it is worked out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub each: Option<&'static str>,
    /// When it is given at all.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub when: Option<&'static str>,
    /// Digits it is shown with.
    pub digits: u32,
    /// What it means, and when: the first that holds is said.
    pub words: &'static [(&'static str, &'static str)],
}

/// A sum of which nothing is said yet.
const BLANK: Sum = Sum {
    id: "",
    group: Group::Sums,
    title: "",
    aka: &[],
    answers_what: "",
    inputs: &[],
    tables: &[],
    steps: &[],
    must: &[],
    answers: &[],
    notes: &[],
    formula: "",
    source: PRACTICE,
    cautions: &[],
};

/// What stands for a source where there is none.
pub const PRACTICE: &str = "common practice, no source";

/// One quantity that must be typed.
const fn one(key: &'static str, title: &'static str, unit: &'static str, example: &'static str) -> Input {
    Input { key, title, sort: Sort::Quantity { unit }, unless: None, example }
}

/// One quantity of whatever kind, in the unit of an input.
const fn alike(key: &'static str, title: &'static str, of: &'static str, example: &'static str) -> Input {
    Input { key, title, sort: Sort::Alike { of }, unless: None, example }
}

/// A list of quantities that must be typed.
const fn many(key: &'static str, title: &'static str, unit: &'static str, example: &'static str) -> Input {
    Input { key, title, sort: Sort::Quantities { unit }, unless: None, example }
}

/// A number without a unit.
const fn number(key: &'static str, title: &'static str, example: &'static str) -> Input {
    Input { key, title, sort: Sort::Number, unless: None, example }
}

/// One of some words.
const fn word(
    key: &'static str,
    title: &'static str,
    words: &'static [&'static str],
    example: &'static str,
) -> Input {
    Input { key, title, sort: Sort::Word { words }, unless: None, example }
}

impl Input {
    /// What it is, with a capital letter: the label of its field.
    pub fn heading(&self) -> String {
        let mut letters = self.title.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }

    /// The same, with what stands if nothing is typed; empty for nothing.
    const fn or(self, unless: &'static str) -> Self {
        Self { unless: Some(unless), ..self }
    }
}

/// An answer in a unit, with so many digits.
const fn answer(
    key: &'static str,
    title: &'static str,
    formula: &'static str,
    unit: &'static str,
    digits: u32,
) -> Answer {
    Answer { key, title, formula, unit, like: None, each: None, when: None, digits, words: &[] }
}

impl Answer {
    /// The same, in the unit that an input was typed in.
    const fn like(self, input: &'static str) -> Self {
        Self { like: Some(input), ..self }
    }

    /// The same, for each member of a list, which the formula calls `one`.
    const fn each(self, list: &'static str) -> Self {
        Self { each: Some(list), ..self }
    }

    /// The same, where a condition holds.
    const fn when(self, condition: &'static str) -> Self {
        Self { when: Some(condition), ..self }
    }

    /// The same, with what it means.
    const fn words(self, words: &'static [(&'static str, &'static str)]) -> Self {
        Self { words, ..self }
    }
}
