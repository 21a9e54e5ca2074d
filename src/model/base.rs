//! What the base says of itself.

use std::fmt;

use super::{OnText, Waiver};
use crate::quantity::{Kind, Unit};
use crate::source::Span;
use std::collections::BTreeMap;

/// A day of the calendar.
pub type Date = jiff::civil::Date;

/// What the whole base says of itself.
#[derive(Debug)]
pub struct Base {
    /// Title of the handbook.
    pub title: String,
    /// Name of the release.
    pub release: Release,
    /// Date of the release.
    pub date: Date,
    /// True where the data fits no real engine.
    pub invented: bool,
    /// Licence of the data.
    pub licence: String,
    /// Notice that stands on every sheet.
    pub notice: String,
    /// The unit a value is converted to, by kind, where the base asks for another than the usual.
    pub units: BTreeMap<Kind, Unit>,
    /// The same as typed, and where, whether or not the unit is of the kind.
    pub units_typed: Vec<(Kind, Unit, Span)>,
    /// After so many days a sheet asks for a newer copy.
    pub stale_after_days: Option<u32>,
    /// What may be published.
    pub publish: Publish,
    /// Address at which the handbook is served.
    pub base_url: Option<String>,
    /// Warnings about no value of an engine that the lead accepts.
    pub waivers: Vec<Waiver<OnText>>,
}

/// What a base lets out into handbook and bundle.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub struct Publish {
    /// Values that were read only once, marked as such; else they are withheld like critical ones.
    pub unconfirmed: bool,
    /// Row labels, column headings and footnotes: a maker's own words, which may be theirs to license.
    pub labels: bool,
}

impl Default for Publish {
    fn default() -> Self {
        Self { unconfirmed: true, labels: true }
    }
}

/// Name of a release.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Release(pub(crate) String);

impl fmt::Display for Release {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
