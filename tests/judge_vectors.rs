//! The compiler judges readings as the independent oracle in `tests/outside/vectors` does; the handbook's
//! script is held against the same vectors.

use baybook::compute::Refusal;
use baybook::compute::judge::{Accuracy, GaugeInHand, Limits, Question, Seen, State, judge};
use baybook::quantity::{Kind, Value};
use serde::Deserialize;
use serde_json::{Value as Json, json};

#[derive(Deserialize)]
struct Vectors {
    vectors: Vec<Vector>,
}

#[derive(Deserialize)]
struct Vector {
    question: Asked,
    answer: Json,
}

/// A question as the handbook's script is asked it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    #[serde(default)]
    window: Vec<String>,
    #[serde(default)]
    new: Vec<String>,
    #[serde(default)]
    wear_limit: Vec<String>,
    below: Option<String>,
    above: Option<String>,
    fitting: Option<String>,
    state: Option<String>,
    #[serde(default)]
    needs_state: Vec<String>,
    gauge: Option<Gauge>,
    accuracy: Option<String>,
    reading: Typed,
}

#[derive(Debug, Deserialize)]
struct Gauge {
    title: String,
    sort: Option<String>,
    span: String,
    error: String,
}

#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Typed {
    One(String),
    Leaves { goes: Option<String>, stops: Option<String> },
}

fn values(texts: &[String]) -> Vec<Value> {
    texts.iter().map(|text| Value::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))).collect()
}

fn gauge(gauge: &Gauge) -> GaugeInHand {
    let span = Value::parse(&gauge.span).unwrap();
    let sort = gauge.sort.as_ref().map_or_else(|| span.unit().kind(), |sort| Kind::parse(sort).unwrap());
    let error = Accuracy::read(&gauge.error, span.unit()).unwrap();
    GaugeInHand { title: gauge.title.clone(), sort, span, error }
}

fn question(asked: &Asked) -> Result<Question, Refusal> {
    let limits = if asked.window.is_empty() {
        Limits::Fit { new: values(&asked.new), wear_limit: values(&asked.wear_limit) }
    } else {
        Limits::Window(values(&asked.window))
    };
    let accuracy = asked.accuracy.as_ref().zip(limits.unit());
    Ok(Question {
        below: asked.below.clone().unwrap_or_else(|| "low".to_owned()),
        above: asked.above.clone().unwrap_or_else(|| "high".to_owned()),
        fitting_new: asked.fitting.as_deref() == Some("new"),
        needs_state: asked.needs_state.clone(),
        state: match asked.state.as_deref() {
            Some("met") => State::Met,
            Some("unmet") => State::Unmet,
            _ => State::Unanswered,
        },
        gauge: asked.gauge.as_ref().map(gauge),
        accuracy: accuracy.map(|(text, unit)| Accuracy::read(text, unit)).transpose()?,
        seen: match &asked.reading {
            Typed::One(text) => Seen::Reading(text.clone()),
            Typed::Leaves { goes, stops } => Seen::Leaves { goes: goes.clone(), stops: stops.clone() },
        },
        limits,
    })
}

fn answer(asked: &Asked) -> Json {
    match question(asked).and_then(|question| judge(&question)) {
        Ok(judged) => serde_json::to_value(&judged.answer).unwrap(),
        Err(refusal) => json!({ "error": { "message": refusal.message, "help": refusal.help } }),
    }
}

#[test]
fn every_reading_is_judged_as_worked_out() {
    let file: Vectors = serde_json::from_str(include_str!("vectors/judge.json")).expect("vectors");
    assert!(file.vectors.len() > 2000);
    for Vector { question, answer: expected } in &file.vectors {
        assert_eq!(answer(question), *expected, "{question:?}");
    }
}
