//! The ways a number is written wrongly, each undone in every place it could have happened.
//!
//! How often each happens is common practice, no source: of twenty mistyped numbers six have a wrong
//! digit, four a moved point, four two digits swapped, three a digit dropped or doubled, three a digit
//! that looks like another. A slip with many ways to happen says little for any one of them.

use super::super::Number;
use super::super::exact::{decimal_text, power_of_ten};
use super::odds::Odds;

/// What a number may have been before it was miswritten.
#[derive(Clone, Debug, Eq, PartialEq)]
pub(super) struct Undone {
    /// What happened to it, as `the decimal point moved`.
    pub(super) happened: String,
    /// The digits that were meant.
    pub(super) meant: String,
    pub(super) odds: Odds,
}

/// Digits that a scan or a worn page turns into each other.
const ALIKE: [(char, char); 3] = [('3', '8'), ('5', '6'), ('1', '7')];

/// How far a decimal point slips, in places, and the share of all slips that goes so far, in hundredths.
pub(super) const PLACES: [(i32, u64); 6] = [(1, 160), (-1, 160), (2, 30), (-2, 30), (3, 10), (-3, 10)];

/// Everything that `number` may have been.
pub(super) fn undone(number: &Number) -> Vec<Undone> {
    if number.is_fraction() {
        return Vec::new();
    }
    let mut all = Vec::new();
    let mut add = |happened: &str, texts: Vec<String>, odds: &dyn Fn(&str) -> Odds| {
        all.extend(texts.into_iter().map(|meant| {
            let odds = odds(&meant);
            Undone { happened: happened.to_owned(), meant, odds }
        }));
    };
    for (places, share) in PLACES {
        add("the decimal point moved", moved(number, places), &|_| Odds::of(share, 100));
    }
    add("digits were swapped", swapped(number), &|meant| Odds::of(4, unlike_neighbours(meant)));
    add("a digit is doubled", undoubled(number), &|meant| Odds::of(3, 2 * digits(meant)));
    add("a digit is missing", with_one_more(number), &|meant| Odds::of(3, 2 * digits(meant)));
    all.extend(one_changed(number));
    all
}

fn digits(text: &str) -> usize {
    text.chars().filter(char::is_ascii_digit).count()
}

fn unlike_neighbours(text: &str) -> usize {
    let digits: Vec<char> = text.chars().filter(char::is_ascii_digit).collect();
    digits.iter().zip(digits.iter().skip(1)).filter(|(one, next)| one != next).count()
}

fn look_alike(one: char, other: char) -> bool {
    ALIKE.iter().any(|pair| *pair == (one, other) || *pair == (other, one))
}

/// How many digits of `text` look like another.
fn mistakable(text: &str) -> usize {
    text.chars().filter(|one| ALIKE.iter().any(|pair| pair.0 == *one || pair.1 == *one)).count()
}

/// `number` times ten to the power `places`, its digits kept, and again without zeros at its end.
pub(super) fn moved(number: &Number, places: i32) -> Vec<String> {
    let value = number.exact() * power_of_ten(places);
    let decimals = i64::from(number.decimals()) - i64::from(places);
    let text = decimal_text(&value, u32::try_from(decimals).unwrap_or_default());
    let short = text.trim_end_matches('0').trim_end_matches('.').to_owned();
    if text.contains('.') && short != text { vec![short, text] } else { vec![text] }
}

/// `number` with two digits side by side swapped, in every way.
fn swapped(number: &Number) -> Vec<String> {
    let places = digit_places(number);
    let pairs = places.iter().zip(places.iter().skip(1));
    pairs
        .filter_map(|(&first, &second)| {
            let mut letters: Vec<char> = number.text().chars().collect();
            letters.swap(first, second);
            written(letters).filter(|text| text != number.text())
        })
        .collect()
}

/// `number` with one of two equal digits side by side left out, in every way.
fn undoubled(number: &Number) -> Vec<String> {
    let letters: Vec<char> = number.text().chars().collect();
    let doubled = letters.iter().zip(letters.iter().skip(1)).enumerate();
    let places = doubled.filter(|(_, (one, next))| one == next).map(|(place, _)| place);
    places
        .filter_map(|place| {
            let mut letters = letters.clone();
            letters.remove(place);
            written(letters)
        })
        .collect()
}

/// `number` with one digit put in, in every way.
fn with_one_more(number: &Number) -> Vec<String> {
    let length = number.text().chars().count();
    let places = (0..=length).flat_map(|place| ('0'..='9').map(move |digit| (place, digit)));
    let texts = places.filter_map(|(place, digit)| {
        let mut letters: Vec<char> = number.text().chars().collect();
        letters.insert(place, digit);
        written(letters)
    });
    let mut texts: Vec<String> = texts.collect();
    texts.sort_unstable();
    texts.dedup();
    texts
}

/// `number` with one digit changed, in every way.
fn one_changed(number: &Number) -> Vec<Undone> {
    let letters: Vec<char> = number.text().chars().collect();
    let places =
        digit_places(number).into_iter().flat_map(|place| ('0'..='9').map(move |digit| (place, digit)));
    places
        .filter_map(|(place, digit)| {
            let mut meant = letters.clone();
            let found = std::mem::replace(meant.get_mut(place)?, digit);
            let meant = written(meant).filter(|_| found != digit)?;
            let any = Odds::of(6, 9 * digits(&meant));
            if look_alike(found, digit) {
                let odds = any.plus(Odds::of(3, mistakable(&meant)));
                return Some(Undone { happened: format!("{digit} was read as {found}"), meant, odds });
            }
            Some(Undone { happened: "one digit differs".to_owned(), meant, odds: any })
        })
        .collect()
}

fn digit_places(number: &Number) -> Vec<usize> {
    let letters = number.text().chars().enumerate();
    letters.filter(|(_, letter)| letter.is_ascii_digit()).map(|(place, _)| place).collect()
}

/// The letters as a number, unless it is none or begins with a needless zero.
fn written(letters: Vec<char>) -> Option<String> {
    let text: String = letters.into_iter().collect();
    let digits = text.trim_start_matches('-');
    let needless = digits.len() > 1 && digits.starts_with('0') && !digits.starts_with("0.");
    (!needless && !digits.starts_with('.') && Number::parse(&text).is_ok()).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    #[test]
    fn a_point_moves_with_its_digits() {
        assert_eq!(moved(&number("0.08"), -1), ["0.008"]);
        assert_eq!(moved(&number("0.08"), 1), ["0.8"]);
        assert_eq!(moved(&number("180"), -1), ["18", "18.0"]);
        assert_eq!(moved(&number("8"), 2), ["800"]);
    }

    #[test]
    fn each_miswriting_is_undone_in_every_place() {
        assert_eq!(swapped(&number("1.82")), ["8.12", "1.28"]);
        assert_eq!(swapped(&number("10")), Vec::<String>::new(), "01 is no number anyone prints");
        assert_eq!(undoubled(&number("722")), ["72"]);
        assert_eq!(with_one_more(&number("5")).len(), 18);
        let changed = one_changed(&number("0.5"));
        assert_eq!(changed.iter().filter(|one| one.meant.starts_with("0.")).count(), 9);
    }

    #[test]
    fn digits_that_look_alike_are_named() {
        let all = one_changed(&number("18"));
        let of = |meant: &str| all.iter().find(|one| one.meant == meant).unwrap();
        assert_eq!(of("13").happened, "3 was read as 8");
        assert_eq!(of("14").happened, "one digit differs");
        assert!(of("13").odds > of("14").odds);
    }

    #[test]
    fn a_slip_with_few_ways_weighs_more() {
        let all = undone(&number("120"));
        let of = |meant: &str| all.iter().filter(|one| one.meant == meant).map(|one| one.odds).max().unwrap();
        assert!(of("12") > of("150"));
        assert!(of("12") > of("1.20"));
    }
}
