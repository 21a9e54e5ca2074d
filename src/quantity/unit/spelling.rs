//! The many ways a unit is written, led to one.
//!
//! Invariant: a spelling means one unit, or it is listed as ambiguous; capital and small letters
//! differ (`MΩ` is not `mΩ`). Spellings are looked up in a normal form: separators of any sort
//! become one `·`, look-alike letters become one letter.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::row::Row;
use super::table;

/// The most characters of a text that a slip is looked for in; the longest name has fewer.
const LONGEST_GUESSED: usize = 50;

/// How to write each thing that could be meant, and what that is.
pub(super) type Meanings = &'static [(&'static str, &'static str)];

const POUND: Meanings =
    &[("lbf", "pounds-force"), ("lbm", "pounds of mass"), ("lbf·ft", "pound-feet, a torque")];
const OUNCE: Meanings = &[
    ("ozm", "ounces of mass"),
    ("US fl oz", "US fluid ounces, a volume"),
    ("Imp fl oz", "Imperial fluid ounces, a volume"),
];
const FLUID_OUNCE: Meanings = &[("US fl oz", "US fluid ounces"), ("Imp fl oz", "Imperial fluid ounces")];
const GALLON: Meanings = &[("US gal", "US gallons"), ("Imp gal", "Imperial gallons")];
const GALLON_PER_MINUTE: Meanings =
    &[("US gal/min", "US gallons per minute"), ("Imp gal/min", "Imperial gallons per minute")];
const QUART: Meanings = &[("US qt", "US quarts"), ("Imp qt", "Imperial quarts")];
const PINT: Meanings = &[("US pt", "US pints"), ("Imp pt", "Imperial pints")];
const DEGREE: Meanings =
    &[("°", "degrees of angle"), ("°C", "degrees Celsius"), ("°F", "degrees Fahrenheit")];
const CAPITAL_F: Meanings =
    &[("°F", "degrees Fahrenheit, a temperature"), ("µF", "farads, a capacitance, written in microfarads")];
const CAPITAL_C: Meanings =
    &[("°C", "degrees Celsius, a temperature"), ("A·h", "coulombs, a charge, written in ampere hours")];
const CAPITAL_T: Meanings = &[("t", "tonnes, a mass"), ("teeth", "teeth of a gear or sprocket")];
const MIL: Meanings = &[("thou", "thousandths of an inch"), ("mm", "millimetres")];
const CRANKING: Meanings =
    &[("A CCA", "cold-cranking amperes"), ("A CA", "cranking amperes"), ("A MCA", "marine cranking amperes")];
const KILO: Meanings = &[("kΩ", "kilohms"), ("kg", "kilograms"), ("K", "kelvins of difference")];
const POUND_METRE: Meanings = &[("lbm", "pounds of mass"), ("lbf·ft", "pound-feet, a torque")];

/// Spellings that could mean two things in a shop, in the normal form.
#[rustfmt::skip] // Spellings of one meaning stand on one line.
pub(super) const AMBIGUOUS: &[(&str, Meanings)] = &[
    ("lb", POUND), ("lbs", POUND), ("Lb", POUND), ("Lbs", POUND), ("LB", POUND), ("LBS", POUND),
    ("pound", POUND), ("pounds", POUND), ("#", POUND),
    ("lb·m", POUND_METRE),
    ("oz", OUNCE), ("OZ", OUNCE), ("ozs", OUNCE), ("ounce", OUNCE), ("ounces", OUNCE),
    ("fl·oz", FLUID_OUNCE), ("floz", FLUID_OUNCE), ("fluid·ounce", FLUID_OUNCE), ("fluid·ounces", FLUID_OUNCE),
    ("gal", GALLON), ("gals", GALLON), ("gallon", GALLON), ("gallons", GALLON),
    ("gpm", GALLON_PER_MINUTE), ("GPM", GALLON_PER_MINUTE), ("gal/min", GALLON_PER_MINUTE),
    ("qt", QUART), ("qts", QUART), ("quart", QUART), ("quarts", QUART),
    ("pt", PINT), ("pts", PINT), ("pint", PINT), ("pints", PINT),
    ("deg", DEGREE), ("degs", DEGREE), ("degree", DEGREE), ("degrees", DEGREE),
    ("F", CAPITAL_F), ("C", CAPITAL_C), ("T", CAPITAL_T),
    ("k", KILO),
    ("mil", MIL), ("mils", MIL),
    ("cranking·amps", CRANKING), ("cranking·amperes", CRANKING),
];

/// What a spelling leads to.
#[derive(Clone, Copy, Debug)]
pub(super) enum Meaning {
    One(&'static Row),
    Several(Meanings),
}

static INDEX: LazyLock<BTreeMap<String, Meaning>> = LazyLock::new(|| {
    let several = AMBIGUOUS.iter().map(|&(text, meanings)| (text.to_owned(), Meaning::Several(meanings)));
    let one = spellings().map(|(name, row)| (name, Meaning::One(row)));
    several.chain(one).collect()
});

/// What `text` means; `None` if nothing known.
pub(super) fn look_up(text: &str) -> Option<Meaning> {
    INDEX.get(&normal(text)).copied()
}

/// The closest known unit: one that differs in capitals alone, else one a slip or two away. Where
/// capitals decide between several there is none; of equally close units one with the same first
/// letter wins, then the commoner.
pub(super) fn nearest(text: &str) -> Option<&'static Row> {
    let wanted = normal(text);
    let folded = wanted.to_lowercase();
    let mut alike = spellings().filter(|(name, _)| name.to_lowercase() == folded);
    if let Some((_, row)) = alike.next() {
        return alike.all(|(_, other)| other.symbol == row.symbol).then_some(row);
    }
    let allowed = match wanted.chars().count() {
        0..=2 => return None,
        3..=6 => 1,
        7..=LONGEST_GUESSED => 2,
        _ => return None,
    };
    spellings()
        .map(|(name, row)| {
            let other_start = name.chars().next() != wanted.chars().next();
            ((strsim::osa_distance(&name, &wanted), other_start), row)
        })
        .filter(|((distance, _), _)| *distance <= allowed)
        .min_by_key(|(apart, _)| *apart)
        .map(|(_, row)| row)
}

/// Every clear spelling, in the order of the table.
fn spellings() -> impl Iterator<Item = (String, &'static Row)> {
    table::rows().flat_map(|row| {
        let names = [row.symbol, row.spoken].into_iter().chain(row.spellings.iter().copied());
        names.map(move |name| (normal(name), row))
    })
}

/// The normal form: `ft.-lb`, `ft lb` and `ft-lb` are all `ft·lb`; a full stop at the end falls.
pub(super) fn normal(text: &str) -> String {
    let text = text.trim();
    let text = text.strip_suffix('.').filter(|rest| !rest.ends_with(is_separator)).unwrap_or(text);
    let mut out = String::with_capacity(text.len());
    let mut pending = false;
    for letter in text.chars() {
        if is_separator(letter) {
            pending = true;
            continue;
        }
        if pending && letter != '/' && !out.ends_with('/') {
            out.push('·');
        }
        pending = false;
        push_letter(&mut out, letter);
    }
    if pending {
        out.push('·');
    }
    raised_power(out)
}

/// Whether a character only parts the pieces of a unit.
fn is_separator(letter: char) -> bool {
    letter.is_whitespace()
        || matches!(letter, '-' | '.' | '*' | '·' | '⋅' | '•' | '∙' | '\u{2010}' | '\u{2011}' | '\u{2013}')
}

fn push_letter(out: &mut String, letter: char) {
    match letter {
        'μ' => out.push('µ'),
        '\u{2126}' => out.push('Ω'),
        'º' | '˚' => out.push('°'),
        '℃' => out.push_str("°C"),
        '℉' => out.push_str("°F"),
        '″' | '”' => out.push('"'),
        '∆' => out.push('Δ'),
        _ => out.push(letter),
    }
}

/// `cm2` and `cm^2` as `cm²`, likewise the cube.
fn raised_power(text: String) -> String {
    for (plain, raised) in [('2', '²'), ('3', '³')] {
        if let Some(base) = text.strip_suffix(plain) {
            let base = base.strip_suffix('^').unwrap_or(base);
            if base.ends_with(['m', 'n']) {
                return format!("{base}{raised}");
            }
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_spelling_has_one_meaning() {
        let mut seen: BTreeMap<String, &str> = BTreeMap::new();
        for (text, _) in AMBIGUOUS {
            assert_eq!(normal(text), *text, "not in the normal form");
            assert!(seen.insert((*text).to_owned(), "ambiguous").is_none(), "{text} twice");
        }
        for row in table::rows() {
            for name in row.spellings {
                assert_eq!(normal(name), *name, "not in the normal form");
            }
            for name in [row.symbol, row.spoken].iter().chain(row.spellings) {
                let other = seen.insert(normal(name), row.symbol);
                assert!(
                    other.is_none_or(|other| other == row.symbol),
                    "{name}: {other:?} and {}",
                    row.symbol
                );
            }
        }
    }

    #[test]
    fn what_an_ambiguous_spelling_offers_is_itself_clear() {
        for (text, meanings) in AMBIGUOUS {
            assert!(meanings.len() > 1, "{text}");
            for (write, _) in *meanings {
                assert!(matches!(look_up(write), Some(Meaning::One(row)) if row.symbol == *write), "{write}");
            }
        }
    }

    #[test]
    fn separators_and_look_alikes_fall_together() {
        for text in ["N·m", "N.m", "N-m", "N⋅m", "N•m", "N m", "N\u{a0}m", "N*m"] {
            assert_eq!(normal(text), "N·m");
        }
        assert_eq!(normal("ft.-lbs."), "ft·lbs");
        assert_eq!(normal("kg/cm^2"), "kg/cm²");
        assert_eq!(normal("mL / min"), "mL/min");
        assert_eq!(normal("inH2O"), "inH2O");
        assert_eq!(normal("mm-"), "mm·");
    }
}
