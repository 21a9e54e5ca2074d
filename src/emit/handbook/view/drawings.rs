//! Which drawing a statement gets, and its text equivalent.

use super::form::{brief, seen, way};
use super::text::{Figure, bind};
use crate::emit::drawing::dimension::{Dimension, Mark, Zone};
use crate::emit::drawing::stages::{self, Effort, Stage};
use crate::emit::drawing::{Drawing, bolts, curve, dimension, position, rotation};
use crate::model::{Direction, Form, Hand, Point, Printed, Statement};
use crate::quantity::{Kind, Limit, Shape, Value, convert};

/// The drawing of a statement: its limits, its curve, its stages or its direction.
pub fn of(statement: &Statement, title: &str) -> Option<Drawing> {
    match &statement.form {
        Form::Window { printed, set_to } => window(printed, set_to, title),
        Form::Setting(printed) => window(printed, &[], title),
        Form::Fit { new, wear_limit } => fit(new, wear_limit, title),
        Form::Points(points) => points_curve(points, title),
        Form::Stages(steps) => {
            let hand = statement.fastener.as_ref().and_then(|fastener| fastener.hand);
            stair(steps, hand == Some(Hand::Left), title)
        }
        Form::Direction { turns, seen_from } => {
            Some(rotation::direction(*turns, &direction_label(title, *turns, seen_from.as_deref())))
        }
        _ => None,
    }
}

/// The bolts of a statement in tightening order.
pub fn pattern(statement: &Statement, title: &str) -> Option<Drawing> {
    let place = |(x, y): &(_, _)| Some((position(x)?, position(y)?));
    let centres: Option<Vec<(f64, f64)>> = statement.pattern.iter().map(place).collect();
    let label = format!("{title}: {} bolts, numbered in tightening order", statement.pattern.len());
    bolts::draw(&centres?, &label)
}

/// `Head bolts, tightened in 3 stages: 1, 20 N·m; 2, 40 N·m; 3, a further 90°`.
fn stair(steps: &[Vec<Printed>], left_hand: bool, title: &str) -> Option<Drawing> {
    let stage = |printed: &Vec<Printed>| {
        let value = &printed.first()?.value;
        let (at, label) = (middle_si(value)?, Figure::of(value).parts.join(".."));
        let to = match value.unit().kind() {
            Kind::Torque => Effort::Torque(at),
            Kind::Angle | Kind::Turns => Effort::Turn(degrees(value)?),
            _ => return None,
        };
        Some(Stage { to, label })
    };
    let drawn: Option<Vec<Stage>> = steps.iter().map(stage).collect();
    let said = steps.iter().zip(1_u32..).filter_map(|(printed, number)| {
        let value = &printed.first()?.value;
        let text = Figure::of(value).plain();
        let further = text.strip_prefix('+').map(|angle| format!("a further {angle}"));
        Some(format!("{number}, {}", further.unwrap_or(text)))
    });
    let said: Vec<String> = said.collect();
    let way = if left_hand { ", counter-clockwise" } else { "" };
    // Lettering is short; a sign that could be taken for another is said in full once.
    let spoken = steps.iter().filter_map(|printed| printed.first()).find_map(|one| {
        let name = Figure::of(&one.value).spoken?;
        Some(format!("{}: {name}", one.value.unit().symbol()))
    });
    stages::draw(
        &drawn?,
        left_hand,
        spoken.as_deref(),
        &format!("{title} in {} stages{way}: {}", steps.len(), said.join("; ")),
    )
}

/// The size of a turn in degrees, for a drawing only.
pub fn degrees(value: &Value) -> Option<f64> {
    let turn = position(value.nominal()?)?;
    Some(if value.unit().kind() == Kind::Turns { turn * 360.0 } else { turn })
}

fn direction_label(title: &str, turns: Direction, seen_from: Option<&str>) -> String {
    let side = seen_from.map(|side| format!(", {}", seen(side))).unwrap_or_default();
    format!("{title}: {}{side}", way(turns))
}

fn window(printed: &[Printed], set_to: &[Printed], title: &str) -> Option<Drawing> {
    let value = &printed.first()?.value;
    if matches!(value.shape(), Shape::Single(_) | Shape::Turn(_)) {
        return None;
    }
    let target = set_to.iter().find(|one| one.value.unit() == value.unit());
    let target = target.and_then(|one| target_mark(&one.value));
    let aim = target.as_ref().map(|mark| format!(", {}", mark.label)).unwrap_or_default();
    let drawn = Dimension { zone: zone(value)?, nominal: nominal(value), target, ..Dimension::default() };
    dimension::draw(&drawn, &format!("{title} on a line: {}{aim}", Figure::of(value).plain()))
}

fn fit(new: &[Printed], wear_limit: &[Printed], title: &str) -> Option<Drawing> {
    let wear = wear_limit.first().map(|one| &one.value);
    let unit = new.first().or_else(|| wear_limit.first())?.value.unit();
    let fresh = new.first().map(|one| &one.value);
    let worn = wear.filter(|value| value.unit() == unit);
    let drawn = Dimension {
        zone: fresh.and_then(zone).unwrap_or_default(),
        nominal: fresh.and_then(nominal),
        target: None,
        wear: worn.and_then(|value| end_of_use(value, fresh)).unwrap_or_default(),
    };
    let form = Form::Fit { new: new.to_vec(), wear_limit: wear_limit.to_vec() };
    dimension::draw(&drawn, &format!("{title} on a line: {}", brief(&form).plain()))
}

/// A wear limit is one limit. Printed as a bare number it says not on which side use ends; then the
/// fit of new parts does.
fn end_of_use(value: &Value, fresh: Option<&Value>) -> Option<Zone> {
    let below = match value.shape() {
        Shape::Min(_) | Shape::Over(_) => true,
        Shape::Max(_) | Shape::Under(_) => false,
        _ => fresh.and_then(middle).zip(middle(value)).is_some_and(|(new, worn)| worn < new),
    };
    let (low, high) = (value.min(), value.max());
    Some(if below { Zone { low: mark(low?), high: None } } else { Zone { low: None, high: mark(high?) } })
}

fn zone(value: &Value) -> Option<Zone> {
    let (low, high) = (value.min(), value.max());
    if low.is_none() && high.is_none() {
        return None;
    }
    let mut zone = Zone { low: low.and_then(mark), high: high.and_then(mark) };
    // Limits worked out from a percentage have more digits than anything printed: shown rounded.
    if let (Shape::PercentTolerance { .. }, Ok(shown)) = (value.shape(), convert(value, value.unit())) {
        relabel(&mut zone.low, shown.min);
        relabel(&mut zone.high, shown.max);
    }
    Some(zone)
}

fn relabel(mark: &mut Option<Mark>, shown: Option<String>) {
    if let (Some(mark), Some(shown)) = (mark, shown) {
        mark.label = shown;
    }
}

fn mark(limit: Limit) -> Option<Mark> {
    Some(Mark { at: position(&limit.exact)?, label: limit.text, inclusive: limit.inclusive })
}

/// The middle number where the manual prints one.
fn nominal(value: &Value) -> Option<Mark> {
    let text = match value.shape() {
        Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => nominal.text(),
        _ => return None,
    };
    Some(Mark { at: position(value.nominal()?)?, label: text.to_owned(), inclusive: true })
}

fn target_mark(value: &Value) -> Option<Mark> {
    let label = format!("set to {}", Figure::of(value).plain());
    Some(Mark { at: middle(value)?, label, inclusive: true })
}

/// The nominal, else the middle of two limits, else the only one.
fn middle(value: &Value) -> Option<f64> {
    if let Some(nominal) = value.nominal() {
        return position(nominal);
    }
    let end = |limit: Option<Limit>| limit.and_then(|limit| position(&limit.exact));
    match (end(value.min()), end(value.max())) {
        (Some(low), Some(high)) => Some(f64::midpoint(low, high)),
        (low, high) => low.or(high),
    }
}

fn points_curve(points: &[Point], title: &str) -> Option<Drawing> {
    let first = points.first()?;
    let (across, up) = (first.at.value.unit(), first.reads.value.unit());
    // Points in mixed units (kΩ, then Ω) share a curve through their SI sizes.
    let si = |value: &Value, at: &crate::quantity::Exact| position(&value.unit().to_si(at));
    let same_kinds = points.iter().all(|point| {
        point.at.value.unit().kind() == across.kind() && point.reads.value.unit().kind() == up.kind()
    });
    if !same_kinds {
        return None;
    }
    let spot = |point: &Point| {
        let (at, reads) = (&point.at.value, &point.reads.value);
        let limits = match (reads.min(), reads.max()) {
            (Some(low), Some(high)) if low.exact != high.exact => {
                si(reads, &low.exact).zip(si(reads, &high.exact))
            }
            _ => None,
        };
        let centre = reads.nominal().and_then(|nominal| si(reads, nominal));
        Some(curve::Spot {
            at: middle_si(at)?,
            at_label: bind(&at.text()),
            reads: centre.or_else(|| middle_si(reads))?,
            reads_label: short(reads),
            limits,
        })
    };
    let spots: Option<Vec<curve::Spot>> = points.iter().map(spot).collect();
    let (over, read) = (across.kind().title(), up.kind().title());
    let scale =
        if up.kind() == Kind::Resistance { ", on a logarithmic scale where it spans a decade" } else { "" };
    curve::draw(&spots?, &format!("{title}: {read} over {over}{scale}; the table gives the same points"))
}

fn middle_si(value: &Value) -> Option<f64> {
    let end = |limit: Option<Limit>| limit.and_then(|limit| position(&value.unit().to_si(&limit.exact)));
    match (end(value.min()), end(value.max())) {
        (Some(low), Some(high)) => Some(f64::midpoint(low, high)),
        (low, high) => low.or(high),
    }
}

/// `2.45 kΩ` of `2.45 kΩ ± 10 %`: the axis has no room for the tolerance, which is drawn.
fn short(value: &Value) -> String {
    match value.shape() {
        Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => {
            bind(&value.unit().after(nominal.text()))
        }
        _ => bind(&value.text()),
    }
}
