//! A limit drawn as a dimension line: extension lines at the limits, the tolerance zone lined between
//! them, the nominal as a chain line, on a rule that shows true place.
//!
//! An open side runs on with an arrow and no extension line. The axis stands in `data-axis` so that a
//! reading can be put at its own place later.

use std::fmt::Write as _;

use super::svg::{Anchor, Drawing, Lining, Pen, lettering, tenth};

/// One place on the axis, with the text that stands at it.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Where.
    pub at: f64,
    /// What stands there.
    pub label: String,
    /// False where the place itself is not part of the window.
    pub inclusive: bool,
}

/// From one limit to another; an open side has none.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Zone {
    /// Lower limit.
    pub low: Option<Mark>,
    /// Upper limit.
    pub high: Option<Mark>,
}

/// What is drawn on one line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Dimension {
    /// The window, or the fit of new parts.
    pub zone: Zone,
    /// Middle of the zone where the manual prints one.
    pub nominal: Option<Mark>,
    /// Where to set it.
    pub target: Option<Mark>,
    /// End of use, beyond the fit of new parts.
    pub wear: Zone,
}

const WIDTH: f64 = 360.0;
const EDGE: f64 = 14.0;
const ZONE_TOP: f64 = 24.0;
const RULE: f64 = 46.0;
const LINE: f64 = 58.0;
const LABELS: f64 = 79.0;

/// The drawing, or none where there is no limit to draw or no width between the limits.
pub fn draw(dimension: &Dimension, label: &str) -> Option<Drawing> {
    let axis = Axis::over(dimension)?;
    let lower_row = labels_collide(dimension, &axis);
    let mut pen = Pen::new(WIDTH, if lower_row { LABELS + 22.0 } else { LABELS + 7.0 });
    rule(&mut pen, &axis);
    if let Some(at) = wear_side(dimension) {
        end_of_use(&mut pen, &axis, at, lower_row);
    }
    zone(&mut pen, &axis, &dimension.zone);
    if let Some(nominal) = &dimension.nominal {
        let x = axis.x(nominal.at);
        pen.line("d-chain", (x, ZONE_TOP - 10.0), (x, LINE + 6.0));
        if dimension.target.is_none() {
            pen.text("d-small", (x, ZONE_TOP - 13.0), Anchor::Middle, &nominal.label);
        }
    }
    if let Some(target) = &dimension.target {
        let x = axis.x(target.at);
        pen.line("d-leader", (x, ZONE_TOP - 9.0), (x, RULE));
        pen.arrow((x, RULE), 90.0, 11.0);
        pen.text("d-label", (x, ZONE_TOP - 12.0), Anchor::Middle, &target.label);
    }
    if dimension.nominal.is_none() && dimension.target.is_none() {
        pen.trim(ZONE_TOP - 8.0);
    }
    let ends = format!("{} {}", trimmed(axis.from), trimmed(axis.to));
    Some(pen.finish("dimension", label, &[("data-axis", ends)]))
}

/// The part of the number line that is shown.
struct Axis {
    from: f64,
    to: f64,
}

impl Axis {
    fn over(dimension: &Dimension) -> Option<Self> {
        let wear = [&dimension.wear.low, &dimension.wear.high];
        let limits = [&dimension.zone.low, &dimension.zone.high].into_iter().chain(wear);
        let marks = limits.chain([&dimension.nominal, &dimension.target]);
        let places: Vec<f64> = marks.flatten().map(|mark| mark.at).collect();
        let low = places.iter().copied().reduce(f64::min)?;
        let high = places.iter().copied().reduce(f64::max)?;
        let Zone { low: zone_low, high: zone_high } = &dimension.zone;
        if zone_low.is_some() && zone_high.is_some() && low >= high {
            return None;
        }
        // Two limits take the middle half; a single one stands off the open side.
        let (before, after) = if high > low {
            let room = (high - low) * 0.55;
            (room, room)
        } else {
            let room = if low == 0.0 { 1.0 } else { low.abs() * 0.5 };
            (room, room)
        };
        let from = if low >= 0.0 { (low - before).max(0.0) } else { low - before };
        Some(Self { from, to: high + after })
    }

    fn x(&self, value: f64) -> f64 {
        EDGE + (value - self.from) / (self.to - self.from) * (WIDTH - 2.0 * EDGE)
    }
}

/// The rule: a hairline with graduations at 1, 2 or 5 of a power of ten, every fifth longer.
fn rule(pen: &mut Pen, axis: &Axis) {
    pen.line("d-rule", (EDGE - 8.0, RULE), (WIDTH - EDGE + 8.0, RULE));
    let step = graduation((axis.to - axis.from) / 24.0);
    let first = (axis.from / step).ceil();
    let (mut short, mut long, mut count) = (String::new(), String::new(), 0.0);
    while count <= 60.0 && (first + count) * step <= axis.to {
        let fifth = ((first + count) % 5.0).abs() < 0.5;
        let x = tenth(axis.x((first + count) * step));
        let (d, length) = if fifth { (&mut long, 8.0) } else { (&mut short, 4.0) };
        let _ = write!(d, "M{x} {}V{}", tenth(RULE), tenth(RULE - length));
        count += 1.0;
    }
    pen.path("d-rule", &short);
    pen.path("d-rule", &long);
}

/// The nearest step of 1, 2 or 5 times a power of ten that is not below `least`.
fn graduation(least: f64) -> f64 {
    let power = 10_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0].into_iter().map(|one| one * power).find(|step| *step >= least).unwrap_or(10.0 * power)
}

fn zone(pen: &mut Pen, axis: &Axis, zone: &Zone) {
    let left = zone.low.as_ref().map_or(EDGE - 8.0, |mark| axis.x(mark.at));
    let right = zone.high.as_ref().map_or(WIDTH - EDGE + 8.0, |mark| axis.x(mark.at));
    if zone.low.is_none() && zone.high.is_none() {
        return;
    }
    pen.lined(Lining::Allowed, (left, right), (ZONE_TOP, RULE));
    pen.line("d-edge", (left, ZONE_TOP), (right, ZONE_TOP));
    pen.line("d-dim", (left, LINE), (right, LINE));
    let roomy = right - left > 30.0;
    for (mark, x, inward) in [(&zone.low, left, 180.0), (&zone.high, right, 0.0)] {
        let open = mark.is_none();
        if roomy || open {
            pen.arrow((x, LINE), inward, 12.0);
        } else {
            let tail = if inward > 0.0 { x - 20.0 } else { x + 20.0 };
            pen.line("d-dim", (x, LINE), (tail, LINE));
            pen.arrow((x, LINE), 180.0 - inward, 12.0);
        }
        if let Some(mark) = mark {
            extension(pen, x, mark, LABELS, anchor_of(zone, roomy, inward > 0.0));
        }
    }
}

/// Narrow zones push their two labels apart.
const fn anchor_of(zone: &Zone, roomy: bool, lower: bool) -> Anchor {
    if roomy || zone.low.is_none() || zone.high.is_none() {
        Anchor::Middle
    } else if lower {
        Anchor::End
    } else {
        Anchor::Start
    }
}

/// An extension line with its label; broken where the limit itself is not part of the window.
fn extension(pen: &mut Pen, x: f64, mark: &Mark, row: f64, anchor: Anchor) {
    let class = if mark.inclusive { "d-ext" } else { "d-ext d-excluded" };
    pen.line(class, (x, ZONE_TOP - 6.0), (x, row - 15.0));
    let x = match anchor {
        Anchor::Start => x - 4.0,
        Anchor::End => x + 4.0,
        Anchor::Middle => x.clamp(EDGE + 12.0, WIDTH - EDGE - 12.0),
    };
    pen.text("d-label", (x, row), anchor, &mark.label);
}

/// Where use ends: the mark, and true if it ends above it.
fn wear_side(dimension: &Dimension) -> Option<(&Mark, bool)> {
    let Dimension { wear, .. } = dimension;
    match (&wear.low, &wear.high) {
        (_, Some(high)) => Some((high, true)),
        (Some(low), None) => Some((low, false)),
        (None, None) => None,
    }
}

/// The end of use: a heavy extension line, and crossed lining over all that lies beyond.
fn end_of_use(pen: &mut Pen, axis: &Axis, (mark, above): (&Mark, bool), lower_row: bool) {
    let x = axis.x(mark.at);
    let (left, right) = if above { (x, WIDTH - EDGE + 8.0) } else { (EDGE - 8.0, x) };
    pen.lined(Lining::Beyond, (left, right), (ZONE_TOP + 6.0, RULE));
    let row = if lower_row { LABELS + 15.0 } else { LABELS };
    pen.line("d-wear", (x, ZONE_TOP - 2.0), (x, row - 15.0));
    let x = x.clamp(EDGE + 12.0, WIDTH - EDGE - 12.0);
    pen.text("d-label", (x, row), Anchor::Middle, &mark.label);
}

/// True if the label at the end of use would run into one of the new part.
fn labels_collide(dimension: &Dimension, axis: &Axis) -> bool {
    let Some((wear, _)) = wear_side(dimension) else { return false };
    let width = |mark: &Mark| lettering(&mark.label);
    [&dimension.zone.low, &dimension.zone.high].into_iter().flatten().any(|mark| {
        let apart = (axis.x(mark.at) - axis.x(wear.at)).abs();
        apart < f64::midpoint(width(mark), width(wear)) + 8.0
    })
}

/// A place on the axis for scripts: six decimals at most.
fn trimmed(value: f64) -> String {
    let text = format!("{value:.6}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[allow(clippy::unnecessary_wraps, reason = "a drawing may have no mark")]
    fn mark(at: f64, label: &str) -> Option<Mark> {
        Some(Mark { at, label: label.to_owned(), inclusive: true })
    }

    fn window(low: Option<Mark>, high: Option<Mark>) -> Dimension {
        Dimension { zone: Zone { low, high }, ..Dimension::default() }
    }

    #[test]
    fn a_two_sided_window_has_two_extension_lines() {
        let drawing = draw(&window(mark(0.15, "0.15"), mark(0.25, "0.25")), "lash").expect("a drawing");
        assert_eq!(drawing.as_str().matches(r#"class="d-ext""#).count(), 2);
        assert!(drawing.as_str().contains(">0.15</text>") && drawing.as_str().contains(">0.25</text>"));
        assert!(drawing.as_str().contains(r#"data-axis="0.095 0.305""#), "{}", drawing.as_str());
    }

    #[test]
    fn an_open_side_has_an_arrow_and_no_extension_line() {
        let drawing = draw(&window(None, mark(0.1, "0.10")), "warp").expect("a drawing");
        assert_eq!(drawing.as_str().matches(r#"class="d-ext""#).count(), 1);
        assert_eq!(drawing.as_str().matches(r#"class="d-arrow""#).count(), 2);
    }

    #[test]
    fn a_limit_outside_the_window_is_drawn_broken() {
        let under = Some(Mark { at: 35.0, label: "35".to_owned(), inclusive: false });
        let drawing = draw(&window(None, under), "air").expect("a drawing");
        assert!(drawing.as_str().contains("d-ext d-excluded"));
    }

    #[test]
    fn use_ends_beyond_the_wear_limit_on_its_own_side() {
        let worn = Zone { low: mark(4.8, "4.80"), high: None };
        let drawn = Dimension { wear: worn, ..window(mark(5.0, "5.00"), mark(5.1, "5.10")) };
        let drawing = draw(&drawn, "stem").expect("a drawing");
        assert!(drawing.as_str().contains(r#"<rect class="d-beyond" x="6""#), "{}", drawing.as_str());
    }

    #[test]
    fn nothing_to_draw_is_no_drawing() {
        assert!(draw(&Dimension::default(), "none").is_none());
        assert!(draw(&window(mark(1.0, "1"), mark(1.0, "1")), "flat").is_none());
    }

    #[test]
    fn labels_near_each_other_take_two_rows() {
        let worn = Zone { low: None, high: mark(5.12, "5.120") };
        let apart = Dimension { wear: worn, ..window(mark(5.0, "5.000"), mark(5.1, "5.100")) };
        let tall = draw(&apart, "bore").expect("a drawing");
        assert!(tall.as_str().contains(r#"y="94""#), "{}", tall.as_str());
    }
}
