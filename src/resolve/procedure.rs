//! Procedures: front matter resolved, links understood, everything else kept as Markdown events.

use std::collections::BTreeMap;
use std::iter::Peekable;
use std::ops::Range;
use std::vec::IntoIter;

use pulldown_cmark::{Event, Tag, TagEnd};

use super::names::Names;
use super::reference::{known_hazards, owned};
use super::rules::{link_not_understood, not_markdown};
use super::values::Reader;
use crate::diag::{Sink, nearest};
use crate::load::format::{self, Fits, Text};
use crate::load::{Loaded, ProcedureDocument, SCHEMES};
use crate::model::{
    CodeSetId, ComplaintId, Domain, EngineId, Entry, EntryId, Fitting, GaugeId, HazardId, LeftOpen, Link,
    Need, Piece, Procedure, ProcedureId, Words,
};
use crate::quantity::{Exact, Kind, Shape, Value};
use crate::source::Span;

/// Every procedure.
pub fn procedures(
    loaded: &Loaded,
    names: &Names,
    entries: &BTreeMap<EntryId, Entry>,
    sink: &mut Sink,
) -> BTreeMap<ProcedureId, Procedure> {
    let known = Known { names, entries };
    let mut all = BTreeMap::new();
    for document in &loaded.procedures {
        let mut reader = Reader { sources: &loaded.sources, file: document.head.file, sink };
        let procedure = procedure(document, &known, &mut reader);
        all.entry(procedure.id.clone()).or_insert(procedure);
    }
    all
}

/// What a link may point at.
struct Known<'a> {
    names: &'a Names,
    entries: &'a BTreeMap<EntryId, Entry>,
}

fn procedure(document: &ProcedureDocument, known: &Known<'_>, reader: &mut Reader<'_>) -> Procedure {
    let names = known.names;
    let head = &document.head.data;
    let gauge = |text: &Text| names.gauges.span(text.as_str()).map(|_| GaugeId::new(text.as_str()));
    let need = |text: &Text| gauge(text).map_or_else(|| Need::Words(text.as_str().to_owned()), Need::Gauge);
    Procedure {
        id: ProcedureId::new(head.id.as_str()),
        span: reader.span(&head.id),
        title: head.title.as_str().to_owned(),
        minutes: head.minutes.as_ref().map(|minutes| *minutes.get()),
        fits: fitting(head.fits.get(), names, reader),
        needs: head.needs.iter().map(need).collect(),
        hazards: known_hazards(&head.hazards, names, reader),
        state: head.state,
        left_open: head.left_open.iter().map(|one| left_open(one, reader)).collect(),
        proof: owned(head.proof.as_ref()),
        head: head_texts(head, reader),
        body: body(document, known, reader),
    }
}

/// The texts of the front matter that a sheet shows.
fn head_texts(head: &format::ProcedureHead, reader: &Reader<'_>) -> Vec<(String, Span)> {
    let all =
        std::iter::once(&head.title).chain(head.left_open.iter().map(|one| &one.what)).chain(&head.proof);
    all.map(|text| (text.as_str().to_owned(), reader.span(text))).collect()
}

fn left_open(raw: &format::LeftOpen, reader: &Reader<'_>) -> LeftOpen {
    LeftOpen {
        what: raw.what.as_str().to_owned(),
        from: *raw.from.get(),
        until: *raw.until.get(),
        span: reader.span(&raw.until),
    }
}

pub fn fitting(raw: &Fits, names: &Names, reader: &mut Reader<'_>) -> Fitting {
    let has = raw.has.iter().filter(|id| names.entries.knows(reader.file, id, reader.sink));
    let has = has.map(|id| EntryId::new(id.as_str())).collect();
    let engines = raw.engines.iter().filter(|id| names.engines.knows(reader.file, id, reader.sink));
    let engines = engines.map(|id| EngineId::new(id.as_str())).collect();
    Fitting { has, engines, cycle: owned(raw.cycle.as_ref()), fuel: owned(raw.fuel.as_ref()) }
}

type Events = Peekable<IntoIter<(Event<'static>, Range<usize>)>>;

fn body(document: &ProcedureDocument, known: &Known<'_>, reader: &mut Reader<'_>) -> Vec<Piece> {
    let mut events: Events = document.events.clone().into_iter().peekable();
    let mut pieces = Vec::new();
    while let Some((event, range)) = events.next() {
        let span = Span::new(reader.file, range);
        match event {
            Event::Start(Tag::Link { dest_url, .. }) => {
                let label = label(&mut events);
                match link(&dest_url, span, known, reader) {
                    Some(link) => pieces.push(Piece::Link { link, label, span }),
                    None => pieces.push(Piece::Markup { event: Event::Text(label.into()), span }),
                }
            }
            Event::Start(Tag::Image { .. }) => {
                reader.sink.push(not_markdown::finding(span, "an image"));
                label_of_image(&mut events);
            }
            Event::Html(text) | Event::InlineHtml(text) => {
                if !is_comment(&text) {
                    reader.sink.push(not_markdown::finding(span, "raw HTML"));
                }
            }
            Event::Start(Tag::HtmlBlock) | Event::End(TagEnd::HtmlBlock) => {}
            event => pieces.push(Piece::Markup { event, span }),
        }
    }
    pieces
}

fn is_comment(html: &str) -> bool {
    html.trim_start().starts_with("<!--") && html.trim_end().ends_with("-->")
}

/// The text inside the brackets of a link, up to its end.
fn label(events: &mut Events) -> String {
    text_until(events, |event| matches!(event, Event::End(TagEnd::Link)))
}

fn label_of_image(events: &mut Events) -> String {
    text_until(events, |event| matches!(event, Event::End(TagEnd::Image)))
}

fn text_until(events: &mut Events, done: impl Fn(&Event<'_>) -> bool) -> String {
    let mut text = String::new();
    for (event, _) in events.by_ref() {
        match event {
            event if done(&event) => break,
            Event::Text(part) | Event::Code(part) => text.push_str(&part),
            Event::SoftBreak | Event::HardBreak => text.push(' '),
            _ => {}
        }
    }
    text
}

/// Where a link points; none, with a finding, if that is not understood.
fn link(target: &str, span: Span, known: &Known<'_>, reader: &mut Reader<'_>) -> Option<Link> {
    let names = known.names;
    let Some((scheme, rest)) = target.split_once(':') else {
        let help = format!("links begin with one of `{}:`", SCHEMES.join(":`, `"));
        reader.sink.push(link_not_understood::finding(span, target, help));
        return None;
    };
    match scheme {
        "spec" => narrowed(rest, span, known, reader).map(|(of, narrow)| Link::Spec { of, narrow }),
        "reading" => narrowed(rest, span, known, reader).map(|(of, narrow)| Link::Reading { of, narrow }),
        "hazard" => {
            names.hazards.knows_at(span, rest, reader.sink).then(|| Link::Hazard(HazardId::new(rest)))
        }
        "turn" => turn(rest, target, span, names, reader),
        "step" => Some(Link::Step(rest.to_owned())),
        "complaint" => names
            .complaints
            .knows_at(span, rest, reader.sink)
            .then(|| Link::Complaint(ComplaintId::new(rest))),
        "code" => {
            let (set, code) = rest.split_once('/').unwrap_or((rest, ""));
            let known = names.codes.knows_at(span, set, reader.sink);
            known.then(|| Link::Code(CodeSetId::new(set), code.to_owned()))
        }
        "procedure" => names
            .procedures
            .knows_at(span, rest, reader.sink)
            .then(|| Link::Procedure(ProcedureId::new(rest))),
        other => {
            let help = nearest(other, SCHEMES).map_or_else(
                || format!("links begin with one of `{}:`; an address outside the handbook is out of reach at the bench", SCHEMES.join(":`, `")),
                |near| format!("did you mean `{near}:{rest}`?"),
            );
            reader.sink.push(link_not_understood::finding(span, target, help));
            None
        }
    }
}

/// `lash.exhaust` or `lash.exhaust?cylinder=front&engine=cold`.
///
/// A word that the entry does not have would leave nothing out, and the link would show another place's value.
fn narrowed(rest: &str, span: Span, known: &Known<'_>, reader: &mut Reader<'_>) -> Option<(EntryId, Words)> {
    let (of, words) = rest.split_once('?').unwrap_or((rest, ""));
    if !known.names.entries.knows_at(span, of, reader.sink) {
        return None;
    }
    let of = EntryId::new(of);
    let entry = known.entries.get(&of);
    let mut narrow = Words::new();
    for pair in words.split('&').filter(|pair| !pair.is_empty()) {
        let Some((key, word)) = pair.split_once('=') else {
            let help = format!("narrow it as `{of}?cylinder=front`");
            reader.sink.push(link_not_understood::finding(span, rest, help));
            return None;
        };
        match entry.map_or_else(|| Ok(word.to_owned()), |entry| meant(entry, key, word)) {
            Ok(word) => _ = narrow.insert(key.to_owned(), word),
            Err((message, help)) => {
                let finding = link_not_understood::narrowed(span, message, help);
                let defined = entry.map(|entry| entry.span);
                let finding = defined
                    .into_iter()
                    .fold(finding, |finding, at| finding.with(at, "the entry is defined here"));
                reader.sink.push(finding);
                return None;
            }
        }
    }
    Some((of, narrow))
}

/// A word that narrows a link, as statements have it; or what is wrong with it, and how to mend it.
fn meant(entry: &Entry, key: &str, word: &str) -> Result<String, (String, String)> {
    let of = &entry.id;
    let one_of = |words: &[String]| {
        if words.iter().any(|one| one == word) {
            return Ok(word.to_owned());
        }
        let near = nearest(word, words.iter().map(String::as_str));
        let help = near.map_or_else(
            || format!("it has `{}`", words.join("`, `")),
            |near| format!("did you mean `{of}?{key}={near}`?"),
        );
        Err((format!("`{of}` has no {key} `{word}`"), help))
    };
    match (entry.axes.get(key), entry.states.get(key)) {
        (Some(places), _) => one_of(places),
        (None, Some(Domain::Words(words))) => one_of(words),
        (None, Some(Domain::Kind(kind))) => match Value::parse(word) {
            Ok(value) if value.unit().kind() == *kind => Ok(value.text()),
            Ok(_) => Err((
                format!("`{key}` of `{of}` takes units of {}, and not `{word}`", kind.title()),
                "write it in a unit of its kind".to_owned(),
            )),
            Err(error) => Err((error.message(), error.help_for(word))),
        },
        // Part of the entry was not understood: that is said there.
        (None, None) if !entry.whole => Ok(word.to_owned()),
        (None, None) => {
            let known: Vec<&str> = entry.axes.keys().chain(entry.states.keys()).map(String::as_str).collect();
            let help = match (nearest(key, known.iter().copied()), known.is_empty()) {
                (Some(near), _) => format!("did you mean `{of}?{near}={word}`?"),
                (None, true) => format!("it has neither places nor states: write `{of}` alone"),
                (None, false) => format!("narrow it by `{}`", known.join("`, `")),
            };
            Err((format!("`{of}` is not told apart by `{key}`"), help))
        }
    }
}

/// `crank 90°`: the part whose `rotation.<part>` is stated, and by how much.
fn turn(rest: &str, target: &str, span: Span, names: &Names, reader: &mut Reader<'_>) -> Option<Link> {
    let (part, angle) = rest.trim().split_once(' ').unwrap_or((rest, ""));
    let Some(angle) = Value::parse(angle).ok().filter(is_a_turn) else {
        let help = "write what is turned and by how much, one angle or number of turns above nothing, as \
                    `turn:crank 90°`: the direction is the engine's own";
        reader.sink.push(link_not_understood::finding(span, target, help));
        return None;
    };
    let of = format!("rotation.{part}");
    names.entries.knows_at(span, &of, reader.sink).then(|| Link::Turn { of: EntryId::new(of), angle })
}

/// One angle or number of turns above nothing; a sign would turn against the engine's own direction.
fn is_a_turn(value: &Value) -> bool {
    matches!(value.unit().kind(), Kind::Angle | Kind::Turns)
        && matches!(value.shape(), Shape::Single(_) | Shape::Turn(_))
        && value.nominal().is_some_and(|nominal| *nominal > Exact::default())
}
