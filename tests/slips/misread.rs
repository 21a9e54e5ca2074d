//! How a page is misread: the commonest slips, each as a whole value that somebody took from the wrong place.

use baybook::quantity::{Shape, Unit, Value};

use super::bench::{Bench, Edit, File};
use super::dice::Dice;
use super::page::{Block, List, numbers, unit};

/// Classes of misreading, as TRADE has them with their share of all slips.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum Class {
    Row,
    Column,
    LimitForNew,
    Place,
    Condition,
    UnitColumn,
    Superseded,
    SignLost,
    WrongBolt,
    Direction,
    Stage,
}

impl Class {
    /// With the share of each.
    pub const ALL: [(Self, usize); 11] = [
        (Self::Row, 12),
        (Self::Column, 12),
        (Self::LimitForNew, 10),
        (Self::Place, 8),
        (Self::Condition, 8),
        (Self::UnitColumn, 7),
        (Self::Superseded, 6),
        (Self::SignLost, 5),
        (Self::WrongBolt, 4),
        (Self::Direction, 2),
        (Self::Stage, 2),
    ];

    pub const fn name(self) -> &'static str {
        match self {
            Self::Row => "neighbouring row",
            Self::Column => "another model's column",
            Self::LimitForNew => "wear limit for new, or new for wear limit",
            Self::Place => "intake and exhaust, front and rear swapped",
            Self::Condition => "condition lost",
            Self::UnitColumn => "unit column",
            Self::Superseded => "superseded page",
            Self::SignLost => "± lost, min for max, limit as setting",
            Self::WrongBolt => "right thread, wrong bolt",
            Self::Direction => "direction reversed",
            Self::Stage => "stage lost, angle as torque",
        }
    }
}

/// A misreading: where it went in, what stood there, what stands there now.
pub struct Misread<'b> {
    pub blocks: Vec<&'b Block>,
    pub key: String,
    pub before: Vec<String>,
    pub after: Vec<String>,
    pub edits: Vec<Edit>,
    /// What happened, where the class has several ways.
    pub way: &'static str,
}

/// A misreading of a class somewhere in the engine of a bench; none if chance led nowhere.
pub fn misread<'b>(
    class: Class,
    bench: &'b Bench,
    benches: &'b [Bench],
    dice: &mut Dice,
) -> Option<Misread<'b>> {
    let block = dice.pick(&bench.blocks)?;
    match class {
        Class::Row => row(bench, block, dice),
        Class::Column => column(bench, block, benches, dice),
        Class::LimitForNew => limit_for_new(block, dice),
        Class::Place => place(bench, block, dice),
        Class::Condition => condition(bench, block, dice),
        Class::UnitColumn => unit_column(block, dice),
        Class::Superseded => superseded(bench, block, dice),
        Class::SignLost => sign_lost(block, dice),
        Class::WrongBolt => wrong_bolt(bench, block, dice),
        Class::Direction => direction(block),
        Class::Stage => stage(bench, block, dice),
    }
}

fn edit(range: std::ops::Range<usize>, text: String) -> Edit {
    Edit { file: File::Engine, range, text }
}

/// The strings of a list, each in quotes.
fn quoted(texts: &[String]) -> String {
    texts.iter().map(|text| format!("\"{text}\"")).collect::<Vec<_>>().join(", ")
}

/// A list with other forms in it; none if it would be the same.
fn instead<'b>(block: &'b Block, list: &List, after: Vec<String>, way: &'static str) -> Option<Misread<'b>> {
    let before = list.texts();
    (before != after && !after.is_empty()).then(|| Misread {
        blocks: vec![block],
        key: list.key.to_owned(),
        edits: vec![edit(list.range(), quoted(&after))],
        before,
        after,
        way,
    })
}

fn row<'b>(bench: &'b Bench, block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let list = dice.pick(&block.lists)?;
    let at = bench.blocks.iter().position(|one| std::ptr::eq(one, block))?;
    let fits = |one: &&Block| {
        one.word("page") == block.word("page")
            && one.variant == block.variant
            && one.list(list.key).is_some_and(|other| unit(&other.forms[0].text) == unit(&list.forms[0].text))
    };
    let above = bench.blocks[..at].iter().rev().find(fits);
    let below = bench.blocks[at + 1..].iter().find(fits);
    let neighbours: Vec<_> = above.into_iter().chain(below).collect();
    let other = dice.pick(&neighbours)?.list(list.key)?;
    instead(block, list, other.texts(), "")
}

fn column<'b>(
    bench: &'b Bench,
    block: &'b Block,
    benches: &'b [Bench],
    dice: &mut Dice,
) -> Option<Misread<'b>> {
    let list = dice.pick(&block.lists).filter(|list| list.key != "stages")?;
    let fits = |own: bool| {
        let engines = benches.iter().filter(move |other| (other.maker == bench.maker) == own);
        let blocks = engines
            .flat_map(|other| &other.blocks)
            .filter(|one| one.of == block.of && one.place == block.place);
        let lists = blocks.filter(|one| !std::ptr::eq(*one, block)).filter_map(|one| one.list(list.key));
        lists.filter(|other| other.texts() != list.texts()).collect::<Vec<_>>()
    };
    let own = fits(true);
    let all = if own.is_empty() { fits(false) } else { own };
    instead(block, list, dice.pick(&all)?.texts(), "")
}

fn limit_for_new<'b>(block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let (new, limit) = (block.list("new")?, block.list("wear_limit")?);
    let bare = |text: &String| text.trim_start_matches("max ").trim_start_matches("min ").to_owned();
    if dice.roll(2) == 0 {
        return instead(block, new, limit.texts().iter().map(bare).collect(), "the limit as new");
    }
    let upper = limit.forms[0].text.starts_with("max ");
    let bound = if upper { "max" } else { "min" };
    let after = new.forms.iter().map(|form| end(&form.text, upper).map(|text| format!("{bound} {text}")));
    instead(block, limit, after.collect::<Option<Vec<_>>>()?, "new as the limit")
}

/// One end of a value, as a value by itself.
fn end(text: &str, upper: bool) -> Option<String> {
    let value = Value::parse(text).ok()?;
    let limit = if upper { value.max() } else { value.min() }?;
    Some(value.unit().after(&limit.text))
}

/// Words of which one is taken for the other.
const OPPOSITE: [(&str, &str); 4] = [("intake", "exhaust"), ("front", "rear"), ("left", "right"), ("1", "2")];

fn place<'b>(bench: &'b Bench, block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let turned = |word: &str| {
        OPPOSITE.iter().find_map(|(one, other)| match word {
            _ if word == *one => Some((*other).to_owned()),
            _ if word == *other => Some((*one).to_owned()),
            _ => None,
        })
    };
    let opposite = |one: &&Block| {
        let same_rest = one.when == block.when && one.variant == block.variant;
        let by_place = one.of == block.of
            && one.place.len() == block.place.len()
            && one.place.iter().zip(&block.place).filter(|(mine, theirs)| mine != theirs).count() == 1
            && one.place.iter().all(|(axis, word)| {
                block
                    .place
                    .get(axis)
                    .is_some_and(|other| other == word || turned(other).as_ref() == Some(word))
            });
        let by_entry =
            one.of == block.of.replace("intake", "exhaust") && one.of != block.of && one.place == block.place;
        same_rest && (by_place || by_entry)
    };
    let all: Vec<&Block> = bench.blocks.iter().filter(opposite).collect();
    let other = *dice.pick(&all)?;
    let list = dice.pick(&block.lists)?;
    let theirs = other.list(list.key)?;
    let mut found = instead(block, list, theirs.texts(), "")?;
    found.edits.push(edit(theirs.range(), quoted(&list.texts())));
    found.blocks.push(other);
    Some(found)
}

fn condition<'b>(bench: &'b Bench, block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let list = block.lists.first()?;
    let (state, word) = dice.pick(&block.states)?;
    let whole = |edits, way| {
        Some(Misread {
            blocks: vec![block],
            key: list.key.to_owned(),
            before: list.texts(),
            after: list.texts(),
            edits,
            way,
        })
    };
    let other = bench.blocks.iter().find(|one| {
        one.of == block.of
            && one.place == block.place
            && one.variant == block.variant
            && one.when != block.when
    });
    match (dice.roll(3), other.and_then(|one| one.list(list.key))) {
        (0, Some(theirs)) => instead(block, list, theirs.texts(), "the value of the other condition"),
        (1, _) => {
            let words = bench.states.get(&(block.of.clone(), state.clone()))?;
            let others: Vec<_> = words.iter().filter(|one| **one != word.text).collect();
            whole(vec![edit(word.range.clone(), format!("\"{}\"", dice.pick(&others)?))], "the other word")
        }
        _ => {
            let line = bench.text[block.range.clone()].find("\nwhen = ")? + block.range.start + 1;
            let end = line + bench.text[line..].find('\n')?;
            whole(vec![edit(line..end, String::new())], "no condition")
        }
    }
}

fn unit_column<'b>(block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let list = dice.pick(&block.lists)?;
    let texts = list.texts();
    if let [first, second, ..] = texts.as_slice() {
        // The numbers of one column with the unit of the other.
        let (mine, theirs, place) = if dice.roll(2) == 0 { (first, second, 0) } else { (second, first, 1) };
        let unit = |text: &str| Value::parse(text).ok().map(|value| value.unit());
        let typed = theirs.replace(unit(theirs)?.symbol(), unit(mine)?.symbol());
        let mut after = texts.clone();
        after[place] = typed;
        return instead(block, list, after, "numbers of the other column");
    }
    let value = Value::parse(&texts[0]).ok()?;
    let other = value.unit().counterpart()?;
    let after = texts[0].replace(value.unit().symbol(), other.symbol());
    instead(block, list, vec![after], "unit of the other column")
}

/// Another unit of the same kind in which the value is at least six times as much, or as little.
pub fn unit_slip<'b>(block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let list = dice.pick(&block.lists).filter(|list| list.forms.len() == 1)?;
    let value = Value::parse(&list.forms[0].text).ok()?;
    let six = baybook::quantity::parse_exact("6")?;
    let most = baybook::quantity::parse_exact("1000")?;
    let one = baybook::quantity::parse_exact("1")?;
    let far = |unit: &Unit| {
        let ratio = value.unit().ratio_to(*unit);
        let ratio = if ratio < one { ratio.recip() } else { ratio };
        ratio >= six && ratio <= most && value.unit().converts_to(*unit)
    };
    let units: Vec<Unit> = Unit::of(value.unit().kind()).filter(far).collect();
    let after = list.forms[0].text.replace(value.unit().symbol(), dice.pick(&units)?.symbol());
    instead(block, list, vec![after], "")
}

fn superseded<'b>(bench: &'b Bench, block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let list = block.lists.first()?;
    if block.variant.is_some() {
        let base = bench.blocks.iter().find(|one| {
            one.variant.is_none()
                && one.of == block.of
                && block.place.iter().all(|(axis, word)| one.place.get(axis) == Some(word))
        });
        return instead(block, list, base?.list(list.key)?.texts(), "the value before the bulletin");
    }
    let default = default_source(&bench.text)?;
    let old = bench.superseded.get(block.word("source").unwrap_or(&default))?;
    let named = dice.roll(2) == 0;
    let mut edits = Vec::new();
    if named {
        match block.words.get("source") {
            Some(source) => edits.push(edit(source.range.clone(), format!("\"{old}\""))),
            None => {
                let at = bench.text[block.range.clone()].find("\npage = ")? + block.range.start + 1;
                edits.push(edit(at..at, format!("source = \"{old}\"\n")));
            }
        }
        let texts = list.texts();
        return Some(Misread {
            blocks: vec![block],
            key: list.key.to_owned(),
            before: texts.clone(),
            after: texts,
            edits,
            way: "the old edition named",
        });
    }
    // The old edition had another value: one step of its last digit, in every form.
    let after: Vec<String> = list.forms.iter().filter_map(|form| stepped(&form.text)).collect();
    (after.len() == 1 && list.forms.len() == 1)
        .then(|| instead(block, list, after, "the value of the old edition"))?
}

fn default_source(text: &str) -> Option<String> {
    let at = text.find("[defaults]\nsource = \"")? + "[defaults]\nsource = \"".len();
    Some(text[at..].split('"').next()?.to_owned())
}

/// The first number one fifth more.
fn stepped(text: &str) -> Option<String> {
    let place = numbers(text).into_iter().next()?;
    let number = &text[place.clone()];
    let decimals = number.split_once('.').map_or(0, |(_, part)| part.len());
    let digits: u64 = number.replace('.', "").parse().ok()?;
    let more = digits + (digits / 5).max(1);
    let padded = format!("{more:0>width$}", width = decimals + 1);
    let (whole, part) = padded.split_at(padded.len() - decimals);
    let number = if decimals == 0 { whole.to_owned() } else { format!("{whole}.{part}") };
    Some(format!("{}{number}{}", &text[..place.start], &text[place.end..]))
}

fn sign_lost<'b>(block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let list = dice.pick(&block.lists)?;
    let upper = dice.roll(2) == 0;
    let bound = dice.roll(2) == 0;
    let without = |text: &String| {
        let value = Value::parse(text).ok()?;
        let unit = value.unit();
        match value.shape() {
            Shape::Tolerance { nominal, .. } | Shape::PercentTolerance { nominal, .. } => {
                Some(unit.after(nominal.text()))
            }
            Shape::Min(number) => Some(if bound {
                format!("max {}", unit.after(number.text()))
            } else {
                unit.after(number.text())
            }),
            Shape::Max(number) => Some(if bound {
                format!("min {}", unit.after(number.text()))
            } else {
                unit.after(number.text())
            }),
            Shape::Range { min, max } => Some(unit.after(if upper { max } else { min }.text())),
            _ => None,
        }
    };
    let after: Option<Vec<_>> = list.forms.iter().map(|form| without(&form.text)).collect();
    instead(block, list, after?, "")
}

fn wrong_bolt<'b>(bench: &'b Bench, block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let list = block.list("setting")?;
    let thread = block.thread.as_ref()?;
    let same = |one: &&Block| {
        one.thread.as_ref() == Some(thread) && one.of != block.of && one.list("setting").is_some()
    };
    let all: Vec<&Block> = bench.blocks.iter().filter(same).collect();
    instead(block, list, dice.pick(&all)?.list("setting")?.texts(), "")
}

fn direction(block: &Block) -> Option<Misread<'_>> {
    let (key, typed) = block
        .words
        .get("direction")
        .map(|one| ("direction", one))
        .or_else(|| block.hand.as_ref().map(|one| ("hand", one)))?;
    let other = match typed.text.as_str() {
        "clockwise" => "counter-clockwise",
        "counter-clockwise" => "clockwise",
        "left" => "right",
        _ => "left",
    };
    Some(Misread {
        blocks: vec![block],
        key: key.to_owned(),
        before: vec![typed.text.clone()],
        after: vec![other.to_owned()],
        edits: vec![edit(typed.range.clone(), format!("\"{other}\""))],
        way: if key == "hand" { "hand of the thread" } else { "turn of the crank" },
    })
}

fn stage<'b>(bench: &'b Bench, block: &'b Block, dice: &mut Dice) -> Option<Misread<'b>> {
    let stages: Vec<&List> = block.lists.iter().filter(|list| list.key == "stages").collect();
    let list = **dice.pick(&stages).as_ref()?;
    if let Some(angle) = list.forms[0].text.strip_prefix('+').and_then(|text| text.strip_suffix('°')) {
        return instead(block, list, vec![format!("{angle} N·m")], "an angle as a torque");
    }
    if stages.len() < 2 {
        return None;
    }
    // With the brackets of its own list, and the comma that parts it from the next stage or the last.
    let inner = list.range();
    let (start, end) =
        if list.forms.len() > 1 { (inner.start - 1, inner.end + 1) } else { (inner.start, inner.end) };
    let rest = &bench.text[end..];
    let range = match rest.strip_prefix(", ") {
        Some(_) => start..end + 2,
        None => {
            start - bench.text[..start].len() + bench.text[..start].trim_end_matches([',', ' ']).len()..end
        }
    };
    Some(Misread {
        blocks: vec![block],
        key: "stages".to_owned(),
        before: list.texts(),
        after: Vec::new(),
        edits: vec![edit(range, String::new())],
        way: "a stage lost",
    })
}
