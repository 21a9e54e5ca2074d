//! Crank angle and piston travel, and the frequency of a generator.

use crate::compute::sums::{BLANK, Sum, answer, one};
use crate::model::SignalWord::{Danger, Notice};

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "travel",
        title: "Piston travel from crank angle",
        aka: &["ignition timing by piston"],
        answers_what: "How far the piston stands from the top at an angle of the crank, as for the timing of a two-stroke.",
        inputs: &[
            one("stroke", "stroke", "mm", "54 mm"),
            one("rod", "connecting rod, centre to centre", "mm", "105 mm"),
            one("angle", "crank angle from the top", "°", "20°"),
        ],
        steps: &[("radius", "stroke / 2")],
        must: &[("stroke > 0 and rod > stroke / 2", "the rod is longer than half the stroke")],
        answers: &[answer(
            "travel",
            "from the top",
            "radius + rod - radius * cos(angle) - sqrt(rod ^ 2 - radius ^ 2 * sin(angle) ^ 2)",
            "mm",
            4,
        )
        .like("stroke")],
        formula: "x = r + l − r · cos θ − √(l² − r² · sin² θ)",
        source: "geometry of the slider crank",
        cautions: &[(
            Notice,
            "Turn the crank only in its own direction; a dial gauge in the plug hole must stand along the bore.",
        )],
        ..BLANK
    },
    Sum {
        id: "angle",
        title: "Crank angle from piston travel",
        answers_what: "Which crank angle a distance of the piston from the top is.",
        inputs: &[
            one("stroke", "stroke", "mm", "54 mm"),
            one("rod", "connecting rod, centre to centre", "mm", "105 mm"),
            one("travel", "distance from the top", "mm", "1.8 mm"),
        ],
        steps: &[("radius", "stroke / 2"), ("reach", "radius + rod - travel")],
        must: &[
            ("stroke > 0 and rod > stroke / 2", "the rod is longer than half the stroke"),
            ("travel >= 0 and travel <= stroke", "the piston moves no further than its stroke"),
        ],
        answers: &[answer(
            "angle",
            "crank angle",
            "acos((radius ^ 2 + reach ^ 2 - rod ^ 2) / (2 * radius * reach))",
            "°",
            4,
        )],
        formula: "cos θ = (r² + a² − l²) ÷ (2 · r · a), a = r + l − x",
        source: "geometry of the slider crank (law of cosines)",
        cautions: &[(
            Notice,
            "Turn the crank only in its own direction; a dial gauge in the plug hole must stand along the bore.",
        )],
        ..BLANK
    },
    Sum {
        id: "hertz",
        title: "Generator frequency",
        aka: &["frequency by speed"],
        answers_what: "Which frequency a generator gives at a speed.",
        inputs: &[one("speed", "speed", "rpm", "3750 rpm"), one("poles", "poles", "poles", "2 poles")],
        must: &[("speed > 0 and poles > 0", "speed and poles are above zero")],
        answers: &[answer("frequency", "gives", "speed * poles / 120", "Hz", 3)],
        formula: "Hz = rpm · poles ÷ 120",
        source: "two poles give one cycle a turn: geometry",
        cautions: &[(
            Danger,
            "A generator kills, and feeds back into the house: never connect it to wiring without a transfer switch. Carbon monoxide: run it outdoors.",
        )],
        ..BLANK
    },
    Sum {
        id: "droop",
        title: "Generator droop",
        answers_what: "How much faster a generator turns without load.",
        inputs: &[
            one("unloaded", "speed without load", "rpm", "3120 rpm"),
            one("loaded", "speed at full load", "rpm", "3000 rpm"),
        ],
        must: &[("loaded > 0 and unloaded > 0", "speeds are above zero")],
        answers: &[answer("droop", "droop", "100 * (unloaded - loaded) / loaded", "%", 3).words(&[
            ("unloaded < loaded", "it turns faster under load: the speeds are mixed up, or it hunts"),
            ("100 * (unloaded - loaded) / loaded > 7", "more than the usual 1 to 7 %: look at the governor"),
            ("100 * (unloaded - loaded) / loaded < 1", "less than the usual 1 to 7 %: it may hunt"),
            ("1", "the usual 1 to 7 %"),
        ])],
        formula: "droop % = 100 · (n₀ − n₁) ÷ n₁",
        source: "definition; 1 to 7 % common practice, no source",
        ..BLANK
    },
];
