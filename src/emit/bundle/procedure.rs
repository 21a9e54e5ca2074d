//! `procedures.json`: each procedure with its text as typed parts.
//!
//! The text is read once, block by block: what stands in the handbook stands here, every link as the thing
//! it leads to. Steps are counted as [`Procedure::steps`] counts them.

use pulldown_cmark::{Event, Tag, TagEnd};

use super::guides::{builds, fitting, state};
use super::quantity::form;
use crate::bundle as json;
use crate::bundle::{BlockSort, PartSort};
use crate::model::{EntryId, LeftOpen, Link, Model, Need, Piece, Procedure};

/// The procedures as JSON.
pub fn procedures(model: &Model) -> json::Procedures {
    json::Procedures { procedures: model.procedures.values().map(|one| procedure(model, one)).collect() }
}

fn procedure(model: &Model, procedure: &Procedure) -> json::Procedure {
    let (mut gauges, mut tools) = (Vec::new(), Vec::new());
    for need in &procedure.needs {
        match need {
            Need::Gauge(id) => gauges.push(id.to_string()),
            Need::Words(words) => tools.push(words.clone()),
        }
    }
    let mut uses: Vec<String> = Vec::new();
    for of in procedure.body.iter().filter_map(used) {
        if !uses.iter().any(|one| one == of.as_str()) {
            uses.push(of.to_string());
        }
    }
    json::Procedure {
        id: procedure.id.to_string(),
        title: procedure.title.clone(),
        minutes: procedure.minutes,
        state: state(procedure.state),
        gauges,
        tools,
        hazards: procedure.hazards.iter().map(ToString::to_string).collect(),
        uses,
        steps: procedure.steps(),
        body: body(procedure),
        left_open: procedure.left_open.iter().map(left_open).collect(),
        proof: procedure.proof.clone(),
        fits: fitting(&procedure.fits),
        builds: builds(model, &procedure.fits),
    }
}

fn left_open(one: &LeftOpen) -> json::LeftOpen {
    json::LeftOpen { what: one.what.clone(), from: one.from, until: one.until }
}

/// The entry that a piece of a procedure uses.
fn used(piece: &Piece) -> Option<&EntryId> {
    match piece {
        Piece::Link { link, .. } => Link::entry(link).map(|(of, _)| of),
        Piece::Markup { .. } => None,
    }
}

/// The text of a procedure, block by block.
pub fn body(procedure: &Procedure) -> Vec<json::Block> {
    let mut reader = Reader::default();
    for piece in &procedure.body {
        match piece {
            Piece::Markup { event, .. } => reader.markup(event),
            Piece::Link { link, label, .. } => reader.part(part(link, label)),
        }
    }
    reader.close();
    reader.blocks
}

/// Puts blocks together from the events of Markdown.
#[derive(Default)]
struct Reader {
    blocks: Vec<json::Block>,
    /// The block that is open.
    open: Option<json::Block>,
    /// What the next block is, where it begins an item.
    begins: Option<BlockSort>,
    /// Open lists, quotations, and styles of words.
    lists: u32,
    quotations: u32,
    styles: Vec<&'static str>,
    /// Steps begun so far.
    steps: u32,
}

impl Reader {
    fn markup(&mut self, event: &Event<'_>) {
        match event {
            Event::Start(tag) => self.start(tag),
            Event::End(tag) => self.end(*tag),
            Event::Text(text) => self.words(text, None),
            Event::Code(text) => self.words(text, Some("code")),
            Event::SoftBreak => self.words(" ", None),
            Event::HardBreak => self.words("\n", None),
            Event::Rule => self.close(),
            _ => {}
        }
    }

    fn start(&mut self, tag: &Tag<'_>) {
        match tag {
            Tag::Item => {
                self.close();
                self.steps = self.steps.saturating_add(u32::from(self.lists == 1));
                self.begins = Some(if self.lists == 1 { BlockSort::Step } else { BlockSort::Item });
            }
            Tag::List(_) => {
                self.close();
                self.lists = self.lists.saturating_add(1);
            }
            Tag::BlockQuote(_) => {
                self.close();
                self.quotations = self.quotations.saturating_add(1);
            }
            Tag::Paragraph => self.open(self.paragraph()),
            Tag::Heading { .. } => self.open(BlockSort::Heading),
            Tag::CodeBlock(_) => self.open(BlockSort::Lines),
            Tag::TableHead | Tag::TableRow => self.open(BlockSort::Row),
            Tag::TableCell => self.part(json::Part::new(PartSort::Cell, String::new())),
            Tag::Emphasis => self.styles.push("emphasis"),
            Tag::Strong => self.styles.push("strong"),
            _ => {}
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::List(_) => {
                self.close();
                self.lists = self.lists.saturating_sub(1);
            }
            TagEnd::BlockQuote(_) => {
                self.close();
                self.quotations = self.quotations.saturating_sub(1);
            }
            TagEnd::Item
            | TagEnd::Paragraph
            | TagEnd::Heading(_)
            | TagEnd::CodeBlock
            | TagEnd::TableHead
            | TagEnd::TableRow => self.close(),
            TagEnd::Emphasis | TagEnd::Strong => _ = self.styles.pop(),
            _ => {}
        }
    }

    /// A paragraph, or what a tight item holds.
    const fn paragraph(&self) -> BlockSort {
        if self.quotations > 0 { BlockSort::Note } else { BlockSort::Paragraph }
    }

    /// Opens a block; the first of an item is the item.
    fn open(&mut self, sort: BlockSort) {
        let begun = self.begins.take();
        self.close();
        let step = (self.lists > 0).then_some(self.steps);
        let sort = begun.unwrap_or(sort);
        self.open = Some(json::Block { sort, step, depth: self.lists, parts: Vec::new() });
    }

    /// Closes the open block; an item with nothing in it is one still.
    fn close(&mut self) {
        if let Some(sort) = self.begins.take() {
            self.open(sort);
        }
        self.blocks.extend(self.open.take());
    }

    fn words(&mut self, text: &str, style: Option<&str>) {
        let style = style.or(self.styles.last().copied()).map(ToOwned::to_owned);
        let last = self.open.as_mut().and_then(|block| block.parts.last_mut());
        match last.filter(|last| last.sort == PartSort::Text && last.style == style) {
            Some(last) => last.text.push_str(text),
            None => self.part(json::Part { style, ..json::Part::new(PartSort::Text, text.to_owned()) }),
        }
    }

    fn part(&mut self, part: json::Part) {
        if self.open.is_none() {
            self.open(self.paragraph());
        }
        if let Some(block) = &mut self.open {
            block.parts.push(part);
        }
    }
}

/// A link as the thing it leads to.
fn part(link: &Link, label: &str) -> json::Part {
    let new = |sort| json::Part::new(sort, label.to_owned());
    match link {
        Link::Spec { of, narrow } => {
            json::Part { of: Some(of.to_string()), narrow: narrow.clone(), ..new(PartSort::Spec) }
        }
        Link::Reading { of, narrow } => {
            json::Part { of: Some(of.to_string()), narrow: narrow.clone(), ..new(PartSort::Reading) }
        }
        Link::Hazard(id) => json::Part { hazard: Some(id.to_string()), ..new(PartSort::Hazard) },
        Link::Turn { of, angle } => {
            json::Part { of: Some(of.to_string()), angle: Some(form(angle)), ..new(PartSort::Turn) }
        }
        // A proved base leads to steps that are there.
        Link::Step(step) => json::Part { step: step.parse().ok(), ..new(PartSort::Step) },
        Link::Procedure(id) => json::Part { procedure: Some(id.to_string()), ..new(PartSort::Procedure) },
        Link::Complaint(id) => json::Part { complaint: Some(id.to_string()), ..new(PartSort::Complaint) },
        Link::Code(set, code) => {
            json::Part { set: Some(set.to_string()), code: Some(code.clone()), ..new(PartSort::Code) }
        }
    }
}
