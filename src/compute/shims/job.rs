//! A job of shims as it is typed, and what must hold before it can be worked out.
//!
//! Invariant: in a [`Head`] every length is exact and in metres, every size is above zero, every target lies
//! in its window, and no two valves have one name.

use std::fmt;

use num_traits::{Signed, Zero};

use super::aim::Aim;
use super::{MOST_SIZES, MOST_VALVES};
use crate::quantity::{Exact, Kind, Shape, Unit, Value, decimal_text, exact_text};

/// A job as typed.
#[derive(Clone, Debug)]
pub struct Job {
    /// The limits of the lash.
    pub window: Value,
    /// The lash aimed at; the middle of the window if left out.
    pub target: Option<Value>,
    /// What can be bought or lies in the drawer, in the order it is to be preferred.
    pub stock: Vec<Stock>,
    /// The valves, in the order of the file.
    pub valves: Vec<Valve>,
}

/// One size in stock.
#[derive(Clone, Debug)]
pub struct Stock {
    /// Its thickness.
    pub size: Value,
    /// How many there are; as many as are wanted if left out.
    pub pieces: Option<u32>,
}

/// One valve: what was measured over which shim.
#[derive(Clone, Debug)]
pub struct Valve {
    /// What it is called.
    pub name: String,
    /// Its lash; zero or `under …` where no leaf goes in.
    pub measured: Value,
    /// The shim that is in it.
    pub fitted: Value,
    /// Its own limits, where they differ from those of the job: an exhaust valve beside intake valves.
    pub window: Option<Value>,
    /// Its own target; the middle of its own window if it has one, else that of the job.
    pub target: Option<Value>,
}

/// Which part of a job is wrong.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Place {
    /// The window.
    Window,
    /// The target.
    Target,
    /// The size at a place of the stock.
    Stock(usize),
    /// The steps of the stock.
    Steps,
    /// The valves as a whole.
    Valves,
    /// The name of a valve.
    Name(usize),
    /// The measured lash of a valve.
    Measured(usize),
    /// The fitted shim of a valve.
    Fitted(usize),
    /// The window of a valve.
    ValveWindow(usize),
    /// The target of a valve.
    ValveTarget(usize),
}

/// What sort of thing is wrong with a job.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum JobProblem {
    /// A value that is no length.
    NoLength,
    /// A value that does not have the shape asked for, or a number that cannot be.
    NoSuchValue,
    /// A target outside the window.
    Outside,
    /// No target, and no middle of the window.
    NoTarget,
    /// A name that is taken.
    NameTaken,
    /// Too many or too few of something.
    Count,
}

/// Why a job cannot be worked out.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct JobError {
    /// Which part of it.
    pub at: Place,
    /// What sort of thing.
    pub problem: JobProblem,
    /// What is wrong; lower case, no full stop.
    pub message: String,
    /// What to do.
    pub help: String,
}

impl fmt::Display for JobError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for JobError {}

pub(super) fn wrong(
    at: Place,
    problem: JobProblem,
    message: impl Into<String>,
    help: impl Into<String>,
) -> JobError {
    JobError { at, problem, message: message.into(), help: help.into() }
}

/// The sizes of `1.20..3.50 mm by 0.05 mm`, the thinnest first.
///
/// # Errors
/// [`JobError`] at [`Place::Steps`] where the text is none such, or has more than [`MOST_SIZES`] sizes.
pub fn sizes(text: &str) -> Result<Vec<Value>, JobError> {
    let help = "write the thinnest, the thickest and the step, as `1.20..3.50 mm by 0.05 mm`";
    let odd = |what: String| wrong(Place::Steps, JobProblem::NoSuchValue, what, help);
    let (span, step) =
        text.split_once(" by ").ok_or_else(|| odd(format!("`{text}` does not say by which step")))?;
    let read = |part: &str| Value::parse(part).map_err(|error| odd(format!("`{part}`: {}", error.message())));
    let (span, step) = (read(span)?, read(step)?);
    let (Shape::Range { min, max }, Shape::Single(by)) = (span.shape(), step.shape()) else {
        return Err(odd(format!("`{text}` is not a range and a step")));
    };
    if span.unit().kind() != Kind::Length || step.unit().kind() != Kind::Length {
        return Err(odd("a shim and its step are lengths".to_owned()));
    }
    let by = by.exact() * step.unit().ratio_to(span.unit());
    if !by.is_positive() || !min.exact().is_positive() {
        return Err(odd("the thinnest shim and the step are above zero".to_owned()));
    }
    let count = ((max.exact() - min.exact()) / &by).floor().to_integer();
    if count >= MOST_SIZES.into() {
        let message = format!("`{text}` is more than {MOST_SIZES} sizes");
        return Err(wrong(Place::Steps, JobProblem::Count, message, "write a wider step or a shorter range"));
    }
    let decimals = span.decimals().max(step.decimals());
    let mut all = Vec::new();
    let mut size = min.exact().clone();
    while size <= *max.exact() {
        all.push(
            written(&size, decimals, span.unit()).ok_or_else(|| odd("a size has too many digits".into()))?,
        );
        size += &by;
    }
    Ok(all)
}

/// A size as it would be printed: with the decimals of the steps where they write it exactly.
fn written(size: &Exact, decimals: u32, unit: Unit) -> Option<Value> {
    let short = decimal_text(size, decimals);
    let exact = exact_text(size);
    let same = Value::parse(&unit.after(&short)).ok();
    let same = same.filter(|value| value.nominal() == Some(size));
    same.or_else(|| Value::parse(&unit.after(&exact)).ok())
}

/// What is known of a valve, in metres.
#[derive(Debug)]
pub(super) struct Seat {
    /// The lash that was measured; none where only that it is under a leaf.
    pub(super) lash: Option<Exact>,
    pub(super) shim: Exact,
    /// True where the new shim can be worked out: a lash above zero was measured.
    pub(super) known: bool,
    pub(super) aim: Aim,
}

/// A job that holds, in metres.
#[derive(Debug)]
pub(super) struct Head {
    /// Where valves aim that have no window of their own.
    pub(super) aim: Aim,
    pub(super) stock: Vec<(Exact, Option<u32>)>,
    pub(super) seats: Vec<Seat>,
}

/// Holds a job to what must be true of it.
pub(super) fn head(job: &Job) -> Result<Head, JobError> {
    let aim = Aim::of(&job.window, job.target.as_ref(), Place::Window, Place::Target)?;
    let mut head = Head { aim, stock: Vec::new(), seats: Vec::new() };
    for (place, stock) in job.stock.iter().enumerate() {
        head.stock.push((size(&stock.size, Place::Stock(place), "a size in stock")?, stock.pieces));
    }
    valves(job, &mut head)?;
    Ok(head)
}

/// Where a valve aims: at its own window and target, or at those of the job.
fn aim(job: &Job, head: &Head, valve: &Valve, place: usize) -> Result<Aim, JobError> {
    if valve.window.is_none() && valve.target.is_none() {
        return Ok(head.aim.clone());
    }
    let at = if valve.window.is_some() { Place::ValveWindow(place) } else { Place::Window };
    let window = valve.window.as_ref().unwrap_or(&job.window);
    Aim::of(window, valve.target.as_ref(), at, Place::ValveTarget(place))
}

fn valves(job: &Job, head: &mut Head) -> Result<(), JobError> {
    if job.valves.is_empty() {
        return Err(wrong(
            Place::Valves,
            JobProblem::Count,
            "there are no valves",
            "add a `[[valves]]` table for each valve",
        ));
    }
    if job.valves.len() > MOST_VALVES {
        let message = format!("there are {} valves, over the bound of {MOST_VALVES}", job.valves.len());
        return Err(wrong(Place::Valves, JobProblem::Count, message, "work out one head at a time"));
    }
    for (place, valve) in job.valves.iter().enumerate() {
        let earlier = job.valves.iter().take(place).any(|other| other.name == valve.name);
        if earlier {
            let message = format!("two valves are called `{}`", valve.name);
            return Err(wrong(
                Place::Name(place),
                JobProblem::NameTaken,
                message,
                "give each valve a name of its own",
            ));
        }
        let shim = size(&valve.fitted, Place::Fitted(place), "a fitted shim")?;
        let (lash, known) = lash(&valve.measured, Place::Measured(place))?;
        let aim = aim(job, head, valve, place)?;
        head.seats.push(Seat { lash, shim, known, aim });
    }
    Ok(())
}

/// The measured lash in metres, and whether a new shim can be worked out from it.
fn lash(measured: &Value, at: Place) -> Result<(Option<Exact>, bool), JobError> {
    length(measured, at, "a measured lash")?;
    match measured.shape() {
        Shape::Single(number) if !number.exact().is_negative() => {
            let lash = measured.unit().to_si(number.exact());
            let known = !lash.is_zero();
            Ok((Some(lash), known))
        }
        Shape::Under(_) => Ok((None, false)),
        _ => Err(wrong(
            at,
            JobProblem::NoSuchValue,
            format!("`{measured}` is not a measured lash"),
            "write one value, `0 mm` where no leaf goes in, or `under …` the thinnest leaf",
        )),
    }
}

/// A thickness in metres.
fn size(value: &Value, at: Place, what: &str) -> Result<Exact, JobError> {
    length(value, at, what)?;
    match value.shape() {
        Shape::Single(number) if number.exact().is_positive() => Ok(value.unit().to_si(number.exact())),
        _ => {
            let message = format!("`{value}` is not the size of a shim");
            Err(wrong(at, JobProblem::NoSuchValue, message, "write one thickness above zero"))
        }
    }
}

pub(super) fn length(value: &Value, at: Place, what: &str) -> Result<(), JobError> {
    if value.unit().kind() == Kind::Length {
        return Ok(());
    }
    let message =
        format!("{what} is a length, and `{value}` is of another kind: {}", value.unit().kind().title());
    Err(wrong(at, JobProblem::NoLength, message, "write it in mm, in or thou"))
}
