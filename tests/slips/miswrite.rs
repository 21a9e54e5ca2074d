//! How a number is mistyped, and what a spreadsheet makes of one.

use super::dice::Dice;

/// Classes of slips of one number, as TRADE has them with their share of all slips.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum Class {
    WrongDigit,
    Decimal,
    Swap,
    DroppedOrDoubled,
    Scan,
}

impl Class {
    /// With the share of each.
    pub const ALL: [(Self, usize); 5] = [
        (Self::WrongDigit, 6),
        (Self::Decimal, 4),
        (Self::Swap, 4),
        (Self::DroppedOrDoubled, 3),
        (Self::Scan, 3),
    ];

    pub const fn name(self) -> &'static str {
        match self {
            Self::WrongDigit => "wrong digit",
            Self::Decimal => "decimal moved",
            Self::Swap => "digits swapped",
            Self::DroppedOrDoubled => "dropped or doubled",
            Self::Scan => "scan confusion",
        }
    }
}

/// Digits that look alike on a worn page.
const ALIKE: [(u8, u8); 6] =
    [(b'3', b'8'), (b'8', b'3'), (b'5', b'6'), (b'6', b'5'), (b'1', b'7'), (b'7', b'1')];

/// `number` with one slip of a class in it; none if it has no place for such a slip.
pub fn miswritten(number: &str, class: Class, dice: &mut Dice) -> Option<String> {
    let bytes = number.as_bytes();
    let digits: Vec<usize> = (0..bytes.len()).filter(|at| bytes[*at].is_ascii_digit()).collect();
    let with = |changes: &[(usize, u8)]| {
        let mut bytes = bytes.to_vec();
        changes.iter().for_each(|(at, byte)| bytes[*at] = *byte);
        String::from_utf8(bytes).expect("digits are ASCII")
    };
    let all: Vec<String> = match class {
        Class::WrongDigit => {
            let at = *dice.pick(&digits)?;
            (b'0'..=b'9').filter(|digit| *digit != bytes[at]).map(|digit| with(&[(at, digit)])).collect()
        }
        // Four slips in five go one place.
        Class::Decimal => {
            let places = [(1, 16), (2, 3), (3, 1)];
            let places = dice.by_weight(&places);
            vec![moved(number, places), moved(number, -places)]
        }
        Class::Swap => {
            let pairs = digits.iter().zip(digits.iter().skip(1));
            pairs.map(|(&one, &next)| with(&[(one, bytes[next]), (next, bytes[one])])).collect()
        }
        Class::DroppedOrDoubled => {
            let without = |at: usize| format!("{}{}", &number[..at], &number[at + 1..]);
            let doubled = |at: usize| format!("{}{}", &number[..=at], &number[at..]);
            let dropped = digits.iter().filter(|_| digits.len() > 1).map(|at| without(*at));
            dropped.chain(digits.iter().map(|at| doubled(*at))).collect()
        }
        Class::Scan => {
            let places = digits.iter().flat_map(|at| ALIKE.iter().map(move |pair| (*at, pair)));
            places.filter(|(at, pair)| bytes[*at] == pair.0).map(|(at, pair)| with(&[(at, pair.1)])).collect()
        }
    };
    let written: Vec<_> = all.into_iter().filter(|text| text != number && is_written(text)).collect();
    dice.pick(&written).cloned()
}

/// What a person would leave standing: digits, and no needless zero before them.
fn is_written(text: &str) -> bool {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let plain = |digits: &str| !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    plain(whole) && plain(part) && (whole == "0" || !whole.starts_with('0'))
}

/// The point moved to the right, the digits kept; zeros fill up.
pub fn moved(number: &str, places: i32) -> String {
    let (whole, part) = number.split_once('.').unwrap_or((number, ""));
    let digits = format!("{whole}{part}");
    let decimals = i32::try_from(part.len()).expect("short") - places;
    if decimals <= 0 {
        let zeros = "0".repeat(usize::try_from(-decimals).expect("not below zero"));
        return trimmed(&format!("{digits}{zeros}"));
    }
    let decimals = usize::try_from(decimals).expect("above zero");
    let padded = format!("{digits:0>width$}", width = decimals + 1);
    let (whole, part) = padded.split_at(padded.len() - decimals);
    trimmed(&format!("{whole}.{part}"))
}

/// Without needless zeros before it.
fn trimmed(text: &str) -> String {
    let rest = text.trim_start_matches('0');
    if rest.is_empty() || rest.starts_with('.') { format!("0{rest}") } else { rest.to_owned() }
}

/// What a spreadsheet makes of a number: the class and the text.
pub fn by_spreadsheet(number: &str, dice: &mut Dice) -> Option<(&'static str, String)> {
    let (whole, part) = number.split_once('.')?;
    let mut all = vec![("decimal comma", number.replace('.', ","))];
    if part.ends_with('0') {
        let short = number.trim_end_matches('0').trim_end_matches('.').to_owned();
        all.push(("trailing zero lost", short.clone()));
        all.push(("trailing zero lost", short));
    }
    let months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    let (day, month) = (whole.parse::<usize>().ok()?, part.parse::<usize>().ok()?);
    if (1..=28).contains(&day) && (1..=12).contains(&month) && !part.starts_with('0') {
        all.push(("date", format!("{day}-{}", months[month - 1])));
    }
    dice.pick(&all).cloned()
}
