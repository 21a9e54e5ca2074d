//! A bolt pattern: where the bolts stand, and in which order they are tightened.
//!
//! Bolt centres are in millimetres, x to the right and y up, as the statement gives them.

use std::fmt::Write as _;

use super::svg::{Anchor, Drawing, Pen, lettering, stroke, tenth};

const WIDTH: f64 = 320.0;
const MARGIN: f64 = 34.0;
const LEAST_APART: f64 = 34.0;

/// The pattern, numbered in the order given; none without bolts.
pub fn draw(centres: &[(f64, f64)], label: &str) -> Option<Drawing> {
    let frame = Frame::around(centres)?;
    let mut pen = Pen::new(frame.width, frame.height + 26.0);
    let places: Vec<(f64, f64)> = centres.iter().map(|centre| frame.place(*centre)).collect();
    let mut path = String::new();
    for (x, y) in &places {
        let command = if path.is_empty() { 'M' } else { 'L' };
        let _ = write!(path, "{command}{} {}", tenth(*x), tenth(*y));
    }
    pen.path("d-path", &path);
    pen.path("d-thin", &places.iter().map(|place| centre_marks(*place)).collect::<String>());
    for ((x, y), order) in places.into_iter().zip(1_u32..) {
        pen.circle("d-bolt", (x, y), 13.0);
        pen.text("d-order", (x, y + 5.0), Anchor::Middle, &order.to_string());
    }
    scale_bar(&mut pen, &frame);
    Some(pen.finish("bolts", label, &[]))
}

/// The ends of the centre lines of a bolt, outside its head.
fn centre_marks((x, y): (f64, f64)) -> String {
    let ends = [(-19.0, 0.0), (19.0, 0.0), (0.0, -19.0), (0.0, 19.0)];
    let mark = |(dx, dy): (f64, f64)| stroke((x + dx * 0.7, y + dy * 0.7), (x + dx, y + dy));
    ends.into_iter().map(mark).collect()
}

/// How millimetres fall on the sheet.
struct Frame {
    left: f64,
    top: f64,
    scale: f64,
    width: f64,
    height: f64,
}

impl Frame {
    fn around(centres: &[(f64, f64)]) -> Option<Self> {
        let ends = |pick: fn(&(f64, f64)) -> f64| {
            let low = centres.iter().map(pick).reduce(f64::min)?;
            let high = centres.iter().map(pick).reduce(f64::max)?;
            Some((low, high))
        };
        let ((left, right), (bottom, top)) = (ends(|one| one.0)?, ends(|one| one.1)?);
        let wanted = (WIDTH - 2.0 * MARGIN) / (right - left).max((top - bottom) * 1.2).max(1.0);
        let scale = wanted.max(LEAST_APART / nearest_apart(centres)).min(8.0);
        Some(Self {
            left,
            top,
            scale,
            width: ((right - left) * scale + 2.0 * MARGIN).max(120.0),
            height: (top - bottom) * scale + 2.0 * MARGIN,
        })
    }

    fn place(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (MARGIN + (x - self.left) * self.scale, MARGIN + (self.top - y) * self.scale)
    }
}

/// The least distance between two bolts; bolts on one spot do not count.
fn nearest_apart(centres: &[(f64, f64)]) -> f64 {
    let mut least = f64::INFINITY;
    for (index, one) in centres.iter().enumerate() {
        for other in centres.iter().skip(index.saturating_add(1)) {
            let apart = (one.0 - other.0).hypot(one.1 - other.1);
            if apart > 0.0 {
                least = least.min(apart);
            }
        }
    }
    least
}

fn scale_bar(pen: &mut Pen, frame: &Frame) {
    let fits = |length: &f64| length * frame.scale <= frame.width * 0.4;
    let length = [100.0, 50.0, 20.0, 10.0, 5.0].into_iter().find(fits).unwrap_or(1.0);
    let (y, end) = (frame.height + 12.0, 10.0 + length * frame.scale);
    pen.line("d-dim", (10.0, y), (end, y));
    pen.line("d-ext", (10.0, y - 5.0), (10.0, y + 5.0));
    pen.line("d-ext", (end, y - 5.0), (end, y + 5.0));
    let text = format!("{} mm", tenth(length));
    if end + 8.0 + lettering(&text) < frame.width {
        pen.text("d-small", (end + 8.0, y + 4.5), Anchor::Start, &text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn order_and_handedness_are_kept() {
        let drawing = draw(&[(-40.0, 30.0), (40.0, -30.0)], "two bolts").expect("two bolts");
        let first = drawing.as_str().find(">1</text>").expect("the first");
        let second = drawing.as_str().find(">2</text>").expect("the second");
        assert!(first < second);
        // The first bolt is up and left, so it is drawn at the margin on both sides.
        assert!(drawing.as_str().contains(r#"cx="34" cy="34""#), "{}", drawing.as_str());
    }

    #[test]
    fn no_bolts_make_no_drawing_and_one_bolt_does() {
        assert!(draw(&[], "none").is_none());
        assert!(draw(&[(3.0, 3.0)], "one").is_some());
        assert!(draw(&[(3.0, 3.0), (3.0, 3.0)], "on one spot").is_some());
    }
}
