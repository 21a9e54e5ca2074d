//! Builds: an engine as fitted to given machines, years and serial numbers, after variants.

use std::fmt;
use std::sync::Arc;

use super::{BuildId, EngineId, EntryId, MachineId, Statement, VariantId, Words};

/// An engine after its variants: what a technician looks up.
#[derive(Debug)]
pub struct Build {
    /// `engine~variant~variant`, the variants sorted.
    pub id: BuildId,
    /// Its engine.
    pub engine: EngineId,
    /// The variants in force, sorted; those replaced by another are not among them.
    pub variants: Vec<VariantId>,
    /// Its statements, in the order of a sheet: group, entry, place, condition.
    pub statements: Vec<Arc<Statement>>,
}

impl Build {
    /// The statements of one entry.
    pub fn of<'a>(&'a self, entry: &'a EntryId) -> impl Iterator<Item = &'a Arc<Statement>> {
        self.statements.iter().filter(move |one| one.identity.of == *entry)
    }

    /// The statements of one entry that have a value, narrowed to a place or condition.
    pub fn values<'a>(
        &'a self,
        entry: &'a EntryId,
        narrow: &'a Words,
    ) -> impl Iterator<Item = &'a Arc<Statement>> {
        self.of(entry).filter(move |one| {
            let words = |key: &str| one.identity.place.get(key).or_else(|| one.identity.when.get(key));
            one.has_value() && narrow.iter().all(|(key, word)| words(key).is_none_or(|stated| stated == word))
        })
    }
}

/// A span of model years, both ends inclusive.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub struct Years {
    /// First year.
    pub from: u16,
    /// Last year.
    pub to: u16,
}

impl Years {
    /// True if the year is among them.
    pub const fn contains(self, year: u16) -> bool {
        self.from <= year && year <= self.to
    }
}

impl fmt::Display for Years {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.from == self.to {
            write!(f, "{}", self.from)
        } else {
            write!(f, "{}–{}", self.from, self.to)
        }
    }
}

/// Serial numbers of a machine.
#[derive(Clone, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum SerialRange {
    /// Prefix and running number, ends inclusive, each open if none.
    Span {
        /// What it starts with.
        prefix: String,
        /// First running number.
        from: Option<u32>,
        /// Last running number.
        to: Option<u32>,
    },
    /// Every serial number of the machine and years that no other range names.
    Rest,
    /// Every serial number: the years decide.
    All,
}

impl fmt::Display for SerialRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::All => f.write_str("every serial number"),
            Self::Rest => f.write_str("any other serial number"),
            Self::Span { prefix, from: Some(from), to: Some(to) } if from == to => {
                write!(f, "{prefix}{from}")
            }
            Self::Span { prefix, from: Some(from), to: Some(to) } => {
                write!(f, "{prefix}{from} to {prefix}{to}")
            }
            Self::Span { prefix, from: Some(from), to: None } => write!(f, "{prefix}{from} and up"),
            Self::Span { prefix, from: None, to: Some(to) } => write!(f, "{prefix} up to {to}"),
            Self::Span { prefix, from: None, to: None } => write!(f, "{prefix} any number"),
        }
    }
}

/// Which machine, years and serial numbers have which build.
#[derive(Clone, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub struct Fit {
    /// The machine.
    pub machine: MachineId,
    /// Model years.
    pub years: Years,
    /// Serial numbers.
    pub serial: SerialRange,
    /// The build.
    pub build: BuildId,
}
