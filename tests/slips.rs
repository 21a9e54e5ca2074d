//! Every way of copying a value wrongly, one slip at a time in the demo base: is it found, and is what was
//! meant offered?
//!
//! The slips go to `target/slips.jsonl`, one a line: what stood there, what stands there now, and what the
//! compiler found. Whether the printed forms then contradict each other, and whether an offer is right, is not
//! for the compiler to say: `tests/outside/slips/grader.py` grades the lines, and holds them to what must be
//! reached. Here is held what needs no grader: the clean base gives no finding, and a slip in one of two
//! readings is always found.
//!
//! An unoptimised build takes a hundredth of the slips; the full run is `cargo test --release --test slips`, or any
//! build with `SLIPS=all`.

#![allow(clippy::string_slice, reason = "places come from the text itself, and a test may fail by panicking")]

#[path = "slips/bench.rs"]
mod bench;
#[path = "slips/dice.rs"]
mod dice;
#[path = "slips/misread.rs"]
mod misread;
#[path = "slips/miswrite.rs"]
mod miswrite;
#[path = "slips/page.rs"]
mod page;

use std::fmt::Write as _;
use std::path::Path;

use bench::{Bench, Edit, File, benches};
use dice::Dice;
use page::{Block, List};
use serde_json::{Value, json};

/// How many slips of each sort the full run takes.
const MISTYPED_IN_TWO_FORMS: usize = 3000;
const MISTYPED_IN_ONE_FORM: usize = 1200;
const UNIT_IN_ONE_FORM: usize = 300;
const BY_SPREADSHEET: usize = 150;
const MISREAD: usize = 900;
const READ_TWICE: usize = 500;

/// Not every throw of the dice hits a place that allows the slip; after so many none will.
const THROWS: usize = 10_000;

/// One slip: where, and what it turned what into.
struct Slip<'b> {
    bench: &'b Bench,
    group: &'static str,
    class: &'static str,
    way: &'static str,
    blocks: Vec<&'b Block>,
    /// The blocks of second readings that stand for the same statements.
    rereads: Vec<&'b Block>,
    key: String,
    before: Vec<String>,
    after: Vec<String>,
    /// The form that was mistyped.
    form: Option<usize>,
    edits: Vec<Edit>,
    read_twice: bool,
}

#[test]
fn the_clean_demo_base_gives_no_finding() {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let found = baybook::load::disk::read_base(&specs).expect("the demo base is there");
    let examined = baybook::examine(found, None);
    let loud = examined.findings.iter().filter(|one| one.severity() != baybook::diag::Severity::Note);
    let messages: Vec<_> = loud.map(|one| &one.message).collect();
    assert!(messages.is_empty(), "{messages:#?}");
}

#[test]
fn every_slip_is_written_down_and_one_of_two_readings_never_slips_unseen() {
    let benches = benches();
    let slips = drawn(&benches);
    let lines = examined(&slips);
    let text = lines.iter().fold(String::new(), |mut text, line| {
        writeln!(text, "{line}").expect("a string takes everything");
        text
    });
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/slips.jsonl");
    std::fs::create_dir_all(path.parent().expect("it is in a folder")).expect("target can be made");
    std::fs::write(path, text).expect("target can be written");
    let unseen: Vec<_> = slips
        .iter()
        .zip(&lines)
        .filter(|(slip, line)| slip.read_twice && !is_found(line))
        .map(|(_, line)| line)
        .collect();
    assert!(
        unseen.is_empty(),
        "{} slips in one of two readings are not found, the first: {:#}",
        unseen.len(),
        unseen[0]
    );
}

fn is_found(line: &Value) -> bool {
    line["findings"].as_array().is_some_and(|all| all.iter().any(|one| one["at"] != "elsewhere"))
}

/// Every slip, in a fixed order.
fn drawn<'b>(benches: &'b [Bench]) -> Vec<Slip<'b>> {
    let every = !cfg!(debug_assertions) || std::env::var_os("SLIPS").is_some_and(|which| which == "all");
    let scale = if every { 1 } else { 100 };
    let mut dice = Dice::new(0x9e37_79b9_7f4a_7c15);
    let mut all = Vec::new();
    let mut take = |count: usize, draw: &dyn Fn(&mut Dice) -> Option<Slip<'b>>| {
        for _ in 0..count / scale {
            all.push(drawn_at_last(&mut dice, draw));
        }
    };
    take(MISTYPED_IN_TWO_FORMS, &|dice| {
        let class = dice.by_weight(&miswrite::Class::ALL);
        Some(drawn_at_last(dice, &|dice| mistyped(benches, class, dice, |list| list.forms.len() > 1)))
    });
    take(MISTYPED_IN_ONE_FORM, &|dice| {
        let class = dice.by_weight(&miswrite::Class::ALL);
        Some(drawn_at_last(dice, &|dice| mistyped(benches, class, dice, |list| list.forms.len() == 1)))
    });
    take(UNIT_IN_ONE_FORM, &|dice| wrong_unit(benches, dice));
    take(BY_SPREADSHEET, &|dice| by_spreadsheet(benches, dice));
    take(MISREAD, &|dice| {
        let class = dice.by_weight(&misread::Class::ALL);
        Some(drawn_at_last(dice, &|dice| misread_in(benches, class, dice)))
    });
    take(READ_TWICE, &|dice| read_twice(benches, dice));
    all
}

/// The first throw that hits a place which allows the slip: no class is thinned out by its misses.
fn drawn_at_last<'b>(dice: &mut Dice, draw: &dyn Fn(&mut Dice) -> Option<Slip<'b>>) -> Slip<'b> {
    let found = (0..THROWS).find_map(|_| draw(dice));
    found.expect("the demo base has a place for every class")
}

fn mistyped<'b>(
    benches: &'b [Bench],
    class: miswrite::Class,
    dice: &mut Dice,
    wanted: fn(&List) -> bool,
) -> Option<Slip<'b>> {
    let bench = dice.pick(benches)?;
    let block = dice.pick(&bench.blocks)?;
    let lists: Vec<&List> = block.lists.iter().filter(|list| wanted(list)).collect();
    let list = *dice.pick(&lists)?;
    let (form, after) =
        with_one_number(list, dice, &|number, dice| miswrite::miswritten(number, class, dice))?;
    Some(in_form(bench, block, list, (form, after), File::Engine, ("mistyped", class.name())))
}

fn by_spreadsheet<'b>(benches: &'b [Bench], dice: &mut Dice) -> Option<Slip<'b>> {
    let bench = dice.pick(benches)?;
    let block = dice.pick(&bench.blocks)?;
    let list = dice.pick(&block.lists)?;
    let form = dice.roll(list.forms.len());
    let text = &list.forms[form].text;
    let numbers = page::numbers(text);
    let place = dice.pick(&numbers)?.clone();
    let (class, number) = miswrite::by_spreadsheet(&text[place.clone()], dice)?;
    let after = format!("{}{number}{}", &text[..place.start], &text[place.end..]);
    Some(in_form(bench, block, list, (form, after), File::Engine, ("spreadsheet", class)))
}

/// One form of a list with one of its numbers changed.
fn with_one_number(
    list: &List,
    dice: &mut Dice,
    change: &dyn Fn(&str, &mut Dice) -> Option<String>,
) -> Option<(usize, String)> {
    let form = dice.roll(list.forms.len());
    let text = &list.forms[form].text;
    let numbers = page::numbers(text);
    let place = dice.pick(&numbers)?.clone();
    let number = change(&text[place.clone()], dice)?;
    Some((form, format!("{}{number}{}", &text[..place.start], &text[place.end..])))
}

/// A slip in one form, in the engine file or in the second readings.
fn in_form<'b>(
    bench: &'b Bench,
    block: &'b Block,
    list: &List,
    (form, typed): (usize, String),
    file: File,
    (group, class): (&'static str, &'static str),
) -> Slip<'b> {
    let before = list.texts();
    let mut after = before.clone();
    let edits = vec![Edit { file, range: list.forms[form].range.clone(), text: format!("\"{typed}\"") }];
    after[form] = typed;
    Slip {
        bench,
        group,
        class,
        way: "",
        blocks: vec![block],
        rereads: Vec::new(),
        key: list.key.to_owned(),
        before,
        after,
        form: Some(form),
        edits,
        read_twice: false,
    }
}

fn wrong_unit<'b>(benches: &'b [Bench], dice: &mut Dice) -> Option<Slip<'b>> {
    let bench = dice.pick(benches)?;
    let block = dice.pick(&bench.blocks)?;
    let slip = of_misread(bench, misread::unit_slip(block, dice)?, "unit", "unit, six times or more");
    Some(Slip { form: Some(0), ..slip })
}

fn misread_in<'b>(benches: &'b [Bench], class: misread::Class, dice: &mut Dice) -> Option<Slip<'b>> {
    let bench = dice.pick(benches)?;
    let found = misread::misread(class, bench, benches, dice)?;
    Some(of_misread(bench, found, "misread", class.name()))
}

fn of_misread<'b>(
    bench: &'b Bench,
    found: misread::Misread<'b>,
    group: &'static str,
    class: &'static str,
) -> Slip<'b> {
    let misread::Misread { blocks, key, before, after, edits, way } = found;
    Slip {
        bench,
        group,
        class,
        way,
        blocks,
        rereads: Vec::new(),
        key,
        before,
        after,
        form: None,
        edits,
        read_twice: false,
    }
}

/// A slip of any class in a statement that was read twice: in the first reading, or, where it is one of
/// writing, in either.
fn read_twice<'b>(benches: &'b [Bench], dice: &mut Dice) -> Option<Slip<'b>> {
    let slip = match dice.by_weight(&[("misread", 76), ("mistyped", 20), ("spreadsheet", 4)]) {
        "misread" => {
            let class = dice.by_weight(&misread::Class::ALL);
            drawn_at_last(dice, &|dice| with_second_reading(misread_in(benches, class, dice)?))
        }
        "mistyped" => {
            let class = dice.by_weight(&miswrite::Class::ALL);
            drawn_at_last(dice, &|dice| with_second_reading(mistyped(benches, class, dice, |_| true)?))
        }
        _ => drawn_at_last(dice, &|dice| with_second_reading(by_spreadsheet(benches, dice)?)),
    };
    if slip.form.is_none() || dice.roll(2) == 0 { Some(slip) } else { in_second_reading(slip) }
}

/// The slip, if every statement it is in was read twice, with what the slip is in: the hand of a thread is part of
/// the fastener, which only the first reader notes.
fn with_second_reading(slip: Slip<'_>) -> Option<Slip<'_>> {
    if slip.key == "hand" {
        return None;
    }
    let second = |block: &&Block| slip.bench.reread_blocks.iter().find(|one| one.same_identity(block));
    let rereads: Option<Vec<_>> = slip.blocks.iter().map(second).collect();
    Some(Slip { rereads: rereads?, read_twice: true, ..slip })
}

/// The same slip in the second reading.
fn in_second_reading(slip: Slip<'_>) -> Option<Slip<'_>> {
    let stage = |list: &&List| list.key == slip.key && list.texts() == slip.before;
    let range = slip.rereads.first()?.lists.iter().find(stage)?.forms.get(slip.form?)?.range.clone();
    let text = slip.edits.first()?.text.clone();
    Some(Slip {
        edits: vec![Edit { file: File::Rereads, range, text }],
        way: "in the second reading",
        ..slip
    })
}

/// Each slip as a line: examined on as many threads as there are.
fn examined(slips: &[Slip<'_>]) -> Vec<Value> {
    let threads = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let size = slips.len().div_ceil(threads);
    std::thread::scope(|scope| {
        let parts: Vec<_> = slips
            .chunks(size)
            .map(|part| scope.spawn(|| part.iter().map(line).collect::<Vec<_>>()))
            .collect();
        parts.into_iter().flat_map(|part| part.join().expect("no slip panics")).collect()
    })
}

fn line(slip: &Slip<'_>) -> Value {
    let block = slip.blocks[0];
    json!({
        "group": slip.group,
        "class": slip.class,
        "way": slip.way,
        "engine": slip.bench.id,
        "of": block.of,
        "where": block.place,
        "when": block.when,
        "variant": block.variant,
        "key": slip.key,
        "before": slip.before,
        "after": slip.after,
        "form": slip.form,
        "misprint": block.misprint.as_ref().map(|(printed, meant)| json!({ "printed": printed, "meant": meant })),
        "plausible": slip.bench.plausible.get(&block.of),
        "read_twice": slip.read_twice,
        "findings": slip.bench.findings(&slip.edits, &slip.blocks, &slip.rereads, slip.read_twice),
    })
}
