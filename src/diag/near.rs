//! "Did you mean": the one known word that is close to what was typed.

/// The candidate nearest to `typed`, if it is close enough to be what was meant.
///
/// Close is one slip in short words, two in words of six letters or more, three from ten on, swapped
/// neighbours counting as one (optimal string alignment). A tie between two is no suggestion.
pub fn nearest<'a>(typed: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = typed.chars().count();
    let allowed = match length {
        0..=2 => return None,
        3..=5 => 1,
        6..=9 => 2,
        _ => 3,
    };
    let mut best: Option<(usize, &str)> = None;
    let mut tied = false;
    for candidate in candidates {
        if candidate.chars().count().abs_diff(length) > allowed {
            continue;
        }
        let distance = strsim::osa_distance(&typed.to_lowercase(), &candidate.to_lowercase());
        match best {
            _ if distance > allowed => {}
            Some((least, word)) if distance == least => tied = tied || word != candidate,
            Some((least, _)) if distance > least => {}
            _ => {
                best = Some((distance, candidate));
                tied = false;
            }
        }
    }
    best.filter(|_| !tied).map(|(_, word)| word)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn only_close_words_are_offered() {
        let known = ["window", "wear_limit", "new", "setting"];
        assert_eq!(nearest("windwo", known), Some("window"));
        assert_eq!(nearest("wearlimit", known), Some("wear_limit"));
        assert_eq!(nearest("weight", known), None);
        assert_eq!(nearest("ne", known), None);
    }

    #[test]
    fn a_tie_is_no_suggestion() {
        assert_eq!(nearest("lash.x", ["lash.a", "lash.b"]), None);
    }
}
