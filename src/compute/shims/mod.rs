//! The shim plan of a head: which shim goes where, so that every valve comes into its window.
//!
//! A new shim follows from the lash that was measured: lash after = fitted + measured − shim, as the shim
//! takes up what the gap loses (plain geometry of a shim between cam and valve). Which valve gets which is
//! an assignment: each valve takes its own shim, one that another valve gives up, or one from stock, and
//! each shim lies in one place. Its cost is a whole number that holds four aims one above the other, and the
//! order of the file below them, so that exactly one plan is the best: [`plan`] finds it without trying all.
//!
//! A valve that keeps its own shim, in its window or unsolved, takes the place of that shim, so that no
//! other valve gets it.

mod aim;
mod answer;
mod assignment;
mod cost;
mod job;
mod options;

use num_bigint::BigInt;

use crate::quantity::{Exact, Unit, Value};
use assignment::Costs;
use cost::Weights;
use job::Head;
pub use job::{Job, JobError, JobProblem, Place, Stock, Valve, sizes};
use options::Choice;
pub use options::Source;

/// The most valves of one job.
pub const MOST_VALVES: usize = 64;
/// The most sizes of one stock.
pub const MOST_SIZES: usize = 2000;

/// What to do, valve by valve.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Plan {
    /// A line for each valve, in the order of the job.
    pub lines: Vec<Line>,
    /// How many shims come from stock.
    pub bought: usize,
    /// The lash aimed at where a valve has no window of its own, in the unit of the window.
    pub target: Exact,
    /// The unit of the window, in which every lash is given.
    pub unit: Unit,
    /// The unit of the first size in stock, else of the first fitted shim, in which every shim is given.
    pub shim_unit: Unit,
    /// The widest step between two sizes in stock that lie beside each other, where it is wider than a
    /// window: then a valve may have no shim. In the unit of the shims.
    pub coarse: Option<Exact>,
}

/// What to do with one valve.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Line {
    /// Its name.
    pub valve: String,
    /// The shim that was in it.
    pub fitted: Exact,
    /// The shim that goes into it.
    pub shim: Exact,
    /// Where that shim comes from.
    pub source: Source,
    /// The lash that is to be expected; of an unsolved valve what was measured, if that is a number.
    pub lash_after: Option<Exact>,
}

/// The best plan of a job: as few valves unsolved as can be, then as few shims bought, then as few moved
/// from valve to valve, then the least sum of distances from the target over the valves that are solved;
/// of plans that are equal in all this, the one in which the first valve of the file stands best.
///
/// # Errors
/// [`JobError`] where the job cannot be worked out.
pub fn plan(job: &Job) -> Result<Plan, JobError> {
    let head = job::head(job)?;
    let options = options::options(&head);
    let weights = Weights::of(&options);
    let columns = columns(&head, &options);
    let offers = offers(&columns, &options, &weights, &head);
    let costs: Costs = offers.iter().map(|row| row.iter().map(cost_of).collect()).collect();
    let placed = assignment::cheapest(&costs);
    let chosen = offers.iter().zip(placed).map(|(row, column)| source_at(row, column)).collect::<Vec<_>>();
    Ok(written(job, &head, &chosen))
}

/// One place a shim can come from, of which one valve has the use.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
enum Column {
    /// The shim that is in the valve at this place.
    Valve(usize),
    /// One piece of this place of the stock.
    Piece(usize),
    /// As many as are wanted of the sizes without a count, for the valve at this place alone.
    Plenty(usize),
}

/// The cheapest way for a valve to have its shim from a column.
type Offer = Option<(BigInt, Source)>;

fn cost_of(offer: &Offer) -> Option<BigInt> {
    offer.as_ref().map(|(cost, _)| cost.clone())
}

/// Every row has its own valve's shim to fall back on, so a row is always placed.
fn source_at(row: &[Offer], column: Option<usize>) -> Source {
    let offer = column.and_then(|column| row.get(column)?.as_ref());
    offer.map_or(Source::Unsolved, |(_, source)| *source)
}

/// Every place a shim can come from; of a counted size no more pieces than valves could take.
fn columns(head: &Head, options: &[Vec<Choice>]) -> Vec<Column> {
    let takers = |place: usize| {
        let takes = |choices: &&Vec<Choice>| choices.iter().any(|one| one.source == Source::Stock(place));
        options.iter().filter(takes).count()
    };
    let pieces = head.stock.iter().enumerate().filter_map(|(place, (_, pieces))| {
        let pieces = usize::try_from((*pieces)?).unwrap_or(usize::MAX);
        Some(std::iter::repeat_n(Column::Piece(place), pieces.min(takers(place))))
    });
    let valves = head.seats.len();
    (0..valves).map(Column::Valve).chain((0..valves).map(Column::Plenty)).chain(pieces.flatten()).collect()
}

/// What each valve can have from each column, at the least cost.
fn offers(columns: &[Column], options: &[Vec<Choice>], weights: &Weights, head: &Head) -> Vec<Vec<Offer>> {
    let counted = |place: usize| head.stock.get(place).is_some_and(|(_, pieces)| pieces.is_some());
    let column_of = |valve: usize, source: Source| match source {
        Source::Kept | Source::Unsolved => Column::Valve(valve),
        Source::Engine(other) => Column::Valve(other),
        Source::Stock(place) if counted(place) => Column::Piece(place),
        Source::Stock(_) => Column::Plenty(valve),
    };
    let row = |(valve, choices): (usize, &Vec<Choice>)| {
        let priced: Vec<_> = choices
            .iter()
            .enumerate()
            .map(|(rank, one)| (column_of(valve, one.source), weights.cost(valve, rank, one), one.source))
            .collect();
        let cheapest = |column: &Column| {
            let here = priced.iter().filter(|(where_from, ..)| where_from == column);
            here.min_by_key(|(_, cost, _)| cost).map(|(_, cost, source)| (cost.clone(), *source))
        };
        columns.iter().map(cheapest).collect()
    };
    options.iter().enumerate().map(row).collect()
}

fn written(job: &Job, head: &Head, chosen: &[Source]) -> Plan {
    let unit = job.window.unit();
    let first = job.stock.first().map(|stock| &stock.size);
    let first = first.or_else(|| job.valves.first().map(|valve| &valve.fitted));
    let shim_unit = first.map_or(unit, Value::unit);
    let line = |((valve, seat), source): ((&Valve, &job::Seat), &Source)| {
        let from = match *source {
            Source::Kept | Source::Unsolved => None,
            Source::Engine(other) => head.seats.get(other).map(|seat| &seat.shim),
            Source::Stock(place) => head.stock.get(place).map(|(size, _)| size),
        };
        let shim = from.unwrap_or(&seat.shim);
        let lash_after = seat.lash.as_ref().map(|lash| unit.from_si(&(lash + &seat.shim - shim)));
        Line {
            valve: valve.name.clone(),
            fitted: shim_unit.from_si(&seat.shim),
            shim: shim_unit.from_si(shim),
            source: *source,
            lash_after,
        }
    };
    Plan {
        lines: job.valves.iter().zip(&head.seats).zip(chosen).map(line).collect(),
        bought: chosen.iter().filter(|source| matches!(source, Source::Stock(_))).count(),
        target: unit.from_si(&head.aim.target),
        unit,
        shim_unit,
        coarse: coarse(head).map(|step| shim_unit.from_si(&step)),
    }
}

/// The widest step between neighbouring sizes in stock, where it is wider than a window.
fn coarse(head: &Head) -> Option<Exact> {
    let mut sizes: Vec<_> = head.stock.iter().map(|(size, _)| size).collect();
    sizes.sort();
    let steps = sizes.iter().zip(sizes.iter().skip(1)).map(|(thin, thick)| *thick - *thin);
    let widest = steps.max()?;
    let narrowest = head.seats.iter().filter_map(|seat| seat.aim.width()).min();
    narrowest.is_some_and(|width| widest > width).then_some(widest)
}
