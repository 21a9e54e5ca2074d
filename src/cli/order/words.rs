//! The order for people: each check with its minutes, what it finds, and why it stands where it stands.

use num_traits::Zero as _;

use super::cautions::Cautions;
use super::source::Asked;
use crate::compute::order::{COOLING, Change, Findings, Heat, Order, Outcome, Step, Warmth, Why, heat};
use crate::quantity::{Exact, Rounding, exact_text, power_of_ten, round_to};

/// Where shares, and minutes of warming and cooling, are from.
const NO_SOURCE: &str = "common practice, no source";

/// The order, as a list.
pub(super) fn told(asked: &Asked, order: &Order, findings: &Findings) -> String {
    let mut lines = vec![asked.title.clone()];
    lines.extend(asked.invented.map(|invented| {
        let mark = if invented { ", invented" } else { "" };
        format!("shares of past jobs: {NO_SOURCE}{mark}")
    }));
    lines.extend(so_far(asked, order, findings));
    if !order.told_apart {
        let do_so = "look at each of them, as the maker's current manual has it";
        lines.push(format!("no check of this guide tells these causes apart: {do_so}"));
    }
    if order.steps.is_empty() {
        lines.push("every check is done".to_owned());
    } else if order.steps.iter().any(|step| !step.finds.is_zero()) {
        lines.push(format!(
            "{} min to the cause on average; {} min in the order as written",
            rounded(&order.expected_minutes),
            rounded(&order.as_written_minutes)
        ));
    }
    let (useful, idle): (Vec<&Step>, Vec<&Step>) = order.steps.iter().partition(|step| !step.finds.is_zero());
    let heats = heats(asked, findings, &useful);
    let minutes: u32 = heats.iter().filter_map(|one| one.first).map(Change::minutes).sum();
    if minutes > 0 {
        lines.push(format!("warming and cooling on top: {minutes} min if every check is done ({NO_SOURCE})"));
    }
    for (at, (step, heat)) in useful.iter().zip(&heats).enumerate() {
        lines.push(String::new());
        lines.extend(entry(asked, at, step));
        lines.extend(heat_lines(heat, &useful).map(|line| format!("     {line}")));
        let cautions = asked.cautions.get(&step.check).map(Cautions::lines).unwrap_or_default();
        lines.extend(cautions.iter().map(|line| format!("     {line}")));
    }
    for words in [NO_JOB, TELLS_APART, NOTHING_LEFT] {
        let checks: Vec<_> =
            idle.iter().filter(|step| idles(step.why) == words).map(|step| step.check.as_str()).collect();
        if !checks.is_empty() {
            lines.extend([String::new(), format!("{words}: {}", checks.join(", "))]);
        }
    }
    if !order.proved {
        lines.push(String::new());
        lines.push("too many checks hang together to prove that no other order is quicker".to_owned());
    }
    lines.join("\n") + "\n"
}

const NO_JOB: &str = "shows only causes that no job has had so far";
const TELLS_APART: &str = "to tell the causes apart once a check has shown";
const NOTHING_LEFT: &str = "nothing left to show";

/// Why a check finds the cause in no job, whatever its place in the order.
const fn idles(why: Why) -> &'static str {
    match why {
        Why::TellsApart => TELLS_APART,
        Why::NothingLeft => NOTHING_LEFT,
        Why::MostForItsMinutes | Why::OpensForOthers | Why::ClearsForOthers | Why::AllThatIsLeft => NO_JOB,
    }
}

/// What the results so far leave.
fn so_far(asked: &Asked, order: &Order, findings: &Findings) -> Option<String> {
    if findings.is_empty() {
        return None;
    }
    let title = |(cause, share): &(String, Exact)| format!("{} ({})", titled(asked, cause), jobs(share));
    let left: Vec<_> = order.left.iter().map(title).collect();
    let shown = findings.values().any(|outcome| *outcome == Outcome::Shown);
    Some(match (left.as_slice(), shown) {
        ([], _) => "left: none of the causes that a check shows".to_owned(),
        ([_], true) => format!("found: {}", order.left.first().map_or("", |(cause, _)| titled(asked, cause))),
        _ => format!("left: {}", left.join(", ")),
    })
}

/// What a cause is called.
fn titled<'a>(asked: &'a Asked, cause: &'a String) -> &'a str {
    asked.causes.get(cause).unwrap_or(cause)
}

fn entry(asked: &Asked, at: usize, step: &Step) -> Vec<String> {
    let title = asked.checks.iter().find(|(id, _)| *id == step.check).map_or("", |(_, title)| title);
    let opens: Vec<_> =
        step.opens.iter().map(|id| asked.access.get(id).unwrap_or(id).to_lowercase()).collect();
    let with = if opens.is_empty() { String::new() } else { format!(" with {}", opens.join(", ")) };
    let mut lines = vec![format!("{:>3}. {}: {title}", at + 1, step.check)];
    lines.push(format!("     {} min{with}; {} min gone", rounded(&step.minutes), rounded(&step.by)));
    lines.push(format!("     finds it in {}: {}", jobs(&step.finds), step.why.words()));
    lines
}

/// What heat costs along the checks that can show something, after those that are done.
fn heats(asked: &Asked, findings: &Findings, useful: &[&Step]) -> Vec<Heat> {
    let of = |id: &String| asked.heat.get(id).copied();
    let done: Vec<Warmth> = findings.keys().filter_map(of).collect();
    let ahead: Vec<Warmth> = useful.iter().filter_map(|step| of(&step.check)).collect();
    heat(&done, &ahead)
}

fn heat_lines(heat: &Heat, useful: &[&Step]) -> impl Iterator<Item = String> {
    let first = heat
        .first
        .map(|change| format!("first {}: {} min more ({NO_SOURCE})", change.words(), change.minutes()));
    let later = heat.voids.iter().filter_map(|at| useful.get(*at)).map(|step| step.check.as_str());
    let later = later.collect::<Vec<_>>().join(", ");
    let voids = (!later.is_empty()).then(|| {
        format!(
            "it takes the cold engine away from {later}: do that first, or the engine must cool again, \
             {COOLING} min ({NO_SOURCE})"
        )
    });
    voids.into_iter().chain(first)
}

/// A share of past jobs, `52 of 100 jobs`.
fn jobs(share: &Exact) -> String {
    let hundredths = round_to(&(share * power_of_ten(2)), &power_of_ten(0), Rounding::HalfEven);
    format!("{} of 100 jobs", exact_text(&hundredths))
}

/// Minutes to a tenth.
fn rounded(minutes: &Exact) -> String {
    exact_text(&round_to(minutes, &power_of_ten(-1), Rounding::HalfEven))
}
