//! The letters of a value as the grammar takes them: look-alikes, dashes and marks of units, none of them a digit lost.

/// What a shop writes for pound-feet and pound-inches, with a bar that divides nothing.
const TORQUES: [(&str, &str); 10] = [
    ("ft/lbs", "lbf·ft"),
    ("ft/lbf", "lbf·ft"),
    ("ft/lb", "lbf·ft"),
    ("foot/pounds", "lbf·ft"),
    ("ft#", "lbf·ft"),
    ("in/lbs", "lbf·in"),
    ("in/lbf", "lbf·in"),
    ("in/lb", "lbf·in"),
    ("inch/pounds", "lbf·in"),
    ("in#", "lbf·in"),
];

/// What is typed for `±`.
const PLUS_MINUS: [&str; 8] = ["plus or minus", "plus/minus", "+ or -", "+or-", "+\\-", "-/+", "∓", "+ / -"];

/// The text with every look-alike as what it looks like.
pub(super) fn cleaned(text: &str) -> String {
    let text = unquoted(text.trim());
    let text = text.trim_end_matches([',', ';', ':']).trim_end();
    let mut text = digits(text);
    for sign in PLUS_MINUS {
        text = text.replace(sign, "±");
    }
    for (bar, torque) in TORQUES {
        text = replaced(&text, bar, torque);
    }
    text = text.replace("''", "\"").replace("’’", "\"").replace('’', "'");
    if let Some(feet) =
        text.strip_suffix('\'').filter(|feet| feet.ends_with(|last: char| last.is_ascii_digit()))
    {
        text = format!("{feet} ft");
    }
    unbracketed(&dots(&bars(&dashes(&text))))
}

/// Quotes that a word processor put around the text.
fn unquoted(text: &str) -> &str {
    let opened = text.strip_prefix(['“', '„', '‘', '«']);
    opened.map_or(text, |inner| inner.trim_end_matches(['”', '“', '’', '‘', '»']).trim())
}

fn replaced(text: &str, from: &str, to: &str) -> String {
    let lower = text.to_ascii_lowercase();
    let found = lower.find(from).and_then(|at| Some((text.get(..at)?, text.get(at + from.len()..)?)));
    found.map_or_else(|| text.to_owned(), |(before, after)| format!("{before}{to}{after}"))
}

/// `O.13` as 0.13, `0.l3` as 0.13, full-width digits as plain ones, `0·13` as 0.13.
fn digits(text: &str) -> String {
    let letters: Vec<char> = text.chars().map(narrow).collect();
    let at = |place: Option<usize>| place.and_then(|place| letters.get(place)).copied().unwrap_or(' ');
    let mend = |(place, letter): (usize, &char)| {
        let (before, after) = (at(place.checked_sub(1)), at(Some(place + 1)));
        let begins = !before.is_alphanumeric() && before != '.';
        let inside = before.is_ascii_digit() || before == '.' && at(place.checked_sub(2)).is_ascii_digit();
        match letter {
            'O' | 'o' if (inside && !after.is_alphabetic()) || (begins && after == '.') => '0',
            'l' | 'I' if (inside || begins) && after.is_ascii_digit() => '1',
            '·' if before.is_ascii_digit() && after.is_ascii_digit() => '.',
            other => *other,
        }
    };
    letters.iter().enumerate().map(mend).collect()
}

fn narrow(letter: char) -> char {
    match letter {
        '０'..='９' => u32::from(letter).checked_sub(0xFEE0).and_then(char::from_u32).unwrap_or(letter),
        '．' => '.',
        _ => letter,
    }
}

/// `1-1/2` as 1 1/2, `0.020-in` as 0.020 in.
fn dashes(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for (at, letter) in text.char_indices() {
        let after = text.get(at + letter.len_utf8()..).unwrap_or_default();
        let dash = matches!(letter, '-' | '–' | '\u{2010}' | '\u{2011}')
            && out.ends_with(|last: char| last.is_ascii_digit());
        let unit = after.starts_with(char::is_alphabetic);
        out.push(if dash && (unit || is_mixed(&out, after)) { ' ' } else { letter });
    }
    out
}

/// Whether a whole number ends here, and a fraction below one comes after.
fn is_mixed(before: &str, after: &str) -> bool {
    let rest = before.trim_end_matches(|one: char| one.is_ascii_digit());
    let whole = before.get(rest.len()..).unwrap_or_default();
    let goes_on = rest.ends_with(['/', '.', ',', '\u{2044}']) && !rest.ends_with("..");
    let is_whole = !goes_on && !whole.trim_start_matches('0').is_empty();
    let figures = |text: &str| text.chars().take_while(char::is_ascii_digit).collect::<String>();
    let above = figures(after);
    let below = after.get(above.len()..).and_then(|rest| rest.strip_prefix(['/', '\u{2044}'])).map(figures);
    let proper = below.and_then(|below| Some(above.parse::<u64>().ok()? < below.parse::<u64>().ok()?));
    is_whole && (proper == Some(true) || after.starts_with(['½', '⅓', '⅔', '¼', '¾', '⅛', '⅜', '⅝', '⅞']))
}

/// `3/ 8` and `3 /8` as 3/8.
fn bars(text: &str) -> String {
    text.replace(" /", "/").replace("/ ", "/")
}

/// `0.11...0.15` as 0.11..0.15: the second number has a point of its own.
fn dots(text: &str) -> String {
    let parts = text.split_once("...");
    let own = |after: &str| {
        after.starts_with(|one: char| one.is_ascii_digit())
            && after.chars().take_while(|one| one.is_ascii_digit() || *one == '.').any(|one| one == '.')
    };
    parts
        .filter(|(_, after)| own(after))
        .map_or_else(|| text.to_owned(), |(low, high)| format!("{low}..{high}"))
}

/// `20 (+2/-1) mm` without the brackets.
fn unbracketed(text: &str) -> String {
    let inner = |(before, rest): (&str, &str)| {
        let (tolerance, after) = rest.split_once(')')?;
        let signed = tolerance.starts_with(['±', '+', '-', '\u{2212}']);
        signed.then(|| format!("{before}{tolerance}{after}"))
    };
    text.split_once('(').and_then(inner).unwrap_or_else(|| text.to_owned())
}
