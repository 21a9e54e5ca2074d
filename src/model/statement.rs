//! One value of one engine: what it says, for what place and condition, and where it was read.

use std::collections::BTreeMap;

use super::{Absence, Date, Direction, EntryId, Hand, Reuse, SourceId, VariantId};
use crate::quantity::{Exact, Value};
use crate::source::Span;

/// Named words: axes with their place, or states with their condition, in canonical spelling.
pub type Words = BTreeMap<String, String>;

/// What makes a statement the one it is.
#[derive(Clone, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub struct Identity {
    /// The entry.
    pub of: EntryId,
    /// The place; empty is everywhere.
    pub place: Words,
    /// The condition; empty is any.
    pub when: Words,
}

/// One statement of an engine or of a variant.
#[derive(Clone, Debug)]
pub struct Statement {
    /// Where it begins in its file: its `of`.
    pub span: Span,
    /// Entry, place and condition.
    pub identity: Identity,
    /// The value.
    pub form: Form,
    /// Where it was read, by whom.
    pub provenance: Provenance,
    /// The variant that makes it, if it is a bulletin's.
    pub variant: Option<VariantId>,
    /// The fastener a torque is for.
    pub fastener: Option<Fastener>,
    /// Bolt centres in millimetres, in tightening order.
    pub pattern: Vec<(Exact, Exact)>,
    /// What the manual prints wrongly.
    pub misprint: Option<Misprint>,
    /// What the technician should know.
    pub note: Option<String>,
    /// Where each word of place and condition is typed: its name, the span of the name, of the word.
    pub typed: Vec<(String, Span, Span)>,
    /// False if its value was not understood: the form then stands for nothing, and nothing is said of it.
    pub understood: bool,
    /// Whether a second reading confirms it.
    pub confirmation: Confirmation,
    /// What a second reader found there, if it is not the same.
    pub second_reading: Option<Form>,
    /// True if it names a source that is not known: then it is not said to name none.
    pub source_unknown: bool,
}

impl Statement {
    /// Where an axis or state of this statement is typed: the spans of its name and of its word.
    pub fn words_at(&self, name: &str) -> Option<(Span, Span)> {
        self.typed.iter().find(|(typed, ..)| typed == name).map(|(_, key, word)| (*key, *word))
    }

    /// True if it says a value, and not why there is none.
    pub const fn has_value(&self) -> bool {
        !matches!(self.form, Form::Absent(_)) || !self.understood
    }
}

/// Whether a second, independent reading of the page confirms a statement.
#[derive(Clone, Debug, Default, Eq, PartialEq)]
pub enum Confirmation {
    /// Nobody has read it a second time.
    #[default]
    ReadOnce,
    /// A second reader found the same value, condition, row and column.
    Confirmed {
        /// Initials of the second reader.
        by: String,
        /// Day of the second reading.
        on: Option<Date>,
    },
    /// A second reading differs, in the value or in where it stands; in a proved base, in where it stands.
    Differs {
        /// Initials of the second reader.
        by: String,
        /// Day of the second reading.
        on: Option<Date>,
        /// Where the second reader found it.
        found: Box<Provenance>,
    },
    /// There is nothing to confirm: the engine has no such thing, or nobody has read it yet.
    NotNeeded,
}

impl Confirmation {
    /// The word that bundle and sheets use.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::ReadOnce => "read-once",
            Self::Confirmed { .. } => "confirmed",
            Self::Differs { .. } => "differs",
            Self::NotNeeded => "not-needed",
        }
    }
}

/// One printed form of a value; where the page misprints it, what is meant.
#[derive(Clone, Debug)]
pub struct Printed {
    /// The value: every sum, verdict and sheet takes it from here.
    pub value: Value,
    /// Its string in the file, quotes and all.
    pub span: Span,
    /// The string as typed, between the quotes.
    pub typed: String,
    /// What the page prints in its place, if that is a misprint.
    pub misprinted: Option<Box<Self>>,
}

impl Printed {
    /// As the page prints it: what a second reader finds there.
    pub fn on_page(&self) -> &Self {
        self.misprinted.as_deref().unwrap_or(self)
    }

    /// `printed as 9 lbf·in, a misprint`, its value spelt as a sheet spells it; none for what is printed right.
    pub fn misprint(&self, spelt: impl FnOnce(&Value) -> String) -> Option<String> {
        self.misprinted.as_ref().map(|one| format!("printed as {}, a misprint", spelt(&one.value)))
    }
}

/// The value of a statement. Lists of printed forms are never empty; the maker's own is first.
#[derive(Clone, Debug)]
pub enum Form {
    /// Limits to set to or accept within, and where the maker asks for less than the whole.
    Window {
        /// Every printed form.
        printed: Vec<Printed>,
        /// Where to set it, if the maker says.
        set_to: Vec<Printed>,
    },
    /// The fit of new parts and the end of use; one of them may be empty.
    Fit {
        /// New parts.
        new: Vec<Printed>,
        /// End of use.
        wear_limit: Vec<Printed>,
    },
    /// A value to apply.
    Setting(Vec<Printed>),
    /// A value applied in steps, each with its printed forms.
    Stages(Vec<Vec<Printed>>),
    /// A table of points.
    Points(Vec<Point>),
    /// A direction of rotation.
    Direction {
        /// Which way.
        turns: Direction,
        /// Where one stands to see it turn that way.
        seen_from: Option<String>,
    },
    /// A service interval: whichever comes first.
    Interval {
        /// The regular one.
        regular: Vec<Printed>,
        /// The first of a new or rebuilt machine.
        first: Vec<Printed>,
        /// In severe use.
        severe: Vec<Printed>,
    },
    /// A part chosen from a table.
    Selection(Selection),
    /// The cavities of a connector.
    Pins(Vec<Pin>),
    /// Words.
    Text(String),
    /// No value, and why.
    Absent(Absence),
}

/// One point of a table.
#[derive(Clone, Debug)]
pub struct Point {
    /// What it is read at.
    pub at: Printed,
    /// What is read.
    pub reads: Printed,
}

/// A part chosen by one or two inputs; nothing outside the table is ever chosen.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Selection {
    /// Names of the inputs.
    pub by: Vec<String>,
    /// Rows: the inputs, then the part.
    pub rows: Vec<(Vec<String>, String)>,
}

/// One cavity of a connector.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Pin {
    /// Cavity.
    pub cavity: String,
    /// Colour of its wire.
    pub wire: Option<String>,
    /// What it carries.
    pub function: String,
    /// What is measured there, by state.
    pub expect: Words,
}

/// Where a value was read, and by whom.
#[derive(Clone, Debug, Default, Eq, PartialEq)]
pub struct Provenance {
    /// The manual or bulletin.
    pub source: Option<SourceId>,
    /// Page as printed.
    pub page: Option<String>,
    /// Row label.
    pub row: Option<String>,
    /// Column heading.
    pub column: Option<String>,
    /// Footnote that bears on it.
    pub footnote: Option<String>,
    /// Initials of the reader.
    pub read_by: Option<String>,
}

impl Provenance {
    /// True if these initials are the reader's, however they are written: `mk`, `MK`, `M. K.`
    pub fn is_read_by(&self, by: &str) -> bool {
        let letters = |initials: &str| -> String {
            initials.chars().filter(|one| one.is_alphanumeric()).flat_map(char::to_lowercase).collect()
        };
        self.read_by.as_deref().is_some_and(|first| first == by || letters(first) == letters(by))
    }
}

/// The fastener a torque is for.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Fastener {
    /// Thread designation.
    pub thread: Option<String>,
    /// Property class.
    pub class: Option<String>,
    /// State of the threads.
    pub threads: Option<String>,
    /// Hand of the thread.
    pub hand: Option<Hand>,
    /// How many.
    pub count: Option<u32>,
    /// Whether it may be used again.
    pub reuse: Option<Reuse>,
    /// What it goes into.
    pub into: Option<String>,
}

/// What the manual prints wrongly.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Misprint {
    /// As printed.
    pub printed: String,
    /// As meant.
    pub meant: String,
    /// Why.
    pub because: String,
    /// Who decided.
    pub decided_by: String,
}

impl Identity {
    /// True if this place and condition take in those of another statement of the same entry.
    pub fn covers(&self, other: &Self) -> bool {
        let within =
            |wide: &Words, narrow: &Words| wide.iter().all(|(key, word)| narrow.get(key) == Some(word));
        self.of == other.of && within(&self.place, &other.place) && within(&self.when, &other.when)
    }
}

impl std::fmt::Display for Identity {
    /// `lash.exhaust (cylinder front, engine cold)`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "`{}`", self.of)?;
        let words: Vec<_> =
            self.place.iter().chain(&self.when).map(|(key, word)| format!("{key} {word}")).collect();
        if words.is_empty() { Ok(()) } else { write!(f, " ({})", words.join(", ")) }
    }
}

impl Fastener {
    /// What it is, key by key, as a file writes it.
    pub fn words(&self) -> Vec<(&'static str, String)> {
        let all = [
            ("thread", self.thread.clone()),
            ("class", self.class.clone()),
            ("threads", self.threads.clone()),
            ("hand", self.hand.map(|hand| hand.word().to_owned())),
            ("count", self.count.map(|count| count.to_string())),
            ("reuse", self.reuse.map(|reuse| reuse.word().to_owned())),
            ("into", self.into.clone()),
        ];
        all.into_iter().filter_map(|(key, word)| Some((key, word?))).collect()
    }
}

impl Form {
    /// The key that holds the value in a file, as `wear_limit`.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::Window { .. } => "window",
            Self::Fit { new, .. } if new.is_empty() => "wear_limit",
            Self::Fit { .. } => "new",
            Self::Setting(_) => "setting",
            Self::Stages(_) => "stages",
            Self::Points(_) => "points",
            Self::Direction { .. } => "direction",
            Self::Interval { .. } => "interval",
            Self::Selection(_) => "selection",
            Self::Pins(_) => "pins",
            Self::Text(_) => "text",
            Self::Absent(_) => "absent",
        }
    }

    /// Every printed form in it.
    pub fn printed(&self) -> Vec<&Printed> {
        match self {
            Self::Points(points) => points.iter().flat_map(|point| [&point.at, &point.reads]).collect(),
            Self::Interval { regular, first, severe } => {
                [regular, first, severe].into_iter().flatten().collect()
            }
            other => other.alternatives().into_iter().flatten().collect(),
        }
    }

    /// Everything in it that a waiver may be given for, as typed: the printed forms, what a page misprints too, and
    /// for a form that prints none its word, its words, the parts it chooses or what its pins do.
    pub fn says(&self) -> Vec<&str> {
        match self {
            Self::Direction { turns, .. } => vec![turns.word()],
            Self::Selection(selection) => selection.rows.iter().map(|(_, part)| part.as_str()).collect(),
            Self::Pins(pins) => pins.iter().map(|pin| pin.function.as_str()).collect(),
            Self::Text(text) => vec![text],
            Self::Absent(why) => vec![why.word()],
            _ => self.printed().into_iter().flat_map(|one| [&*one.typed, &*one.on_page().typed]).collect(),
        }
    }

    /// Every printed form in it, to put a misprint right.
    pub fn printed_mut(&mut self) -> Vec<&mut Printed> {
        match self {
            Self::Window { printed: one, set_to: other } | Self::Fit { new: one, wear_limit: other } => {
                one.iter_mut().chain(other).collect()
            }
            Self::Setting(printed) => printed.iter_mut().collect(),
            Self::Stages(stages) => stages.iter_mut().flatten().collect(),
            Self::Points(points) => {
                points.iter_mut().flat_map(|point| [&mut point.at, &mut point.reads]).collect()
            }
            Self::Interval { regular, first, severe } => {
                [regular, first, severe].into_iter().flatten().collect()
            }
            Self::Direction { .. } | Self::Selection(_) | Self::Pins(_) | Self::Text(_) | Self::Absent(_) => {
                Vec::new()
            }
        }
    }

    /// Every list of printed forms that state one and the same value.
    pub fn alternatives(&self) -> Vec<&[Printed]> {
        match self {
            Self::Window { printed, set_to } => vec![printed, set_to],
            Self::Fit { new, wear_limit } => vec![new, wear_limit],
            Self::Setting(printed) => vec![printed],
            Self::Stages(stages) => stages.iter().map(Vec::as_slice).collect(),
            _ => Vec::new(),
        }
    }
}
