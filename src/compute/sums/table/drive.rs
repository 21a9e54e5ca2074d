//! Belt drive.

use crate::compute::sums::{BLANK, Sum, answer, one};
use crate::model::SignalWord::Warning;

const CLEAR: &str = "A running belt drive takes hands off and throws pieces: guard on, wheels clear on rated stands, nobody in line.";

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "slip",
        title: "Belt slip",
        answers_what: "How much a belt slips, from the speed over the ground.",
        inputs: &[
            one("speed", "speed measured", "km/h", "46 km/h"),
            one("theory", "speed by ratios and wheels", "km/h", "50 km/h"),
        ],
        must: &[("theory > 0 and speed >= 0", "speeds are above zero")],
        answers: &[answer("slip", "slips", "100 * (1 - speed / theory)", "%", 3)],
        notes: &[(
            "speed > theory",
            "Faster than it can be: look at the wheel's circumference and the ratios again.",
        )],
        formula: "slip % = 100 · (1 − v ÷ v by ratios)",
        source: "definition",
        cautions: &[(Warning, CLEAR)],
        ..BLANK
    },
    Sum {
        id: "belt",
        title: "Belt length",
        answers_what: "About how long an open belt over two pulleys is.",
        inputs: &[
            one("centres", "centre distance", "mm", "262 mm"),
            one("large", "diameter of the larger pulley", "mm", "220 mm"),
            one("small", "diameter of the smaller pulley", "mm", "110 mm"),
        ],
        must: &[
            ("large >= small and small > 0", "the larger pulley is the larger, and both are above zero"),
            ("2 * centres > large + small", "pulleys this close would touch"),
        ],
        answers: &[answer(
            "length",
            "about",
            "2 * centres + pi * (large + small) / 2 + (large - small) ^ 2 / (4 * centres)",
            "mm",
            4,
        )
        .like("centres")],
        formula: "L ≈ 2C + π(D + d) ÷ 2 + (D − d)² ÷ 4C",
        source: "Shigley, Mechanical Engineering Design, open belt (value from memory)",
        cautions: &[(Warning, CLEAR)],
        ..BLANK
    },
];
