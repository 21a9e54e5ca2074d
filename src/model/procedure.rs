//! A procedure: steps in Markdown, its links resolved.

use pulldown_cmark::{Event, Tag, TagEnd};

use super::{
    CodeSetId, ComplaintId, EngineId, EntryId, GaugeId, HazardId, ProcedureId, ProcedureState, Words,
};
use crate::quantity::Value;
use crate::source::Span;

/// One procedure.
#[derive(Debug)]
pub struct Procedure {
    /// Its id.
    pub id: ProcedureId,
    /// Where its id is typed.
    pub span: Span,
    /// What is done.
    pub title: String,
    /// Minutes it takes.
    pub minutes: Option<u32>,
    /// The builds it fits.
    pub fits: Fitting,
    /// Tools, gauges and access.
    pub needs: Vec<Need>,
    /// Hazards it declares, in its order.
    pub hazards: Vec<HazardId>,
    /// State of the engine.
    pub state: ProcedureState,
    /// What stands open between two steps, in its order.
    pub left_open: Vec<LeftOpen>,
    /// What shows that the work holds.
    pub proof: Option<String>,
    /// Every text of its front matter, with where it is typed.
    pub head: Vec<(String, Span)>,
    /// Its body, in order.
    pub body: Vec<Piece>,
}

impl Procedure {
    /// The number of its steps: the items of its lists that stand in no other list.
    pub fn steps(&self) -> usize {
        let mut depth = 0usize;
        let mut count = 0;
        for piece in &self.body {
            let Piece::Markup { event, .. } = piece else { continue };
            match event {
                Event::Start(Tag::Item) if depth == 1 => count += 1,
                Event::Start(Tag::List(_)) => depth += 1,
                Event::End(TagEnd::List(_)) => depth = depth.saturating_sub(1),
                _ => {}
            }
        }
        count
    }
}

impl Link {
    /// The entry whose value it shows, and the words that narrow it.
    pub fn entry(&self) -> Option<(&EntryId, &Words)> {
        const ANY: &Words = &Words::new();
        match self {
            Self::Spec { of, narrow } | Self::Reading { of, narrow } => Some((of, narrow)),
            Self::Turn { of, .. } => Some((of, ANY)),
            _ => None,
        }
    }
}

/// Something that stands open between two steps: drained, unplugged, loosened.
#[derive(Debug)]
pub struct LeftOpen {
    /// What stands open.
    pub what: String,
    /// The step that opens it, from 1.
    pub from: u32,
    /// The step that closes it.
    pub until: u32,
    /// Where that step is typed.
    pub span: Span,
}

/// Which builds a procedure fits: every condition must hold, an empty one always does.
#[derive(Debug, Default, Eq, PartialEq)]
pub struct Fitting {
    /// Entries the build must have a value of.
    pub has: Vec<EntryId>,
    /// Engines.
    pub engines: Vec<EngineId>,
    /// `four-stroke` or `two-stroke`.
    pub cycle: Option<String>,
    /// `petrol` or `diesel`.
    pub fuel: Option<String>,
}

/// Something a procedure needs.
#[derive(Debug)]
pub enum Need {
    /// A gauge of the shop.
    Gauge(GaugeId),
    /// A tool or access, in words.
    Words(String),
}

/// A piece of a procedure's body.
#[derive(Debug)]
pub enum Piece {
    /// Markup or text; never a link, an image or raw HTML.
    Markup {
        /// The event.
        event: Event<'static>,
        /// Where it stands.
        span: Span,
    },
    /// A link, with the text inside its brackets.
    Link {
        /// Where it points.
        link: Link,
        /// Its text; empty for a bare value.
        label: String,
        /// Where it stands.
        span: Span,
    },
}

/// Where a link of a procedure points.
#[derive(Debug)]
pub enum Link {
    /// The value of an entry, narrowed to a place or condition where words are given.
    Spec {
        /// The entry.
        of: EntryId,
        /// Place or condition words that narrow it.
        narrow: Words,
    },
    /// An entry field for a reading.
    Reading {
        /// The entry.
        of: EntryId,
        /// Place or condition words that narrow it.
        narrow: Words,
    },
    /// The caution at this step.
    Hazard(HazardId),
    /// A turn in the engine's own direction: the entry `rotation.<part>` and the angle.
    Turn {
        /// The rotation entry.
        of: EntryId,
        /// By how much.
        angle: Value,
    },
    /// Another step of the same procedure, by the number of its list item or its own id.
    Step(String),
    /// Another procedure.
    Procedure(ProcedureId),
    /// A complaint.
    Complaint(ComplaintId),
    /// A fault code: its set and its id there.
    Code(CodeSetId, String),
}
