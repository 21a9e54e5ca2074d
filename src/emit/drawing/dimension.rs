//! A limit drawn as a dimension line: extension lines at the limits, the tolerance zone lined between
//! them, the nominal as a chain line, on a rule that shows true place.
//!
//! An open side runs on with an arrow and no extension line. The axis stands in `data-axis` so that a
//! reading can be put at its own place later.

use super::svg::{Anchor, COLUMN, Drawing, Lining, Pen, lettering, stroke};

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

const WIDTH: f64 = COLUMN;
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
    let drawn = strokes(dimension, &axis, lower_row);
    again(&mut pen, &drawn, &common());
    letter(&mut pen, dimension, &axis, lower_row);
    if dimension.nominal.is_none() && dimension.target.is_none() {
        pen.trim(ZONE_TOP - 8.0);
    }
    let ends = format!("{} {}", trimmed(axis.from), trimmed(axis.to));
    Some(pen.finish("dimension", label, &[("data-axis", ends)]))
}

/// The strokes that many dimension lines have in common, by the id they are referred to: every window
/// of two limits looks the same but for its labels.
pub fn common() -> Vec<(&'static str, String)> {
    let mark = |at: f64| Some(Mark { at, label: String::new(), inclusive: true });
    let two = Zone { low: mark(1.0), high: mark(3.0) };
    let plain = |zone: Zone| Dimension { zone, ..Dimension::default() };
    let samples = [
        ("d-window", plain(two.clone())),
        ("d-middle", Dimension { nominal: mark(2.0), ..plain(two) }),
        ("d-most", plain(Zone { low: None, high: mark(1.0) })),
        ("d-least", plain(Zone { low: mark(1.0), high: None })),
    ];
    let drawn = samples.into_iter().filter_map(|(id, sample)| {
        let axis = Axis::over(&sample)?;
        Some((id, strokes(&sample, &axis, false)))
    });
    drawn.collect()
}

/// The same, as they are written: each refers to those before it.
pub fn written() -> Vec<(&'static str, String)> {
    let common = common();
    let each = common.iter().enumerate().map(|(at, (id, drawn))| {
        let mut pen = Pen::new(0.0, 0.0);
        again(&mut pen, drawn, common.get(..at).unwrap_or_default());
        (*id, pen.into_body())
    });
    each.collect()
}

/// Draws strokes by referring to the longest of `common` that they begin with.
fn again(pen: &mut Pen, drawn: &str, common: &[(&'static str, String)]) {
    let begun = common.iter().filter_map(|(id, one)| Some((id, drawn.strip_prefix(one.as_str())?)));
    match begun.min_by_key(|(_, rest)| rest.len()) {
        Some((id, rest)) => {
            pen.again(id);
            pen.take(rest);
        }
        None => pen.take(drawn),
    }
}

/// The arrowheads of dimension lines, at the origin, by the id they are referred to.
pub fn arrows() -> [(&'static str, String); 2] {
    [(LEFTWARD, 180.0), (RIGHTWARD, 0.0)].map(|(id, degrees)| {
        let mut pen = Pen::new(0.0, 0.0);
        pen.arrow((0.0, 0.0), degrees, 12.0);
        (id, pen.into_body())
    })
}

const LEFTWARD: &str = "d-left";
const RIGHTWARD: &str = "d-right";

/// All of a dimension line but its lettering.
fn strokes(dimension: &Dimension, axis: &Axis, lower_row: bool) -> String {
    let mut pen = Pen::new(0.0, 0.0);
    pen.line("d-rule", (EDGE - 8.0, RULE), (WIDTH - EDGE + 8.0, RULE));
    if let Some((mark, above)) = wear_side(dimension) {
        end_of_use(&mut pen, axis.x(mark.at), above, lower_row);
    }
    zone(&mut pen, axis, &dimension.zone);
    if let Some(nominal) = &dimension.nominal {
        let x = axis.x(nominal.at);
        pen.line("d-chain", (x, ZONE_TOP - 10.0), (x, LINE + 6.0));
    }
    if let Some(target) = &dimension.target {
        let x = axis.x(target.at);
        pen.line("d-leader", (x, ZONE_TOP - 9.0), (x, RULE));
        pen.arrow((x, RULE), 90.0, 11.0);
    }
    pen.into_body()
}

/// The lettering: limits below, the middle or where to set it above.
fn letter(pen: &mut Pen, dimension: &Dimension, axis: &Axis, lower_row: bool) {
    for Lettered { text, x, anchor, .. } in zone_labels(axis, &dimension.zone) {
        pen.text("", (x, LABELS), anchor, text);
    }
    if let Some((mark, _)) = wear_side(dimension) {
        let row = if lower_row { LABELS + 15.0 } else { LABELS };
        let x = axis.x(mark.at).clamp(EDGE + 12.0, WIDTH - EDGE - 12.0);
        pen.text("", (x, row), Anchor::Middle, &mark.label);
    }
    match (&dimension.target, &dimension.nominal) {
        (Some(target), _) => {
            pen.text("", (axis.x(target.at), ZONE_TOP - 12.0), Anchor::Middle, &target.label);
        }
        (None, Some(nominal)) => {
            pen.text("d-small", (axis.x(nominal.at), ZONE_TOP - 13.0), Anchor::Middle, &nominal.label);
        }
        (None, None) => {}
    }
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
        let room = match high > low {
            true => (high - low) * 0.55,
            false if low == 0.0 => 1.0,
            false => low.abs() * 0.5,
        };
        Some(Self { from: low - room, to: high + room })
    }

    fn x(&self, value: f64) -> f64 {
        EDGE + (value - self.from) / (self.to - self.from) * (WIDTH - 2.0 * EDGE)
    }
}

fn zone(pen: &mut Pen, axis: &Axis, zone: &Zone) {
    if zone.low.is_none() && zone.high.is_none() {
        return;
    }
    let (left, right) = ends(axis, zone);
    pen.lined(Lining::Allowed, (left, right), (ZONE_TOP, RULE));
    pen.line("d-edge", (left, ZONE_TOP), (right, ZONE_TOP));
    let roomy = is_roomy(axis, zone);
    let mut solid = stroke((left, LINE), (right, LINE));
    for (mark, x, sign) in [(&zone.low, left, -1.0), (&zone.high, right, 1.0)] {
        let outward = if sign < 0.0 { LEFTWARD } else { RIGHTWARD };
        if roomy || mark.is_none() {
            pen.again_at(outward, (x, LINE));
        } else {
            let inward = if sign < 0.0 { RIGHTWARD } else { LEFTWARD };
            solid += &stroke((x, LINE), (x + sign * 20.0, LINE));
            pen.again_at(inward, (x, LINE));
        }
        match mark {
            Some(mark) if mark.inclusive => solid += &extension(x),
            Some(_) => pen.path("d-excluded", &extension(x)),
            None => {}
        }
    }
    pen.path("d-dim", &solid);
}

/// Where a zone begins and ends on the sheet; an open side runs to the edge.
fn ends(axis: &Axis, zone: &Zone) -> (f64, f64) {
    let left = zone.low.as_ref().map_or(EDGE - 8.0, |mark| axis.x(mark.at));
    let right = zone.high.as_ref().map_or(WIDTH - EDGE + 8.0, |mark| axis.x(mark.at));
    (left, right)
}

/// True where both arrows find room inside.
fn is_roomy(axis: &Axis, zone: &Zone) -> bool {
    let (left, right) = ends(axis, zone);
    right - left > 30.0
}

/// The extension line of a limit; it is drawn broken where the limit itself is not part of the window.
fn extension(x: f64) -> String {
    stroke((x, ZONE_TOP - 6.0), (x, LABELS - 15.0))
}

/// A label below the line, and the room it takes.
struct Lettered<'a> {
    text: &'a str,
    x: f64,
    anchor: Anchor,
    span: (f64, f64),
}

impl<'a> Lettered<'a> {
    fn at(mark: &'a Mark, x: f64, anchor: Anchor) -> Self {
        let width = lettering(&mark.label);
        let left = match anchor {
            Anchor::Start => x,
            Anchor::Middle => x - width / 2.0,
            Anchor::End => x - width,
        };
        Self { text: &mark.label, x, anchor, span: (left, left + width) }
    }
}

/// The labels of a zone: below its limits, or pushed apart where they would run into each other. A zone
/// without width has one.
fn zone_labels<'a>(axis: &Axis, zone: &'a Zone) -> Vec<Lettered<'a>> {
    let middle = |mark: &'a Mark| {
        Lettered::at(mark, axis.x(mark.at).clamp(EDGE + 12.0, WIDTH - EDGE - 12.0), Anchor::Middle)
    };
    let (Some(low), Some(high)) = (&zone.low, &zone.high) else {
        return [&zone.low, &zone.high].into_iter().flatten().map(middle).collect();
    };
    let (left, right) = ends(axis, zone);
    if left >= right && low.label == high.label {
        return vec![middle(low)];
    }
    let roomy = right - left > f64::midpoint(lettering(&low.label), lettering(&high.label)) + 8.0;
    if roomy && is_roomy(axis, zone) {
        return vec![middle(low), middle(high)];
    }
    let centre = f64::midpoint(left, right);
    let (below, above) = ((left + 4.0).min(centre - 4.0), (right - 4.0).max(centre + 4.0));
    vec![Lettered::at(low, below, Anchor::End), Lettered::at(high, above, Anchor::Start)]
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
fn end_of_use(pen: &mut Pen, x: f64, above: bool, lower_row: bool) {
    let span = if above { (x, WIDTH - EDGE + 8.0) } else { (EDGE - 8.0, x) };
    pen.lined(Lining::Beyond, span, (ZONE_TOP + 6.0, RULE));
    let row = if lower_row { LABELS + 15.0 } else { LABELS };
    pen.line("d-wear", (x, ZONE_TOP - 2.0), (x, row - 15.0));
}

/// True if the label at the end of use would run into one of the new part.
fn labels_collide(dimension: &Dimension, axis: &Axis) -> bool {
    let Some((wear, _)) = wear_side(dimension) else { return false };
    let (left, right) = Lettered::at(wear, axis.x(wear.at), Anchor::Middle).span;
    zone_labels(axis, &dimension.zone).iter().any(|one| one.span.0 < right + 8.0 && left < one.span.1 + 8.0)
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
    fn every_two_sided_window_refers_to_the_same_strokes() {
        let drawing = draw(&window(mark(0.15, "0.15"), mark(0.25, "0.25")), "lash").expect("a drawing");
        assert!(drawing.as_str().contains(r##"<use href="#d-window"/>"##), "{}", drawing.as_str());
        assert!(!drawing.as_str().contains("<path"));
        assert!(drawing.as_str().contains(">0.15</text>") && drawing.as_str().contains(">0.25</text>"));
        assert!(drawing.as_str().contains(r#"data-axis="0.095 0.305""#), "{}", drawing.as_str());
        let (_, strokes) = common().into_iter().find(|(id, _)| *id == "d-window").expect("drawn once");
        // Two extension lines, at the places of the labels.
        assert!(strokes.contains("M101 18V64M259 18V64"), "{strokes}");
        assert!(drawing.as_str().contains(r#"x="101" y="79""#), "{}", drawing.as_str());
    }

    #[test]
    fn an_open_side_has_an_arrow_and_no_extension_line() {
        let one_sided = window(None, mark(0.1, "0.10"));
        let strokes = strokes(&one_sided, &Axis::over(&one_sided).expect("an axis"), false);
        assert_eq!(strokes.matches("V64").count(), 1, "{strokes}");
        assert_eq!(strokes.matches("<use href").count(), 2, "{strokes}");
        let drawing = draw(&one_sided, "warp").expect("a drawing");
        assert!(drawing.as_str().contains(r##"<use href="#d-most"/>"##), "{}", drawing.as_str());
    }

    #[test]
    fn a_middle_that_is_not_half_way_is_drawn_at_its_own_place() {
        let drawn = |at| Dimension { nominal: mark(at, "n"), ..window(mark(18.0, "18"), mark(21.0, "21")) };
        let even = draw(&drawn(19.5), "even").expect("a drawing");
        assert!(even.as_str().contains("#d-middle"));
        let uneven = draw(&drawn(20.0), "uneven").expect("a drawing");
        assert!(uneven.as_str().contains(r#"class="d-chain" d="M206.3 "#), "{}", uneven.as_str());
    }

    #[test]
    fn a_limit_outside_the_window_is_drawn_broken() {
        let under = Some(Mark { at: 35.0, label: "35".to_owned(), inclusive: false });
        let drawing = draw(&window(None, under), "air").expect("a drawing");
        assert!(drawing.as_str().contains("d-excluded"));
    }

    #[test]
    fn use_ends_beyond_the_wear_limit_on_its_own_side() {
        let worn = Zone { low: mark(4.8, "4.80"), high: None };
        let drawn = Dimension { wear: worn, ..window(mark(5.0, "5.00"), mark(5.1, "5.10")) };
        let drawing = draw(&drawn, "stem").expect("a drawing");
        let beyond = r#"<path class="d-beyond" fill="url(#crossed-lining)" d="M6 "#;
        assert!(drawing.as_str().contains(beyond), "{}", drawing.as_str());
    }

    #[test]
    fn nothing_to_draw_is_no_drawing() {
        assert!(draw(&Dimension::default(), "none").is_none());
        assert!(draw(&window(mark(1.0, "1"), mark(1.0, "1")), "flat").is_none());
    }

    #[test]
    fn labels_of_a_narrow_zone_stand_apart_and_a_zone_without_width_has_one() {
        let worn = |at, label| Zone { low: None, high: mark(at, label) };
        let near = window(mark(74.5, "74.500"), mark(74.514, "74.514"));
        let narrow = Dimension { wear: worn(74.56, "74.560"), ..near };
        let axis = Axis::over(&narrow).expect("an axis");
        let [low, high] = &zone_labels(&axis, &narrow.zone)[..] else { panic!("two labels") };
        assert!(low.span.1 + 6.0 < high.span.0, "{:?} and {:?}", low.span, high.span);
        let one = Dimension { wear: worn(41.0, "41.0"), ..window(mark(40.2, "40.2"), mark(40.2, "40.2")) };
        let drawing = draw(&one, "spring");
        assert!(drawing.is_none_or(|drawing| drawing.as_str().matches(">40.2</text>").count() == 1));
    }

    #[test]
    fn labels_near_each_other_take_two_rows() {
        let worn = Zone { low: None, high: mark(5.12, "5.120") };
        let apart = Dimension { wear: worn, ..window(mark(5.0, "5.000"), mark(5.1, "5.100")) };
        let tall = draw(&apart, "bore").expect("a drawing");
        assert!(tall.as_str().contains(r#"y="94""#), "{}", tall.as_str());
    }
}
