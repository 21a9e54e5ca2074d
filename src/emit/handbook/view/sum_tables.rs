//! Tables that stand beside a sum: what a shop keeps on its wall, worked out by the sum itself.

use serde::Serialize;

use crate::compute::sums::{Outcome, Sum, work};
use crate::quantity::{Unit, Value, convert};

/// One table: a caption, a head, and rows whose first cell heads the row.
#[derive(Debug, Serialize)]
pub struct TableView {
    /// What it shows.
    pub caption: &'static str,
    /// The heads of its columns.
    pub head: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

/// Threads of the proof torque table: name, diameter and pitch.
const THREADS: [(&str, &str, &str); 8] = [
    ("M5×0.8", "5 mm", "0.8 mm"),
    ("M6×1", "6 mm", "1 mm"),
    ("M8×1.25", "8 mm", "1.25 mm"),
    ("M10×1.5", "10 mm", "1.5 mm"),
    ("M10×1.25", "10 mm", "1.25 mm"),
    ("M12×1.75", "12 mm", "1.75 mm"),
    ("M12×1.25", "12 mm", "1.25 mm"),
    ("M14×1.5", "14 mm", "1.5 mm"),
];
/// Property classes of ISO 898-1 and their proof strength up to M16.
const CLASSES: [(&str, &str); 4] =
    [("8.8", "580 MPa"), ("9.8", "650 MPa"), ("10.9", "830 MPa"), ("12.9", "970 MPa")];

/// The tables of a sum.
pub fn tables(sum: &Sum) -> Vec<TableView> {
    match sum.id {
        "proof" => vec![proof(sum)],
        "turn" => vec![turn(sum)],
        "altitude" => vec![altitude(sum)],
        "rest" => vec![rest(sum)],
        "load" => vec![load(sum)],
        "gravity" => vec![gravity()],
        "premix" => vec![premix(sum)],
        _ => Vec::new(),
    }
}

/// One answer of a sum, as shown; a dash where it has none, which the tests rule out.
fn answer(sum: &Sum, typed: &[(&str, &str)], key: &str) -> String {
    let given = |name: &str| typed.iter().find(|(key, _)| *key == name).map(|(_, text)| (*text).to_owned());
    let text = |outcome: Outcome| outcome.results.into_iter().find(|one| one.key == key).map(|one| one.text);
    work(sum, &given).ok().and_then(text).unwrap_or_else(|| "–".to_owned())
}

fn heads(first: &str, others: impl IntoIterator<Item = String>) -> Vec<String> {
    std::iter::once(first.to_owned()).chain(others).collect()
}

fn proof(sum: &Sum) -> TableView {
    let row = |(name, diameter, pitch): &(&str, &str, &str)| {
        let cell = |(_, strength): &(&str, &str)| {
            answer(sum, &[("diameter", diameter), ("pitch", pitch), ("strength", strength)], "torque")
        };
        heads(name, CLASSES.iter().map(cell))
    };
    TableView {
        caption: "Steel in steel, dry (K 0.20), three quarters of the proof load, by property class",
        head: heads("Thread", CLASSES.iter().map(|(class, _)| (*class).to_owned())),
        rows: THREADS.iter().map(row).collect(),
    }
}

fn turn(sum: &Sum) -> TableView {
    let pitches = ["0.5 mm", "0.75 mm", "1 mm"];
    let changes = [
        ("0.01 mm", "1.01 mm"),
        ("0.02 mm", "1.02 mm"),
        ("0.03 mm", "1.03 mm"),
        ("0.05 mm", "1.05 mm"),
        ("0.10 mm", "1.10 mm"),
    ];
    let row = |(change, measured): &(&str, &str)| {
        let cell = |pitch: &&str| {
            // From any lash to one that much tighter.
            answer(sum, &[("measured", *measured), ("target", "1.00 mm"), ("pitch", *pitch)], "angle")
        };
        heads(change, pitches.iter().map(cell))
    };
    TableView {
        caption: "Turn of the screw for a change of the lash, by pitch",
        head: heads("Change", pitches.iter().map(|pitch| (*pitch).to_owned())),
        rows: changes.iter().map(row).collect(),
    }
}

fn altitude(sum: &Sum) -> TableView {
    let heights = ["0 m", "500 m", "1000 m", "1500 m", "2000 m", "2500 m", "3000 m", "4000 m"];
    let row = |height: &&str| {
        let cell = |key| answer(sum, &[("limit", "1000 kPa"), ("height", *height)], key);
        heads(height, ["air", "share", "here"].map(cell))
    };
    TableView {
        caption: "Air, and what is left of a cranking compression",
        head: heads("Height", ["Air", "Of sea level", "1000 kPa become"].map(str::to_owned)),
        rows: heights.iter().map(row).collect(),
    }
}

/// A table that the sum holds itself, its first column in the order given.
fn held<'a>(sum: &'a Sum, name: &str) -> impl DoubleEndedIterator<Item = &'a (&'static str, &'static str)> {
    let table = sum.tables.iter().find(|(held, _)| *held == name).map(|(_, points)| *points);
    table.unwrap_or_default().iter()
}

fn rest(sum: &Sum) -> TableView {
    let rows = held(sum, "flooded_rest").rev().zip(held(sum, "agm_rest").rev());
    let row = |((flooded, charge), (agm, _)): (&(&str, &str), &(&str, &str))| {
        vec![format!("{charge} %"), format!("{flooded} V"), format!("{agm} V")]
    };
    TableView {
        caption: "Volts at rest for hours, 12 V, at 80 °F; not for lithium iron",
        head: ["Charged", "Flooded", "AGM, from memory"].map(str::to_owned).to_vec(),
        rows: rows.map(row).collect(),
    }
}

fn load(sum: &Sum) -> TableView {
    let row = |(at, volts): &(&str, &str)| {
        let at = format!("{at} °F");
        let celsius = in_celsius(&at);
        vec![at, celsius, format!("{volts} V")]
    };
    TableView {
        caption: "Least volts after 15 s at half the cold-cranking current; warmer than 70 °F as at 70 °F",
        head: ["Battery at", "or", "At least"].map(str::to_owned).to_vec(),
        rows: held(sum, "least_volts").rev().map(row).collect(),
    }
}

fn in_celsius(fahrenheit: &str) -> String {
    let value = Value::parse(fahrenheit).ok();
    let converted = value.zip(Unit::parse("°C").ok()).and_then(|(value, to)| convert(&value, to).ok());
    converted.map_or_else(|| "–".to_owned(), |converted| converted.text)
}

fn gravity() -> TableView {
    let rows =
        [("100 %", "1.265"), ("75 %", "1.225"), ("50 %", "1.190"), ("25 %", "1.155"), ("0 %", "1.120")];
    TableView {
        caption: "Specific gravity at 80 °F, by a battery maker's published table",
        head: ["Charged", "Each cell"].map(str::to_owned).to_vec(),
        rows: rows
            .iter()
            .map(|(charge, gravity)| vec![(*charge).to_owned(), (*gravity).to_owned()])
            .collect(),
    }
}

fn premix(sum: &Sum) -> TableView {
    let ratios = ["25:1", "32:1", "40:1", "50:1", "100:1"];
    let row = |ratio: &&str| {
        let oil = |fuel: &str| answer(sum, &[("ratio", *ratio), ("fuel", fuel)], "oil");
        let percent = answer(sum, &[("ratio", *ratio), ("fuel", "1 L")], "percent");
        vec![(*ratio).to_owned(), percent, oil("1 L"), oil("5 L"), oil("10 L")]
    };
    TableView {
        caption: "Oil for premix",
        head: ["Ratio", "Of the fuel", "In 1 L", "In 5 L", "In 10 L"].map(str::to_owned).to_vec(),
        rows: ratios.iter().map(row).collect(),
    }
}
