//! How well words that were typed fit the words of a thing, of a machine, of a code.
//!
//! Every score is a sum of whole numbers: a word that fits wholly counts 100 times its weight, and a
//! name of which more words are hit counts more than a longer one.

use std::collections::{BTreeMap, BTreeSet};

use super::ask::Asked;
use super::index::{Fitted, Fixed, Index, Things};
use super::words::{SHORT, fit, slips, words};

/// A typed word and what it may stand for.
pub(super) struct Typed {
    word: String,
    /// Words it stands for, each with how well.
    meant: BTreeMap<String, u32>,
    /// Whether it begins any word of the index, or stands for one.
    pub(super) known: bool,
}

impl Typed {
    /// Whether it is figures only.
    pub(super) fn is_number(&self) -> bool {
        self.word.bytes().all(|byte| byte.is_ascii_digit())
    }

    /// Whether it is a word that was typed, alone or written as one with its neighbour.
    pub(super) fn holds(&self, word: &str) -> bool {
        self.word.contains(word)
    }

    /// How well it fits a word, out of a hundred.
    fn fits(&self, word: &str) -> u32 {
        fit(&self.word, word).max(self.meant.get(word).copied().unwrap_or_default())
    }

    /// How well it fits a word of a machine, a code or a manual: one letter alone begins none of them.
    fn fits_whole(&self, word: &str) -> u32 {
        if self.word.chars().nth(1).is_none() && self.word != word { 0 } else { self.fits(word) }
    }

    /// How well it fits any of some words of a machine, a code or a manual.
    pub(super) fn best_whole(&self, all: &[String]) -> u32 {
        all.iter().map(|word| self.fits_whole(word)).max().unwrap_or_default()
    }

    /// How well it fits any of some words.
    pub(super) fn best(&self, all: &[String]) -> u32 {
        all.iter().map(|word| self.fits(word)).max().unwrap_or_default()
    }
}

/// The typed words, two neighbours written as one where the catalogue writes them so, each with what
/// the trade shortens to it, or, where nothing begins so, with the nearest words.
pub(super) fn typed(index: &Index, asked: &[String]) -> Vec<Typed> {
    let known = known(&index.things);
    let machines: BTreeSet<&str> = vocabulary(index);
    let joined = joined(asked, &known);
    joined
        .into_iter()
        .map(|word| {
            let short = SHORT.iter().filter(|(short, _)| *short == word);
            let mut meant: BTreeMap<String, u32> =
                short.flat_map(|(_, long)| long.iter()).map(|long| ((*long).to_owned(), 95)).collect();
            let all = || known.iter().chain(&machines);
            let begins = all().any(|one| fit(&word, one) > 0) || is_pair(&index.things, &word);
            if meant.is_empty() && !begins {
                meant = near(&word, all().copied());
            }
            let known = begins || !meant.is_empty();
            Typed { word, meant, known }
        })
        .collect()
}

/// The nearest words, as far as slips are forgiven.
fn near<'a>(typed: &str, all: impl Iterator<Item = &'a str>) -> BTreeMap<String, u32> {
    let found: Vec<(u32, &str)> =
        all.filter_map(|word| slips(typed, word).map(|distance| (distance, word))).collect();
    let least = found.iter().map(|(distance, _)| *distance).min().unwrap_or_default();
    let nearest = found.into_iter().filter(|(distance, _)| *distance == least);
    nearest.map(|(distance, word)| (word.to_owned(), 90 - 20 * distance)).collect()
}

fn joined(asked: &[String], known: &BTreeSet<&str>) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for word in asked {
        let both = all.last().map(|last| format!("{last}{word}"));
        match both.filter(|both| known.contains(both.as_str())) {
            Some(both) => {
                all.pop();
                all.push(both);
            }
            None => all.push(word.clone()),
        }
    }
    all
}

/// Every word of every thing.
pub(super) fn known(things: &Things) -> BTreeSet<&str> {
    let named = things.named.iter().flatten().flatten();
    let beside = things.things.iter().flat_map(|one| &one.beside);
    named.chain(beside).map(String::as_str).collect()
}

/// Every word of machines, codes and manuals.
pub(super) fn vocabulary(index: &Index) -> BTreeSet<&str> {
    let fitted = index.fitted.iter().flat_map(|one| one.words.iter().chain(&one.sort));
    let fixed = index.fixed.iter().flat_map(|one| one.words.iter().chain(&one.sort));
    fitted.chain(fixed).map(String::as_str).collect()
}

/// True if a word is two neighbours of a name written together.
fn is_pair(things: &Things, word: &str) -> bool {
    let names = things.named.iter().flatten();
    names.flat_map(|name| name.windows(2)).any(|pair| pair.concat() == word)
}

/// The score of each name list of the things, with what each typed word fits there.
pub(super) fn named(names: &[Vec<String>], typed: &[Typed]) -> (u32, Vec<u32>) {
    let mut best: Option<(u32, u32, Vec<u32>)> = None;
    let mut anywhere = vec![0; typed.len()];
    for (at, name) in names.iter().enumerate() {
        let (each, hit) = name_fits(name, typed);
        let share = part(300, hit, name.len()) + if at == 0 && hit > 0 { 30 } else { 0 };
        let score = each.iter().sum::<u32>() * 10 + share;
        for (all, one) in anywhere.iter_mut().zip(&each) {
            *all = (*all).max(*one);
        }
        if hit > 0 && best.as_ref().is_none_or(|(least, ..)| score > *least) {
            best = Some((score, share, each));
        }
    }
    let Some((_, share, each)) = best else { return (0, anywhere.iter().map(|one| one * 5).collect()) };
    let weighed = each.iter().zip(&anywhere).map(|(best, any)| (best * 10).max(any * 5));
    (share, weighed.collect())
}

/// How well each typed word fits a name, and how many words of the name are hit.
fn name_fits(name: &[String], typed: &[Typed]) -> (Vec<u32>, usize) {
    let mut hit = vec![false; name.len()];
    let each = typed.iter().map(|one| {
        let mut best = 0;
        for (at, word) in name.iter().enumerate() {
            let fits = one.fits(word);
            let pair = name.get(at + 1).is_some_and(|next| one.word == format!("{word}{next}"));
            for mark in hit.iter_mut().skip(at).take(if pair { 2 } else { usize::from(fits > 0) }) {
                *mark = true;
            }
            best = best.max(if pair { 100 } else { fits });
        }
        best
    });
    let each = each.collect();
    (each, hit.into_iter().filter(|one| *one).count())
}

/// The score of a thing: its names, and the words beside them.
pub(super) fn thing(name: &(u32, Vec<u32>), beside: &[String], typed: &[Typed]) -> u32 {
    let each = typed.iter().zip(&name.1).map(|(one, named)| (*named).max(one.best(beside) * 6));
    let sum: u32 = each.sum();
    if sum == 0 { 0 } else { sum + name.0 }
}

/// The score of a machine by name, and by name and sort.
pub(super) fn machine(one: &Fitted, typed: &[Typed]) -> (u32, u32) {
    let name = words(&one.name);
    let hit = name.iter().filter(|word| typed.iter().any(|typed| typed.fits_whole(word) > 0)).count();
    let share = part(100, hit, name.len());
    let sum = |weight: u32| -> u32 {
        typed
            .iter()
            .map(|typed| (typed.best_whole(&one.words) * 10).max(typed.best_whole(&one.sort) * weight))
            .sum()
    };
    let (by_name, whole) = (sum(3), sum(10));
    if whole == 0 { (0, 0) } else { (by_name + share, whole + share) }
}

/// The score of a code or a manual.
pub(super) fn fixed(one: &Fixed, typed: &[Typed]) -> u32 {
    let own = || one.words.iter().chain(&one.sort);
    let hit = own().filter(|word| typed.iter().any(|typed| typed.fits_whole(word) > 0)).count();
    let weight = if one.kind == "source" { 6 } else { 10 };
    let best = |typed: &Typed| typed.best_whole(&one.words).max(typed.best_whole(&one.sort));
    let sum: u32 = typed.iter().map(|typed| best(typed) * weight).sum();
    if sum == 0 { 0 } else { sum + part(300, hit, own().count()) }
}

/// Records that a word of their whole sort leads to, such as `diesel` or `code`: the first of them, so that what
/// is read for such a word does not grow with the base.
#[derive(Default)]
pub(super) struct Sampled<'a>(BTreeMap<&'a str, usize>);

/// How many records a word of their whole sort leads to.
const SAMPLE: usize = 24;

impl<'a> Sampled<'a> {
    /// Those words of the next record that lead to it.
    pub(super) fn next(&mut self, sort: &'a [String]) -> Vec<&'a str> {
        let words = sort.iter().filter(|word| {
            let count = self.0.entry(word.as_str()).or_default();
            *count += 1;
            *count <= SAMPLE
        });
        words.map(String::as_str).collect()
    }
}

/// True if a record is looked at: a word of its own fits, or one that leads to it.
pub(super) fn leads(words: &[String], sampled: &[&str], typed: &[Typed]) -> bool {
    typed.iter().any(|one| one.best_whole(words) > 0 || sampled.iter().any(|word| one.fits_whole(word) > 0))
}

/// `hit` of `all`, as a share of `whole`.
fn part(whole: u32, hit: usize, all: usize) -> u32 {
    let share = usize::try_from(whole).unwrap_or_default() * hit / all.max(1);
    u32::try_from(share).unwrap_or_default()
}

/// What a serial number counts for a machine that has it.
pub(super) fn serial(one: &Fitted, asked: &Asked) -> u32 {
    let has = one.spans.iter().filter(|span| !span.prefix.is_empty()).any(|span| {
        let numbers = asked.serials.iter().filter_map(|serial| serial.strip_prefix(span.prefix.as_str()));
        let mut numbers = numbers.filter_map(|digits| digits.parse::<u32>().ok());
        numbers.any(|number| span.serial.0 <= number && number <= span.serial.1)
    });
    if has { 2000 } else { 0 }
}

/// What the years count: one that fits for, one in full that does not fit against.
pub(super) fn year(one: &Fitted, asked: &Asked) -> i32 {
    let of_year = |(year, full): &(u16, bool)| {
        let has = one.spans.iter().any(|span| span.years.0 <= *year && *year <= span.years.1);
        match (has, full) {
            (true, _) => 300,
            (false, true) => -300,
            (false, false) => 0,
        }
    };
    asked.years.iter().map(of_year).sum()
}
