//! The pen: lines, circles and lettering as SVG text.
//!
//! Invariant: all text that comes from a file is escaped here, and every coordinate is rounded to a
//! tenth, so that the same model draws the same bytes on every machine. No element carries an id or a
//! style of its own: a page holds many drawings, and its policy allows no inline style.

use std::fmt::Write as _;

use num_traits::ToPrimitive as _;

use crate::quantity::Exact;

/// A drawing that is finished: SVG text with its text equivalent, safe to stand in a page.
#[derive(Clone, Debug, Eq, PartialEq, serde::Serialize)]
#[serde(transparent)]
pub struct Drawing {
    svg: String,
    #[serde(skip)]
    height: String,
}

impl Drawing {
    /// A drawing of strokes that a pen has written; it is itself not seen.
    pub(super) const fn of(svg: String) -> Self {
        Self { svg, height: String::new() }
    }

    /// The SVG text.
    pub fn as_str(&self) -> &str {
        &self.svg
    }

    /// Its height, in units of which a column has [`COLUMN`]: the room that a sheet keeps for it.
    pub fn height(&self) -> &str {
        &self.height
    }
}

/// What section lining says of a zone.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Lining {
    /// Allowed: lined one way.
    Allowed,
    /// Past the end of use: lined both ways.
    Beyond,
}

/// Where lettering is held.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Anchor {
    /// At its left end.
    Start,
    /// In its middle.
    Middle,
    /// At its right end.
    End,
}

/// A sheet of `width` × `height` user units under the pen.
#[derive(Debug)]
pub struct Pen {
    width: f64,
    height: f64,
    top: f64,
    body: String,
}

impl Pen {
    /// An empty sheet.
    pub const fn new(width: f64, height: f64) -> Self {
        Self { width, height, top: 0.0, body: String::new() }
    }

    /// Cuts off what is above `top`.
    pub const fn trim(&mut self, top: f64) {
        self.top = top;
    }

    /// A line between two places.
    pub fn line(&mut self, class: &str, from: (f64, f64), to: (f64, f64)) {
        self.path(class, &stroke(from, to));
    }

    /// A path, its commands already written with [`tenth`].
    pub fn path(&mut self, class: &str, d: &str) {
        let _ = write!(self.body, r#"<path class="{class}" d="{d}"/>"#);
    }

    /// A rectangle filled with section lining.
    ///
    /// The lining is a pattern of the page's [`shared`](super::shared) drawing; an attribute refers to it,
    /// because an address in a style sheet would be looked up beside the style sheet.
    pub fn lined(&mut self, lining: Lining, (left, right): (f64, f64), (top, bottom): (f64, f64)) {
        let (class, pattern) = match lining {
            Lining::Allowed => ("d-zone", "lining"),
            Lining::Beyond => ("d-beyond", "crossed-lining"),
        };
        let [left, right, top, bottom] = [left, right, top, bottom].map(tenth);
        let _ = write!(
            self.body,
            r#"<path class="{class}" fill="url(#{pattern})" d="M{left} {top}H{right}V{bottom}H{left}Z"/>"#,
        );
    }

    /// What the page's [`shared`](super::shared) drawing holds under `id`, once more here.
    pub fn again(&mut self, id: &str) {
        let _ = write!(self.body, r##"<use href="#{id}"/>"##);
    }

    /// The same, moved to `at`.
    pub fn again_at(&mut self, id: &str, at: (f64, f64)) {
        let _ = write!(self.body, r##"<use href="#{id}" x="{}" y="{}"/>"##, tenth(at.0), tenth(at.1));
    }

    /// A circle.
    pub fn circle(&mut self, class: &str, centre: (f64, f64), radius: f64) {
        let (x, y, r) = (tenth(centre.0), tenth(centre.1), tenth(radius));
        let _ = write!(self.body, r#"<circle class="{class}" cx="{x}" cy="{y}" r="{r}"/>"#);
    }

    /// A line of lettering, held in its middle unless its class or `anchor` says otherwise.
    pub fn text(&mut self, class: &str, at: (f64, f64), anchor: Anchor, text: &str) {
        let held = match anchor {
            Anchor::Start => "d-start",
            Anchor::Middle => "",
            Anchor::End => "d-end",
        };
        let class = [class, held].into_iter().filter(|one| !one.is_empty()).collect::<Vec<_>>().join(" ");
        let class = if class.is_empty() { class } else { format!(r#" class="{class}""#) };
        let (x, y, text) = (tenth(at.0), tenth(at.1), escape(text));
        let _ = write!(self.body, r#"<text{class} x="{x}" y="{y}">{text}</text>"#);
    }

    /// A filled arrowhead at `tip`, pointing along `degrees` (0 to the right, 90 down).
    ///
    /// Closed, filled, 15° wide: the arrow of ISO 129-1, figure from memory.
    pub fn arrow(&mut self, tip: (f64, f64), degrees: f64, length: f64) {
        let wing = |spread: f64| {
            let angle = (degrees + spread).to_radians();
            (tip.0 - length * angle.cos(), tip.1 - length * angle.sin())
        };
        let (left, right) = (wing(13.0), wing(-13.0));
        let d = format!(
            "M{} {}L{} {}L{} {}Z",
            tenth(tip.0),
            tenth(tip.1),
            tenth(left.0),
            tenth(left.1),
            tenth(right.0),
            tenth(right.1),
        );
        self.path("d-arrow", &d);
    }

    /// The strokes so far, to stand in a drawing that others refer to.
    pub fn into_body(self) -> String {
        self.body
    }

    /// Takes in strokes that another pen has drawn.
    pub fn take(&mut self, body: &str) {
        self.body.push_str(body);
    }

    /// Closes the drawing. `class` names it for the style sheet, `label` is its text equivalent, and
    /// `attributes` stand on its root; their names are fixed words, their values are escaped.
    pub fn finish(self, class: &str, label: &str, attributes: &[(&str, String)]) -> Drawing {
        let mut extra = String::new();
        for (name, value) in attributes {
            let _ = write!(extra, r#" {name}="{}""#, escape(value));
        }
        let (width, height, top) = (tenth(self.width), tenth(self.height - self.top), tenth(self.top));
        // A drawing as wide as its column gets its size from the style sheet.
        let size = if self.width < COLUMN {
            format!(r#" width="{width}" height="{height}""#)
        } else {
            String::new()
        };
        let svg = format!(
            r#"<svg class="drawing {class}" viewBox="0 {top} {width} {height}"{size} role="img" aria-label="{}"{extra}>{}</svg>"#,
            escape(label),
            self.body,
        );
        Drawing { svg, height }
    }
}

/// Width of the column that drawings stand in.
pub const COLUMN: f64 = 360.0;

/// Commands of a straight stroke; a level or upright one is said in one number.
pub fn stroke(from: (f64, f64), to: (f64, f64)) -> String {
    let [x, y, to_x, to_y] = [from.0, from.1, to.0, to.1].map(tenth);
    if y == to_y {
        format!("M{x} {y}H{to_x}")
    } else if x == to_x {
        format!("M{x} {y}V{to_y}")
    } else {
        format!("M{x} {y}L{to_x} {to_y}")
    }
}

/// About how wide a label is in user units.
pub fn lettering(text: &str) -> f64 {
    text.chars().map(|_| 8.4).sum()
}

/// A coordinate rounded to a tenth, without a needless point or sign.
pub fn tenth(value: f64) -> String {
    let text = format!("{value:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Where an exact number lies on a drawing; never used for anything that is printed.
pub fn position(exact: &Exact) -> Option<f64> {
    exact.to_f64().filter(|value| value.is_finite())
}

/// Text made safe inside an element or a double-quoted attribute.
pub fn escape(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            _ => safe.push(c),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_from_a_file_cannot_leave_its_place() {
        let mut pen = Pen::new(10.0, 10.0);
        pen.text("t", (0.0, 0.0), Anchor::Start, "</text><script>alert(1)</script>");
        let label = r#"" onload="alert(1)"#;
        let drawing = pen.finish("test", label, &[("data-axis", "\"><b>".to_owned())]);
        assert!(!drawing.as_str().contains("<script"));
        assert!(!drawing.as_str().contains("onload=\""));
        assert!(!drawing.as_str().contains("<b>"));
    }

    #[test]
    fn coordinates_are_rounded_to_a_tenth() {
        assert_eq!(tenth(1.0 / 3.0), "0.3");
        assert_eq!(tenth(-0.01), "0");
        assert_eq!(tenth(12.0), "12");
    }
}
