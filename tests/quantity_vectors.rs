//! Vectors of conversions that any other implementation can be held against: the browser's, and
//! the independent check in `tests/outside/quantity`.
//!
//! The committed file must equal what the code works out. After a wanted change write it anew with
//! `BLESS=1 cargo test --test quantity_vectors`, and run the independent check.

use std::fmt::Write as _;
use std::path::Path;

use baybook::quantity::{Exact, Kind, Unit, Value, convert, exact_text};
use serde_json::{Map, Value as Json, json};

const FILE: &str = "tests/vectors/convert.json";

/// Xorshift: the same numbers on every machine.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % sides
    }

    /// One to four digits with up to three decimals.
    fn number(&mut self) -> String {
        let digits = 1 + self.roll(9999);
        let decimals = usize::try_from(self.roll(4)).unwrap();
        if decimals == 0 {
            return digits.to_string();
        }
        let padded = format!("{digits:0width$}", width = decimals + 1);
        let (whole, part) = padded.split_at(padded.len() - decimals);
        format!("{whole}.{part}")
    }

    fn window(&mut self, unit: Unit) -> String {
        let (first, second) = (self.number(), self.number());
        match self.roll(7) {
            0 => format!("min {}", unit.after(&first)),
            1 => format!("max {}", unit.after(&first)),
            2 => format!("under {}", unit.after(&first)),
            3 => unit.after(&format!("{first} ± {second}")),
            4 => unit.after(&format!("{first} +{second}/-{first}")),
            5 if unit.symbol() != "%" => {
                format!("{} ± {} %", unit.after(&first), 1 + self.roll(20))
            }
            _ => {
                let range = unit.after(&format!("{first}..{second}"));
                let turned = unit.after(&format!("{second}..{first}"));
                if Value::parse(&range).is_ok() { range } else { turned }
            }
        }
    }
}

/// The values whose conversion is pinned, in the units they are pinned in.
const PINNED: &[(&str, &str)] = &[
    ("58 ± 2 psi", "kPa"),
    ("0.15..0.25 mm", "in"),
    ("36 ft", "m"),
    ("12 N·m", "lbf·in"),
    ("1/4 in", "mm"),
    ("2.45 kΩ ± 10 %", "Ω"),
    ("under 35 °C", "°F"),
    ("-40 °C", "°F"),
];

fn conversions() -> Vec<Json> {
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let pinned = PINNED.iter().map(|&(text, to)| (text.to_owned(), Unit::parse(to).unwrap()));
    let mut rows: Vec<_> = pinned.filter_map(|(text, to)| conversion(&text, to)).collect();
    assert_eq!(rows.len(), PINNED.len());
    for from in Unit::all() {
        for to in Unit::of(from.kind()).filter(|to| *to != from && from.converts_to(*to)) {
            let single = from.after(&dice.number());
            rows.extend(conversion(&single, to));
            rows.extend(conversion(&dice.window(from), to));
        }
    }
    rows
}

/// One row; `None` where no rounded window fits.
fn conversion(text: &str, to: Unit) -> Option<Json> {
    let value = Value::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"));
    let shown = convert(&value, to).ok()?;
    let exact = |value: Option<Exact>| value.as_ref().map(exact_text);
    Some(json!({
        "value": value.text(),
        "unit": value.unit().symbol(),
        "min": exact(value.min().map(|limit| limit.exact)),
        "max": exact(value.max().map(|limit| limit.exact)),
        "finest": exact_text(&value.ulp()),
        "to": to.symbol(),
        "shown": { "text": shown.text, "min": shown.min, "max": shown.max },
        "exact": { "min": exact(shown.exact_min), "max": exact(shown.exact_max) },
    }))
}

fn units() -> Vec<Json> {
    Unit::all()
        .map(|unit| {
            let zero = unit.to_si(&Exact::from_integer(0.into()));
            json!({
                "symbol": unit.symbol(),
                "kind": unit.kind().name(),
                "ucum": unit.ucum(),
                "unece": unit.unece(),
                "si": unit.kind().si_symbol(),
                "factor": exact_text(&unit.factor()),
                "zero": exact_text(&zero),
            })
        })
        .collect()
}

/// JSON with one row a line, so that a change is one line of a diff.
fn file_text() -> String {
    let mut out = String::from("{\n");
    let parts = [("units", units()), ("conversions", conversions())];
    for (place, (name, rows)) in parts.into_iter().enumerate() {
        let rows: Vec<_> = rows.iter().map(Json::to_string).collect();
        let comma = if place == 0 { "," } else { "" };
        writeln!(out, "\"{name}\": [\n{}\n]{comma}", rows.join(",\n")).unwrap();
    }
    out + "}\n"
}

#[test]
fn the_committed_vectors_are_what_the_code_works_out() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE);
    let text = file_text();
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    let committed = std::fs::read_to_string(&path).unwrap();
    let differing = committed.lines().zip(text.lines()).find(|(old, new)| old != new);
    assert_eq!(differing, None, "the first line that differs");
    assert_eq!(committed.len(), text.len());
}

#[test]
fn the_vectors_cover_every_pair_of_units() {
    let file: Map<String, Json> = serde_json::from_str(&file_text()).unwrap();
    let rows = file["conversions"].as_array().unwrap();
    for from in Unit::all().filter(|unit| unit.kind() != Kind::Count) {
        for to in Unit::of(from.kind()).filter(|to| *to != from) {
            let covered = rows.iter().any(|row| row["unit"] == from.symbol() && row["to"] == to.symbol());
            assert!(covered, "{from} in {to}");
        }
    }
}
