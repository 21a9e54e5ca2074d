//! `point-off-curve`: a sensor's points lie on one curve; a slipped digit does not.

use num_traits::ToPrimitive;

use crate::check::Subject;
use crate::check::curve::{self, Odd, Point};
use crate::diag::{Finding, Rule, Sink};
use crate::model::{self, Entry, Form, Printed};
use crate::quantity::{Exact, Kind, Value};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "point_off_curve",
    "point-off-curve",
    Warning,
    Physics,
    "a point of a sensor table does not lie on the curve of the others"
);

/// Every table of a thermistor, and every table of a pressure sensor.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        let Form::Points(points) = &statement.form else { continue };
        let Some(entry) = subject.model.entries.get(&statement.identity.of) else { continue };
        let found = match (entry.input, entry.kind) {
            (Some(Kind::Temperature), Some(Kind::Resistance)) => on_curve(entry, points),
            (Some(Kind::AbsolutePressure | Kind::Pressure), Some(Kind::Voltage)) => on_line(entry, points),
            _ => None,
        };
        found.into_iter().for_each(|finding| sink.push(finding.about(statement.span)));
    }
}

/// A thermistor: the logarithm of its resistance over the inverse of its temperature is nearly straight.
fn on_curve(entry: &Entry, points: &[model::Point]) -> Option<Finding> {
    let read = points.iter().map(|point| {
        let (at, ohms) = (middle(&point.at.value, entry.input?)?, middle(&point.reads.value, entry.kind?)?);
        let half =
            point.reads.value.ulp() * point.reads.value.unit().factor() / Exact::from_integer(2.into());
        Some((at.to_f64()? - 273.15, ohms.to_f64()?, (half / ohms).to_f64()?))
    });
    let read: Vec<Point> = read.collect::<Option<_>>()?;
    match curve::odd(&read).filter(|_| curve::falls(&read))? {
        Odd::Point(place, celsius) => {
            let point = points.get(place)?;
            let (at, reads) = (point.at.value.text(), point.reads.value.text());
            let there = if (-200.0..1000.0).contains(&celsius) {
                format!("at about {celsius:.0} °C")
            } else {
                "nowhere".to_owned()
            };
            let message = format!(
                "`{reads}` at {at} is off the curve of the other points of `{}`, which have it {there}",
                entry.id
            );
            Some(with_others(
                Finding::new(&RULE, point.reads.span, message, help(points, &read, place)),
                points,
                place,
            ))
        }
        Odd::Table(kelvins) => {
            let first = points.first()?;
            let message = format!(
                "the points of `{}` do not lie on one curve: they are up to {kelvins:.0} K off",
                entry.id
            );
            let finding = Finding::new(
                &RULE,
                first.reads.span,
                message,
                "look at every row of the table again: more than one may be wrong",
            );
            Some(with_others(finding, points, 0))
        }
    }
}

/// What would fit: ten times, a tenth, or two digits swapped.
fn help(points: &[model::Point], read: &[Point], place: usize) -> String {
    let fits = |ohms: f64| {
        let mut tried = read.to_vec();
        tried.get_mut(place).into_iter().for_each(|point| point.1 = ohms);
        curve::odd(&tried).is_none()
    };
    let ohms = read.get(place).map_or(0.0, |point| point.1);
    let Some(printed) = points.get(place).map(|point| &point.reads) else { return String::new() };
    let slip = [
        (10.0, "ten times it"),
        (0.1, "a tenth of it"),
        (1000.0, "the same number in kΩ"),
        (0.001, "the same number in Ω"),
    ];
    if let Some((_, words)) = slip.into_iter().find(|(factor, _)| fits(ohms * factor)) {
        return format!(
            "look at this row again: {words} would fit, so a decimal point or a unit may have slipped"
        );
    }
    swapped(printed).into_iter().find(|(_, ohms)| fits(*ohms)).map_or_else(
        || "look at this row of the table again, temperature and resistance".to_owned(),
        |(text, _)| {
            format!("look at this row again: `{text}` would fit, so two digits may have been swapped")
        },
    )
}

/// The printed value with two digits side by side swapped, and its ohms.
fn swapped(printed: &Printed) -> Vec<(String, f64)> {
    let text = printed.value.text();
    let digits: Vec<(usize, char)> = text
        .char_indices()
        .take_while(|(_, c)| c.is_ascii_digit() || *c == '.')
        .filter(|(_, c)| *c != '.')
        .collect();
    let pairs = digits.windows(2).filter_map(|pair| match pair {
        [(one, a), (other, b)] if a != b => {
            let typed = text.char_indices().map(|(at, c)| {
                if at == *one {
                    *b
                } else if at == *other {
                    *a
                } else {
                    c
                }
            });
            let typed: String = typed.collect();
            let value = Value::parse(&typed).ok()?;
            let ohms = middle(&value, Kind::Resistance)?.to_f64()?;
            Some((typed, ohms))
        }
        _ => None,
    });
    pairs.collect()
}

/// A pressure sensor: its volts over its pressure are straight.
fn on_line(entry: &Entry, points: &[model::Point]) -> Option<Finding> {
    let read = points.iter().map(|point| {
        let (at, volts) = (middle(&point.at.value, entry.input?)?, middle(&point.reads.value, entry.kind?)?);
        Some((at.to_f64()?, volts.to_f64()?))
    });
    let read: Vec<(f64, f64)> = read.collect::<Option<_>>()?;
    let (place, alone) = curve::off_line(&read)?;
    let point = points.get(place)?;
    let message = if alone {
        format!(
            "`{}` at {} is off the straight line through the other points of `{}`",
            point.reads.value.text(),
            point.at.value.text(),
            entry.id
        )
    } else {
        format!("the points of `{}` do not lie on one straight line", entry.id)
    };
    let finding = Finding::new(
        &RULE,
        point.reads.span,
        message,
        "look at every row of the table again, pressure and voltage",
    );
    Some(with_others(finding, points, place))
}

fn with_others(finding: Finding, points: &[model::Point], place: usize) -> Finding {
    let others = points.iter().enumerate().filter(|(at, _)| *at != place);
    others.fold(finding, |finding, (_, point)| {
        finding.with(point.reads.span, format!("the point at {} is here", point.at.value.text()))
    })
}

/// The middle of a value in SI, if it is of the kind.
fn middle(value: &Value, kind: Kind) -> Option<Exact> {
    let nominal = match value.nominal() {
        Some(nominal) => nominal.clone(),
        None => (value.min()?.exact + value.max()?.exact) / Exact::from_integer(2.into()),
    };
    (value.unit().kind() == kind).then(|| value.unit().to_si(&nominal))
}
