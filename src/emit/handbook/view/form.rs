//! The value of a statement as lines of a sheet, and in brief for a list or a sentence.

use std::collections::BTreeMap;

use serde::Serialize;

use super::text::{Figure, bind, words};
use crate::model::{Absence, Direction, Form, Misprint, Pin, Printed, Selection, Words};
use crate::quantity::{Kind, Unit, convert};

/// One value with every form the manual prints, or one converted form.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Line {
    /// What it is, where the sheet must say: `new`, `wear limit`, `set to`.
    pub label: Option<&'static str>,
    /// The maker's own form.
    pub first: Figure,
    /// Other printed forms.
    pub printed: Vec<Figure>,
    /// A converted form, only where the manual prints no other.
    pub converted: Option<Figure>,
}

/// A service interval: whichever of its figures comes first.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Every {
    /// `every`, `first after`, `in severe use every`.
    pub label: &'static str,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// A value in brief: figures and the word between them.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct Brief {
    /// Figures or words.
    pub parts: Vec<Figure>,
    /// What stands between them.
    pub joiner: &'static str,
}

impl Brief {
    /// Words in place of a figure.
    pub fn words(text: &str) -> Self {
        Self { parts: vec![Figure { parts: vec![bind(text)], spoken: None, misprint: None }], joiner: "" }
    }

    /// What stands where a build states nothing.
    pub fn unstated() -> Self {
        Self::words("not stated")
    }

    /// The whole on one line.
    pub fn plain(&self) -> String {
        let parts: Vec<String> = self.parts.iter().map(Figure::plain).collect();
        parts.join(self.joiner)
    }
}

/// Parts chosen by one input.
#[derive(Clone, Debug, Serialize)]
pub struct Picks {
    /// Name of the input.
    pub by: String,
    /// Input and part.
    pub rows: Vec<(String, String)>,
}

/// Parts chosen by two inputs, the first down, the second across.
#[derive(Clone, Debug, Serialize)]
pub struct Matrix {
    /// Name of the first input.
    pub down: String,
    /// Name of the second input.
    pub across: String,
    /// Second inputs, in the order of the file.
    pub columns: Vec<String>,
    /// First inputs, each with the part for every column; none where the table has no such pair.
    pub rows: Vec<(String, Vec<Option<String>>)>,
}

/// One cavity of a connector.
#[derive(Clone, Debug, Serialize)]
pub struct PinRow {
    /// Cavity.
    pub cavity: String,
    /// Colours of its wire: ground, then stripe; a line may break between them.
    pub wire: Vec<String>,
    /// What it carries.
    pub function: String,
    /// What is measured there, one line a state.
    pub expect: Vec<String>,
}

/// What the manual prints wrongly.
#[derive(Clone, Debug, Serialize)]
pub struct MisprintLine {
    /// As printed.
    pub printed: String,
    /// As meant.
    pub meant: String,
    /// Why.
    pub because: String,
    /// Who decided.
    pub decided_by: String,
}

/// The line of a list of printed forms; none if the list is empty.
pub fn line(label: Option<&'static str>, printed: &[Printed], units: &BTreeMap<Kind, Unit>) -> Option<Line> {
    let (first, others) = printed.split_first()?;
    let converted = if others.is_empty() { converted(first, units) } else { None };
    Some(Line {
        label,
        first: Figure::printed(first),
        printed: others.iter().map(Figure::printed).collect(),
        converted,
    })
}

/// The value in the unit the base asks for, else in the one a shop wants to see beside it.
fn converted(printed: &Printed, units: &BTreeMap<Kind, Unit>) -> Option<Figure> {
    let own = printed.value.unit();
    let asked = units.get(&own.kind()).copied().filter(|unit| *unit != own);
    let target = asked.or_else(|| own.counterpart())?;
    let converted = convert(&printed.value, target).ok()?;
    Some(Figure::from_text(&converted.text, target))
}

/// Every line of a form that has lines: windows, fits and settings.
pub fn lines(form: &Form, units: &BTreeMap<Kind, Unit>) -> Vec<Line> {
    let lines = match form {
        Form::Window { printed, set_to } => [line(None, printed, units), line(Some("set to"), set_to, units)],
        Form::Fit { new, wear_limit } => {
            [line(Some("new"), new, units), line(Some("wear limit"), wear_limit, units)]
        }
        Form::Setting(printed) => [line(None, printed, units), None],
        _ => [None, None],
    };
    lines.into_iter().flatten().collect()
}

/// The lines of an interval.
pub fn intervals(form: &Form) -> Vec<Every> {
    let Form::Interval { regular, first, severe } = form else { return Vec::new() };
    let lists = [("every", regular), ("first after", first), ("in severe use, every", severe)];
    let given = lists.into_iter().filter(|(_, printed)| !printed.is_empty());
    given.map(|(label, printed)| Every { label, figures: figures(printed) }).collect()
}

fn figures(printed: &[Printed]) -> Vec<Figure> {
    printed.iter().map(Figure::printed).collect()
}

/// A value in brief: the maker's own form only.
pub fn brief(form: &Form) -> Brief {
    let first = |printed: &[Printed]| printed.first().map(Figure::printed);
    let labelled = |label: &str, figure: Figure| {
        let mut parts = figure.parts;
        if let Some(head) = parts.first_mut() {
            head.insert_str(0, label);
        }
        Figure { parts, ..figure }
    };
    match form {
        Form::Window { printed, .. } | Form::Setting(printed) => {
            Brief { parts: first(printed).into_iter().collect(), joiner: "" }
        }
        Form::Fit { new, wear_limit } => {
            let new = first(new).map(|figure| labelled("new ", figure));
            let wear = first(wear_limit).map(|figure| labelled("wear limit ", figure));
            Brief { parts: new.into_iter().chain(wear).collect(), joiner: ", " }
        }
        Form::Stages(stages) => {
            Brief { parts: stages.iter().filter_map(|stage| first(stage)).collect(), joiner: ", then " }
        }
        Form::Interval { regular, .. } => Brief { parts: figures(regular), joiner: " or " },
        Form::Points(points) => Brief::words(&format!("table of {} points", points.len())),
        Form::Direction { turns, seen_from } => Brief::words(&turning(*turns, seen_from.as_deref())),
        Form::Selection(selection) => Brief::words(&format!("chosen by {}", selection.by.join(" and "))),
        Form::Pins(pins) => Brief::words(&format!("{} cavities", pins.len())),
        Form::Text(text) => Brief::words(text),
        Form::Absent(absence) => Brief::words(absent(*absence)),
    }
}

/// `counter-clockwise, seen from the clutch side`.
pub fn turning(turns: Direction, seen_from: Option<&str>) -> String {
    let way = way(turns);
    seen_from.map_or_else(|| way.to_owned(), |side| format!("{way}, {}", seen(side)))
}

/// The direction in words.
pub const fn way(turns: Direction) -> &'static str {
    match turns {
        Direction::Clockwise => "clockwise",
        Direction::CounterClockwise => "counter-clockwise",
    }
}

/// Where one stands, with the article the trade says and a file leaves out.
pub fn seen(side: &str) -> String {
    let article = if side.starts_with("the ") { "" } else { "the " };
    format!("seen from {article}{side}")
}

/// Why there is no value, in words.
pub const fn absent(absence: Absence) -> &'static str {
    match absence {
        Absence::NotGiven => "no value: the maker gives none",
        Absence::NotApplicable => "no value: this engine has no such thing",
        Absence::NotRead => "no value yet: nobody has read it",
    }
}

/// A selection by one input.
pub fn picks(selection: &Selection) -> Option<Picks> {
    let [by] = selection.by.as_slice() else { return None };
    let row = |(inputs, part): &(Vec<String>, String)| (bind(&inputs.join(", ")), bind(part));
    Some(Picks { by: by.clone(), rows: selection.rows.iter().map(row).collect() })
}

/// A selection by two inputs.
pub fn matrix(selection: &Selection) -> Option<Matrix> {
    let [down, across] = selection.by.as_slice() else { return None };
    let distinct = |at: usize| {
        let mut seen: Vec<&String> = Vec::new();
        for input in selection.rows.iter().filter_map(|(inputs, _)| inputs.get(at)) {
            if !seen.contains(&input) {
                seen.push(input);
            }
        }
        seen
    };
    let (firsts, seconds) = (distinct(0), distinct(1));
    let part = |first: &String, second: &String| {
        let row = selection
            .rows
            .iter()
            .find(|(inputs, _)| inputs.first() == Some(first) && inputs.get(1) == Some(second));
        row.map(|(_, part)| bind(part))
    };
    let row = |first: &String| (bind(first), seconds.iter().map(|second| part(first, second)).collect());
    Some(Matrix {
        down: down.clone(),
        across: across.clone(),
        columns: seconds.iter().map(|second| bind(second)).collect(),
        rows: firsts.into_iter().map(row).collect(),
    })
}

/// One row of a connector.
pub fn pin(pin: &Pin) -> PinRow {
    let expect = |(state, reading): (&String, &String)| bind(&format!("{}: {reading}", words(state)));
    let spell = |expected: &Words| expected.iter().map(expect).collect();
    PinRow {
        cavity: pin.cavity.clone(),
        wire: pin.wire.iter().flat_map(|wire| wire.split('/')).map(str::to_owned).collect(),
        function: bind(&pin.function),
        expect: spell(&pin.expect),
    }
}

/// A misprint as shown.
pub fn misprint(misprint: &Misprint) -> MisprintLine {
    MisprintLine {
        printed: bind(&misprint.printed),
        meant: bind(&misprint.meant),
        because: super::text::sentence(&misprint.because),
        decided_by: misprint.decided_by.clone(),
    }
}
