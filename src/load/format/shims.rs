//! A job of shims: what was measured on a head, and what shims there are. It stands in no base; the
//! technician writes it for one job.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::value::MapAccessDeserializer;
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer};

use super::{Located, Text};

/// One head: its valves, the lash they are to have, and the shims at hand.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Shims")]
pub struct ShimsFile {
    /// Limits of the lash.
    #[schemars(length(min = 1), example = &"0.15..0.25 mm")]
    pub window: Text,
    /// The lash aimed at; the middle of the window if left out.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"0.20 mm")]
    pub target: Option<Text>,
    /// Sizes in stock, the preferred first; a text for as many as are wanted, a table for a counted few.
    #[serde(default)]
    pub stock: Option<Vec<ShimStock>>,
    /// Sizes in stock by steps, as many of each as are wanted.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"1.20..3.50 mm by 0.05 mm")]
    pub stock_steps: Option<Text>,
    /// The valves.
    #[schemars(length(min = 1))]
    pub valves: Vec<Located<ShimValve>>,
}

/// One valve, as measured.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShimValve {
    /// What it is called.
    #[schemars(length(min = 1), example = &"front exhaust")]
    pub name: Text,
    /// Its lash; `0 mm`, or `under` the thinnest leaf, where none goes in.
    #[schemars(length(min = 1), example = &"0.09 mm")]
    pub measured: Text,
    /// The shim that is in it.
    #[schemars(length(min = 1), example = &"2.60 mm")]
    pub fitted: Text,
    /// Its own limits, where they differ from those of the job.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"0.20..0.30 mm")]
    pub window: Option<Text>,
    /// The lash aimed at at this valve; the middle of its own window if left out.
    #[serde(default)]
    #[schemars(length(min = 1), example = &"0.25 mm")]
    pub target: Option<Text>,
}

/// One size in stock: as many as are wanted, or some pieces.
#[derive(Debug)]
pub struct ShimStock {
    /// Its thickness.
    pub size: Text,
    /// How many there are.
    pub pieces: Option<u32>,
}

/// A size of which there are some pieces.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Counted {
    size: Text,
    pieces: u32,
}

/// As [`ShimStock`], before the bytes of a size alone are known.
enum Unplaced {
    Plenty(String),
    Counted(Counted),
}

impl<'de> Deserialize<'de> for Unplaced {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reads;

        impl<'de> Visitor<'de> for Reads {
            type Value = Unplaced;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a size, or a table of a size and its pieces")
            }

            fn visit_str<E>(self, size: &str) -> Result<Unplaced, E> {
                Ok(Unplaced::Plenty(size.to_owned()))
            }

            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Unplaced, A::Error> {
                Counted::deserialize(MapAccessDeserializer::new(map)).map(Unplaced::Counted)
            }
        }

        deserializer.deserialize_any(Reads)
    }
}

impl<'de> Deserialize<'de> for ShimStock {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let located = Located::<Unplaced>::deserialize(deserializer)?;
        let range = located.range();
        Ok(match located.into_inner() {
            Unplaced::Plenty(size) => Self { size: Located::new(size, range), pieces: None },
            Unplaced::Counted(counted) => Self { size: counted.size, pieces: Some(counted.pieces) },
        })
    }
}

impl JsonSchema for ShimStock {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "ShimStock".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["object", "string"],
            "examples": ["2.45 mm", { "size": "2.50 mm", "pieces": 2 }],
            "minLength": 1,
            "required": ["size", "pieces"],
            "properties": {
                "size": { "description": "Its thickness.", "type": "string", "examples": ["2.50 mm"] },
                "pieces": {
                    "description": "How many there are.",
                    "type": "integer",
                    "minimum": 0,
                    "maximum": 10000,
                    "examples": [2]
                }
            },
            "additionalProperties": false
        })
    }
}
