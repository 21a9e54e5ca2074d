//! Markdown as HTML: the body of a procedure with this build's values in place, and a rule's page.
//!
//! Raw HTML never passes: what a file writes as HTML comes out as text. A step is an item of a
//! list that stands in no other, numbered through the whole procedure. The cautions of a step stand before its text, its readings and drawings
//! after it, so that nobody reads the action before the danger. Where a text leads to another procedure, what can hurt
//! there is named right after it.

use pulldown_cmark::{CowStr, Event, HeadingLevel, Options, Parser, Tag, TagEnd, html};

use super::super::HandbookError;
use super::super::press::Press;
use super::super::view::{Inline, Named, Panel, Readings, Tightening, TurnPart, beside};
use crate::emit::drawing::escape;
use crate::model::{Build, Link, Piece, Procedure, ProcedureId};

/// The body of a procedure for one build.
pub(in super::super) fn body(
    press: &Press<'_>,
    build: &Build,
    procedure: &Procedure,
) -> Result<String, HandbookError> {
    let events = procedure.body.iter().filter_map(|piece| match piece {
        Piece::Markup { event, .. } => Some(event),
        Piece::Link { .. } => None,
    });
    let headings = Headings::below(HeadingLevel::H2, events);
    let mut writer = Writer {
        headings,
        press,
        build,
        procedure,
        out: Vec::new(),
        after: Vec::new(),
        led_to: Vec::new(),
        drawn: Vec::new(),
        depth: 0,
        lists: 0,
        steps: 0,
    };
    for (at, piece) in procedure.body.iter().enumerate() {
        match piece {
            Piece::Markup { event, .. } => writer.markup(event, at)?,
            Piece::Link { link, label, .. } => writer.link(link, label)?,
        }
    }
    writer.flush();
    let mut text = String::new();
    html::push_html(&mut text, writer.out.into_iter());
    Ok(text)
}

struct Writer<'a, 'b> {
    headings: Headings,
    press: &'a Press<'b>,
    build: &'a Build,
    procedure: &'a Procedure,
    out: Vec<Event<'static>>,
    /// Parts that follow the block they belong to.
    after: Vec<String>,
    /// Procedures that the text at hand leads to, with the words of their links.
    led_to: Vec<(ProcedureId, String)>,
    /// Drawings of fasteners that the sheet has already.
    drawn: Vec<String>,
    /// Depth of open tags.
    depth: usize,
    /// Depth of open lists.
    lists: usize,
    /// Steps begun so far.
    steps: u64,
}

impl Writer<'_, '_> {
    fn markup(&mut self, event: &Event<'static>, at: usize) -> Result<(), HandbookError> {
        match event {
            Event::Start(tag) => self.open(tag, at),
            Event::End(tag) => self.close(*tag),
            other => {
                self.out.push(without_html(other.clone()));
                Ok(())
            }
        }
    }

    fn open(&mut self, tag: &Tag<'static>, at: usize) -> Result<(), HandbookError> {
        let top = self.depth == 0;
        self.depth = self.depth.saturating_add(1);
        // A tight item's text ends where the next block begins.
        if matches!(
            tag,
            Tag::List(_) | Tag::BlockQuote(_) | Tag::CodeBlock(_) | Tag::Table(_) | Tag::HtmlBlock
        ) {
            self.named()?;
        }
        if let Tag::List(start) = tag {
            self.lists = self.lists.saturating_add(1);
            if self.lists > 1 {
                self.out.push(Event::Start(tag.clone()));
                return Ok(());
            }
            // A step is meant by its number in the whole procedure, so that number is shown.
            let start = start.map(|_| self.steps.saturating_add(1));
            self.out.push(Event::Start(Tag::List(start)));
            return Ok(());
        }
        if top {
            self.cautions(at)?;
        }
        if self.lists == 1 && matches!(tag, Tag::Item) {
            self.steps = self.steps.saturating_add(1);
            let number = self.steps;
            self.raw(format!("<li id=\"step-{number}\" data-step=\"{number}\">"));
            // A list inside a quotation has its cautions before the quotation.
            return if self.depth == 2 { self.cautions(at) } else { Ok(()) };
        }
        self.out.push(start(self.headings.lowered(tag)));
        Ok(())
    }

    fn close(&mut self, tag: TagEnd) -> Result<(), HandbookError> {
        self.depth = self.depth.saturating_sub(1);
        if matches!(tag, TagEnd::Item) {
            self.named()?;
        }
        if self.lists == 1 && matches!(tag, TagEnd::Item) {
            self.flush();
            self.raw("</li>\n".to_owned());
            return Ok(());
        }
        if matches!(tag, TagEnd::List(_)) {
            self.lists = self.lists.saturating_sub(1);
        }
        self.out.push(end(self.headings.lowered_end(tag)));
        if self.depth == 0 || matches!(tag, TagEnd::Paragraph | TagEnd::Heading(_) | TagEnd::Table) {
            self.named()?;
        }
        if self.depth == 0 {
            self.flush();
        }
        Ok(())
    }

    /// What can hurt in the procedures that the text before leads to.
    fn named(&mut self) -> Result<(), HandbookError> {
        let led_to = std::mem::take(&mut self.led_to);
        let led_to = led_to.iter().map(|(id, words)| (id, words.as_str()));
        for named in Named::of(self.press.model, self.build, self.procedure, led_to) {
            let part = self.press.part("parts/hazards-named.html", &named)?;
            self.raw(part);
        }
        Ok(())
    }

    /// The cautions inside the block or step that opens at a piece.
    fn cautions(&mut self, at: usize) -> Result<(), HandbookError> {
        let mut depth = 0_usize;
        let mut hazards = Vec::new();
        for piece in self.procedure.body.iter().skip(at) {
            match piece {
                Piece::Markup { event: Event::Start(_), .. } => depth = depth.saturating_add(1),
                Piece::Markup { event: Event::End(_), .. } => depth = depth.saturating_sub(1),
                Piece::Link { link: Link::Hazard(id), .. } => hazards.push(id),
                _ => {}
            }
            if depth == 0 {
                break;
            }
        }
        for panel in Panel::several(self.press.model, hazards) {
            let part = self.press.part("parts/hazard.html", &panel)?;
            self.raw(part);
        }
        Ok(())
    }

    fn link(&mut self, link: &Link, label: &str) -> Result<(), HandbookError> {
        let (press, build) = (self.press, self.build);
        match link {
            Link::Spec { of, narrow } => {
                let part =
                    press.part("parts/value.html", &Inline::of(&press.atlas, build, of, narrow, label))?;
                self.inline(part);
                for drawn in Tightening::of(&press.atlas, build, of, narrow) {
                    let part = press.part("parts/tightening.html", &drawn)?;
                    // Two steps may name one torque: it is drawn at the first.
                    if !self.drawn.contains(&part) {
                        self.drawn.push(part.clone());
                        self.after.push(part);
                    }
                }
            }
            Link::Reading { of, narrow } => {
                let readings = Readings::of(&press.atlas, build, of, narrow, label);
                self.inline(format!("<b>{}</b>", escape(&readings.label)));
                self.after.push(press.part("parts/readings.html", &readings)?);
            }
            // Stands before the step already.
            Link::Hazard(_) => {}
            Link::Turn { of, angle } => {
                let turn = TurnPart::of(press.model, build, of, angle);
                let words = [turn.way.map(str::to_owned), turn.seen.clone()].into_iter().flatten();
                let words: Vec<String> = words.collect();
                self.inline(format!("<b>{} {}</b>", escape(&turn.angle), escape(&words.join(", "))));
                self.after.push(press.part("parts/turn.html", &turn)?);
            }
            Link::Step(step) => {
                let text = if label.is_empty() { format!("step {step}") } else { label.to_owned() };
                self.inline(format!("<a href=\"#step-{}\">{}</a>", escape(step), escape(&text)));
            }
            Link::Procedure(id) => {
                let found = beside(press.model, build, id);
                let (href, title) = found.map_or((None, id.to_string()), |(href, title)| (Some(href), title));
                let text = escape(if label.is_empty() { &title } else { label });
                self.inline(href.map_or_else(
                    || text.clone(),
                    |href| format!("<a href=\"{}\">{text}</a>", escape(&href)),
                ));
                self.led_to.push((id.clone(), label.to_owned()));
            }
            Link::Complaint(id) => {
                let complaint =
                    press.model.complaints.get(id).filter(|one| press.model.fits_build(&one.fits, build));
                let title = complaint.map_or_else(|| id.to_string(), |one| one.title.clone());
                let text = escape(if label.is_empty() { &title } else { label });
                let href = complaint.map(|_| format!("complaint-{id}.html"));
                self.inline(href.map_or_else(
                    || text.clone(),
                    |href| format!("<a href=\"{}\">{text}</a>", escape(&href)),
                ));
            }
            Link::Code(set, code) => {
                let text = if label.is_empty() { format!("code {code}") } else { label.to_owned() };
                let href = format!("../../codes/{set}.html#code-{code}");
                self.inline(format!("<a href=\"{}\">{}</a>", escape(&href), escape(&text)));
            }
        }
        Ok(())
    }

    fn inline(&mut self, html: String) {
        self.out.push(Event::InlineHtml(CowStr::from(html)));
    }

    fn raw(&mut self, html: String) {
        self.out.push(Event::Html(CowStr::from(html)));
    }

    fn flush(&mut self) {
        for part in std::mem::take(&mut self.after) {
            self.raw(part);
        }
    }
}

/// A rule's page; its headings stand below that of the rule, which takes the place of its title.
pub(in super::super) fn page(text: &str) -> String {
    let mut title = false;
    let untitled = Parser::new_ext(text, Options::ENABLE_TABLES).filter(|event| {
        let ends = matches!(event, Event::End(TagEnd::Heading(HeadingLevel::H1)));
        title =
            (title || matches!(event, Event::Start(Tag::Heading { level: HeadingLevel::H1, .. }))) && !ends;
        !title && !ends
    });
    let events: Vec<Event<'_>> = untitled.collect();
    let headings = Headings::below(HeadingLevel::H3, &events);
    let lower = |event| match event {
        Event::Start(tag) => start(headings.lowered(&tag)),
        Event::End(tag) => end(headings.lowered_end(tag)),
        other => without_html(other),
    };
    let mut out = String::new();
    html::push_html(&mut out, events.into_iter().map(lower));
    out
}

/// A block of code may be wider than a phone: it can be focused, so that keys scroll it.
fn start(tag: Tag<'_>) -> Event<'_> {
    match tag {
        Tag::CodeBlock(_) => Event::Html("<pre tabindex=\"0\"><code>".into()),
        tag => Event::Start(tag),
    }
}

fn end<'a>(tag: TagEnd) -> Event<'a> {
    match tag {
        TagEnd::CodeBlock => Event::Html("</code></pre>\n".into()),
        tag => Event::End(tag),
    }
}

/// HTML that a file writes is text.
fn without_html(event: Event<'_>) -> Event<'_> {
    match event {
        Event::Html(text) | Event::InlineHtml(text) => Event::Text(text),
        other => other,
    }
}

const LEVELS: [HeadingLevel; 6] = [
    HeadingLevel::H1,
    HeadingLevel::H2,
    HeadingLevel::H3,
    HeadingLevel::H4,
    HeadingLevel::H5,
    HeadingLevel::H6,
];

/// Lowers the headings of a text so that its highest stands one below that of its place.
struct Headings {
    by: usize,
}

impl Headings {
    fn below<'e, 'a: 'e>(place: HeadingLevel, events: impl IntoIterator<Item = &'e Event<'a>>) -> Self {
        let levels = events.into_iter().filter_map(|event| match event {
            Event::Start(Tag::Heading { level, .. }) => Some(*level),
            _ => None,
        });
        let highest = levels.min().unwrap_or(HeadingLevel::H1);
        Self { by: (place as usize).saturating_add(1).saturating_sub(highest as usize) }
    }

    fn level(&self, level: HeadingLevel) -> HeadingLevel {
        let at = (level as usize).saturating_add(self.by).saturating_sub(1);
        LEVELS.get(at).copied().unwrap_or(HeadingLevel::H6)
    }

    fn lowered<'a>(&self, tag: &Tag<'a>) -> Tag<'a> {
        match tag {
            // Attributes of a heading could be a script: none is kept.
            Tag::Heading { level, .. } => {
                Tag::Heading { level: self.level(*level), id: None, classes: Vec::new(), attrs: Vec::new() }
            }
            // What stands in a block of HTML comes out as the text of a paragraph.
            Tag::HtmlBlock => Tag::Paragraph,
            other => other.clone(),
        }
    }

    fn lowered_end(&self, tag: TagEnd) -> TagEnd {
        match tag {
            TagEnd::Heading(level) => TagEnd::Heading(self.level(level)),
            TagEnd::HtmlBlock => TagEnd::Paragraph,
            other => other,
        }
    }
}
