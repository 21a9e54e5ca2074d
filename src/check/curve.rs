//! Which point of a sensor table does not lie on the curve of the others.
//!
//! A thermistor follows Steinhart and Hart, 1/T = A + B·ln R + C·(ln R)³. C is small and much alike for all (0 to
//! 2·10⁻⁷ with R in ohms), so that it is searched on a grid and A and B are fitted: points near one curve lie within a few
//! kelvin of it, and a slipped digit lies far off. Floating point stays within this judgement: what is said of a point
//! is rounded to whole kelvins, and nothing is stored.

/// The values of C that are tried.
const THIRD: [f64; 5] = [0.0, 0.5e-7, 1.0e-7, 1.5e-7, 2.0e-7];
/// How far off a clean table may be anywhere, in kelvins.
const CLEAN: f64 = 3.0;
/// How far off a point must be where the others lie on their curve closely.
const CLOSE: f64 = 1.5;

/// What is odd in a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Odd {
    /// One point, by its place: the temperature in °C at which the others' curve has its resistance.
    Point(usize, f64),
    /// No single point explains it; the largest distance in kelvins.
    Table(f64),
}

/// A point: temperature in °C, resistance in ohms, and how far half a unit of its last digit moves it, as a share.
pub type Point = (f64, f64, f64);

/// A fitted curve.
#[derive(Clone, Copy)]
struct Curve {
    a: f64,
    b: f64,
    c: f64,
    /// The largest distance of a point it was fitted to, in kelvins.
    worst: f64,
}

/// True if resistance falls as temperature rises, a slipped point aside.
pub fn falls(points: &[Point]) -> bool {
    let mut sorted = points.to_vec();
    sorted.sort_by(|one, other| one.0.total_cmp(&other.0));
    let falling = sorted.windows(2).filter(|pair| matches!(pair, [one, other] if other.1 < one.1)).count();
    falling * 2 >= sorted.len().saturating_sub(1)
}

/// The odd point of a table of a thermistor; none where all points lie on one curve.
pub fn odd(points: &[Point]) -> Option<Odd> {
    let sound =
        |point: &Point| point.1 > 0.0 && point.0 > -270.0 && point.1.is_finite() && point.0.is_finite();
    if points.len() < 3 || !points.iter().all(sound) {
        return None;
    }
    let all = best(points)?;
    let mut without: Vec<(f64, f64, usize)> =
        (0..points.len()).filter_map(|place| left_out(points, place)).collect();
    without.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (rest, off, place) = *without.first()?;
    let next = without.get(1).map_or(f64::INFINITY, |next| next.0);
    let distance = off.abs();
    let point = Odd::Point(place, points.get(place)?.0 + off);
    if points.len() == 3 {
        let alone = rest <= 0.0 && next > 0.0;
        return (all.worst > CLEAN).then_some(if alone && distance > CLEAN {
            point
        } else {
            Odd::Table(all.worst)
        });
    }
    let apart = next > 1.5 * rest + 0.5;
    if all.worst <= CLEAN {
        let close = points.len() >= 6 && rest <= 0.7 && distance > CLOSE + 2.0 * rest && next > 2.0 * rest;
        return close.then_some(point);
    }
    Some(if rest <= CLEAN && distance > CLEAN && apart { point } else { Odd::Table(all.worst) })
}

/// How the others fit without a point, and how far the point is off their curve: in kelvins, its last digit allowed for.
fn left_out(points: &[Point], place: usize) -> Option<(f64, f64, usize)> {
    let point = *points.get(place)?;
    let others: Vec<Point> =
        points.iter().enumerate().filter(|(at, _)| *at != place).map(|(_, one)| *one).collect();
    if let [one, other] = others.as_slice() {
        // Two points always fit; but a thermistor's constant is 2500 to 5000 K (common practice, no source).
        let constant = (one.1 / other.1).ln() / (1.0 / kelvins(one.0) - 1.0 / kelvins(other.0));
        let plausible = (2500.0..5000.0).contains(&constant);
        let offs = THIRD.iter().filter_map(|c| Some(off(&fit(&others, *c)?, &point)));
        let least = offs.min_by(|one, other| one.abs().total_cmp(&other.abs()))?;
        return Some((if plausible { 0.0 } else { 99.0 }, least, place));
    }
    let curve = best(&others)?;
    Some((curve.worst, off(&curve, &point), place))
}

fn kelvins(celsius: f64) -> f64 {
    celsius + 273.15
}

/// The curve with the smallest largest distance.
fn best(points: &[Point]) -> Option<Curve> {
    let curves = THIRD.iter().filter_map(|c| fit(points, *c));
    curves.min_by(|one, other| one.worst.total_cmp(&other.worst))
}

/// A and B by least squares of 1/T − C·(ln R)³ over ln R.
fn fit(points: &[Point], c: f64) -> Option<Curve> {
    let rows: Vec<(f64, f64)> = points
        .iter()
        .map(|(celsius, ohms, _)| {
            let log = ohms.ln();
            (log, 1.0 / kelvins(*celsius) - c * log.powi(3))
        })
        .collect();
    let count = f64::from(u32::try_from(rows.len()).ok()?);
    let mean = |part: fn(&(f64, f64)) -> f64| rows.iter().map(part).sum::<f64>() / count;
    let (log, inverse) = (mean(|row| row.0), mean(|row| row.1));
    let spread: f64 = rows.iter().map(|row| (row.0 - log).powi(2)).sum();
    if spread <= 0.0 {
        return None;
    }
    let b = rows.iter().map(|row| (row.0 - log) * (row.1 - inverse)).sum::<f64>() / spread;
    let mut curve = Curve { a: inverse - b * log, b, c, worst: 0.0 };
    curve.worst = points.iter().map(|point| off(&curve, point).abs()).fold(0.0, f64::max);
    Some(curve)
}

/// How far above its own temperature a curve has the resistance of a point, in kelvins, its last digit allowed for.
fn off(curve: &Curve, point: &Point) -> f64 {
    let at = |ohms: f64| {
        let log = ohms.ln();
        let inverse = curve.a + curve.b * log + curve.c * log.powi(3);
        // A curve that was fitted to nonsense may leave all temperatures.
        if inverse > 1e-4 { 1.0 / inverse - 273.15 } else { 9727.0 }
    };
    let distance = at(point.1) - point.0;
    let doubt = (at(point.1 * (1.0 + point.2)) - at(point.1 * (1.0 - point.2))).abs() / 2.0;
    distance.signum() * (distance.abs() - doubt).max(0.0)
}

/// The place of the point that is off the straight line through the others, by more than three hundredths of their span;
/// and whether one point alone explains it.
pub fn off_line(points: &[(f64, f64)]) -> Option<(usize, bool)> {
    if points.len() < 3 {
        return None;
    }
    let span = |points: &[(f64, f64)]| {
        let values = points.iter().map(|point| point.1);
        values.clone().fold(f64::NEG_INFINITY, f64::max) - values.fold(f64::INFINITY, f64::min)
    };
    let worst = |points: &[(f64, f64)]| {
        line(points).map(|line| points.iter().map(|point| from(line, point)).fold(0.0, f64::max))
    };
    if worst(points)? <= 0.03 * span(points) {
        return None;
    }
    let mut without: Vec<(f64, usize)> = (0..points.len())
        .filter_map(|place| {
            let others: Vec<_> =
                points.iter().enumerate().filter(|(at, _)| *at != place).map(|(_, one)| *one).collect();
            Some((worst(&others)? / span(&others).max(f64::MIN_POSITIVE), place))
        })
        .collect();
    without.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (rest, place) = *without.first()?;
    Some((place, points.len() > 3 && rest <= 0.03))
}

/// Slope and intercept by least squares.
fn line(points: &[(f64, f64)]) -> Option<(f64, f64)> {
    let count = f64::from(u32::try_from(points.len()).ok()?);
    let (x, y) =
        points.iter().fold((0.0, 0.0), |sum, point| (sum.0 + point.0 / count, sum.1 + point.1 / count));
    let spread: f64 = points.iter().map(|point| (point.0 - x).powi(2)).sum();
    let slope = points.iter().map(|point| (point.0 - x) * (point.1 - y)).sum::<f64>() / spread;
    (spread > 0.0).then_some((slope, y - slope * x))
}

fn from(line: (f64, f64), point: &(f64, f64)) -> f64 {
    (point.1 - line.0 * point.0 - line.1).abs()
}
