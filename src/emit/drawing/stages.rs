//! Tightening in stages: a stair of torques, each tread at its true height, then turns by an angle.
//!
//! A turn is drawn as the head of the bolt seen from above with the sweep at its true size, on a dashed
//! tread: how much torque it takes is not known and is not drawn. The numbers stand as the statement
//! prints them; the number in the ring says which stage it is, as in the list of stages beside it.

use std::fmt::Write as _;

use super::svg::{Anchor, COLUMN, Drawing, Pen, lettering, stroke, tenth};

/// One stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Stage {
    /// How much.
    pub to: Effort,
    /// Text of it.
    pub label: String,
}

/// What a stage is tightened by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Effort {
    /// Up to a torque, in any one unit.
    Torque(f64),
    /// Further by an angle in degrees.
    Turn(f64),
}

/// Heights of these drawings are multiples of it.
const STEP: f64 = 20.0;
const EDGE: f64 = 6.0;
const GROUND: f64 = 186.0;
/// Height of the greatest torque.
const TALLEST: f64 = 92.0;
/// How far a dashed tread stands above the one before it.
const RISE: f64 = 26.0;
/// Radius of the ring around the number of a stage.
const RING: f64 = 10.0;
/// Radius of the head of the bolt, to its corners.
const HEAD: f64 = 17.0;
/// Radius of the sweep around it; the arcs below say it too.
const SWEEP: f64 = 27.0;

/// The stair; none with fewer than two stages, or without a torque to begin with. `note` stands below it.
pub fn draw(stages: &[Stage], left_hand: bool, note: Option<&str>, label: &str) -> Option<Drawing> {
    let greatest = stages.iter().filter_map(|stage| match stage.to {
        Effort::Torque(torque) => Some(torque),
        Effort::Turn(_) => None,
    });
    let greatest = greatest.reduce(f64::max).filter(|torque| *torque > 0.0)?;
    let count = u32::try_from(stages.len()).ok().filter(|count| (2..=8).contains(count))?;
    let width = (COLUMN - 2.0 * EDGE) / f64::from(count);
    let bottom = GROUND + if note.is_some() { 50.0 } else { 28.0 };
    let mut pen = Pen::new(COLUMN, bottom);
    pen.line("d-rule", (EDGE - 4.0, GROUND), (COLUMN - EDGE + 4.0, GROUND));
    let (mut level, mut highest) = (GROUND, GROUND);
    for (stage, at) in stages.iter().zip(0_u32..) {
        let left = EDGE + f64::from(at) * width;
        let tread = Tread { left, right: left + width, from: level, rank: at + 1 };
        let top;
        (level, top) = match stage.to {
            Effort::Torque(torque) => {
                tread.torque(&mut pen, GROUND - torque.max(0.0) / greatest * TALLEST, &stage.label)
            }
            Effort::Turn(degrees) => tread.turn(&mut pen, degrees, left_hand, &stage.label),
        };
        highest = highest.min(top);
    }
    if let Some(note) = note {
        pen.text("d-small", (EDGE, GROUND + 44.0), Anchor::Start, note);
    }
    // A few heights and no other, so that a sheet can keep room for each.
    let height = ((bottom - (highest - 4.0).max(-80.0)) / STEP).ceil() * STEP;
    pen.trim(bottom - height);
    Some(pen.finish("stages-drawn", label, &[]))
}

/// The place of one stage: its column, and the height it starts from.
struct Tread {
    left: f64,
    right: f64,
    from: f64,
    rank: u32,
}

impl Tread {
    fn middle(&self) -> f64 {
        f64::midpoint(self.left, self.right)
    }

    /// Up to a torque; gives the new height, and how far up the drawing reaches.
    fn torque(&self, pen: &mut Pen, level: f64, label: &str) -> (f64, f64) {
        let x = self.middle();
        let path =
            format!("M{} {}V{}H{}", tenth(self.left), tenth(self.from), tenth(level), tenth(self.right));
        pen.path("d-part", &path);
        pen.line("d-thin", (x, GROUND), (x, level + 10.0));
        pen.arrow((x, level), -90.0, 11.0);
        self.letter(pen, level - 8.0, label);
        self.number(pen);
        (level, level - 24.0)
    }

    /// Further by an angle; gives the new height, and how far up the drawing reaches.
    fn turn(&self, pen: &mut Pen, degrees: f64, left_hand: bool, label: &str) -> (f64, f64) {
        let (x, level) = (self.middle(), self.from - RISE);
        let path =
            format!("M{} {}V{}H{}", tenth(self.left), tenth(self.from), tenth(level), tenth(self.right));
        pen.path("d-part d-excluded", &path);
        let centre = (x, level - 62.0);
        head(pen, centre);
        sweep(pen, centre, degrees.abs().clamp(10.0, 345.0), left_hand);
        self.letter(pen, level - 8.0, label);
        self.number(pen);
        (level, centre.1 - SWEEP - 10.0)
    }

    /// The lettering of a tread; what is wider than the column is held at the nearer edge of the sheet.
    fn letter(&self, pen: &mut Pen, y: f64, label: &str) {
        let half = lettering(label) / 2.0;
        let x =
            self.middle().clamp((EDGE + half).min(COLUMN / 2.0), (COLUMN - EDGE - half).max(COLUMN / 2.0));
        pen.text("", (x, y), Anchor::Middle, label);
    }

    /// Which stage it is, below the ground line.
    fn number(&self, pen: &mut Pen) {
        let (x, y) = (self.middle(), GROUND + 16.0);
        pen.circle("d-thin", (x, y), RING);
        pen.text("d-small", (x, y + 4.8), Anchor::Middle, &self.rank.to_string());
    }
}

/// A hexagon head seen from above.
fn head(pen: &mut Pen, centre: (f64, f64)) {
    let corner = |number: i32| {
        let angle = (f64::from(number) * 60.0).to_radians();
        (centre.0 + HEAD * angle.cos(), centre.1 + HEAD * angle.sin())
    };
    let mut path = String::new();
    for number in 0..6 {
        let (x, y) = corner(number);
        let _ = write!(path, "{}{} {}", if number == 0 { 'M' } else { 'L' }, tenth(x), tenth(y));
    }
    pen.path("d-part", &(path + "Z"));
    pen.circle("d-thin", centre, HEAD - 2.5);
}

/// From the mark at the top of the head, by an angle, the way that tightens.
fn sweep(pen: &mut Pen, centre: (f64, f64), degrees: f64, left_hand: bool) {
    let sign = if left_hand { -1.0 } else { 1.0 };
    let at = |degrees: f64, radius: f64| {
        let angle = (sign * degrees - 90.0).to_radians();
        (centre.0 + radius * angle.cos(), centre.1 + radius * angle.sin())
    };
    // The marks before and after, and the arc between them: its line stops inside the arrowhead.
    let marks =
        stroke(at(0.0, HEAD), at(0.0, SWEEP + 8.0)) + &stroke(at(degrees, HEAD), at(degrees, SWEEP + 8.0));
    pen.path("d-ext", &marks);
    let back = 12.0_f64.min(degrees / 2.0);
    let (from, to, tip) = (at(0.0, SWEEP), at(degrees - back, SWEEP), at(degrees, SWEEP));
    let (large, way) = (i32::from(degrees - back > 180.0), i32::from(!left_hand));
    let [x, y, to_x, to_y] = [from.0, from.1, to.0, to.1].map(tenth);
    pen.path("d-curve", &format!("M{x} {y}A27 27 0 {large} {way} {to_x} {to_y}"));
    let tangent = sign * degrees - if left_hand { 180.0 } else { 0.0 };
    pen.arrow(tip, tangent - sign * back, 11.0);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn torque(size: f64) -> Stage {
        Stage { to: Effort::Torque(size), label: tenth(size) }
    }

    fn turn(degrees: f64) -> Stage {
        Stage { to: Effort::Turn(degrees), label: format!("+{}°", tenth(degrees)) }
    }

    #[test]
    fn treads_stand_at_their_true_height() {
        let drawing = draw(&[torque(20.0), torque(40.0), turn(90.0)], false, None, "three").expect("a stair");
        let text = drawing.as_str();
        // Ground at 186, 92 for the greatest: half of it is 140, the whole 94; the turn is one rise higher.
        assert!(text.contains("M6 186V140H122"), "{text}");
        assert!(text.contains("M122 140V94H238"), "{text}");
        assert!(text.contains(r#"class="d-part d-excluded" d="M238 94V68H354""#), "{text}");
    }

    #[test]
    fn the_sweep_turns_the_way_that_tightens() {
        let stages = [torque(20.0), turn(90.0)];
        assert!(draw(&stages, false, None, "right").expect("a stair").as_str().contains("A27 27 0 0 1 "));
        assert!(draw(&stages, true, None, "left").expect("a stair").as_str().contains("A27 27 0 0 0 "));
        let far = [torque(20.0), turn(270.0)];
        assert!(draw(&far, false, None, "far").expect("a stair").as_str().contains("A27 27 0 1 1 "));
    }

    #[test]
    fn what_has_no_steps_makes_no_drawing() {
        assert!(draw(&[], false, None, "none").is_none());
        assert!(draw(&[torque(20.0)], false, None, "one").is_none());
        assert!(draw(&[turn(90.0), turn(90.0)], false, None, "only turns").is_none());
        assert!(draw(&[torque(0.0), turn(90.0)], false, None, "nothing").is_none());
        assert!(draw(&vec![torque(5.0); 9], false, None, "more than fit").is_none());
    }
}
