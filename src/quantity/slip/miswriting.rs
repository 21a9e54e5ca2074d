//! The ways a number is written wrongly, each undone in every place it could have happened.

use super::super::Number;
use super::super::exact::{decimal_text, power_of_ten};

/// `number` times ten to the power `places`, its digits kept, and again without zeros at its end.
pub(super) fn moved(number: &Number, places: i32) -> Vec<String> {
    let value = number.exact() * power_of_ten(places);
    let decimals = i64::from(number.decimals()) - i64::from(places);
    let text = decimal_text(&value, u32::try_from(decimals).unwrap_or_default());
    let short = text.trim_end_matches('0').trim_end_matches('.').to_owned();
    if text.contains('.') && short != text { vec![short, text] } else { vec![text] }
}

/// `number` with two digits side by side swapped, in every way.
pub(super) fn swapped(number: &Number) -> Vec<String> {
    let places = digit_places(number);
    let pairs = places.iter().zip(places.iter().skip(1));
    pairs
        .filter_map(|(&first, &second)| {
            let mut letters: Vec<char> = number.text().chars().collect();
            letters.swap(first, second);
            written(letters)
        })
        .collect()
}

/// `number` with one of two equal digits side by side left out, in every way.
pub(super) fn undoubled(number: &Number) -> Vec<String> {
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
pub(super) fn with_one_more(number: &Number) -> Vec<String> {
    let length = number.text().chars().count();
    let places = (0..=length).flat_map(|place| ('0'..='9').map(move |digit| (place, digit)));
    places
        .filter_map(|(place, digit)| {
            let mut letters: Vec<char> = number.text().chars().collect();
            letters.insert(place, digit);
            written(letters)
        })
        .collect()
}

/// `number` with one digit changed, in every way.
pub(super) fn one_changed(number: &Number) -> Vec<String> {
    let places = digit_places(number)
        .into_iter()
        .flat_map(|place| ('0'..='9').map(move |digit| (place, digit)));
    places
        .filter_map(|(place, digit)| {
            let mut letters: Vec<char> = number.text().chars().collect();
            *letters.get_mut(place)? = digit;
            written(letters)
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
        assert_eq!(with_one_more(&number("5")).len(), 19);
        assert_eq!(
            one_changed(&number("0.5")).iter().filter(|text| text.starts_with("0.")).count(),
            11
        );
    }
}
