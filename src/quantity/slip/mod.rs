//! What was probably meant where two printed forms contradict each other.
//!
//! Either form may be the wrong one, so that each gets at most one offer, the likelier first. Every way
//! a value is miswritten or misread is undone, what then agrees with the other form is weighed by how
//! often that slip happens, by how numbers are printed, and by what witnesses say.
//!
//! Invariant: an offer agrees with the form it leaves as it is. Nothing here changes a value; a person
//! decides.

mod beside;
mod guess;
mod miswriting;
mod odds;
mod print;
mod readings;
mod text;
mod witness;

use super::{Grade, Value, grade};
pub use beside::{likely_slip_alone, likely_slips_beside};
use guess::{Guess, guesses};
use odds::Odds;
pub use readings::{Difference, readings_differ};
pub use text::likely_text;
pub use witness::{Beyond, Witness, beyond, times_apart};

/// Which of two printed forms.
#[derive(Clone, Copy, Debug, Eq, Ord, PartialEq, PartialOrd)]
pub enum Side {
    /// The first, the maker's own.
    Primary,
    /// A further one.
    Secondary,
}

/// A likely slip in one of two printed forms.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Slip {
    /// The form that seems to be wrong.
    pub side: Side,
    /// What seems to have happened, such as `lbf·ft was meant: 12 N·m is 9 lbf·ft`.
    pub what: String,
    /// That form as it was probably meant, such as `9 lbf·ft`.
    pub offer: String,
    /// What a witness says for this form being the wrong one, against the other being it.
    pub because: Option<String>,
}

/// What was probably meant where `secondary` contradicts `primary`: at most one slip for each of them,
/// the likelier first; none where they agree, or nothing simple explains it.
#[must_use]
pub fn likely_slips(primary: &Value, secondary: &Value, witnesses: &[Witness<'_>]) -> Vec<Slip> {
    if grade(primary, secondary) != Some(Grade::Conflict) {
        return Vec::new();
    }
    let best = |side| {
        let all = guesses(side, primary, secondary).into_iter();
        let weighed = all.map(|guess| (weight(&guess, witnesses), guess));
        weighed.max_by(|(odds, guess), (other_odds, other)| {
            odds.cmp(other_odds).then_with(|| other.offer().text().cmp(&guess.offer().text()))
        })
    };
    let mut found: Vec<(Odds, Guess)> =
        [Side::Secondary, Side::Primary].into_iter().filter_map(best).collect();
    found.sort_by(|(odds, _), (other, _)| other.cmp(odds));
    let slips = found.iter().enumerate().map(|(place, (_, guess))| {
        // The second offer has no witness of its own: whatever speaks, spoke for the first.
        let other = found.get(1).filter(|_| place == 0).map(|(_, other)| other);
        guess.slip(other.and_then(|other| because(guess, other, witnesses)))
    });
    slips.collect()
}

fn weight(guess: &Guess, witnesses: &[Witness<'_>]) -> Odds {
    let odds = print::weighed(guess.odds, &guess.primary, &guess.secondary);
    witnesses.iter().fold(odds, |odds, one| odds.times(one.weighs(&guess.primary, &guess.secondary)))
}

fn because(guess: &Guess, other: &Guess, witnesses: &[Witness<'_>]) -> Option<String> {
    let (meant, other) = ((&guess.primary, &guess.secondary), (&other.primary, &other.secondary));
    witnesses.iter().find_map(|one| one.because(meant, other))
}
