//! What the drawings of a page have in common, written once at its head: section lining, arrowheads, the
//! strokes of ordinary dimension lines, and the safety alert symbol of the caution panels.
//!
//! A page that holds a drawing holds this; a drawing refers to its parts by id.

use std::fmt::Write as _;

use super::dimension;
use super::svg::Drawing;

const LININGS: &str = r#"<pattern id="lining" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="d-tint" d="M0 0H7V7H0Z"/><path class="d-lining" d="M.5 0V7"/></pattern><pattern id="crossed-lining" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="d-crossed" d="M.5 0V5M0 .5H5"/></pattern>"#;

/// The safety alert symbol: an exclamation mark in a triangle, as ISO 3864 and ANSI Z535 have it (from memory).
/// It fills whatever it is used in.
const ALERT: &str = r#"<symbol id="alert" viewBox="0 0 24 22"><path class="triangle" d="M12 1 23.5 21H.5Z"/><path class="bang" d="M12 7.5V14.5M12 16.8V18.6"/></symbol>"#;

/// The shared drawing; it is itself not seen.
pub fn shared() -> Drawing {
    let mut parts = LININGS.to_owned();
    let drawn = dimension::arrows().into_iter().chain(dimension::written());
    for (id, strokes) in drawn {
        let _ = write!(parts, r#"<g id="{id}">{strokes}</g>"#);
    }
    defined(&(parts + ALERT))
}

/// The safety alert symbol alone: all that a page needs whose drawings come later.
pub fn alert() -> Drawing {
    defined(ALERT)
}

fn defined(parts: &str) -> Drawing {
    Drawing::of(format!(
        r#"<svg class="linings" width="0" height="0" aria-hidden="true" focusable="false"><defs>{parts}</defs></svg>"#
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_referred_to_inside_is_there_before_it() {
        let shared = shared();
        let text = shared.as_str();
        for (at, _) in text.match_indices("href=\"#") {
            let id = text[at + 7..].split('"').next().expect("an id");
            let defined = text.find(&format!("id=\"{id}\"")).expect("defined");
            assert!(defined < at, "{id}");
        }
    }
}
