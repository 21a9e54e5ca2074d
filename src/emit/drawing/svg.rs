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
pub struct Drawing(String);

impl Drawing {
    /// The SVG text.
    pub fn as_str(&self) -> &str {
        &self.0
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
        let d = format!("M{} {}L{} {}", tenth(from.0), tenth(from.1), tenth(to.0), tenth(to.1));
        self.path(class, &d);
    }

    /// A path, its commands already written with [`tenth`].
    pub fn path(&mut self, class: &str, d: &str) {
        let _ = write!(self.body, r#"<path class="{class}" d="{d}"/>"#);
    }

    /// A rectangle filled with section lining.
    ///
    /// The lining is a pattern that every page holds once; an attribute refers to it, because an
    /// address in a style sheet would be looked up beside the style sheet.
    pub fn lined(&mut self, lining: Lining, (left, right): (f64, f64), (top, bottom): (f64, f64)) {
        let (class, pattern) = match lining {
            Lining::Allowed => ("d-zone", "lining"),
            Lining::Beyond => ("d-beyond", "crossed-lining"),
        };
        let [x, y, width, height] = [left, top, right - left, bottom - top].map(tenth);
        let _ = write!(
            self.body,
            r#"<rect class="{class}" x="{x}" y="{y}" width="{width}" height="{height}"/><rect fill="url(#{pattern})" x="{x}" y="{y}" width="{width}" height="{height}"/>"#,
        );
    }

    /// A circle.
    pub fn circle(&mut self, class: &str, centre: (f64, f64), radius: f64) {
        let (x, y, r) = (tenth(centre.0), tenth(centre.1), tenth(radius));
        let _ = write!(self.body, r#"<circle class="{class}" cx="{x}" cy="{y}" r="{r}"/>"#);
    }

    /// A line of lettering.
    pub fn text(&mut self, class: &str, at: (f64, f64), anchor: Anchor, text: &str) {
        let anchor = match anchor {
            Anchor::Start => "",
            Anchor::Middle => r#" text-anchor="middle""#,
            Anchor::End => r#" text-anchor="end""#,
        };
        let (x, y, text) = (tenth(at.0), tenth(at.1), escape(text));
        let _ = write!(self.body, r#"<text class="{class}" x="{x}" y="{y}"{anchor}>{text}</text>"#);
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

    /// Closes the drawing. `class` names it for the style sheet, `label` is its text equivalent, and
    /// `attributes` stand on its root; their names are fixed words, their values are escaped.
    pub fn finish(self, class: &str, label: &str, attributes: &[(&str, String)]) -> Drawing {
        let mut extra = String::new();
        for (name, value) in attributes {
            let _ = write!(extra, r#" {name}="{}""#, escape(value));
        }
        let (width, height, top) = (tenth(self.width), tenth(self.height - self.top), tenth(self.top));
        Drawing(format!(
            r#"<svg class="drawing {class}" viewBox="0 {top} {width} {height}" width="{width}" height="{height}" role="img" aria-label="{}"{extra}>{}</svg>"#,
            escape(label),
            self.body,
        ))
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
