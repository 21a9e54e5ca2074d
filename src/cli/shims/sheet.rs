//! A shim plan for people: what to take out, what to put in, what to buy, and what must be proved after.

use std::collections::BTreeMap;

use num_traits::Zero;

use crate::compute::shims::{Job, Line, Plan, Source, Valve};
use crate::quantity::{
    Exact, Rounding, Shape, Unit, Value, decimal_text, exact_text, power_of_ten, round_to,
};

/// How many decimals a length is shown with at most; a printed number keeps all it has.
const MOST_DECIMALS: u32 = 4;

/// The whole sheet.
pub fn sheet(job: &Job, plan: &Plan) -> String {
    let mut text = format!(
        "Shim plan: {} valves, window {}, aim {}\n",
        plan.lines.len(),
        job.window,
        lash(job, plan, &plan.target)
    );
    for valve in &job.valves {
        let window = valve.window.as_ref().map(|window| format!(", window {window}"));
        let target = valve.target.as_ref().map(|target| format!(", aim {target}"));
        if window.is_some() || target.is_some() {
            let (window, target) = (window.unwrap_or_default(), target.unwrap_or_default());
            text.push_str(&format!("           {}{window}{target}\n", valve.name));
        }
    }
    text.push('\n');
    text.push_str(&table(job, plan));
    text.push('\n');
    text.push_str(&summary(job, plan));
    text.push_str(&footnotes(plan));
    text
}

fn table(job: &Job, plan: &Plan) -> String {
    let head = ["valve", "lash now", "shim now", "fit", "from", "lash after"].map(str::to_owned);
    let rows: Vec<[String; 6]> = job
        .valves
        .iter()
        .zip(&plan.lines)
        .map(|(valve, line)| {
            let after = match (&line.source, &line.lash_after) {
                (Source::Unsolved, _) | (_, None) => "not solved".to_owned(),
                (_, Some(after)) => lash(job, plan, after),
            };
            let fit = match line.source {
                Source::Kept => "stays".to_owned(),
                Source::Unsolved => "-".to_owned(),
                _ => shim(job, plan, &line.shim),
            };
            [valve.name.clone(), valve.measured.text(), valve.fitted.text(), fit, origin(plan, line), after]
        })
        .collect();
    let all: Vec<_> = std::iter::once(&head).chain(&rows).collect();
    let width = |column: usize| {
        let cells = all.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or_default()
    };
    let widths: Vec<usize> = (0..head.len()).map(width).collect();
    let line = |row: &[String; 6]| {
        let cells = row.iter().zip(&widths);
        let cells = cells
            .map(|(cell, width)| format!("{cell}{}", " ".repeat(width.saturating_sub(cell.chars().count()))));
        format!("{}\n", cells.collect::<Vec<_>>().join("   ").trim_end())
    };
    all.into_iter().map(line).collect()
}

fn origin(plan: &Plan, line: &Line) -> String {
    match line.source {
        Source::Kept | Source::Unsolved => "-".to_owned(),
        Source::Stock(_) => "stock".to_owned(),
        Source::Engine(_) => plan.moved_from(line).unwrap_or_default().to_owned(),
    }
}

/// What to buy, what is left over, and what is not solved.
fn summary(job: &Job, plan: &Plan) -> String {
    let mut bought: BTreeMap<&Exact, usize> = BTreeMap::new();
    for line in plan.lines.iter().filter(|line| matches!(line.source, Source::Stock(_))) {
        *bought.entry(&line.shim).or_default() += 1;
    }
    let counted = |(size, count): (&&Exact, &usize)| {
        let size = shim(job, plan, size);
        if *count == 1 { size } else { format!("{count} × {size}") }
    };
    let mut text = match plan.bought {
        0 => "From stock: nothing\n".to_owned(),
        count => {
            format!("From stock: {count}: {}\n", bought.iter().map(counted).collect::<Vec<_>>().join(", "))
        }
    };
    let left: Vec<_> = left_over(plan)
        .iter()
        .map(|line| format!("{} ({})", shim(job, plan, &line.fitted), line.valve))
        .collect();
    if !left.is_empty() {
        text.push_str(&format!("Left over: {}\n", left.join(", ")));
    }
    for (valve, line) in job.valves.iter().zip(&plan.lines) {
        if line.source == Source::Unsolved {
            text.push_str(&format!("Not solved: {}: {}\n", valve.name, why(valve)));
        }
    }
    if let Some(step) = &plan.coarse {
        let step = shim(job, plan, step);
        text.push_str(&format!(
            "The sizes in stock lie up to {step} apart, which is wider than the window: a valve may fall between two.\n"
        ));
    }
    text
}

/// The valves whose own shim goes to no other.
fn left_over(plan: &Plan) -> Vec<&Line> {
    let taken = |place: usize| plan.lines.iter().any(|line| line.source == Source::Engine(place));
    let changed = |line: &Line| !matches!(line.source, Source::Kept | Source::Unsolved);
    let all = plan.lines.iter().enumerate();
    all.filter(|(place, line)| changed(line) && !taken(*place)).map(|(_, line)| line).collect()
}

fn why(valve: &Valve) -> String {
    let unmeasured = match valve.measured.shape() {
        Shape::Single(number) => number.exact().is_zero(),
        _ => true,
    };
    if unmeasured {
        format!("at {} nobody knows how tight it is; fit a thinner shim and measure again", valve.measured)
    } else {
        "no shim at hand brings it into the window; get one that does".to_owned()
    }
}

/// A lash in the unit of the window.
fn lash(job: &Job, plan: &Plan, value: &Exact) -> String {
    let printed = job.valves.iter().map(|valve| &valve.measured).chain(job.target.as_ref());
    shown(value, plan.unit, printed.chain(std::iter::once(&job.window)))
}

/// A thickness in the unit of the shims.
fn shim(job: &Job, plan: &Plan, value: &Exact) -> String {
    let stock = job.stock.iter().map(|stock| &stock.size);
    shown(value, plan.shim_unit, stock.chain(job.valves.iter().map(|valve| &valve.fitted)))
}

/// A number with the most decimals that are printed beside it, and all it needs up to [`MOST_DECIMALS`].
fn shown<'a>(value: &Exact, unit: Unit, printed: impl Iterator<Item = &'a Value>) -> String {
    let beside = printed.filter(|one| one.unit() == unit).map(Value::decimals).max().unwrap_or_default();
    let step = power_of_ten(-i32::try_from(MOST_DECIMALS).unwrap_or_default());
    let rounded = round_to(value, &step, Rounding::HalfEven);
    let needed = exact_text(&rounded).split_once('.').map_or(0, |(_, part)| part.len());
    let decimals = beside.max(u32::try_from(needed).unwrap_or_default());
    unit.after(&decimal_text(value, decimals.min(beside.max(MOST_DECIMALS))))
}

fn footnotes(plan: &Plan) -> String {
    let moved = plan.lines.iter().any(|line| matches!(line.source, Source::Engine(_)));
    let mut text = String::from(
        "\nlash after = lash now + shim now − shim to fit (the shim takes up what the gap loses: geometry)\n",
    );
    if moved {
        text.push_str("Take out every shim that moves before one goes back, and mark each with its valve.\n");
    }
    text.push_str(
        "NOTICE: measure each shim with a micrometer, whatever is marked on it. Then turn the crank two full\n\
         turns by hand, in its own direction, and measure every valve again: only that proves the plan (common\n\
         practice, no source). The window holds only in the state the maker gives it for. The maker's current\n\
         manual and a trained technician come first.\n",
    );
    text
}
