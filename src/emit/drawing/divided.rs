//! One line divided into numbered parts: how past jobs fell to each cause.
//!
//! The parts differ by lining, never by colour, and keep the order they are given in.

use super::svg::{Anchor, Drawing, Lining, Pen, tenth};

const WIDTH: f64 = 360.0;
const EDGE: f64 = 2.0;
const TOP: f64 = 6.0;
const BOTTOM: f64 = 30.0;
const NUMBER: f64 = 50.0;

/// The divided line, or none where there is nothing to divide.
pub fn draw(shares: &[f64], label: &str) -> Option<Drawing> {
    let all: f64 = shares.iter().sum();
    if !all.is_finite() || all <= 0.0 || shares.iter().any(|share| *share < 0.0) {
        return None;
    }
    let mut pen = Pen::new(WIDTH, NUMBER + 8.0);
    let scale = (WIDTH - 2.0 * EDGE) / all;
    let mut left = EDGE;
    for (share, at) in shares.iter().zip(0_usize..) {
        let right = left + share * scale;
        part(&mut pen, at, left, right);
        left = right;
    }
    outline(&mut pen, left);
    Some(pen.finish("divided", label, &[]))
}

/// Lined, blank, lined both ways, blank …: neighbours never look alike.
fn part(pen: &mut Pen, at: usize, left: f64, right: f64) {
    match at % 4 {
        0 => pen.lined(Lining::Allowed, (left, right), (TOP, BOTTOM)),
        2 => pen.lined(Lining::Beyond, (left, right), (TOP, BOTTOM)),
        _ => {}
    }
    pen.line("d-edge", (right, TOP), (right, BOTTOM + 4.0));
    // A part too narrow for its number leaves it to the list below.
    if right - left >= 12.0 {
        let number = at.saturating_add(1).to_string();
        pen.text("", (f64::midpoint(left, right), NUMBER), Anchor::Middle, &number);
    }
}

fn outline(pen: &mut Pen, right: f64) {
    let [left, right, top, bottom] = [EDGE, right, TOP, BOTTOM].map(tenth);
    pen.path("d-part", &format!("M{left} {top}L{right} {top}L{right} {bottom}L{left} {bottom}Z"));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_end_where_their_shares_do() {
        let drawing = draw(&[3.0, 1.0], "three to one").expect("drawn");
        // 360 wide with edges of 2: 356 × 3/4 + 2 = 269.
        assert!(drawing.as_str().contains("M269 6V34"), "{}", drawing.as_str());
        assert!(drawing.as_str().contains("aria-label=\"three to one\""));
    }

    #[test]
    fn nothing_to_divide_draws_nothing() {
        assert_eq!(draw(&[], "none"), None);
        assert_eq!(draw(&[0.0, 0.0], "none"), None);
    }
}
