//! A broken relation in words: the arithmetic with the engine's numbers, and what would make it agree.

use num_traits::{Signed, Zero};

use super::extent::{End, Extent};
use super::judge::{Broken, broken, extent};
use super::solve::{Ends, solve};
use super::tree::{Clause, Comparison, Expr, Formula, Node, Operator, Slack, Span};
use super::worth::Worth;
use crate::quantity::{Exact, Kind, Rounding, Unit, decimal_text, power_of_ten, round_to};

/// The most names a hint is given for.
const MOST_HINTS: usize = 3;

/// The arithmetic of a broken clause: `0.35..0.59 mm does not lie within … = 0.035..0.059 mm`.
pub fn arithmetic(clause: &Clause, broken: Broken<'_>, worths: &[Worth]) -> String {
    match (clause, broken) {
        (Clause::Chain(..), Broken::Link(left, link)) => {
            let unit = unit_of(left, worths).or_else(|| unit_of(&link.right, worths));
            let slack =
                link.slack.as_ref().map_or_else(String::new, |slack| format!(", ± {}", slack_text(slack)));
            let (left, right) = (side(left, worths, unit), side(&link.right, worths, unit));
            format!("{left} {} {right}{slack}", verb(link.sign))
        }
        (Clause::In(value, span), _) => {
            let unit = span.unit.or_else(|| unit_of(value, worths));
            let ends = format!("{}..{}", digits(&span.least), digits(&span.most));
            let ends = span.unit.map_or_else(|| ends.clone(), |unit| unit.after(&ends));
            format!("{} {} {ends}", side(value, worths, unit), place(&extent(value, worths), span))
        }
        (Clause::Whole(value, _), _) => format!("{} is not whole", side(value, worths, None)),
        _ => String::new(),
    }
}

/// Where a value lies that does not lie in a span.
fn place(value: &Extent, span: &Span) -> &'static str {
    let is = |end: &Option<End>, beyond: &dyn Fn(&Exact) -> bool| {
        end.as_ref().is_some_and(|end| beyond(&end.nominal))
    };
    let (below, above) = (|end: &Exact| *end < span.least, |end: &Exact| *end > span.most);
    match (is(&value.low, &below), is(&value.high, &above)) {
        (true, false) if is(&value.high, &below) => "lies below",
        (false, true) if is(&value.low, &above) => "lies above",
        (true, false) => "reaches below",
        (false, true) => "reaches above",
        _ => "does not lie in",
    }
}

/// What would make it agree; empty where nothing simple would.
pub fn remedy(formula: &Formula, clause: &Clause, found: Broken<'_>, worths: &[Worth]) -> String {
    let name = |place: usize| formula.names.get(place).map_or_else(String::new, super::tree::Name::shown);
    if let Some((place, words)) = slip(clause, worths) {
        return format!("{words} of {} would fit, so a decimal point may have moved", name(place));
    }
    let hints = worths.iter().enumerate().filter_map(|(place, worth)| {
        worth.span?;
        let ends = solve(clause, found, place, worths)?;
        Some(format!("{} at {}", name(place), within(&ends, worth)?))
    });
    let hints: Vec<_> = hints.take(MOST_HINTS).collect();
    if hints.is_empty() { String::new() } else { format!("it would hold with {}", hints.join(", or with ")) }
}

/// The one name and the power of ten that would make a clause hold. A fact of the layout is held to the others by itself.
fn slip(clause: &Clause, worths: &[Worth]) -> Option<(usize, &'static str)> {
    let powers =
        [(-1, "a tenth"), (1, "ten times the value"), (-2, "a hundredth"), (2, "a hundred times the value")];
    let any_stated = worths.iter().any(|worth| worth.stated);
    let mut found = Vec::new();
    for (place, worth) in worths.iter().enumerate() {
        let fact = any_stated && !worth.stated;
        if fact || worth.unit.is_none_or(|unit| unit.kind() == Kind::Temperature) {
            continue;
        }
        for (power, words) in powers {
            let mut moved = worths.to_vec();
            if let Some(one) = moved.get_mut(place) {
                one.extent = one.extent.times(&Extent::exactly(power_of_ten(power)));
            }
            if broken(clause, &moved).is_none() {
                found.push((place, words));
            }
        }
    }
    match found.as_slice() {
        [only] if worths.len() > 1 => Some(*only),
        _ => None,
    }
}

/// One side: its arithmetic, and what comes of it.
fn side(expr: &Expr, worths: &[Worth], unit: Option<Unit>) -> String {
    let text = spelt(expr, worths);
    match expr.node {
        Node::Name(_) | Node::Quantity(..) | Node::Pi => text,
        _ => format!("{text} = {}", extent_text(&extent(expr, worths), unit)),
    }
}

/// A part with the numbers in the place of the names.
fn spelt(expr: &Expr, worths: &[Worth]) -> String {
    match &expr.node {
        Node::Quantity(value, unit) => unit.map_or_else(|| digits(value), |unit| unit.after(&digits(value))),
        Node::Pi => "π".to_owned(),
        Node::Name(place) => worths.get(*place).map_or_else(String::new, |worth| worth.shown.clone()),
        Node::Power(base, exponent) => {
            format!("({}){}", spelt(base, worths), if *exponent == 2 { "²" } else { "³" })
        }
        Node::Sine(angle) => format!("sin({})", spelt(angle, worths)),
        Node::Joined(operator, left, right) => {
            let sign = match operator {
                Operator::Plus => "+",
                Operator::Minus => "−",
                Operator::Times => "×",
                Operator::Over => "/",
            };
            format!(
                "{} {sign} {}",
                held_together(left, *operator, worths),
                held_together(right, *operator, worths)
            )
        }
    }
}

/// A part of a sum or product, in brackets where it would read otherwise.
fn held_together(expr: &Expr, within: Operator, worths: &[Worth]) -> String {
    let text = spelt(expr, worths);
    let sum = |operator: &Operator| matches!(operator, Operator::Plus | Operator::Minus);
    let loose = match &expr.node {
        Node::Name(place) => worths.get(*place).is_some_and(|worth| worth.extent.as_point().is_none()),
        Node::Joined(operator, ..) => sum(operator) && !sum(&within),
        _ => false,
    };
    if loose { format!("({text})") } else { text }
}

/// The unit that a part is best shown in: that of the first name or quantity that measures the same.
fn unit_of(expr: &Expr, worths: &[Worth]) -> Option<Unit> {
    match &expr.node {
        Node::Name(place) => worths.get(*place).and_then(|worth| worth.unit),
        Node::Quantity(_, unit) => *unit,
        Node::Joined(Operator::Plus | Operator::Minus, left, right) => {
            let unit = unit_of(left, worths).or_else(|| unit_of(right, worths))?;
            let both_at =
                matches!(expr.node, Node::Joined(Operator::Minus, ..)) && unit.kind() == Kind::Temperature;
            let difference = unit_of(right, worths).is_some_and(|unit| unit.kind() == Kind::Temperature);
            if both_at && difference { Unit::of(Kind::TemperatureDifference).next() } else { Some(unit) }
        }
        _ => None,
    }
}

/// What may be, in a unit: `0.035..0.059 mm`, `at most 14 %`.
fn extent_text(extent: &Extent, unit: Option<Unit>) -> String {
    let shown =
        |end: &End| digits(&unit.map_or_else(|| end.nominal.clone(), |unit| unit.from_si(&end.nominal)));
    let after = |text: &str| unit.map_or_else(|| text.to_owned(), |unit| unit.after(text));
    match (&extent.low, &extent.high) {
        (Some(low), Some(high)) if low.nominal == high.nominal => after(&shown(low)),
        (Some(low), Some(high)) => after(&format!("{}..{}", shown(low), shown(high))),
        (Some(low), None) => format!("at least {}", after(&shown(low))),
        (None, Some(high)) => format!("at most {}", after(&shown(high))),
        (None, None) => "anything".to_owned(),
    }
}

/// A number to five figures, without needless zeros.
fn digits(value: &Exact) -> String {
    let mut decimals = 4u32;
    let mut size = value.abs();
    let ten = power_of_ten(1);
    while size >= ten && decimals > 0 {
        size /= &ten;
        decimals -= 1;
    }
    while size < power_of_ten(0) && !size.is_zero() && decimals < 12 {
        size *= &ten;
        decimals += 1;
    }
    let text = decimal_text(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Ends in the unit of a value and rounded inward to its digits; none where nothing positive is left of a positive one.
fn within(ends: &Ends, worth: &Worth) -> Option<String> {
    let unit = worth.unit?;
    let in_unit = |end: &Option<Exact>| end.as_ref().map(|end| unit.from_si(end));
    let (low, high) = (in_unit(&ends.low), in_unit(&ends.high));
    if low == high {
        return low.map(|one| unit.after(&decimal_text(&one, worth.decimals)));
    }
    if unit.kind() != Kind::Temperature && high.as_ref().is_some_and(|high| !high.is_positive()) {
        return None;
    }
    (worth.decimals..worth.decimals + 4).find_map(|decimals| {
        let step = power_of_ten(-i32::try_from(decimals).ok()?);
        let low = low.as_ref().map(|low| round_to(low, &step, Rounding::Up));
        let high = high.as_ref().map(|high| round_to(high, &step, Rounding::Down));
        let text = |end: &Exact| decimal_text(end, decimals);
        match (low, high) {
            (Some(low), Some(high)) if low > high => None,
            (Some(low), Some(high)) if low == high => Some(unit.after(&text(&low))),
            (Some(low), Some(high)) => Some(unit.after(&format!("{}..{}", text(&low), text(&high)))),
            (Some(low), None) => Some(format!("{} or more", unit.after(&text(&low)))),
            (None, Some(high)) => Some(format!("{} or less", unit.after(&text(&high)))),
            (None, None) => None,
        }
    })
}

const fn verb(sign: Comparison) -> &'static str {
    match sign {
        Comparison::Equal => "is not",
        Comparison::Below => "is not below",
        Comparison::AtMost => "is more than",
        Comparison::Above => "is not above",
        Comparison::AtLeast => "is less than",
        Comparison::Within => "does not fit within",
    }
}

fn slack_text(slack: &Slack) -> String {
    match slack {
        Slack::Share(share) => format!("{} %", digits(&(share * power_of_ten(2)))),
        Slack::Amount(value, unit, _) => {
            unit.map_or_else(|| digits(value), |unit| unit.after(&digits(value)))
        }
    }
}
