//! The sheet of bench sums: each as a small form, its formula, source and cautions, and, for those who read
//! without scripts, the tables that a shop keeps on its wall.

use serde::Serialize;

use super::sum_tables::{TableView, tables};
use super::text::{sentence, sign};
use crate::compute::sums::{Group, Input, Sort, Sum, of_group};
use crate::emit::torque_wrenches;
use crate::model::{Model, SignalWord};
use crate::quantity::{Kind, Unit, Value};

/// All sums, by the command they belong to.
#[derive(Debug, Serialize)]
pub struct SumsView {
    /// The groups, lettered like views on a drawing.
    pub groups: Vec<GroupView>,
}

/// One group.
#[derive(Debug, Serialize)]
pub struct GroupView {
    /// Its letter.
    pub letter: char,
    /// Anchor.
    pub anchor: String,
    /// Heading.
    pub title: &'static str,
    /// Its sums.
    pub sums: Vec<SumView>,
}

/// One sum.
#[derive(Debug, Serialize)]
pub struct SumView {
    /// Id in the table of sums, which the script looks it up by.
    pub id: &'static str,
    /// Anchor.
    pub anchor: String,
    /// Heading.
    pub title: &'static str,
    /// What it answers.
    pub answers_what: &'static str,
    /// What is asked.
    pub inputs: Vec<InputView>,
    /// The formula.
    pub formula: &'static str,
    /// Where it comes from.
    pub source: String,
    /// What can hurt.
    pub cautions: Vec<CautionView>,
    /// What holds whatever is typed.
    pub remarks: Vec<&'static str>,
    /// Tables to read without typing.
    pub tables: Vec<TableView>,
}

/// One field.
#[derive(Debug, Serialize)]
pub struct InputView {
    /// Its name in the table of sums.
    pub key: &'static str,
    /// Id of the field.
    pub field: String,
    /// What it is.
    pub title: String,
    /// `quantity`, `quantities`, `points`, `number` or `word`.
    pub sort: &'static str,
    /// What could be typed.
    pub hint: String,
    /// What stands in the field from the start: the shop's own gauges.
    pub filled: Option<String>,
    /// The units to choose from, the first chosen.
    pub units: Vec<String>,
    /// The words to choose from.
    pub words: Vec<&'static str>,
}

/// One caution.
#[derive(Debug, Serialize)]
pub struct CautionView {
    /// The signal word.
    pub signal: &'static str,
    /// Its class in the style sheet.
    pub class: &'static str,
    /// True for all but NOTICE.
    pub alert: bool,
    /// What it says.
    pub text: &'static str,
}

impl SumsView {
    /// Every sum, with the wrenches of the shop filled in.
    pub fn of(model: &Model) -> Self {
        let groups = Group::ALL.into_iter().zip('A'..='Z').map(|(group, letter)| GroupView {
            letter,
            anchor: group.word().to_owned(),
            title: group.title(),
            sums: of_group(group).map(|sum| sum_view(model, sum)).collect(),
        });
        Self { groups: groups.collect() }
    }
}

fn sum_view(model: &Model, sum: &'static Sum) -> SumView {
    let cautions = sum.cautions.iter().map(|(signal, text)| CautionView {
        signal: signal.word(),
        class: signal.class(),
        alert: *signal != SignalWord::Notice,
        text,
    });
    SumView {
        id: sum.id,
        anchor: format!("sum-{}", sum.id),
        title: sum.title,
        answers_what: sum.answers_what,
        inputs: sum.inputs.iter().map(|input| input_view(model, sum, input)).collect(),
        formula: sum.formula,
        source: sentence(sum.source),
        cautions: cautions.collect(),
        remarks: sum.notes.iter().filter(|(when, _)| *when == "1").map(|(_, note)| *note).collect(),
        tables: tables(sum),
    }
}

/// Units to choose from where the kind is the technician's to say; any other may be typed.
const OF_ANY_KIND: [&str; 12] = ["mm", "in", "thou", "µm", "%", "g", "kPa", "psi", "bar", "Ω", "V", "mL/min"];

fn input_view(model: &Model, sum: &Sum, input: &'static Input) -> InputView {
    let (sort, unit, words) = match input.sort {
        Sort::Quantity { unit } => ("quantity", Some(unit), Vec::new()),
        Sort::Alike { .. } => ("alike", None, Vec::new()),
        Sort::Quantities { unit } => ("quantities", Some(unit), Vec::new()),
        Sort::Points { .. } => ("points", None, Vec::new()),
        Sort::Number => ("number", None, Vec::new()),
        Sort::Word { words } => ("word", None, words.to_vec()),
    };
    let hint = match input.unless {
        None if sort == "word" => "choose one".to_owned(),
        Some("") => format!("may be left out; as {}", input.example),
        Some(unless) => format!("{unless} if left out"),
        None if matches!(input.sort, Sort::Alike { of } if of != input.key) => {
            format!("as {}; a number alone is in the first one's unit", input.example)
        }
        None => format!("as {}", input.example),
    };
    InputView {
        key: input.key,
        field: format!("{}-{}", sum.id, input.key),
        title: input.heading(),
        sort,
        hint,
        filled: if input.key == "wrenches" { torque_wrenches(model) } else { None },
        units: match input.sort {
            Sort::Alike { of } if of == input.key => OF_ANY_KIND.map(str::to_owned).to_vec(),
            _ => unit.map(|unit| units(unit, input.example)).unwrap_or_default(),
        },
        words,
    }
}

/// The units of a field, that of its example first.
fn units(unit: &str, example: &str) -> Vec<String> {
    let first =
        example.split([',', '\n']).next().and_then(|one| Value::parse(one).ok()).map(|value| value.unit());
    let Some(first) = first.or_else(|| Unit::parse(unit).ok()) else { return Vec::new() };
    if first.kind() == Kind::Percent {
        return vec![sign(first)];
    }
    let others = Unit::of(first.kind()).filter(|other| *other != first && first.converts_to(*other));
    std::iter::once(first).chain(others).map(sign).collect()
}
