//! Which bench sums a build gives values to, and which of their fields its values fill: the sums that a technician
//! reaches from its engine sheet.
//!
//! A sum is offered where the build states, with a value, an entry that the sum asks for. Invariant: what is
//! withheld fills no field, and a value that nobody confirmed says so beside it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::scope;
use super::standing::mark;
use super::title_block::{Stop, stops};
use crate::compute::sums::{Sort, find};
use crate::model::{Build, Form, Model, Point, Printed, Statement};
use crate::quantity::{Kind, Number, Shape, Unit, Value, exact_text};

/// Sums by the entries that give them values: whole ids, or the start of ids up to a point.
const ASKED: &[(&str, &[&str])] = &[
    ("adapter", &["torque."]),
    ("wrench", &["torque."]),
    ("advance", &["torque.head-bolt", "torque.rod-cap"]),
    ("size", &["lash.shim"]),
    ("turn", &["torque.lash-locknut"]),
    ("resistance", &["sensor.coolant", "sensor.air", "sensor.head"]),
    ("temperature", &["sensor.coolant", "sensor.air", "sensor.head"]),
    ("soak", &["sensor.coolant", "sensor.air", "sensor.head"]),
    ("voltage", &["sensor.manifold"]),
    ("pressure", &["sensor.manifold"]),
    ("copper", &["stator.resistance", "coil.primary", "pickup.resistance", "exciter.resistance"]),
    ("rest", &["battery."]),
    ("load", &["battery.cca", "battery.capacity"]),
    ("refill", &["battery.capacity"]),
    ("drain", &["idle.drain"]),
    ("rise", &["charge.volts"]),
    ("stator", &["stator.volts"]),
    ("net", &["stator.power"]),
    ("altitude", &["compression.cranking"]),
    ("spread", &["compression.spread"]),
    ("leak", &["leakdown"]),
    ("together", &["leakdown"]),
    ("flow", &["injector.flow"]),
    ("balance", &["vacuum.spread"]),
    ("premix", &["premix"]),
    ("hertz", &["generator.frequency"]),
    ("droop", &["generator.frequency"]),
    ("slip", &["drive.ratio"]),
    ("belt", &["pulley.centres"]),
    ("wear", &["disc.thickness", "pad.thickness", "belt.width", "plate.thickness"]),
    ("coolant", &["coolant.mix"]),
];

/// What of a statement fills a field.
#[derive(Clone, Copy)]
enum Part {
    /// The value to set or aim at: of a window its middle, of stages each.
    Aim,
    /// Both ends of a window.
    Ends,
    /// Its upper end.
    Most,
    /// Its lower end.
    Least,
    /// The end of use.
    Wear,
    /// A table of points.
    Points,
    /// Pitch of the thread.
    Pitch,
    /// The stages that are a turn.
    Turn,
    /// Which of the field's words its text says.
    Word,
}

const LASHES: &[&str] = &["lash."];
const TORQUES: &[&str] = &["torque."];
const THERMISTORS: &[&str] = &["sensor.coolant", "sensor.air", "sensor.head"];

/// Fields by sum and name, the entries that fill them, and with what of them.
const FILLED: &[(&str, &str, &[&str], Part)] = &[
    ("adapter", "torque", TORQUES, Part::Aim),
    ("wrench", "torque", TORQUES, Part::Aim),
    ("advance", "pitch", TORQUES, Part::Pitch),
    ("advance", "angle", TORQUES, Part::Turn),
    ("turn", "target", LASHES, Part::Aim),
    ("size", "target", LASHES, Part::Aim),
    ("size", "least", LASHES, Part::Least),
    ("size", "most", LASHES, Part::Most),
    ("resistance", "points", THERMISTORS, Part::Points),
    ("temperature", "points", THERMISTORS, Part::Points),
    ("voltage", "points", &["sensor.manifold"], Part::Points),
    ("pressure", "points", &["sensor.manifold"], Part::Points),
    ("rest", "kind", &["battery.kind"], Part::Word),
    ("load", "kind", &["battery.kind"], Part::Word),
    ("load", "cca", &["battery.cca"], Part::Aim),
    ("refill", "capacity", &["battery.capacity"], Part::Aim),
    ("drain", "capacity", &["battery.capacity"], Part::Aim),
    ("drain", "current", &["idle.drain"], Part::Most),
    ("net", "stator", &["stator.power"], Part::Aim),
    ("altitude", "limit", &["compression.cranking"], Part::Ends),
    ("spread", "allowed", &["compression.spread"], Part::Most),
    ("together", "least", &["compression.cranking"], Part::Least),
    ("together", "most", &["leakdown"], Part::Most),
    ("flow", "flow", &["injector.flow"], Part::Ends),
    ("premix", "ratio", &["premix"], Part::Aim),
    ("belt", "centres", &["pulley.centres"], Part::Aim),
    ("wear", "limit", &["disc.thickness", "pad.thickness", "belt.width", "plate.thickness"], Part::Wear),
    ("coolant", "volume", &["coolant.volume"], Part::Aim),
    ("coolant", "wants", &["coolant.mix"], Part::Ends),
];

/// Values that a field may take: what each is, and the value.
type Values = Vec<(String, String)>;
/// The fields of a sum that are filled, by name.
type Fields = BTreeMap<&'static str, Values>;

/// What a build gives the sheet of sums.
#[derive(Debug, Serialize)]
pub struct Given {
    /// The engine, in words.
    engine: String,
    /// Its machines, in words.
    machines: Vec<String>,
    /// The build.
    build: String,
    /// The bulletins that say not to run a machine with it.
    stops: Vec<Stop>,
    /// The sums that it has values for: by each field that is filled, what a value is and the value.
    sums: Vec<(&'static str, Fields)>,
}

impl Given {
    /// What a build gives; none where it gives no sum a value.
    pub fn of(model: &Model, build: &Build, engine: &str, machines: Vec<String>) -> Option<Self> {
        let offered = ASKED.iter().filter(|(_, entries)| stated(model, build, entries).next().is_some());
        let sums: Vec<_> = offered.map(|(sum, _)| (*sum, fields(model, build, sum))).collect();
        let stops = stops(model, build);
        let build = build.id.to_string();
        (!sums.is_empty()).then(|| Self { engine: engine.to_owned(), machines, build, stops, sums })
    }
}

/// The statements of some entries that have a value which may be shown.
fn stated<'a>(
    model: &'a Model,
    build: &'a Build,
    entries: &'a [&'a str],
) -> impl Iterator<Item = &'a Statement> {
    let asked = move |id: &str| {
        entries.iter().any(|wanted| id == *wanted || wanted.ends_with('.') && id.starts_with(wanted))
    };
    let shown = build
        .statements
        .iter()
        .map(AsRef::as_ref)
        .filter(|one: &&Statement| one.has_value() && !model.withholds(one));
    shown.filter(move |one| asked(one.identity.of.as_str()))
}

fn fields(model: &Model, build: &Build, sum: &str) -> Fields {
    let of_sum = FILLED.iter().filter(|(id, ..)| *id == sum);
    let filled = of_sum.filter_map(|(_, input, entries, part)| {
        let sort = find(sum)?.inputs.iter().find(|one| one.key == *input)?.sort;
        let values = stated(model, build, entries).flat_map(|one| named(model, one, *part, sort));
        let values: Values = values.collect();
        (!values.is_empty()).then_some((*input, values))
    });
    filled.collect()
}

/// The values of a statement, each with what it is.
fn named(model: &Model, statement: &Statement, part: Part, sort: Sort) -> Values {
    let title = model.entries.get(&statement.identity.of).map(|entry| entry.title.clone());
    let mut words: Vec<String> = title.into_iter().chain(scope::in_words(&statement.identity)).collect();
    words.extend(mark(model, statement).map(|mark| mark.words.to_owned()));
    let name = |more: String| {
        let all = words.iter().chain(Some(&more).filter(|more| !more.is_empty()));
        all.map(String::as_str).collect::<Vec<_>>().join(" · ")
    };
    values(statement, part, sort).into_iter().map(|(more, text)| (name(more), text)).collect()
}

/// The values of a statement that a field of this sort takes, each with what tells it from the others.
fn values(statement: &Statement, part: Part, sort: Sort) -> Values {
    let plain = |text: Option<String>| text.into_iter().map(|text| (String::new(), text)).collect();
    let first =
        |printed: &[Printed]| Some(&printed.first()?.value).filter(|value| suits(value, sort)).cloned();
    match (&statement.form, part) {
        (Form::Window { set_to, .. }, Part::Aim) if !set_to.is_empty() => {
            plain(first(set_to).and_then(|one| aim(&one)))
        }
        (Form::Window { printed, .. } | Form::Setting(printed), Part::Aim) => {
            plain(first(printed).and_then(|one| aim(&one)))
        }
        (Form::Window { printed, .. } | Form::Setting(printed), Part::Ends | Part::Most | Part::Least) => {
            first(printed).map(|one| ends(&one, part)).unwrap_or_default()
        }
        (Form::Fit { wear_limit, .. }, Part::Wear) => {
            let ends = first(wear_limit).map(|one| ends(&one, Part::Ends)).unwrap_or_default();
            ends.into_iter().map(|(_, text)| (String::new(), text)).collect()
        }
        (Form::Stages(stages), Part::Aim | Part::Turn) => {
            let numbered = stages.iter().zip(1_u32..);
            let suiting =
                numbered.filter_map(|(printed, at)| Some((format!("stage {at}"), aim(&first(printed)?)?)));
            suiting.collect()
        }
        (Form::Points(points), Part::Points) => plain(curve(points)),
        (Form::Text(text), Part::Word) => plain(word(text, sort)),
        (_, Part::Pitch) => {
            let thread = statement.fastener.as_ref().and_then(|fastener| fastener.thread.as_deref());
            plain(thread.and_then(pitch))
        }
        _ => Vec::new(),
    }
}

fn suits(value: &Value, sort: Sort) -> bool {
    match sort {
        Sort::Quantity { unit } => Unit::parse(unit).is_ok_and(|unit| value.unit().converts_to(unit)),
        Sort::Alike { .. } => true,
        _ => false,
    }
}

/// The value aimed at: as printed, or the middle between two limits.
pub(super) fn aim(value: &Value) -> Option<String> {
    let text = match value.shape() {
        Shape::Single(number) | Shape::Turn(number) => number.text().to_owned(),
        Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => {
            nominal.text().to_owned()
        }
        Shape::Range { min, max } => middle(min, max),
        Shape::Min(_) | Shape::Max(_) | Shape::Over(_) | Shape::Under(_) => return None,
    };
    Some(value.unit().after(&text))
}

fn middle(min: &Number, max: &Number) -> String {
    exact_text(&((min.exact() + max.exact()) / crate::quantity::Exact::from_integer(2.into())))
}

fn ends(value: &Value, part: Part) -> Values {
    let wanted = [
        ("least", value.min().filter(|_| !matches!(part, Part::Most))),
        ("most", value.max().filter(|_| !matches!(part, Part::Least))),
    ];
    let several = wanted.iter().filter(|(_, limit)| limit.is_some()).count() > 1;
    let given = wanted.into_iter().filter_map(|(name, limit)| Some((name, limit?)));
    let mut texts: Vec<_> = given.map(|(name, limit)| (name, value.unit().after(&limit.text))).collect();
    texts.dedup_by(|one, other| one.1 == other.1);
    let name = |name: &str| if several { name.to_owned() } else { String::new() };
    texts.into_iter().map(|(end, text)| (name(end), text)).collect()
}

/// `20 °C = 2.45 kΩ, 80 °C = 318 Ω`; none where a point is not a number.
fn curve(points: &[Point]) -> Option<String> {
    let point = |one: &Point| Some(format!("{} = {}", aim(&one.at.value)?, aim(&one.reads.value)?));
    let texts: Option<Vec<String>> = points.iter().map(point).collect();
    Some(texts?.join(", "))
}

/// `1.25 mm` of `M9x1.25`.
fn pitch(thread: &str) -> Option<String> {
    let (_, pitch) = thread.strip_prefix('M')?.split_once(['x', '×'])?;
    let value = Value::parse(&format!("{} mm", pitch.trim())).ok()?;
    (value.unit().kind() == Kind::Length && matches!(value.shape(), Shape::Single(_))).then(|| value.text())
}

/// The one word of the field that the text says.
fn word(text: &str, sort: Sort) -> Option<String> {
    let Sort::Word { words } = sort else { return None };
    let text = text.to_lowercase();
    let mut said = words.iter().filter(|word| text.contains(**word));
    let word = said.next()?;
    said.next().is_none().then(|| (*word).to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sum_that_is_named_is_in_the_table_of_sums_once() {
        let mut seen = Vec::new();
        for (id, entries) in ASKED {
            assert!(find(id).is_some() && !entries.is_empty() && !seen.contains(id), "{id}");
            seen.push(id);
        }
    }

    #[test]
    fn every_field_that_is_filled_is_one_of_a_sum_that_is_offered() {
        for (sum, input, entries, _) in FILLED {
            let known = find(sum).and_then(|one| one.inputs.iter().find(|one| one.key == *input));
            assert!(known.is_some() && !entries.is_empty(), "{sum} {input}");
            assert!(ASKED.iter().any(|(id, _)| id == sum), "{sum}");
        }
    }

    #[test]
    fn a_value_fills_a_field_by_the_part_that_is_asked() {
        let value = |text: &str| Value::parse(text).expect("a value");
        assert_eq!(aim(&value("0.13 ± 0.02 mm")).as_deref(), Some("0.13 mm"));
        assert_eq!(aim(&value("0.15..0.24 mm")).as_deref(), Some("0.195 mm"));
        assert_eq!(aim(&value("+90°")).as_deref(), Some("90°"));
        assert_eq!(aim(&value("max 10 %")), None);
        let named = |pairs: &[(&str, &str)]| -> Values {
            pairs.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
        };
        let both = [("least", "1150 kPa"), ("most", "1400 kPa")];
        assert_eq!(ends(&value("1150..1400 kPa"), Part::Ends), named(&both));
        assert_eq!(ends(&value("1150..1400 kPa"), Part::Least), named(&[("", "1150 kPa")]));
        assert_eq!(ends(&value("max 10 %"), Part::Most), named(&[("", "10 %")]));
        assert_eq!(pitch("M9x1.25").as_deref(), Some("1.25 mm"));
        assert_eq!(pitch("1/4-20 UNC"), None);
        let kinds = Sort::Word { words: &["flooded", "agm", "lithium"] };
        assert_eq!(word("AGM, sealed", kinds).as_deref(), Some("agm"));
        assert_eq!(word("AGM or flooded", kinds), None);
    }
}
