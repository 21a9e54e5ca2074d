//! Words as they are compared: small letters, split at everything that is no letter or digit.
//!
//! Invariant: a slip is forgiven in letters only; two figures that differ are two figures.

/// What the trade shortens or spells otherwise, and the words it may stand for.
pub(super) const SHORT: &[(&str, &[&str])] = &[
    ("aat", &["air"]),
    ("batt", &["battery"]),
    ("brg", &["bearing"]),
    ("carb", &["carburettor"]),
    ("comp", &["compression"]),
    ("cts", &["coolant"]),
    ("cyl", &["cylinder"]),
    ("dia", &["diameter"]),
    ("ect", &["coolant"]),
    ("ex", &["exhaust"]),
    ("exh", &["exhaust"]),
    ("hz", &["frequency"]),
    ("iat", &["air"]),
    ("in", &["intake", "inlet"]),
    ("inl", &["inlet", "intake"]),
    ("inlet", &["intake"]),
    ("int", &["intake"]),
    ("intake", &["inlet"]),
    ("map", &["manifold"]),
    ("ohm", &["resistance"]),
    ("ohms", &["resistance"]),
    ("press", &["pressure"]),
    ("res", &["resistance"]),
    ("rpm", &["speed"]),
    ("temp", &["temperature"]),
    ("tire", &["tyre"]),
    ("tires", &["tyre"]),
    ("tps", &["throttle"]),
    ("trq", &["torque"]),
    ("voltage", &["volts"]),
    ("volt", &["volts"]),
];

/// Words that say nothing.
const EMPTY: [&str; 9] = ["a", "an", "and", "for", "is", "of", "the", "to", "what"];

/// The words of a text, as they are compared.
pub(super) fn words(text: &str) -> Vec<String> {
    let kept = |c: char| c.is_ascii_alphanumeric() || (!c.is_ascii() && c.is_alphabetic());
    let folded = text.to_lowercase();
    let pieces = folded.split(|c: char| !kept(c)).filter(|word| !word.is_empty());
    pieces.filter(|word| !EMPTY.contains(word)).map(str::to_owned).collect()
}

/// How many slips make `typed` of `word`, two neighbours swapped being one; `None` if more than are
/// forgiven: one from four letters on, two from eight.
pub(super) fn slips(typed: &str, word: &str) -> Option<u32> {
    let forgiven = match typed.chars().count() {
        0..4 => return None,
        4..8 => 1,
        _ => 2,
    };
    if typed.chars().chain(word.chars()).any(|c| c.is_ascii_digit()) {
        return None;
    }
    let distance = strsim::osa_distance(typed, word);
    u32::try_from(distance).ok().filter(|distance| *distance <= forgiven)
}

/// How far a word lies from one that fits nothing, if it is near enough to be offered: a letter in three,
/// or one figure of a number.
pub(super) fn apart(typed: &str, word: &str) -> Option<usize> {
    let number = |text: &str| text.bytes().any(|byte| byte.is_ascii_digit());
    let length = typed.chars().count();
    if length < 3 || number(typed) != number(word) || number(typed) && length != word.chars().count() {
        return None;
    }
    let most = if number(typed) { 1 } else { length / 3 };
    Some(strsim::osa_distance(typed, word)).filter(|distance| *distance <= most)
}

/// How well a whole or begun word fits, out of a hundred; 0 if it does not.
pub(super) fn fit(typed: &str, word: &str) -> u32 {
    if typed == word {
        return 100;
    }
    if !word.starts_with(typed) || typed.bytes().all(|byte| byte.is_ascii_digit()) {
        return 0;
    }
    let [typed, word] = [typed, word].map(|one| u32::try_from(one.chars().count()).unwrap_or(u32::MAX));
    60 + 30 * typed / word.max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_split() {
        assert_eq!(words("TH22-455, the Lash"), ["th22", "455", "lash"]);
    }

    #[test]
    fn slips_are_forgiven_in_letters_only() {
        assert_eq!(slips("exhuast", "exhaust"), Some(1));
        assert_eq!(slips("lahs", "lash"), Some(1));
        assert_eq!(slips("gylspout", "ghyllspout"), Some(2));
        assert_eq!(slips("la", "lash"), None);
        assert_eq!(slips("8877", "8876"), None);
    }
}
