//! Builds, entries and gauges of a compiled bundle: only the files that the question needs are read.

use std::collections::BTreeMap;

use serde_json::Value as Json;

use super::super::bundle::{Bundle, damaged, is, list, text};
use super::super::{Failure, unknown};
use super::facts::{Facts, Held, Shelf, Stated, no_limits};
use crate::compute::judge::{Accuracy, GaugeInHand, Limits};
use crate::model::{StopSide, Words};
use crate::quantity::{Kind, Value};

impl Shelf for Bundle {
    fn facts(&self, build: &str, of: &str) -> Result<Facts, Failure> {
        let catalogue = self.read("catalogue.json")?;
        let entries = list(&catalogue, "groups").flat_map(|group| list(group, "entries"));
        let ids = entries.clone().filter_map(|entry| entry.get("id")?.as_str());
        let entry =
            entries.clone().find(|entry| is(entry, "id", of)).ok_or_else(|| unknown("entry", of, ids))?;
        let engine = build.split('~').next().filter(|engine| safe(engine));
        // An engine without a file is a build that is not there, and not a fault of the bundle.
        let file = self.read_if_there(&format!("engines/{}.json", engine.unwrap_or_default()))?;
        let file = file.unwrap_or_default();
        let found = list(&file, "builds").find(|one| is(one, "id", build));
        let Some(found) = found else {
            let known = builds(self)?;
            return Err(unknown("build", build, known.iter().map(String::as_str)));
        };
        let specs = list(found, "specs").filter(|spec| is(spec, "of", of));
        Ok(Facts {
            of: of.to_owned(),
            below: text(entry, "below").unwrap_or("low").to_owned(),
            above: text(entry, "above").unwrap_or("high").to_owned(),
            stop: text(entry, "stop").and_then(StopSide::parse),
            axes: axes(entry),
            states: keys(entry, "states").cloned().collect(),
            needs_state: words(entry, "needs_state"),
            stated: specs.map(stated).collect::<Result<_, _>>()?,
        })
    }

    fn gauge(&self, id: &str) -> Result<GaugeInHand, Failure> {
        let file = self.read("gauges.json")?;
        let known = || list(&file, "gauges").filter_map(|gauge| gauge.get("id")?.as_str());
        let gauge = list(&file, "gauges").find(|gauge| is(gauge, "id", id));
        let gauge = gauge.ok_or_else(|| unknown("gauge", id, known()))?;
        let value = |key| gauge.get(key).map_or_else(|| Err(damaged(key)), printed);
        Ok(GaugeInHand {
            title: text(gauge, "title").unwrap_or(id).to_owned(),
            sort: text(gauge, "kind").and_then(Kind::parse).ok_or_else(|| damaged("kind"))?,
            span: value("span")?,
            error: Accuracy::new(value("error")?),
        })
    }
}

/// The id of every build, which only a build that is not there asks for.
fn builds(bundle: &Bundle) -> Result<Vec<String>, Failure> {
    let mut builds = Vec::new();
    for engine in bundle.names_in("engines")? {
        let file = bundle.read(&format!("engines/{engine}.json"))?;
        builds.extend(list(&file, "builds").filter_map(|one| Some(text(one, "id")?.to_owned())));
    }
    Ok(builds)
}

fn stated(spec: &Json) -> Result<Stated, Failure> {
    let held = if spec.get("withheld").is_some_and(|why| !why.is_null()) {
        Held::Nothing("it is withheld until a second reading confirms it".to_owned())
    } else if let Some(window) = range(spec, "window")? {
        Held::Limits(Limits::Window(window))
    } else {
        let (new, wear_limit) = (range(spec, "new")?, range(spec, "wear_limit")?);
        if new.is_none() && wear_limit.is_none() {
            no_limits(text(spec, "absent").or_else(|| text(spec, "form")).unwrap_or_default())
        } else {
            let (new, wear_limit) = (new.unwrap_or_default(), wear_limit.unwrap_or_default());
            Held::Limits(Limits::Fit { new, wear_limit })
        }
    };
    Ok(Stated { place: words(spec, "where"), when: words(spec, "when"), held })
}

/// The printed forms under a key; none if there is no such key.
fn range(spec: &Json, key: &str) -> Result<Option<Vec<Value>>, Failure> {
    let Some(range) = spec.get(key).filter(|range| !range.is_null()) else { return Ok(None) };
    list(range, "printed").map(printed).collect::<Result<_, _>>().map(Some)
}

fn printed(form: &Json) -> Result<Value, Failure> {
    let text = text(form, "text").ok_or_else(|| damaged("text"))?;
    Value::parse(text).map_err(|error| Failure::Input(error.message(), "the bundle is damaged".to_owned()))
}

fn keys<'a>(json: &'a Json, key: &str) -> impl Iterator<Item = &'a String> {
    json.get(key).and_then(Json::as_object).into_iter().flatten().map(|(name, _)| name)
}

fn axes(entry: &Json) -> BTreeMap<String, Vec<String>> {
    let axis = |name: &String| {
        let words = list(entry.get("axes")?, name).filter_map(Json::as_str).map(str::to_owned);
        Some((name.clone(), words.collect()))
    };
    keys(entry, "axes").filter_map(axis).collect()
}

fn words(json: &Json, key: &str) -> Words {
    let pairs = json.get(key).and_then(Json::as_object).into_iter().flatten();
    pairs.filter_map(|(name, word)| Some((name.clone(), word.as_str()?.to_owned()))).collect()
}

/// Whether an id names one file of a folder and nothing else.
fn safe(id: &str) -> bool {
    id.chars().all(|letter| letter.is_ascii_alphanumeric() || letter == '-')
}
