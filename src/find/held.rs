//! Numbers that were typed, held against the printed ones.

use std::collections::BTreeMap;

use super::ask::{Asked, year_of};
use super::index::Index;
use super::search::{Scored, THINGS};
use super::values::{Fineness, Printing, agree, buckets, figures, may_be_zero};
use crate::quantity::{Exact, Unit, Value};

/// What a printed number counts that a typed one with its unit agrees with.
const WITH_UNIT: u32 = 400;
/// The same of a typed number without a unit.
const BARE: u32 = 250;
/// What it counts more where it is the value aimed at, and no limit.
const AIMED: u32 = 60;
/// What it counts more in the unit that was typed.
const SAME: u32 = 50;
/// What it counts more where it is the very number, and not one that rounds to it.
const EXACT: u32 = 70;

/// What each row counts: thing and row → score.
pub(super) type Held = BTreeMap<(usize, usize), u32>;

/// What a piece asks, held against all that is printed.
pub(super) struct Numbers<'a> {
    pub(super) index: &'a Index,
    /// Numbers that name a machine or its year, and so are not looked for among the printed ones.
    pub(super) taken: Vec<String>,
    /// The units a bare number is tried in, each where the entry prints it.
    pub(super) units: Vec<Unit>,
    /// Whether words say which units those are.
    pub(super) by_words: bool,
}

impl<'a> Numbers<'a> {
    /// For a query whose things and builds are known.
    pub(super) fn of(
        index: &'a Index,
        asked: &Asked,
        things: &Scored,
        named: bool,
        years: &[u16],
        words: usize,
    ) -> Self {
        // `22` beside a machine that was made in 2022 is its year.
        let is_a_year = |number: &str| year_of(number).is_some_and(|(year, _)| years.contains(&year));
        let is_a_word = |number: &str| {
            named && index.fitted.iter().any(|one| one.words.iter().any(|word| word == number))
        };
        let taken = asked.bare.iter().filter(|number| is_a_year(number) || is_a_word(number));
        let by_words = words > 0 && !things.is_empty();
        Self { index, taken: taken.cloned().collect(), units: units(index, things, by_words), by_words }
    }

    /// The values that a piece may mean, and what each counts.
    pub(super) fn values(&self, piece: &Asked) -> Vec<(Value, u32)> {
        let mut all: Vec<_> = piece.quantities.iter().map(|value| (value.clone(), WITH_UNIT)).collect();
        for number in piece.bare.iter().filter(|number| !self.taken.contains(number) && is_sized(number)) {
            let each = self.units.iter().filter_map(|unit| Value::parse(&unit.after(number)).ok());
            all.extend(each.map(|value| (value, BARE)));
        }
        all
    }

    /// The rows that print what a piece asks.
    pub(super) fn held(&self, piece: &Asked) -> Held {
        let mut all = Held::new();
        for (value, counts) in self.values(piece) {
            hold(self.index, &value, counts, &mut all);
        }
        all
    }
}

/// False for what has no figure but noughts: it is still being typed, and any small number would agree with it.
fn is_sized(number: &str) -> bool {
    number.contains(|c: char| ('1'..='9').contains(&c))
}

/// The units a bare number is tried in: those of the best things, or all where no word says which.
fn units(index: &Index, things: &Scored, by_words: bool) -> Vec<Unit> {
    let of_things = things.iter().take(THINGS).filter_map(|(at, _)| index.things.things.get(*at));
    let of_things = of_things.filter_map(|one| index.things.units.get(one.named)).flatten();
    let mut symbols: Vec<&String> =
        if by_words { of_things.collect() } else { index.things.units.iter().flatten().collect() };
    symbols.sort();
    symbols.dedup();
    symbols.into_iter().filter_map(|symbol| Unit::parse(symbol).ok()).collect()
}

fn hold(index: &Index, typed: &Value, counts: u32, all: &mut Held) {
    let kind = typed.unit().kind().name();
    let own = buckets(typed, Fineness::Digit).unwrap_or_default();
    let zero = may_be_zero(typed);
    // One without a unit is meant in a unit of the entry, and agrees with no number that may be nought in it.
    let bare = counts == BARE;
    let symbol = typed.unit().symbol();
    let fits_row = |thing: usize| !bare || index.prints(thing, symbol);
    let sized = |printed: &Value| !bare || figures(printed, typed.unit(), Fineness::Digit).is_some();
    let fits = |name: &str| {
        own.iter().any(|one| one == name)
            || (zero
                && name
                    .strip_prefix(kind)
                    .is_some_and(|rest| rest.starts_with(|c: char| c == '-' || c.is_ascii_digit())))
    };
    for units in index.values.iter().filter(|(name, _)| fits(name)).map(|(_, units)| units) {
        for (symbol, numbers) in units {
            let Ok(unit) = Unit::parse(symbol) else { continue };
            let same = if unit == typed.unit() { SAME } else { 0 };
            for (number, rows) in numbers {
                let printed = Value::parse(&unit.after(number)).ok();
                if let Some(printed) = printed.filter(|one| agree(typed, one) && sized(one)) {
                    let exact = if exact(typed) == exact(&printed) { EXACT } else { 0 };
                    take(rows, counts + same + exact, fits_row, all);
                }
            }
        }
    }
}

/// The number in SI.
fn exact(value: &Value) -> Option<Exact> {
    let limit = value.min().or_else(|| value.max())?;
    Some(value.unit().to_si(&limit.exact))
}

fn take(rows: &Printing, counts: u32, fits: impl Fn(usize) -> bool, all: &mut Held) {
    for (rows, more) in [(&rows.aimed, AIMED), (&rows.limits, 0)] {
        for row in rows.iter().filter(|(thing, _)| fits(*thing)) {
            let score = all.entry(*row).or_default();
            *score = (*score).max(counts + more);
        }
    }
}
