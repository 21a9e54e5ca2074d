//! The compiler takes what is typed at the bench for the one number it means, as the independent oracle in
//! `tests/outside/vectors` wrote it down; the handbook's script is held against the same vectors.

use baybook::compute::reading;
use baybook::quantity::{Unit, exact_text};
use serde::Deserialize;
use serde_json::{Value as Json, json};

#[derive(Deserialize)]
struct Vectors {
    vectors: Vec<Vector>,
}

#[derive(Deserialize)]
struct Vector {
    typed: String,
    unit: String,
    reading: Json,
}

#[test]
fn every_reading_is_taken_for_what_it_means() {
    let file: Vectors = serde_json::from_str(include_str!("vectors/readings.json")).expect("vectors");
    assert!(file.vectors.len() > 2000);
    for Vector { typed, unit, reading: expected } in file.vectors {
        let answer = match reading(&typed, Unit::parse(&unit).expect("a unit")) {
            Ok(taken) => json!({
                "ok": true,
                "value": exact_text(&taken.value),
                "unit": taken.unit.symbol(),
                "text": taken.text,
                "assumed": taken.assumed,
            }),
            Err(refusal) => json!({ "ok": false, "because": refusal.message, "help": refusal.help }),
        };
        assert_eq!(answer, expected, "{typed:?} in {unit}");
    }
}
