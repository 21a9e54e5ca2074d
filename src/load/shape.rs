//! Breaks of the schema as findings in our own words, by the kind of the break, never by its text.
//!
//! The schema is asked, a finding is made of every break, what is broken is cut out, and the schema
//! is asked again until the rest is sound. Breaks after the first asking follow from the cutting, and
//! make no findings: one mistake gives one message.

use std::ops::Range;

use jsonschema::error::{TypeKind, ValidationErrorKind};
use jsonschema::paths::LocationSegment;
use jsonschema::{JsonType, ValidationError};
use serde_json::Value;
use toml::de::DeTable;

use super::place::FileKind;
use super::rules::{
    malformed_text, missing_key, not_a_choice, number_out_of_range, one_form_only, unknown_key,
    wrong_count, wrong_type,
};
use super::schema;
use super::tree::{self, Step};
use crate::diag::{Finding, Sink, nearest};
use crate::source::{FileId, Span};

/// How often the schema is asked before the file is given up.
const ROUNDS: usize = 16;

/// What was left of a file after its breaks were cut out.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Soundness {
    /// Nothing was cut.
    Whole,
    /// Something was cut; the rest is sound.
    Pruned,
    /// Nothing sound is left.
    Lost,
}

/// One file being held against its schema.
struct Shape<'a> {
    kind: FileKind,
    file: FileId,
    text: &'a str,
    /// Bytes that stand for "the file" where no better place is known.
    whole: Range<usize>,
}

/// Holds a tree against the schema of its kind, reports every break, and cuts them out.
pub fn hold(
    kind: FileKind,
    file: FileId,
    text: &str,
    whole: Range<usize>,
    root: &mut DeTable<'_>,
    sink: &mut Sink,
) -> Soundness {
    let shape = Shape { kind, file, text, whole };
    let mut soundness = Soundness::Whole;
    for round in 0..ROUNDS {
        let mut unusable = Vec::new();
        let json = tree::to_json(root, &mut unusable);
        let breaks = shape.breaks(&json, root, &unusable);
        if breaks.is_empty() {
            return soundness;
        }
        soundness = Soundness::Pruned;
        let mut cuts: Vec<_> = breaks.iter().map(|one| one.cut.clone()).collect();
        if round == 0 {
            breaks.into_iter().filter_map(|one| one.finding).for_each(|one| sink.push(one));
        }
        if cuts.iter().any(Vec::is_empty) {
            return Soundness::Lost;
        }
        // The last first, so that the place of an item does not move before it is cut.
        cuts.sort();
        cuts.dedup();
        cuts.iter().rev().for_each(|path| tree::cut(root, path));
    }
    Soundness::Lost
}

/// One break: its finding, unless it only echoes another, and what to cut for it.
struct Break {
    finding: Option<Finding>,
    cut: Vec<Step>,
}

impl Shape<'_> {
    fn breaks(&self, json: &Value, root: &DeTable<'_>, unusable: &[Vec<Step>]) -> Vec<Break> {
        let Some(validator) = schema::validator(self.kind) else { return Vec::new() };
        let mut all: Vec<Break> = unusable
            .iter()
            .map(|path| Break {
                finding: Some(number_out_of_range::finding(
                    self.at(root, path),
                    key_of(path),
                    self.typed(root, path),
                    "a finite number of usual size",
                )),
                cut: path.clone(),
            })
            .collect();
        let errors: Vec<_> = validator.iter_errors(json).collect();
        let misspelt = self.misspelt(&errors);
        for error in &errors {
            let path = steps(error);
            if !unusable.contains(&path) {
                all.extend(self.of_error(error, path, root, &misspelt));
            }
        }
        all
    }

    /// For each table with a key that is not read, the key that was probably meant.
    fn misspelt(&self, errors: &[ValidationError<'_>]) -> Vec<(Vec<Step>, String)> {
        let mut all = Vec::new();
        for error in errors {
            if let ValidationErrorKind::AdditionalProperties { unexpected } = error.kind() {
                let path = steps(error);
                let known = self.known_keys(&path);
                for key in unexpected {
                    if let Some(near) = nearest(key, known.iter().map(String::as_str)) {
                        all.push((path.clone(), near.to_owned()));
                    }
                }
            }
        }
        all
    }

    fn of_error(
        &self,
        error: &ValidationError<'_>,
        path: Vec<Step>,
        root: &DeTable<'_>,
        misspelt: &[(Vec<Step>, String)],
    ) -> Vec<Break> {
        let meant = |key: &str| misspelt.iter().any(|(at, near)| *at == path && near == key);
        let key = key_of(&path);
        let here = || self.at(root, &path);
        let finding = match error.kind() {
            ValidationErrorKind::AdditionalProperties { unexpected } => {
                return self.unknown(unexpected, &path, root);
            }
            ValidationErrorKind::Required { property } => {
                let missing = property.as_str().unwrap_or_default();
                let about = self.description(&path, missing);
                (!meant(missing))
                    .then(|| missing_key::finding(here(), noun(self.kind, &path), missing, about.as_deref()))
            }
            ValidationErrorKind::OneOfNotValid { .. } | ValidationErrorKind::OneOfMultipleValid { .. } => {
                self.forms(error, &path, root, &meant)
            }
            ValidationErrorKind::Type { kind } => Some(wrong_type::finding(
                here(),
                key,
                json_word(error.instance()),
                &self.wanted(kind, error),
                self.typed(root, &path),
            )),
            ValidationErrorKind::Enum { options } => {
                let choices: Vec<_> = options.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
                let typed = error.instance().as_str().unwrap_or_else(|| self.typed(root, &path));
                Some(not_a_choice::finding(here(), key, typed, &choices))
            }
            ValidationErrorKind::Constant { expected_value } => {
                let typed = error.instance().as_str().unwrap_or_else(|| self.typed(root, &path));
                let choices: Vec<_> = expected_value.as_str().into_iter().collect();
                Some(not_a_choice::finding(here(), key, typed, &choices))
            }
            ValidationErrorKind::Pattern { pattern } => {
                let typed = error.instance().as_str().unwrap_or_default();
                Some(malformed_text::finding(here(), key, typed, pattern))
            }
            ValidationErrorKind::MinLength { .. } => Some(malformed_text::empty(here(), key)),
            ValidationErrorKind::MinItems { .. } | ValidationErrorKind::MaxItems { .. } => {
                Some(self.count(error, &path, here()))
            }
            ValidationErrorKind::Minimum { limit } => {
                let bound = format!("at least {limit}");
                Some(number_out_of_range::finding(here(), key, self.typed(root, &path), &bound))
            }
            ValidationErrorKind::Maximum { limit } => {
                let bound = format!("at most {limit}");
                Some(number_out_of_range::finding(here(), key, self.typed(root, &path), &bound))
            }
            _ => Some(wrong_type::finding(here(), key, "not understood", "another value", self.typed(root, &path))),
        };
        vec![Break { finding, cut: path }]
    }

    /// A list of the wrong length: the key's own, or one inside it.
    fn count(&self, error: &ValidationError<'_>, path: &[Step], here: Span) -> Finding {
        let key = key_of(path);
        let list = if matches!(path.last(), Some(Step::Item(_))) { format!("a list inside `{key}`") } else { format!("`{key}`") };
        let has = error.instance().as_array().map_or(0, Vec::len);
        let schema = self.schema_at(path);
        let bound = |keyword| schema.as_ref().and_then(|schema| schema.get(keyword)?.as_u64());
        wrong_count::finding(here, &list, has, (bound("minItems"), bound("maxItems")))
    }

    fn unknown(&self, unexpected: &[String], path: &[Step], root: &DeTable<'_>) -> Vec<Break> {
        let known = self.known_keys(path);
        let known: Vec<_> = known.iter().map(String::as_str).collect();
        let one = |key: &String| {
            let range = tree::key_range(root, path, key).unwrap_or_else(|| self.whole.clone());
            let span = Span::new(self.file, range);
            let cut = path.iter().cloned().chain([Step::Key(key.clone())]).collect();
            Break { finding: Some(unknown_key::finding(span, noun(self.kind, path), key, &known)), cut }
        };
        unexpected.iter().map(one).collect()
    }

    /// A statement with no form, or more than one.
    fn forms(
        &self,
        error: &ValidationError<'_>,
        path: &[Step],
        root: &DeTable<'_>,
        meant: &dyn Fn(&str) -> bool,
    ) -> Option<Finding> {
        let object = error.instance().as_object()?;
        let given: Vec<_> = one_form_only::FORMS.into_iter().filter(|form| object.contains_key(*form)).collect();
        let noun = noun(self.kind, path).replacen("a ", "this ", 1);
        if given.is_empty() {
            let misspelt = one_form_only::FORMS.into_iter().any(meant);
            return (!misspelt).then(|| one_form_only::none(self.at(root, path), &noun));
        }
        let second = given.iter().rev().find_map(|form| tree::key_range(root, path, form));
        let mut finding = one_form_only::several(
            Span::new(self.file, second.unwrap_or_else(|| self.whole.clone())),
            &noun,
            &given,
        );
        if let Some(first) = given.first().and_then(|form| tree::key_range(root, path, form)) {
            finding = finding.with(Span::new(self.file, first), "the first value is here");
        }
        Some(finding)
    }

    /// The span of the value at a path: a statement's header line, a value's own text.
    fn at(&self, root: &DeTable<'_>, path: &[Step]) -> Span {
        let range = tree::value_range(root, path).filter(|range| !range.is_empty());
        Span::new(self.file, range.unwrap_or_else(|| self.whole.clone()))
    }

    fn typed<'t>(&'t self, root: &DeTable<'_>, path: &[Step]) -> &'t str {
        self.text.get(self.at(root, path).range()).unwrap_or_default()
    }

    /// What a key takes, in words, from the types its schema allows.
    fn wanted(&self, kind: &TypeKind, error: &ValidationError<'_>) -> String {
        let texts = || self.schema_at(&steps(error)).is_some_and(|schema| {
            schema.pointer("/items/type").and_then(Value::as_str) == Some("string")
        });
        match kind {
            TypeKind::Single(JsonType::Array) if texts() => "a list of texts".to_owned(),
            TypeKind::Single(one) => type_word(*one).to_owned(),
            TypeKind::Multiple(set) => {
                set.iter().map(type_word).collect::<Vec<_>>().join(" or ")
            }
        }
    }

    /// The keys that the table at a path takes.
    fn known_keys(&self, path: &[Step]) -> Vec<String> {
        let schema = self.schema_at(path);
        let properties = schema.as_ref().and_then(|one| one.get("properties")?.as_object());
        properties.map(|one| one.keys().cloned().collect()).unwrap_or_default()
    }

    fn description(&self, path: &[Step], key: &str) -> Option<String> {
        let schema = self.schema_at(path)?;
        let property = schema.get("properties")?.get(key)?;
        property.get("description")?.as_str().map(ToOwned::to_owned)
    }

    /// The part of the schema that speaks of the value at a path.
    fn schema_at(&self, path: &[Step]) -> Option<Value> {
        let root = schema::of(self.kind);
        let mut here = &root;
        for step in path {
            here = follow(&root, here);
            here = match step {
                Step::Key(key) => here
                    .get("properties")
                    .and_then(|all| all.get(key))
                    .or_else(|| here.get("additionalProperties"))?,
                Step::Item(_) => here.get("items")?,
            };
        }
        Some(follow(&root, here).clone())
    }
}

/// The schema a `$ref` stands for; the schema itself if it is none.
fn follow<'s>(root: &'s Value, schema: &'s Value) -> &'s Value {
    let target = schema.get("$ref").and_then(Value::as_str).and_then(|name| root.pointer(name.trim_start_matches('#')));
    target.unwrap_or(schema)
}

fn steps(error: &ValidationError<'_>) -> Vec<Step> {
    let step = |segment: LocationSegment<'_>| match segment {
        LocationSegment::Property(key) => Step::Key(key.to_string()),
        LocationSegment::Index(index) => Step::Item(index),
    };
    error.instance_path().iter().map(step).collect()
}

/// The key that a path ends in, items aside.
fn key_of(path: &[Step]) -> &str {
    let keys = path.iter().rev().filter_map(|step| match step {
        Step::Key(key) => Some(key.as_str()),
        Step::Item(_) => None,
    });
    keys.into_iter().next().unwrap_or("file")
}

/// What the table at a path is, in words.
fn noun(kind: FileKind, path: &[Step]) -> &'static str {
    match (path.is_empty(), key_of(path)) {
        (true, _) => match kind {
            FileKind::Base => "`base.toml`",
            FileKind::Procedure => "the front matter",
            FileKind::Engine => "an engine file",
            FileKind::Catalogue => "a catalogue file",
            FileKind::Machines => "a machines file",
            _ => "this file",
        },
        (_, "spec") => "a statement",
        (_, "reread") => "a reread",
        (_, "variant") => "a variant",
        (_, "applies") => "an `applies` table",
        (_, "waive") => "a waiver",
        (_, "entry") => "an entry",
        (_, "source") => "a source",
        (_, "hazard") => "a hazard",
        (_, "gauge") => "a gauge",
        (_, "machine") => "a machine",
        (_, "fitted") => "a `fitted` table",
        (_, "serial") => "a serial span",
        (_, "layout") => "the layout",
        (_, "fastener") => "a fastener",
        (_, "fits") => "`fits`",
        (_, "defaults") => "`defaults`",
        (_, "misprint") => "a misprint",
        (_, "causes") => "a cause",
        (_, "checks") => "a check",
        (_, "access") => "an access step",
        (_, "code") => "a code",
        (_, "retired") => "a retired id",
        (_, "relation") => "a relation",
        (_, "off") => "an `off` table",
        _ => "this table",
    }
}

const fn type_word(one: JsonType) -> &'static str {
    match one {
        JsonType::Array => "a list",
        JsonType::Boolean => "true or false",
        JsonType::Integer => "a whole number",
        JsonType::Null => "nothing",
        JsonType::Number => "a number",
        JsonType::Object => "a table",
        JsonType::String => "a text",
    }
}

const fn json_word(value: &Value) -> &'static str {
    match value {
        Value::Null => "nothing",
        Value::Bool(_) => "true or false",
        Value::Number(_) => "a number",
        Value::String(_) => "a text",
        Value::Array(_) => "a list",
        Value::Object(_) => "a table",
    }
}
