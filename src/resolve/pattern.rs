//! Bolt centres: read exactly, and held to the bolts they are drawn for.

use super::rules::pattern_not_of_its_bolts as rule;
use super::values::Reader;
use crate::load::format::{Fastener, Located, Spec};
use crate::model::Form;
use crate::quantity::{Exact, Kind, Shape, parse_exact};
use crate::source::Span;

/// No engine of the trade has bolts of one pattern farther from its middle, in millimetres (common practice, no
/// source).
const FARTHEST: f64 = 2000.0;

type Centre = (Exact, Exact);

/// The bolt centres of a statement in tightening order, with findings about what no bolts can be.
pub fn pattern(spec: &Spec, form: Option<&Form>, reader: &mut Reader<'_>) -> Vec<Centre> {
    let mut centres: Vec<(Centre, Span)> = Vec::new();
    for raw in spec.pattern.iter().flatten() {
        let span = reader.span(raw);
        if raw.get().iter().any(|number| number.abs() > FARTHEST) {
            reader.sink.push(rule::far(span, reader.sources.slice(span), FARTHEST));
        }
        centres.extend(centre(raw.get()).map(|centre| (centre, span)));
    }
    if let (Some((_, first)), Some((_, last))) = (centres.first(), centres.last()) {
        let whole = Span::new(reader.file, first.start..last.end);
        if spec.fastener.is_none() && form.is_some_and(|form| !is_tightened(form)) {
            reader.sink.push(rule::of_no_bolts(whole));
        }
        let fastener = spec.fastener.as_ref();
        let bolts = |one: &Located<Fastener>| usize::try_from(one.get().count?).ok();
        if let Some((fastener, bolts)) = fastener.and_then(|one| Some((one, bolts(one)?)))
            && centres.len() != bolts
        {
            reader.sink.push(rule::count(whole, centres.len(), bolts, reader.span(fastener)));
        }
    }
    for (place, (centre, span)) in centres.iter().enumerate() {
        if let Some((_, first)) = centres.iter().take(place).find(|(other, _)| other == centre) {
            reader.sink.push(rule::twice(*span, reader.sources.slice(*span), *first));
        }
    }
    centres.into_iter().map(|(centre, _)| centre).collect()
}

/// A number of a file is a short decimal, which its shortest text gives back exactly.
fn centre(pair: &[f64]) -> Option<Centre> {
    let exact = |number: &f64| parse_exact(&number.to_string());
    match pair {
        [across, up] => exact(across).zip(exact(up)),
        _ => None,
    }
}

/// A torque, or a turn past one.
fn is_tightened(form: &Form) -> bool {
    let tightens = |kind: Kind, shape: &Shape| kind == Kind::Torque || matches!(shape, Shape::Turn(_));
    form.printed().iter().any(|one| tightens(one.value.unit().kind(), one.value.shape()))
}
