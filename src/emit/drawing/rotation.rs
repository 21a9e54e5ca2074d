//! A direction of rotation drawn as an arrow around a wheel, and a turn by an angle.
//!
//! The arrow is drawn as seen from where the engine's own statement says one stands; the words stand
//! beside it in the page, and in the text equivalent here.

use std::fmt::Write as _;

use super::svg::{Anchor, Drawing, Pen, tenth};
use crate::model::Direction;

const SIZE: f64 = 160.0;
const CENTRE: (f64, f64) = (80.0, 80.0);

/// The direction of rotation of a part.
pub fn direction(turns: Direction, label: &str) -> Drawing {
    let mut pen = Pen::new(SIZE, SIZE);
    wheel(&mut pen);
    sweep(&mut pen, turns, 60.0, 240.0);
    pen.finish("rotation", label, &[])
}

/// A turn by `degrees` from the top; more than a full turn is drawn as one, with the angle lettered.
pub fn turn(turns: Direction, degrees: f64, angle: &str, label: &str) -> Drawing {
    let mut pen = Pen::new(SIZE, SIZE);
    rim(&mut pen);
    pen.line("d-ext", (CENTRE.0, 34.0), (CENTRE.0, 2.0));
    sweep(&mut pen, turns, 0.0, degrees.abs().clamp(12.0, 345.0));
    pen.text("d-plate", CENTRE, Anchor::Middle, angle);
    pen.finish("rotation turn", label, &[])
}

fn rim(pen: &mut Pen) {
    pen.circle("d-part", CENTRE, 46.0);
    pen.circle("d-thin", CENTRE, 40.0);
}

/// A wheel seen from its end: rim, hub, key and centre lines.
fn wheel(pen: &mut Pen) {
    rim(pen);
    pen.circle("d-part", CENTRE, 11.0);
    pen.path("d-part", "M77 69.4V64H83V69.4");
    pen.line("d-chain", (CENTRE.0 - 54.0, CENTRE.1), (CENTRE.0 + 54.0, CENTRE.1));
    pen.line("d-chain", (CENTRE.0, CENTRE.1 - 54.0), (CENTRE.0, CENTRE.1 + 54.0));
}

/// An arrow around the wheel: from `start` degrees past the top, for `extent` degrees.
fn sweep(pen: &mut Pen, turns: Direction, start: f64, extent: f64) {
    const RADIUS: f64 = 64.0;
    // The arrowhead takes about 12° of the arc; the line stops inside it.
    const HEAD: f64 = 9.0;
    let sign = match turns {
        Direction::Clockwise => 1.0,
        Direction::CounterClockwise => -1.0,
    };
    let at = |degrees: f64| {
        let angle = (sign * degrees - 90.0).to_radians();
        (CENTRE.0 + RADIUS * angle.cos(), CENTRE.1 + RADIUS * angle.sin())
    };
    let (from, to, tip) = (at(start), at(start + extent - HEAD), at(start + extent));
    let large = i32::from(extent - HEAD > 180.0);
    let clockwise = i32::from(sign > 0.0);
    let mut d = format!("M{} {}", tenth(from.0), tenth(from.1));
    let _ = write!(d, "A64 64 0 {large} {clockwise} {} {}", tenth(to.0), tenth(to.1));
    pen.path("d-sweep", &d);
    // Along the tangent, leaned inwards by half of what the head spans.
    let tangent = sign * (start + extent) - if sign > 0.0 { 0.0 } else { 180.0 };
    pen.arrow(tip, tangent - sign * HEAD / 1.2, 20.0);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sweep_flag_follows_the_direction() {
        let right = direction(Direction::Clockwise, "clockwise");
        let left = direction(Direction::CounterClockwise, "counter-clockwise");
        assert!(right.as_str().contains("A64 64 0 1 1 "));
        assert!(left.as_str().contains("A64 64 0 1 0 "));
        assert!(left.as_str().contains(r#"aria-label="counter-clockwise""#));
    }

    #[test]
    fn a_quarter_turn_clockwise_ends_at_the_right() {
        let quarter = turn(Direction::Clockwise, 90.0, "90°", "a quarter turn");
        assert!(quarter.as_str().contains(r#"class="d-arrow" d="M144 80L"#), "{}", quarter.as_str());
        let other = turn(Direction::CounterClockwise, 90.0, "90°", "a quarter turn");
        assert!(other.as_str().contains(r#"class="d-arrow" d="M16 80L"#), "{}", other.as_str());
    }
}
