//! `procedures.json`: what a procedure is and needs, and its text in typed parts.
//!
//! No number stands in the text: a value is a part that names its entry, and every build has its own
//! ([`Build::meant`](super::Build::meant)).

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Printed;

/// The procedures.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Procedures of a bundle")]
pub struct Procedures {
    /// The procedures.
    pub procedures: Vec<Procedure>,
}

/// One procedure: what it is, needs and uses, and its steps.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Procedure {
    /// Its id.
    pub id: String,
    /// What is done.
    pub title: String,
    /// Minutes it takes.
    pub minutes: Option<u32>,
    /// `cold`, `hot` or `any`.
    #[schemars(extend("enum" = ["cold", "hot", "any"]))]
    pub state: String,
    /// Ids of gauges it needs.
    pub gauges: Vec<String>,
    /// Tools and access it needs, in words.
    pub tools: Vec<String>,
    /// Ids of its hazards.
    pub hazards: Vec<String>,
    /// Ids of the entries it uses, in order of first use.
    pub uses: Vec<String>,
    /// Number of its steps.
    pub steps: usize,
    /// Its text, block by block, in order.
    pub body: Vec<Block>,
    /// What stands open between two steps.
    pub left_open: Vec<LeftOpen>,
    /// What shows that the work holds.
    pub proof: Option<String>,
    /// Which builds it fits, as the base says it.
    pub fits: Fitting,
    /// Ids of the builds it fits.
    pub builds: Vec<String>,
}

/// Which builds something fits: every part given must hold, an empty one always does.
#[derive(Clone, Debug, Default, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Fitting {
    /// Ids of the entries that the build must have a value of.
    pub has: Vec<String>,
    /// Ids of the engines.
    pub engines: Vec<String>,
    /// `four-stroke` or `two-stroke`.
    #[schemars(extend("enum" = ["four-stroke", "two-stroke", null]))]
    pub cycle: Option<String>,
    /// `petrol` or `diesel`.
    #[schemars(extend("enum" = ["petrol", "diesel", null]))]
    pub fuel: Option<String>,
}

/// Something that stands open between two steps: drained, unplugged, loosened.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LeftOpen {
    /// What stands open.
    pub what: String,
    /// The step that opens it, from 1.
    pub from: u32,
    /// The step that closes it.
    pub until: u32,
}

/// One block of a procedure's text.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Block {
    /// What sort of block.
    pub sort: BlockSort,
    /// The step it is, or belongs to, from 1; null outside of the steps.
    pub step: Option<u32>,
    /// How many lists it stands in: 0 outside, 1 for a step.
    pub depth: u32,
    /// Its parts, in the order they are read.
    pub parts: Vec<Part>,
}

/// What sort of block.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum BlockSort {
    /// A step, or the first of its blocks.
    Step,
    /// An item of a list inside a step.
    Item,
    /// A heading.
    Heading,
    /// A paragraph.
    Paragraph,
    /// A paragraph set apart.
    Note,
    /// Lines to be kept as they are.
    Lines,
    /// A row of a table; each cell begins with a part of sort `cell`.
    Row,
}

impl BlockSort {
    /// The word of JSON and tables.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Step => "step",
            Self::Item => "item",
            Self::Heading => "heading",
            Self::Paragraph => "paragraph",
            Self::Note => "note",
            Self::Lines => "lines",
            Self::Row => "row",
        }
    }
}

/// A part of a block: words, or a link. The key that its sort names holds where it leads.
///
/// A `spec` or `reading` means the statements of `of` in a build whose place and state do not contradict
/// `narrow`; those that have a value, if any has.
#[derive(Clone, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Part {
    /// What sort of part.
    pub sort: PartSort,
    /// Its words; empty where the thing it leads to has its own.
    pub text: String,
    /// How its words are set apart: `strong`, `emphasis` or `code`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(extend("enum" = ["strong", "emphasis", "code", null]))]
    pub style: Option<String>,
    /// Id of the entry whose value is shown, read, or says which way to turn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// Words of place or state that narrow it.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub narrow: BTreeMap<String, String>,
    /// By how much to turn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub angle: Option<Printed>,
    /// Id of the hazard.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hazard: Option<String>,
    /// Number of the step.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<u32>,
    /// Id of the procedure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub procedure: Option<String>,
    /// Id of the complaint.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub complaint: Option<String>,
    /// Id of the set of codes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set: Option<String>,
    /// Id of the code in it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub code: Option<String>,
}

impl Part {
    /// A part of a sort with its words, leading nowhere yet.
    pub const fn new(sort: PartSort, text: String) -> Self {
        Self {
            sort,
            text,
            style: None,
            of: None,
            narrow: BTreeMap::new(),
            angle: None,
            hazard: None,
            step: None,
            procedure: None,
            complaint: None,
            set: None,
            code: None,
        }
    }
}

/// What sort of part.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PartSort {
    /// Words.
    Text,
    /// The beginning of a cell in a row.
    Cell,
    /// The value of an entry.
    Spec,
    /// A reading to take, judged against an entry.
    Reading,
    /// A caution: it is read before the block.
    Hazard,
    /// A turn in the engine's own direction, which the entry states.
    Turn,
    /// Another step of this procedure.
    Step,
    /// Another procedure.
    Procedure,
    /// A complaint.
    Complaint,
    /// A fault code.
    Code,
}

impl PartSort {
    /// The word of JSON and tables.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Cell => "cell",
            Self::Spec => "spec",
            Self::Reading => "reading",
            Self::Hazard => "hazard",
            Self::Turn => "turn",
            Self::Step => "step",
            Self::Procedure => "procedure",
            Self::Complaint => "complaint",
            Self::Code => "code",
        }
    }
}
