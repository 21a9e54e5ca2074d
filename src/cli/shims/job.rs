//! A job file turned into a job, with findings inside the file for what is wrong in it.

use crate::check::rules::{set_to_outside_window, unit_of_another_kind};
use crate::compute::shims::{Job, JobError, JobProblem, Place, Stock, Valve, sizes};
use crate::diag::{Finding, Sink};
use crate::load::disk::Found;
use crate::load::format::{Located, ShimStock, ShimValve, ShimsFile, Text};
use crate::load::place::FileKind;
use crate::load::rules::{missing_key, wrong_count};
use crate::load::{self, Decoded};
use crate::quantity::Value;
use crate::resolve::Reader;
use crate::resolve::rules::{duplicate_id, value_not_understood};
use crate::source::{FileId, Sources, Span};

/// A job, and where its parts stand in the file.
pub struct Read {
    pub job: Job,
    pub places: Places,
}

/// Where the parts of a job stand.
pub struct Places {
    file: FileId,
    window: Text,
    target: Option<Text>,
    stock: Vec<Text>,
    steps: Option<Text>,
    valves: Vec<ShimValve>,
}

/// Reads a job file; none if a part of it is not understood, and findings that say which.
pub fn read(found: Found, sources: &mut Sources, sink: &mut Sink) -> Option<Read> {
    let decoded: Decoded<ShimsFile> = load::load_alone(FileKind::Shims, found, sources, sink)?;
    let data = decoded.data;
    let places = Places {
        file: decoded.file,
        window: data.window,
        target: data.target,
        stock: data.stock.iter().flatten().map(|one| one.size.clone()).collect(),
        steps: data.stock_steps,
        valves: data.valves.into_iter().map(Located::into_inner).collect(),
    };
    let stock = stock(data.stock.as_deref(), &places, sources, sink);
    let mut reader = Reader { sources, file: places.file, sink };
    let window = reader.value(&places.window);
    let target = optional(&mut reader, places.target.as_ref());
    let valves: Vec<_> = places
        .valves
        .iter()
        .map(|valve| {
            let (measured, fitted) = (reader.value(&valve.measured), reader.value(&valve.fitted));
            let window = optional(&mut reader, valve.window.as_ref());
            let target = optional(&mut reader, valve.target.as_ref());
            Some(Valve {
                name: valve.name.as_str().to_owned(),
                measured: measured?,
                fitted: fitted?,
                window: window.ok()?,
                target: target.ok()?,
            })
        })
        .collect();
    let valves = valves.into_iter().collect::<Option<Vec<_>>>()?;
    let job = Job { window: window?, target: target.ok()?, stock: stock?, valves };
    decoded.whole.then_some(Read { job, places })
}

/// A value that was written and is not understood.
struct Unread;

/// A value that may be left out.
fn optional(reader: &mut Reader<'_>, text: Option<&Text>) -> Result<Option<Value>, Unread> {
    text.map(|text| reader.value(text).ok_or(Unread)).transpose()
}

/// The stock: sizes one by one, or by steps, not both.
fn stock(
    listed: Option<&[ShimStock]>,
    places: &Places,
    sources: &Sources,
    sink: &mut Sink,
) -> Option<Vec<Stock>> {
    match (listed, &places.steps) {
        (Some(listed), None) => {
            let mut reader = Reader { sources, file: places.file, sink };
            let mut one =
                |stock: &ShimStock| Some(Stock { size: reader.value(&stock.size)?, pieces: stock.pieces });
            let all: Vec<_> = listed.iter().map(&mut one).collect();
            all.into_iter().collect()
        }
        (None, Some(steps)) => match sizes(steps.as_str()) {
            Ok(all) => Some(all.into_iter().map(|size: Value| Stock { size, pieces: None }).collect()),
            Err(error) => {
                sink.push(places.finding(&error));
                None
            }
        },
        (None, None) => {
            let about = "the sizes at hand, as `[\"2.45 mm\"]`; `[]` for none, or `stock_steps` for a range";
            sink.push(missing_key::finding(places.whole(), "a job of shims", "stock", Some(about)));
            None
        }
        (Some(_), Some(steps)) => {
            let span = Span::new(places.file, steps.range());
            let message = "the stock is given twice: by `stock` and by `stock_steps`";
            sink.push(Finding::new(&wrong_count::RULE, span, message, "take one of the two out"));
            None
        }
    }
}

impl Places {
    /// What stands for the job as a whole: the line of its window.
    fn whole(&self) -> Span {
        Span::new(self.file, self.window.range())
    }

    /// A finding where a job cannot be worked out.
    pub fn finding(&self, error: &JobError) -> Finding {
        let valve = |place: usize| self.valves.get(place);
        let text = match error.at {
            Place::Window | Place::Valves => Some(&self.window),
            Place::Target => self.target.as_ref(),
            Place::Stock(place) => self.stock.get(place).or(self.steps.as_ref()),
            Place::Steps => self.steps.as_ref(),
            Place::Name(place) => valve(place).map(|valve| &valve.name),
            Place::Measured(place) => valve(place).map(|valve| &valve.measured),
            Place::Fitted(place) => valve(place).map(|valve| &valve.fitted),
            Place::ValveWindow(place) => valve(place).and_then(|valve| valve.window.as_ref()),
            Place::ValveTarget(place) => valve(place).and_then(|valve| valve.target.as_ref()),
        };
        let span = text.map_or_else(|| self.whole(), |text| Span::new(self.file, text.range()));
        let rule = match error.problem {
            JobProblem::NoLength => &unit_of_another_kind::RULE,
            JobProblem::NoSuchValue => &value_not_understood::RULE,
            JobProblem::Outside => &set_to_outside_window::RULE,
            JobProblem::NoTarget => &missing_key::RULE,
            JobProblem::NameTaken => &duplicate_id::RULE,
            JobProblem::Count => &wrong_count::RULE,
        };
        let finding = Finding::new(rule, span, error.message.clone(), error.help.clone());
        let first = match error.at {
            Place::Name(place) if error.problem == JobProblem::NameTaken => valve(place).and_then(|taken| {
                self.valves.iter().map(|valve| &valve.name).find(|name| **name == taken.name)
            }),
            _ => None,
        };
        match first {
            Some(first) => finding.with(Span::new(self.file, first.range()), "first used here"),
            None => finding,
        }
    }
}
