//! What is left of a part, and of a coolant.

use crate::compute::sums::{BLANK, Sum, alike, answer, one};
use crate::model::SignalWord::Warning;

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "wear",
        title: "Hours left of a wearing part",
        aka: &["remaining life"],
        answers_what: "When a part reaches its wear limit, if it goes on wearing as it did: mm, %, kPa, g or what it is measured in.",
        inputs: &[
            alike("previous", "measured last time", "previous", "4.2 mm"),
            alike("now", "measured now", "previous", "3.6 mm"),
            alike("limit", "wear limit", "previous", "3.0 mm"),
            one("between", "hours between the two", "h", "80 h"),
        ],
        must: &[
            ("between > 0", "the hours are above zero"),
            ("previous != now", "nothing wore between the two: nothing can be said"),
            (
                "(previous - now) * (now - limit) >= 0",
                "it is past its limit, or it wears away from it: measure again",
            ),
        ],
        answers: &[answer("hours", "left", "(now - limit) / (previous - now) * between", "h", 2)],
        notes: &[("1", "Two measurements make a line, not a promise: measure again at half of this.")],
        formula: "h = (now − limit) ÷ (previous − now) · Δh",
        source: "straight line through two measurements: arithmetic",
        cautions: &[(Warning, "Never plan brake, steering or wheel parts to their last hour.")],
        ..BLANK
    },
    Sum {
        id: "coolant",
        title: "Coolant made stronger",
        aka: &["antifreeze strength"],
        answers_what: "How much to drain and refill neat, to bring a coolant to the strength it should have.",
        inputs: &[
            one("volume", "volume of the system", "L", "2.4 L"),
            one("has", "strength it has", "%", "35 %"),
            one("wants", "strength it should have", "%", "50 %"),
        ],
        must: &[
            ("volume > 0", "the volume is above zero"),
            (
                "has >= 0 and wants > has and wants < 100",
                "the strength wanted lies above the strength it has, and below 100 %",
            ),
        ],
        answers: &[answer("drain", "drain, and refill neat", "volume * (wants - has) / (100 - has)", "L", 3)
            .like("volume")],
        notes: &[("wants > 60", "Above 60 % most coolants protect less, not more: look at their label.")],
        formula: "drain = V · (c₂ − c₁) ÷ (1 − c₁)",
        source: "balance of what is in the mixture: arithmetic",
        cautions: &[(
            Warning,
            "Never open a hot cap. Coolant is poison and tastes sweet: keep it from children and animals.",
        )],
        ..BLANK
    },
];
