//! What a text that is no value was probably meant as: a range that runs backwards, a decimal comma, a
//! number that a spreadsheet took for a date.

use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::ops::Range;

use super::super::value::LONGEST;
use super::super::{Grade, Number, Value, ValueError, ValueProblem, grade};
use super::miswriting::undone;
use super::odds::Odds;
use super::{Side, Slip, print};

/// Months as spreadsheets shorten them.
const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// The likeliest value that `text`, which is none, was meant as; `None` where nothing simple makes it one.
///
/// The other printed forms of the value, in order, with `text` at `place` among them, tell which.
#[must_use]
pub fn likely_text(text: &str, place: usize, others: &[&Value]) -> Option<Slip> {
    let error = Value::parse(text).err().filter(|_| text.len() <= LONGEST)?;
    let grouped = thousands(text, &error);
    let two_ways = others.is_empty() && !grouped.is_empty();
    let mut all: BTreeMap<String, (String, Odds)> = BTreeMap::new();
    for (happened, meant, odds) in meanings(text).into_iter().chain(grouped) {
        let entry = all.entry(meant).or_insert_with(|| (happened.clone(), odds));
        if entry.1 < odds {
            *entry = (happened, odds);
        }
    }
    let weighed = all.into_iter().filter_map(|(meant, (happened, odds))| {
        let value = Value::parse(&meant).ok()?;
        Some((weight(odds, &value, place, others)?, happened, value))
    });
    let mut weighed: Vec<_> = weighed.collect();
    // A stable sort keeps the first of equals in order of text: no finding changes from one run to the next.
    weighed.sort_by_key(|(odds, ..)| Reverse(*odds));
    let mut weighed = weighed.into_iter();
    let (odds, what, value) = weighed.next()?;
    // One and a quarter, or a thousand times as much: unless one of them is absurd the error names both.
    let doubtful = two_ways && weighed.next().is_some_and(|(next, ..)| next.times((10, 1)) > odds);
    (!doubtful).then(|| Slip { side: side(place), what, offer: value.text(), because: None })
}

const fn side(place: usize) -> Side {
    if place == 0 { Side::Primary } else { Side::Secondary }
}

/// `None` where the value contradicts another form.
fn weight(odds: Odds, value: &Value, place: usize, others: &[&Value]) -> Option<Odds> {
    let mut odds = print::weighed_alone(odds, value);
    let against: &[&Value] = if place == 0 { others } else { others.get(..1).unwrap_or_default() };
    for other in against {
        let (primary, secondary) = if place == 0 { (value, *other) } else { (*other, value) };
        odds = match grade(primary, secondary)? {
            Grade::Strict => odds,
            Grade::Loose => odds.times((1, 100)),
            Grade::Conflict => return None,
        };
    }
    Some(odds)
}

/// What happened, the text it then was, and how often that happens.
type Meaning = (String, String, Odds);

fn meanings(text: &str) -> Vec<Meaning> {
    let numbers = numbers(text);
    let mut all: Vec<Meaning> = Vec::new();
    if let [low, high] = numbers.as_slice()
        && let Some(turned) = turned(text, low, high)
    {
        all.push(("the ends were swapped".to_owned(), turned, Odds::of(4, 1)));
    }
    for place in &numbers {
        let number = text.get(place.clone()).and_then(|digits| Number::parse(digits).ok());
        for one in number.iter().flat_map(undone) {
            all.extend(replaced(text, place, &one.meant).map(|meant| (one.happened, meant, one.odds)));
        }
    }
    if let Some(pointed) = pointed(text) {
        all.push(("a comma stands for the decimal point".to_owned(), pointed, Odds::of(20, 1)));
    }
    all.extend(dated(text));
    all
}

/// `1,250 mL` as 1250 mL, where that is one of two ways to read it.
fn thousands(text: &str, error: &ValueError) -> Vec<Meaning> {
    let ValueProblem::Malformed { offers, .. } = &error.problem else { return Vec::new() };
    let several = offers.iter().filter(|_| offers.len() > 1);
    let mut meant: Vec<_> = several.filter_map(|offer| replaced(text, &error.range, offer)).collect();
    let (whole, commas) = unparted(text);
    // Three figures after each of several commas are hardly an accident.
    let odds = if commas > 1 { Odds::of(40, 1) } else { Odds::of(10, 1) };
    meant.extend(Some(whole).filter(|_| commas > 1 && offers.len() > 1));
    meant.into_iter().map(|meant| ("a comma parts the thousands".to_owned(), meant, odds)).collect()
}

/// `1,800..1,900 rpm` without its commas, and how many they are: those before three figures and no fourth.
fn unparted(text: &str) -> (String, usize) {
    let letters: Vec<char> = text.chars().collect();
    let is_digit = |at: usize| letters.get(at).is_some_and(char::is_ascii_digit);
    let parts = |at: usize| {
        letters.get(at) == Some(&',')
            && at > 0
            && is_digit(at - 1)
            && (1..4).all(|more| is_digit(at + more))
            && !is_digit(at + 4)
    };
    let commas = (0..letters.len()).filter(|at| parts(*at)).count();
    let whole = letters.iter().enumerate().filter(|(at, _)| !parts(*at)).map(|(_, letter)| letter).collect();
    (whole, commas)
}

/// Every number of digits and at most one point.
fn numbers(text: &str) -> Vec<Range<usize>> {
    let mut all = Vec::new();
    let mut start = None;
    let end = std::iter::once((text.len(), ' '));
    for (at, letter) in text.char_indices().chain(end) {
        let next_is_digit =
            || text.get(at + 1..).is_some_and(|rest| rest.starts_with(|one: char| one.is_ascii_digit()));
        let inner = letter == '.'
            && next_is_digit()
            && start.and_then(|start| text.get(start..at)).is_some_and(|digits| !digits.contains('.'));
        match start {
            None if letter.is_ascii_digit() => start = Some(at),
            Some(from) if !letter.is_ascii_digit() && !inner => {
                all.push(from..at);
                start = None;
            }
            _ => {}
        }
    }
    all
}

fn replaced(text: &str, place: &Range<usize>, with: &str) -> Option<String> {
    Some(format!("{}{with}{}", text.get(..place.start)?, text.get(place.end..)?))
}

fn turned(text: &str, low: &Range<usize>, high: &Range<usize>) -> Option<String> {
    let (first, second) = (text.get(low.clone())?, text.get(high.clone())?);
    let between = text.get(low.end..high.start)?;
    Some(format!("{}{second}{between}{first}{}", text.get(..low.start)?, text.get(high.end..)?))
}

/// Every comma between two digits as a point.
fn pointed(text: &str) -> Option<String> {
    let letters: Vec<char> = text.chars().collect();
    let digit =
        |place: Option<usize>| place.and_then(|place| letters.get(place)).is_some_and(char::is_ascii_digit);
    let comma = |(place, letter): (usize, &char)| {
        let between = *letter == ',' && digit(place.checked_sub(1)) && digit(Some(place + 1));
        if between { '.' } else { *letter }
    };
    let pointed: String = letters.iter().enumerate().map(comma).collect();
    (pointed != text).then_some(pointed)
}

/// `8-Jan mm` as 8.1 mm or 1.8 mm, or as a part of one where it is a fraction; the day may come after the month.
fn dated(text: &str) -> Vec<Meaning> {
    let lower = text.to_lowercase();
    let named = MONTHS.iter().zip(1..).find_map(|(name, month)| Some((month, lower.find(name)?)));
    let Some((month, at)) = named.filter(|_| lower.len() == text.len()) else { return Vec::new() };
    let (Some(head), Some(tail)) = (text.get(..at), text.get(at + 3..)) else { return Vec::new() };
    let joints = ['-', ' ', '.', '/'];
    let figure = |one: char| one.is_ascii_digit();
    let joined = head.trim_end_matches(joints);
    let before = joined.trim_end_matches(figure);
    let (day, before, rest) = if before.len() < joined.len() {
        (joined.get(before.len()..).unwrap_or_default(), before, tail)
    } else {
        let after = tail.trim_start_matches(joints);
        let rest = after.trim_start_matches(figure);
        (after.get(..after.len() - rest.len()).unwrap_or_default(), head, rest)
    };
    let day = day.trim_start_matches('0');
    // A decimal point comes after the day; a fraction is as likely to be turned as not.
    let ways = [
        (format!("{day}.{month}"), 20),
        (format!("{month}.{day}"), 5),
        (format!("{month}/{day}"), 4),
        (format!("{day}/{month}"), 4),
    ];
    let as_value = |(number, share): (String, u64)| {
        ("a date stands for a number".to_owned(), format!("{before}{number}{rest}"), Odds::of(share, 1))
    };
    ways.into_iter().map(as_value).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn value(text: &str) -> Value {
        Value::parse(text).unwrap()
    }

    fn meant(text: &str, place: usize, others: &[&str]) -> Option<(String, String)> {
        let others: Vec<Value> = others.iter().map(|one| value(one)).collect();
        let others: Vec<&Value> = others.iter().collect();
        likely_text(text, place, &others).map(|slip| (slip.what, slip.offer))
    }

    #[test]
    fn a_range_that_runs_backwards_is_mended_as_the_other_form_says() {
        let offer = |text, place, others: &[&str]| meant(text, place, others).map(|(_, offer)| offer);
        assert_eq!(offer("2.0..0.30 mm", 0, &["0.008..0.012 in"]).as_deref(), Some("0.20..0.30 mm"));
        assert_eq!(offer("0.30..0.20 mm", 0, &["0.008..0.012 in"]).as_deref(), Some("0.20..0.30 mm"));
        assert_eq!(offer("0.009..0.002 in", 1, &["0.23..0.31 mm"]).as_deref(), Some("0.009..0.012 in"));
        assert_eq!(offer("0.30..0.20 mm", 0, &[]).as_deref(), Some("0.20..0.30 mm"));
        assert_eq!(offer("2.0..0.30 mm", 0, &[]).as_deref(), Some("0.20..0.30 mm"));
        assert_eq!(offer("0.30..0.20 mm", 0, &["1 in"]), None);
    }

    #[test]
    fn what_a_spreadsheet_makes_of_a_number_is_undone() {
        assert_eq!(meant("0,25..0,40 mm", 0, &[]).unwrap().1, "0.25..0.40 mm");
        assert_eq!(meant("1-Aug L", 0, &["1.9 US qt"]).unwrap().1, "1.8 L");
        assert_eq!(meant("2.9..3-Mar bar", 0, &[]).unwrap().1, "2.9..3.3 bar");
        assert_eq!(meant("max 8-Feb mm", 0, &[]).unwrap().1, "max 8.2 mm");
        assert_eq!(meant("76.425..76,437 mm", 0, &[]).unwrap().1, "76.425..76.437 mm");
        assert_eq!(meant("Apr-01 in", 0, &["6.4 mm"]).unwrap().1, "1/4 in");
        assert_eq!(meant("2.9..3-Mar bar", 0, &[]).unwrap().1, "2.9..3.3 bar");
        assert_eq!(meant("max 8-Feb mm", 0, &[]).unwrap().1, "max 8.2 mm");
        assert_eq!(meant("76.425..76,437 mm", 0, &[]).unwrap().1, "76.425..76.437 mm");
        assert_eq!(meant("Apr-01 in", 0, &["640 mm"]), None);
        assert_eq!(meant("1-Apr in", 1, &["6.4 mm"]).unwrap().1, "1/4 in");
        assert_eq!(meant("1,250 mL", 0, &[]), None, "two meanings");
        assert_eq!(meant("1,800..1,900 rpm", 0, &[]), None, "two meanings");
        assert_eq!(meant("1,800..1,900 rpm", 0, &["1850 ± 50 rpm"]).unwrap().1, "1800..1900 rpm");
        assert_eq!(meant("1,250 mL", 0, &["1.3 US qt"]).unwrap().1, "1250 mL");
        assert_eq!(meant("no such thing", 0, &[]), None);
    }
}
