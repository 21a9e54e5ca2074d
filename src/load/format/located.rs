//! A value together with the bytes it was read from.

use std::borrow::{Borrow, Cow};
use std::cmp::Ordering;
use std::ops::Range;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::{SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use toml::Spanned;

/// A value read from a file, with the byte range of its text in that file.
///
/// Two located values are equal when their values are: where something stands never changes
/// what it says.
#[derive(Clone, Debug)]
pub struct Located<T> {
    value: T,
    start: usize,
    end: usize,
}

/// A located string, the commonest thing in a spec base.
pub type Text = Located<String>;

impl<T> Located<T> {
    /// Joins a value and its byte range.
    pub const fn new(value: T, range: Range<usize>) -> Self {
        Self { value, start: range.start, end: range.end }
    }

    /// The value alone.
    pub fn into_inner(self) -> T {
        self.value
    }

    /// The value.
    pub const fn get(&self) -> &T {
        &self.value
    }

    /// The bytes it was read from; for a string, its quotes are inside the range.
    pub const fn range(&self) -> Range<usize> {
        self.start..self.end
    }
}

impl Text {
    /// The string itself.
    pub fn as_str(&self) -> &str {
        &self.value
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Located<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let spanned = Spanned::<T>::deserialize(deserializer)?;
        let range = spanned.span();
        Ok(Self::new(spanned.into_inner(), range))
    }
}

impl<T: JsonSchema> JsonSchema for Located<T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }

    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }

    fn schema_id() -> Cow<'static, str> {
        T::schema_id()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        T::json_schema(generator)
    }
}

impl<T: PartialEq> PartialEq for Located<T> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}

impl<T: Eq> Eq for Located<T> {}

impl<T: PartialOrd> PartialOrd for Located<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        self.value.partial_cmp(&other.value)
    }
}

impl<T: Ord> Ord for Located<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.value.cmp(&other.value)
    }
}

impl Borrow<str> for Located<String> {
    fn borrow(&self) -> &str {
        &self.value
    }
}

/// A text, or a list of texts; each with its own bytes.
#[derive(Clone, Debug)]
pub enum OneOrMany {
    /// One text.
    One(Text),
    /// A list of texts.
    Many(Vec<Text>),
}

impl OneOrMany {
    /// The texts, one or many.
    pub fn texts(&self) -> &[Text] {
        match self {
            Self::One(text) => std::slice::from_ref(text),
            Self::Many(texts) => texts,
        }
    }
}

/// As [`OneOrMany`], before the bytes of a single text are known.
enum Unplaced {
    One(String),
    Many(Vec<Text>),
}

impl<'de> Deserialize<'de> for Unplaced {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reads;

        impl<'de> Visitor<'de> for Reads {
            type Value = Unplaced;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a text or a list of texts")
            }

            fn visit_str<E>(self, text: &str) -> Result<Unplaced, E> {
                Ok(Unplaced::One(text.to_owned()))
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Unplaced, A::Error> {
                let mut texts = Vec::new();
                while let Some(text) = items.next_element()? {
                    texts.push(text);
                }
                Ok(Unplaced::Many(texts))
            }
        }

        deserializer.deserialize_any(Reads)
    }
}

impl<'de> Deserialize<'de> for OneOrMany {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let located = Located::<Unplaced>::deserialize(deserializer)?;
        Ok(match located.value {
            Unplaced::One(text) => Self::One(Located::new(text, located.start..located.end)),
            Unplaced::Many(texts) => Self::Many(texts),
        })
    }
}
