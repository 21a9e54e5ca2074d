//! The shape of every file of a spec base, as typed by the lead.
//!
//! These types are the one definition of the file format: `serde` reads files into them, and
//! `schemas/*.json` is generated from them, so the two cannot drift apart. They hold text and where
//! it stands, nothing more: what a value or a reference *means* is worked out later, so that a
//! mistake in meaning is a finding and not a failure to read.

mod base;
mod catalogue;
mod code;
mod complaint;
mod engine;
mod ids;
mod located;
mod machine;
mod procedure;
mod reference;
mod relation;
mod reread;
mod shims;
mod variant;

use std::collections::BTreeMap;

pub use base::{BaseFile, Publish, TextWaiver, TextWaiverTarget};
pub use catalogue::{CatalogueFile, Entry, StateDomain};
pub use code::{Code, CodesFile};
pub use complaint::{Access, Cause, Check, ComplaintFile};
pub use engine::{Defaults, EngineFile, Fastener, Layout, Misprint, Pin, Selection, Spec, Stage};
pub use ids::{IdsFile, Recall, RetiredId};
pub use located::{Located, OneOrMany, Text};
pub use machine::{Fitted, Machine, MachinesFile, SerialSpan};
pub use procedure::{Fits, LeftOpen, ProcedureHead};
pub use reference::{Gauge, GaugesFile, Hazard, HazardsFile, Source, SourcesFile};
pub use relation::{Relation, RelationFits, RelationOff, RelationsFile};
pub use reread::{Reread, RereadsFile};
pub use shims::{ShimStock, ShimValve, ShimsFile};
pub use variant::{Variant, VariantReach, Waiver, WaiverTarget};

/// Named words beside a statement: its places (`where`) or its conditions (`when`).
pub type Words = BTreeMap<Text, Text>;

/// Pattern of every id: lower case letters and digits, joined by single `-` or `.`.
pub const ID: &str = r"^[a-z0-9]+([.-][a-z0-9]+)*$";

/// Pattern of a span of model years: `2022`, `2020..2024` or, still being built, `2020..`.
pub const YEARS: &str = r"^[0-9]{4}(\.\.([0-9]{4})?)?$";

/// Pattern of a day of the calendar, as TOML and ISO 8601 write it.
pub const DAY: &str = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$";
