//! `gauge-impossible`: a gauge whose span or error is in another unit judges nothing, and says so at the bench only.

use crate::check::Subject;
use crate::diag::{Finding, Rule, Sink};
use crate::model::{Gauge, Printed};
use crate::quantity::{Exact, Kind, Shape};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "gauge_impossible",
    "gauge-impossible",
    Error,
    Units,
    "no gauge has such a span, resolution or error, or measures such an entry"
);

/// Every gauge by itself, and the gauge that each entry names.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for gauge in subject.model.gauges.values() {
        let parts = [
            Some(("span", &gauge.measures)),
            gauge.resolution.as_ref().map(|one| ("resolution", one)),
            Some(("error", &gauge.error)),
        ];
        for (part, printed) in parts.into_iter().flatten() {
            let found = unit(subject, gauge, part, printed).or_else(|| size(gauge, part, printed));
            found.into_iter().for_each(|finding| sink.push(finding));
        }
    }
    for entry in subject.model.entries.values() {
        let gauge = entry.gauge.as_ref().and_then(|id| subject.model.gauges.get(id));
        let Some((kind, gauge)) = entry.kind.zip(gauge) else { continue };
        if kind != gauge.kind {
            let message = format!(
                "`{}` is measured with `{}`, which shows {}, and it takes units of {}",
                entry.id,
                gauge.id,
                gauge.kind.title(),
                kind.title()
            );
            let help = "name a gauge that shows it, or leave `gauge` out";
            sink.push(
                Finding::new(&RULE, entry.span, message, help).with(gauge.span, "the gauge is defined here"),
            );
        }
    }
}

/// A part in a unit of another kind. A limit of error may be a share of the reading, and on a scale with an offset it is
/// a difference.
fn unit(subject: &Subject<'_>, gauge: &Gauge, part: &str, printed: &Printed) -> Option<Finding> {
    let kind = printed.value.unit().kind();
    let share = part == "error" && kind == Kind::Percent;
    let difference = part != "span" && gauge.kind == Kind::Temperature && kind == Kind::TemperatureDifference;
    if kind == gauge.kind || share || difference {
        return None;
    }
    let message = format!(
        "the {part} of `{}` is in a unit of {}, and it shows {}",
        gauge.id,
        kind.title(),
        gauge.kind.title()
    );
    let help = format!("write the {part} in a unit of {}, or mend `kind`", gauge.kind.title());
    let span = subject.sources.inside(printed.span, &printed.typed, printed.value.unit_range());
    Some(Finding::new(&RULE, span, message, help))
}

/// A part that no gauge has: a span without width, a step of nothing, an error that is no one size.
fn size(gauge: &Gauge, part: &str, printed: &Printed) -> Option<Finding> {
    let value = &printed.value;
    let ends = (value.min().map(|end| end.exact), value.max().map(|end| end.exact));
    let single = matches!(value.shape(), Shape::Single(_));
    let at = |message: String, help: &str| Some(finding(printed.span, message, help));
    match part {
        "span" if single || matches!(&ends, (Some(least), Some(most)) if least >= most) => at(
            format!("`{}` measures from `{}` to nowhere else", gauge.id, value.text()),
            "write both ends, as `0.05..1.00 mm`",
        ),
        "span" => None,
        _ if !single => at(
            format!("the {part} of `{}` is one size, and `{}` is not", gauge.id, value.text()),
            "write one value; a limit of error counts either way",
        ),
        "resolution" if value.nominal().is_none_or(|step| *step <= Exact::default()) => at(
            format!("`{}` shows steps of `{}`", gauge.id, value.text()),
            "write the smallest difference that it shows",
        ),
        "error" if value.nominal().is_some_and(|error| *error < Exact::default()) => at(
            format!("the error of `{}` is less than nothing: `{}`", gauge.id, value.text()),
            "write how far it may be off either way, without a sign",
        ),
        _ => None,
    }
}

fn finding(span: Span, message: String, help: &str) -> Finding {
    Finding::new(&RULE, span, message, help)
}
