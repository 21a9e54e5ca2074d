//! A table of points drawn as a curve with its tolerance at each point.
//!
//! A span of values over more than a decade is drawn on a logarithmic scale, as resistance against
//! temperature is. The labels are the texts of the points themselves.

use std::fmt::Write as _;

use super::svg::{Anchor, Drawing, Pen, lettering, stroke, tenth};

/// One point of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// What it is read at.
    pub at: f64,
    /// Text of it.
    pub at_label: String,
    /// What is read, or the middle of its limits.
    pub reads: f64,
    /// Text of it.
    pub reads_label: String,
    /// Limits, where the table gives them.
    pub limits: Option<(f64, f64)>,
}

const SIZE: (f64, f64) = (360.0, 230.0);
const AXIS: f64 = 78.0;
const LEFT: f64 = 94.0;
const RIGHT: f64 = 328.0;
const TOP: f64 = 20.0;
const BOTTOM: f64 = 186.0;

/// The curve; none with fewer than two different inputs.
pub fn draw(spots: &[Spot], label: &str) -> Option<Drawing> {
    let mut spots = spots.to_vec();
    spots.sort_by(|one, other| one.at.total_cmp(&other.at));
    let across = Scale::over(spots.iter().map(|spot| spot.at), false, (LEFT, RIGHT))?;
    let reads = spots.iter().flat_map(|spot| {
        let (low, high) = spot.limits.unwrap_or((spot.reads, spot.reads));
        [low, spot.reads, high]
    });
    let up = Scale::over(reads, true, (BOTTOM, TOP))?;
    let mut pen = Pen::new(SIZE.0, SIZE.1);
    pen.path("d-part", &format!("M{AXIS} {}V{}H{}", TOP - 12.0, BOTTOM + 8.0, RIGHT + 22.0));
    graduate(&mut pen, &spots, &across, &up);
    let mut path = String::new();
    for spot in &spots {
        let command = if path.is_empty() { 'M' } else { 'L' };
        let _ = write!(path, "{command}{} {}", tenth(across.x(spot.at)), tenth(up.x(spot.reads)));
    }
    pen.path("d-curve", &path);
    pen.path("d-ext", &spots.iter().map(|spot| limits(across.x(spot.at), &up, spot)).collect::<String>());
    for spot in &spots {
        pen.circle("d-bolt", (across.x(spot.at), up.x(spot.reads)), 3.5);
    }
    let class = if up.log { "curve logarithmic" } else { "curve" };
    Some(pen.finish(class, label, &[]))
}

/// Grid lines and labels at the points themselves; a label that would run into the last is left out.
fn graduate(pen: &mut Pen, spots: &[Spot], across: &Scale, up: &Scale) {
    let (mut free_from, mut rows): (f64, Vec<f64>) = (f64::NEG_INFINITY, Vec::new());
    let mut grid = String::new();
    for spot in spots {
        let (x, y) = (across.x(spot.at), up.x(spot.reads));
        grid += &stroke((x, TOP - 6.0), (x, BOTTOM + 8.0));
        grid += &stroke((AXIS, y), (RIGHT + 12.0, y));
    }
    pen.path("d-grid", &grid);
    for spot in spots {
        let (x, y) = (across.x(spot.at), up.x(spot.reads));
        let half = lettering(&spot.at_label) / 2.0;
        if x - half > free_from {
            pen.text("d-small", (x, BOTTOM + 26.0), Anchor::Middle, &spot.at_label);
            free_from = x + half + 4.0;
        }
        if rows.iter().all(|row| (row - y).abs() > 15.0) {
            pen.text("d-small", (AXIS - 8.0, y + 4.5), Anchor::End, &spot.reads_label);
            rows.push(y);
        }
    }
}

/// The limits of a point: a bar between them, closed at both ends.
fn limits(x: f64, up: &Scale, spot: &Spot) -> String {
    let Some((low, high)) = spot.limits else { return String::new() };
    let bar = |y: f64| stroke((x - 5.0, y), (x + 5.0, y));
    let (low, high) = (up.x(low), up.x(high));
    stroke((x, low), (x, high)) + &bar(low) + &bar(high)
}

/// How values fall on one axis.
struct Scale {
    log: bool,
    from: f64,
    to: f64,
    ends: (f64, f64),
}

impl Scale {
    fn over(values: impl Iterator<Item = f64> + Clone, may_log: bool, ends: (f64, f64)) -> Option<Self> {
        let low = values.clone().reduce(f64::min)?;
        let high = values.reduce(f64::max)?;
        if low >= high {
            return None;
        }
        let log = may_log && low > 0.0 && high / low > 8.0;
        let shown = |value: f64| if log { value.log10() } else { value };
        Some(Self { log, from: shown(low), to: shown(high), ends })
    }

    fn x(&self, value: f64) -> f64 {
        let shown = if self.log { value.log10() } else { value };
        self.ends.0 + (shown - self.from) / (self.to - self.from) * (self.ends.1 - self.ends.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spot(at: f64, reads: f64) -> Spot {
        let label = |value: f64| tenth(value);
        Spot { at, at_label: label(at), reads, reads_label: label(reads), limits: None }
    }

    #[test]
    fn more_than_a_decade_is_logarithmic() {
        let ohms = [spot(20.0, 2450.0), spot(80.0, 318.0), spot(110.0, 140.0)];
        assert!(draw(&ohms, "ohms").expect("a curve").as_str().contains("logarithmic"));
        let volts = [spot(20.0, 1.0), spot(80.0, 4.0)];
        assert!(!draw(&volts, "volts").expect("a curve").as_str().contains("logarithmic"));
    }

    #[test]
    fn a_flat_or_single_table_makes_no_drawing() {
        assert!(draw(&[spot(1.0, 1.0)], "one").is_none());
        assert!(draw(&[spot(1.0, 2.0), spot(2.0, 2.0)], "flat").is_none());
    }
}
