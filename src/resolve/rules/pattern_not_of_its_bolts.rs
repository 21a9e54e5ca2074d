//! `pattern-not-of-its-bolts`: an order with a bolt left out or drawn twice warps what it clamps.

use crate::diag::{Finding, Rule};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "pattern_not_of_its_bolts",
    "pattern-not-of-its-bolts",
    Error,
    Physics,
    "a bolt pattern is not that of the bolts it is drawn for"
);

/// As many centres as the fastener has bolts.
pub fn count(pattern: Span, centres: usize, bolts: usize, fastener: Span) -> Finding {
    let help = "give one centre for each bolt, in tightening order, or correct the `count`";
    let message =
        format!("the pattern has {}, and the fastener {}", many(centres, "centre"), many(bolts, "bolt"));
    Finding::new(&RULE, pattern, message, help).with(fastener, "the fastener is here")
}

fn many(number: usize, what: &str) -> String {
    format!("{number} {what}{}", if number == 1 { "" } else { "s" })
}

/// Two bolts on one spot.
pub fn twice(centre: Span, typed: &str, first: Span) -> Finding {
    let help = "look at the drawing again: the sign of one of its numbers, or a bolt that is listed twice";
    Finding::new(&RULE, centre, format!("two bolts stand at `{typed}`"), help)
        .with(first, "the first is here")
}

/// A bolt farther away than any engine is long.
pub fn far(centre: Span, typed: &str, farthest: f64) -> Finding {
    let message = format!("a bolt stands at `{typed}`, more than {farthest} mm from the middle");
    Finding::new(&RULE, centre, message, "write the centre in millimetres from the middle of the pattern")
}

/// A pattern of something that is not tightened.
pub fn of_no_bolts(pattern: Span) -> Finding {
    let message = "a bolt pattern stands with a value that is no torque, and names no fastener";
    Finding::new(
        &RULE,
        pattern,
        message,
        "move the pattern to the torque of its bolts, or add their `fastener`",
    )
}
