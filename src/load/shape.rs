//! Breaks of the schema as findings in our own words, by the kind of the break, never by its text.
//!
//! A misspelt key gives its finding and is read on as the key that was probably meant, so that it hides
//! nothing. Then a finding is made of every break, what is broken is mended or cut out, and the schema is
//! asked again until the rest is sound. Breaks after the first asking follow from that, and make no
//! findings: one mistake gives one message.

mod keys;
mod mend;
mod misplaced;
mod words;

use std::cell::OnceCell;
use std::ops::Range;

use jsonschema::error::{TypeKind, ValidationErrorKind};
use jsonschema::paths::LocationSegment;
use jsonschema::{JsonType, ValidationError};
use serde_json::Value;
use toml::de::DeTable;

use super::place::FileKind;
use super::rules::{
    malformed_text, missing_key, not_a_choice, number_out_of_range, one_form_only, unknown_key, wrong_count,
    wrong_type,
};
use super::schema;
use super::tree::{self, Step};
use crate::diag::{Finding, Sink, nearest};
use crate::source::{FileId, Span};
use mend::Mend;
use words::{json_word, key_of, noun, type_word};

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
    /// The schema, made when it is first asked for more than whether the file keeps it.
    schema: OnceCell<Value>,
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
    let whole = if whole.is_empty() { 0..text.lines().next().map_or(0, str::len) } else { whole };
    let shape = Shape { kind, file, text, whole, schema: OnceCell::new() };
    let mut soundness = shape.mend_keys(root, sink);
    for round in 0..ROUNDS {
        let mut unusable = Vec::new();
        let json = tree::to_json(root, &mut unusable);
        let breaks = shape.breaks(&json, root, &unusable);
        if breaks.is_empty() {
            return soundness;
        }
        soundness = Soundness::Pruned;
        let mends = breaks.iter().map(|one| one.mend.clone()).collect();
        if round == 0 {
            breaks.into_iter().filter_map(|one| one.finding).for_each(|one| sink.push(one));
        }
        if !mend::apply(mends, root) {
            return Soundness::Lost;
        }
    }
    Soundness::Lost
}

/// One break: its finding, and what is done about it.
struct Break {
    finding: Option<Finding>,
    mend: Mend,
}

impl Shape<'_> {
    fn breaks(&self, json: &Value, root: &DeTable<'_>, unusable: &[Vec<Step>]) -> Vec<Break> {
        let Some(validator) = schema::validator(self.kind) else { return Vec::new() };
        let mut all: Vec<Break> = unusable
            .iter()
            .map(|path| Break {
                finding: Some(number_out_of_range::no_number(
                    self.at(root, path),
                    key_of(path),
                    self.typed(root, path),
                )),
                mend: self.cut(path, root),
            })
            .collect();
        let errors: Vec<_> = validator.iter_errors(json).collect();
        if root.is_empty() && !errors.is_empty() {
            return vec![self.empty(&errors)];
        }
        // What is no text is none of the words its key takes either: that says more.
        let choices = errors.iter().filter(|error| matches!(error.kind(), ValidationErrorKind::Enum { .. }));
        let choices: Vec<_> = choices.map(steps).collect();
        let is_told = |error: &ValidationError<'_>, path: &Vec<Step>| {
            matches!(error.kind(), ValidationErrorKind::Type { .. }) && choices.contains(path)
        };
        let misplaced = self.misplaced_waivers(root);
        for error in &errors {
            let path = steps(error);
            if misplaced.iter().any(|(waiver, _)| path.starts_with(waiver)) {
                continue;
            }
            if !unusable.contains(&path) && !is_told(error, &path) {
                all.extend(self.of_error(error, &path, root));
            }
        }
        all.extend(
            misplaced.into_iter().map(|(at, finding)| Break { finding: Some(finding), mend: Mend::Cut(at) }),
        );
        all
    }

    /// A file with nothing in it is one mistake, however many keys it needs.
    fn empty(&self, errors: &[ValidationError<'_>]) -> Break {
        let needs: Vec<_> = errors
            .iter()
            .filter_map(|error| match error.kind() {
                ValidationErrorKind::Required { property } => property.as_str(),
                _ => None,
            })
            .collect();
        let span = Span::new(self.file, self.whole.clone());
        Break {
            finding: Some(missing_key::all(span, noun(self.kind, &[]), &needs)),
            mend: Mend::Cut(Vec::new()),
        }
    }

    fn of_error(&self, error: &ValidationError<'_>, path: &[Step], root: &DeTable<'_>) -> Vec<Break> {
        let key = key_of(path);
        let here = || self.at(root, path);
        let finding = match error.kind() {
            ValidationErrorKind::AdditionalProperties { unexpected } => {
                return self.unknown(unexpected, path, root);
            }
            ValidationErrorKind::Required { property } => {
                let missing = property.as_str().unwrap_or_default();
                let about = self.description(path, missing);
                Some(missing_key::finding(here(), noun(self.kind, path), missing, about.as_deref()))
            }
            ValidationErrorKind::OneOfNotValid { .. } | ValidationErrorKind::OneOfMultipleValid { .. } => {
                self.forms(error, path, root)
            }
            ValidationErrorKind::Type { kind } => {
                let say = if matches!(path.last(), Some(Step::Item(_))) {
                    wrong_type::member
                } else {
                    wrong_type::finding
                };
                Some(say(
                    here(),
                    key,
                    json_word(error.instance()),
                    &self.wanted(kind, error),
                    self.typed(root, path),
                ))
            }
            ValidationErrorKind::Enum { options } => {
                let choices: Vec<_> =
                    options.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
                let typed = error.instance().as_str().unwrap_or_else(|| self.typed(root, path));
                Some(not_a_choice::finding(here(), key, typed, &choices))
            }
            ValidationErrorKind::Constant { expected_value } => {
                let typed = error.instance().as_str().unwrap_or_else(|| self.typed(root, path));
                let choices: Vec<_> = expected_value.as_str().into_iter().collect();
                Some(not_a_choice::finding(here(), key, typed, &choices))
            }
            ValidationErrorKind::Pattern { pattern } => {
                let typed = error.instance().as_str().unwrap_or_default();
                Some(malformed_text::finding(here(), key, typed, pattern))
            }
            ValidationErrorKind::MinLength { .. } => Some(malformed_text::empty(here(), key)),
            ValidationErrorKind::MinItems { .. } | ValidationErrorKind::MaxItems { .. } => {
                Some(self.count(error, path, here()))
            }
            ValidationErrorKind::Minimum { limit } => {
                let bound = format!("at least {limit}");
                Some(number_out_of_range::finding(here(), key, self.typed(root, path), &bound))
            }
            ValidationErrorKind::Maximum { limit } => {
                let bound = format!("at most {limit}");
                Some(number_out_of_range::finding(here(), key, self.typed(root, path), &bound))
            }
            _ => Some(wrong_type::finding(
                here(),
                key,
                "not understood",
                "another value",
                self.typed(root, path),
            )),
        };
        vec![Break { finding, mend: self.mend(error, path, root) }]
    }

    fn cut(&self, path: &[Step], root: &DeTable<'_>) -> Mend {
        Mend::Cut(mend::losable(self.kind, path, root))
    }

    /// A value of the wrong type is read as it must be meant, if that is plain; else it is cut out.
    fn mend(&self, error: &ValidationError<'_>, path: &[Step], root: &DeTable<'_>) -> Mend {
        let ValidationErrorKind::Type { kind } = error.kind() else { return self.cut(path, root) };
        let instance = error.instance();
        match kind {
            TypeKind::Single(JsonType::Array) if instance.is_string() && self.lists_texts(path) => {
                Mend::AsList(path.to_owned())
            }
            TypeKind::Single(JsonType::Array) if instance.is_object() && self.lists_tables(path) => {
                Mend::AsList(path.to_owned())
            }
            TypeKind::Single(JsonType::String) if instance.is_number() && mend::is_plain_text(path) => {
                Mend::AsText(path.to_owned(), self.typed(root, path).to_owned())
            }
            _ => self.cut(path, root),
        }
    }

    /// True if the members of the list at a path are texts, or may be.
    fn lists_texts(&self, path: &[Step]) -> bool {
        let schema = self.schema_at(path);
        let of = schema.and_then(|schema| schema.pointer("/items/type"));
        of.is_some_and(|of| {
            of == "string" || of.as_array().is_some_and(|types| types.contains(&"string".into()))
        })
    }

    /// True if the members of the list at a path are tables.
    fn lists_tables(&self, path: &[Step]) -> bool {
        let items = self.schema_at(path).and_then(|schema| schema.get("items"));
        items.is_some_and(|items| follow(self.schema(), items).get("properties").is_some())
    }

    /// A list of the wrong length: the key's own, or one inside it.
    fn count(&self, error: &ValidationError<'_>, path: &[Step], here: Span) -> Finding {
        let key = key_of(path);
        let list = if matches!(path.last(), Some(Step::Item(_))) {
            format!("a list inside `{key}`")
        } else {
            format!("`{key}`")
        };
        let has = error.instance().as_array().map_or(0, Vec::len);
        let schema = self.schema_at(path);
        let bound = |keyword| schema.and_then(|schema| schema.get(keyword)?.as_u64());
        wrong_count::finding(here, &list, has, (bound("minItems"), bound("maxItems")))
    }

    fn unknown(&self, unexpected: &[String], path: &[Step], root: &DeTable<'_>) -> Vec<Break> {
        let known = self.known_keys(path);
        let known: Vec<_> = known.iter().map(String::as_str).collect();
        let one = |key: &String| {
            let range = tree::key_range(root, path, key).unwrap_or_else(|| self.whole.clone());
            let span = Span::new(self.file, range);
            let mend = Mend::Cut(path.iter().cloned().chain([Step::Key(key.clone())]).collect());
            let near = nearest(key, known.iter().copied());
            Break {
                finding: Some(match self.heading_of(key).filter(|_| near.is_none()) {
                    Some(heading) => unknown_key::misplaced(span, noun(self.kind, path), key, &heading),
                    None => unknown_key::finding(span, noun(self.kind, path), key, near, &known),
                }),
                mend,
            }
        };
        unexpected.iter().map(one).collect()
    }

    /// A statement with no form, or more than one.
    fn forms(&self, error: &ValidationError<'_>, path: &[Step], root: &DeTable<'_>) -> Option<Finding> {
        let object = error.instance().as_object()?;
        let given: Vec<_> =
            one_form_only::FORMS.into_iter().filter(|form| object.contains_key(*form)).collect();
        let noun = noun(self.kind, path).replacen("a ", "this ", 1);
        if given.is_empty() {
            return Some(one_form_only::none(self.at(root, path), &noun));
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
        match kind {
            TypeKind::Single(JsonType::Array) if self.lists_tables(&steps(error)) => {
                "a list of tables".to_owned()
            }
            TypeKind::Single(JsonType::Array) if self.lists_texts(&steps(error)) => {
                "a list of texts".to_owned()
            }
            TypeKind::Single(one) => type_word(*one).to_owned(),
            TypeKind::Multiple(set) => set.iter().map(type_word).collect::<Vec<_>>().join(" or "),
        }
    }

    /// The keys that the table at a path takes.
    fn known_keys(&self, path: &[Step]) -> Vec<String> {
        let properties = self.schema_at(path).and_then(|one| one.get("properties")?.as_object());
        properties.map(|one| one.keys().cloned().collect()).unwrap_or_default()
    }

    fn description(&self, path: &[Step], key: &str) -> Option<String> {
        let schema = self.schema_at(path)?;
        let property = schema.get("properties")?.get(key)?;
        property.get("description")?.as_str().map(ToOwned::to_owned)
    }

    fn schema(&self) -> &Value {
        self.schema.get_or_init(|| schema::of(self.kind))
    }

    /// The part of the schema that speaks of the value at a path.
    fn schema_at(&self, path: &[Step]) -> Option<&Value> {
        let root = self.schema();
        let mut here = root;
        for step in path {
            here = follow(root, here);
            here = match step {
                Step::Key(key) => here
                    .get("properties")
                    .and_then(|all| all.get(key))
                    .or_else(|| here.get("additionalProperties"))?,
                Step::Item(_) => here.get("items")?,
            };
        }
        Some(follow(root, here))
    }
}

/// The schema a `$ref` stands for; the schema itself if it is none.
fn follow<'s>(root: &'s Value, schema: &'s Value) -> &'s Value {
    let target = schema
        .get("$ref")
        .and_then(Value::as_str)
        .and_then(|name| root.pointer(name.trim_start_matches('#')));
    target.unwrap_or(schema)
}

fn steps(error: &ValidationError<'_>) -> Vec<Step> {
    let step = |segment: LocationSegment<'_>| match segment {
        LocationSegment::Property(key) => Step::Key(key.to_string()),
        LocationSegment::Index(index) => Step::Item(index),
    };
    error.instance_path().iter().map(step).collect()
}
