//! A procedure of one build as schema.org has it: a `HowTo` in JSON-LD, so that a program that finds the
//! sheet reads its steps, and the limits in them as `QuantitativeValue`.
//!
//! Nothing stands here that the sheet does not show: what is withheld there is withheld here, a caution
//! comes before the step it is for, and what can hurt in another procedure is named after the text that leads there. It is data, not a script: every `<` and `>` in it is escaped, so that no
//! text of a file ends the element it stands in.

use serde_json::{Map, Value as Json, json};

use super::atlas::Atlas;
use super::hazard::{Named, Panel};
use super::procedure::{Inline, TurnPart, meant};
use super::scope;
use crate::bundle::{Block, BlockSort, Part, PartSort};
use crate::emit::bundle::procedure_body;
use crate::model::{
    Build, ComplaintId, EntryId, Form, HazardId, Need, Printed, Procedure, ProcedureId, Statement,
};
use crate::quantity::{Exact, Shape, Value, exact_text};

/// The text of a procedure's JSON-LD.
pub fn how_to<'a>(atlas: &Atlas<'a>, build: &'a Build, procedure: &Procedure) -> String {
    let model = atlas.model;
    let base = &model.base;
    let work = |name: &str| json!({ "@type": "CreativeWork", "name": name });
    let engine = model.engines.get(&build.engine).map_or("", |engine| engine.title.as_str());
    let need = |need: &Need| match need {
        Need::Gauge(id) => model.gauges.get(id).map_or_else(|| id.to_string(), |gauge| gauge.title.clone()),
        Need::Words(words) => words.clone(),
    };
    let tools = procedure.needs.iter().map(|one| json!({ "@type": "HowToTool", "name": need(one) }));
    let mut all = Map::new();
    let mut put = |key: &str, value: Json| _ = all.insert(key.to_owned(), value);
    put("@context", "https://schema.org".into());
    put("@type", "HowTo".into());
    put("name", procedure.title.clone().into());
    put("about", json!({ "@type": "EngineSpecification", "name": engine, "identifier": build.id.as_str() }));
    if base.invented {
        put("disambiguatingDescription", "Invented data: fits no real engine.".into());
    }
    put("usageInfo", work(&base.notice));
    put("version", base.release.to_string().into());
    put("datePublished", base.date.to_string().into());
    put("license", work(&base.licence));
    if let Some(minutes) = procedure.minutes {
        put("totalTime", format!("PT{minutes}M").into());
    }
    put("tool", tools.collect());
    put("step", Reader { atlas, build, procedure }.steps());
    Json::Object(all).to_string().replace('<', "\\u003c").replace('>', "\\u003e")
}

struct Reader<'r, 'a> {
    atlas: &'r Atlas<'a>,
    build: &'a Build,
    procedure: &'r Procedure,
}

impl Reader<'_, '_> {
    /// The steps, in sections where headings stand above them; what stands outside of the steps, and what a heading warns
    /// of, is a tip.
    fn steps(&self) -> Json {
        let blocks = procedure_body(self.procedure);
        let mut sections: Vec<(Option<String>, Vec<Json>)> = vec![(None, Vec::new())];
        for together in blocks.chunk_by(|one, next| one.step.is_some() && one.step == next.step) {
            let Some(first) = together.first() else { continue };
            let cautions = self.cautions(together);
            let said = if first.sort == BlockSort::Heading && first.step.is_none() {
                sections.push((Some(plain(&self.words_of(first))), Vec::new()));
                Some(cautions + &self.named(first)).filter(|said| !said.is_empty())
            } else {
                let block = |block| [self.words_of(block), self.named(block)].join(" ");
                Some(cautions + &together.iter().map(block).collect::<Vec<_>>().join(" "))
            };
            if let Some((_, items)) = sections.last_mut() {
                items.extend(said.map(|said| self.item(first.step, &plain(&said), together)));
            }
        }
        let section = |(name, items): (Option<String>, Vec<Json>)| match name {
            None => items,
            Some(name) => vec![json!({ "@type": "HowToSection", "name": name, "itemListElement": items })],
        };
        sections.into_iter().flat_map(section).collect()
    }

    /// One step or tip.
    fn item(&self, step: Option<u32>, text: &str, blocks: &[Block]) -> Json {
        let about: Vec<Json> = parts(blocks).flat_map(|part| self.quantities(part)).collect();
        let mut item = match step {
            Some(step) => {
                json!({ "@type": "HowToStep", "position": step, "url": format!("#step-{step}"), "text": text })
            }
            None => json!({ "@type": "HowToTip", "text": text }),
        };
        if let (Some(item), false) = (item.as_object_mut(), about.is_empty()) {
            item.insert("about".to_owned(), about.into());
        }
        item
    }

    /// The cautions of a step, to be read before it.
    fn cautions(&self, blocks: &[Block]) -> String {
        let hazards: Vec<HazardId> =
            parts(blocks).filter_map(|part| part.hazard.as_deref().map(HazardId::new)).collect();
        let panels = Panel::several(self.atlas.model, &hazards).into_iter();
        panels
            .map(|one| format!("{}: {} {} {} ", one.signal, one.hazard, one.consequence, one.avoid))
            .collect()
    }

    /// What can hurt in the procedures that a block leads to.
    fn named(&self, block: &Block) -> String {
        let led_to = block.parts.iter().filter_map(|part| {
            part.procedure.as_deref().map(|id| (ProcedureId::new(id), part.text.as_str()))
        });
        let led_to: Vec<_> = led_to.collect();
        let led_to = led_to.iter().map(|(id, words)| (id, *words));
        let named = Named::of(self.atlas.model, self.build, self.procedure, led_to);
        named.iter().map(Named::plain).collect::<Vec<_>>().join(" ")
    }

    fn words_of(&self, block: &Block) -> String {
        block.parts.iter().map(|part| self.words(part)).collect()
    }

    /// A part as a reader of the sheet has it.
    fn words(&self, part: &Part) -> String {
        let model = self.atlas.model;
        let or = |words: Option<String>| {
            if part.text.is_empty() { words.unwrap_or_default() } else { part.text.clone() }
        };
        let of = part.of.as_deref().map(EntryId::new);
        match part.sort {
            PartSort::Text => part.text.clone(),
            PartSort::Cell => " ".to_owned(),
            PartSort::Hazard => String::new(),
            PartSort::Spec => of.map_or_else(String::new, |of| self.values(&of, part)),
            PartSort::Reading => {
                or(of.and_then(|of| model.entries.get(&of)).map(|entry| entry.title.clone()))
            }
            PartSort::Turn => of.map_or_else(String::new, |of| self.turn(&of, part)),
            PartSort::Step => or(part.step.map(|step| format!("step {step}"))),
            PartSort::Procedure => {
                let id = part.procedure.as_deref().map(ProcedureId::new);
                or(id.and_then(|id| model.procedures.get(&id)).map(|one| one.title.clone()))
            }
            PartSort::Complaint => {
                let id = part.complaint.as_deref().map(ComplaintId::new);
                or(id.and_then(|id| model.complaints.get(&id)).map(|one| one.title.clone()))
            }
            PartSort::Code => or(part.code.as_ref().map(|code| format!("code {code}"))),
        }
    }

    fn values(&self, of: &EntryId, part: &Part) -> String {
        let inline = Inline::of(self.atlas, self.build, of, &part.narrow, &part.text);
        let value = |one: &super::procedure::InlineValue| {
            let mut words = one.scope.clone();
            words.push(one.value.plain());
            words.extend(one.mark.as_ref().map(|mark| format!("({})", mark.words)));
            words.join(" ")
        };
        let values = inline.values.iter().map(value).collect::<Vec<_>>().join("; ");
        if inline.label.is_empty() { values } else { format!("{} {values}", inline.label) }
    }

    fn turn(&self, of: &EntryId, part: &Part) -> String {
        let angle = part.angle.as_ref().and_then(|angle| Value::parse(&angle.text).ok());
        let Some(angle) = angle else { return String::new() };
        let turn = TurnPart::of(self.atlas.model, self.build, of, &angle);
        let words = [Some(turn.angle), turn.way.map(ToOwned::to_owned), turn.seen];
        words.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }

    /// The values a part means, each printed form of each.
    fn quantities(&self, part: &Part) -> Vec<Json> {
        let Some(of) = part.of.as_deref().map(EntryId::new) else { return Vec::new() };
        if part.sort == PartSort::Turn {
            return Vec::new();
        }
        let meant = meant(self.atlas, self.build, &of, &part.narrow);
        meant.into_iter().flat_map(|(one, _)| self.of_statement(one)).collect()
    }

    fn of_statement(&self, statement: &Statement) -> Vec<Json> {
        let model = self.atlas.model;
        if model.withholds(statement) {
            return Vec::new();
        }
        let title = model.entries.get(&statement.identity.of).map_or("", |entry| entry.title.as_str());
        let mut words = vec![title.to_owned()];
        words.extend(scope::in_words(&statement.identity));
        let name = plain(&words.join(", "));
        let each = |said: &str, printed: &[Printed]| -> Vec<Json> {
            let name = if said.is_empty() { name.clone() } else { format!("{name}, {said}") };
            printed.iter().filter_map(|one| quantity(&name, &one.value)).collect()
        };
        match &statement.form {
            Form::Window { printed, set_to } => [each("", printed), each("set to", set_to)].concat(),
            Form::Fit { new, wear_limit } => [each("new", new), each("wear limit", wear_limit)].concat(),
            Form::Setting(printed) => each("", printed),
            Form::Stages(stages) => {
                let stage = |(at, stage): (usize, &Vec<Printed>)| each(&format!("stage {at}"), stage);
                (1..).zip(stages).flat_map(stage).collect()
            }
            _ => Vec::new(),
        }
    }
}

fn parts(blocks: &[Block]) -> impl Iterator<Item = &Part> {
    blocks.iter().flat_map(|block| &block.parts)
}

/// A printed value as `QuantitativeValue`: exact decimals, the unit by its UNECE code where it has one.
/// None where a limit has no end as a decimal: it would not be the value.
fn quantity(name: &str, value: &Value) -> Option<Json> {
    let unit = value.unit();
    let mut all = Map::new();
    let mut put = |key: &str, value: String| _ = all.insert(key.to_owned(), value.into());
    put("@type", "QuantitativeValue".to_owned());
    put("name", name.to_owned());
    put("description", value.text());
    let end = |exact: Exact| Some(exact_text(&exact)).filter(|text| !text.contains('/'));
    if let (Shape::Single(_) | Shape::Turn(_), Some(limit)) = (value.shape(), value.min()) {
        put("value", end(limit.exact)?);
    } else {
        for (key, limit) in [("minValue", value.min()), ("maxValue", value.max())] {
            if let Some(limit) = limit {
                put(key, end(limit.exact)?);
            }
        }
    }
    if let Some(code) = unit.unece() {
        put("unitCode", code.to_owned());
    }
    put("unitText", unit.symbol().to_owned());
    Some(Json::Object(all))
}

/// One kind of space, one of each.
fn plain(text: &str) -> String {
    text.replace('\u{2060}', "").split_whitespace().collect::<Vec<_>>().join(" ")
}
