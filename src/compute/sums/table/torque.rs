//! Torque, threads and screw adjusters.

use crate::compute::sums::{Answer, BLANK, Group, Sum, answer, many, number, one};
use crate::model::SignalWord::{Notice, Warning};

/// What a wrench is good for, of its largest mark.
const COVERS: Answer =
    answer("share", "share of its scale", "100 * torque / one", "%", 3).each("wrenches").words(&[
        ("torque > one", "does not reach it"),
        ("torque < one * from / 100", "reaches it, but below its accurate span"),
        ("1", "covers it in its accurate span"),
    ]);

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "adapter",
        group: Group::Torque,
        title: "Torque with an adapter",
        aka: &["crowfoot", "extension"],
        answers_what: "What to set a torque wrench to when an adapter stands between it and the bolt.",
        inputs: &[
            one("torque", "torque at the bolt", "N·m", "80 N·m"),
            one("wrench", "wrench, square to the middle of the grip", "mm", "40 cm"),
            one("adapter", "adapter, square to the bolt", "mm", "5 cm"),
            one("angle", "angle of the adapter, 0° straight on", "°", "0°").or("0°"),
        ],
        steps: &[("lever", "wrench + adapter * cos(angle)")],
        must: &[
            ("torque > 0 and wrench > 0 and adapter >= 0", "torque and lengths are above zero"),
            ("lever > 0", "the adapter folds back past the grip: no setting gives that torque"),
        ],
        answers: &[answer("set", "set the wrench to", "torque * wrench / lever", "N·m", 3).like("torque")],
        notes: &[
            ("cos(angle) = 0", "Square to the wrench, the adapter changes nothing: set the full torque."),
            ("cos(angle) < 0", "The adapter folds back towards the grip: the setting is above the torque."),
            (
                "adapter > wrench",
                "The adapter is longer than the wrench: a small slip of the hand is a large one at the bolt.",
            ),
        ],
        formula: "S = T · L ÷ (L + E · cos θ)",
        source: "US Navy, NAVEDTRA 14315 (the straight adapter: 100, 12, 6 gives 66.7); the cosine by statics",
        cautions: &[
            (
                Warning,
                "A wrong torque loosens a wheel or breaks a bolt. Pull at the middle of the grip, square to the wrench, and check the setting with a second person where the bolt is critical.",
            ),
            (Notice, "Some printed tables state the rule for 0° and 90° the wrong way round."),
        ],
        ..BLANK
    },
    Sum {
        id: "wrench",
        group: Group::Torque,
        title: "Which wrench covers a torque",
        answers_what: "Which of your wrenches reads a torque in the span where it is accurate.",
        inputs: &[
            one("torque", "torque", "N·m", "18 N·m"),
            many("wrenches", "largest mark of each wrench", "N·m", "10 N·m, 50 N·m, 200 N·m"),
            one("from", "accurate from, of the largest mark", "%", "20 %").or("20 %"),
        ],
        must: &[("torque > 0 and smallest(wrenches) > 0", "torque and marks are above zero")],
        answers: &[COVERS],
        formula: "share = 100 · T ÷ largest mark; accurate from 20 % to 100 %",
        source: "ISO 6789 tests a setting tool at 20, 60 and 100 % of its largest value (value from memory); class A ±4 % above 10 N·m, ±6 % to 10 N·m",
        cautions: &[(
            Warning,
            "Below its accurate span a click wrench may click late or never, and the bolt breaks or strips. Have wrenches calibrated by their maker's interval.",
        )],
        ..BLANK
    },
    Sum {
        id: "advance",
        group: Group::Torque,
        title: "Turn of a torque angle",
        aka: &["torque to angle"],
        answers_what: "How far a bolt or nut moves along its thread when it is turned by an angle.",
        inputs: &[one("pitch", "pitch of the thread", "mm", "1.25 mm"), one("angle", "angle", "°", "90°")],
        must: &[("pitch > 0 and angle >= 0", "pitch and angle are above zero")],
        answers: &[
            answer("advance", "moves by", "pitch * angle / 360", "mm", 4).like("pitch"),
            answer("turns", "turns", "angle / 360", "turns", 3),
        ],
        notes: &[(
            "pitch * angle / 360 > 1",
            "More than 1 mm of stretch is beyond what practice knows: look at the angle again.",
        )],
        formula: "s = P · θ ÷ 360",
        source: "geometry of a screw (M10×1.25 by 90° gives 0.3125 mm)",
        cautions: &[(
            Warning,
            "Bolts tightened by angle are often for one use only: look in the maker's current manual.",
        )],
        ..BLANK
    },
    Sum {
        id: "proof",
        group: Group::Torque,
        title: "Torque a steel thread can take",
        aka: &["torque by thread size"],
        answers_what: "About which torque a steel bolt in steel stands, where the manual gives none: a check, not a setting.",
        inputs: &[
            one("diameter", "thread diameter", "mm", "8 mm"),
            one("pitch", "pitch; of 16 threads an inch, 1/16 in", "mm", "1.25 mm"),
            one("strength", "proof strength of its class", "MPa", "580 MPa"),
            number("friction", "friction factor K", "0.20").or("0.20"),
            one("share", "share of the proof load", "%", "75 %").or("75 %"),
        ],
        steps: &[
            ("per_inch", "if(pitch > 0, 25.4 / pitch, 0)"),
            ("unified", "per_inch <= 80 and abs(per_inch - floor(per_inch + 0.5)) < 0.05"),
            ("area", "pi / 4 * (diameter - if(unified, 0.9743, 13 * sqrt(3) / 24) * pitch) ^ 2"),
            ("load", "area * strength * share / 100"),
        ],
        must: &[
            (
                "diameter > 0 and pitch > 0 and pitch < diameter",
                "the pitch is above zero and below the diameter",
            ),
            ("strength > 0 and friction > 0 and share > 0", "strength, friction and share are above zero"),
        ],
        answers: &[
            answer("torque", "about", "friction * diameter * load / 1000", "N·m", 3),
            answer("low", "at K 0.15", "0.15 * diameter * load / 1000", "N·m", 3),
            answer("high", "at K 0.30", "0.30 * diameter * load / 1000", "N·m", 3),
            answer("area", "stress area", "area", "mm²", 4)
                .words(&[("unified", "of a unified inch thread"), ("1", "of a metric thread")]),
        ],
        notes: &[
            (
                "not unified and diameter > 16 and strength = 580",
                "Above M16 the proof strength of class 8.8 is 600 MPa, not 580: type 600 MPa (ISO 898-1).",
            ),
            (
                "unified",
                "Proof strength of unified bolts: grade 2 55 000 psi, 5 85 000, 8 120 000, each up to the size that its table names (SAE J429).",
            ),
            (
                "1",
                "K: black 0.30, zinc 0.20, lubricated 0.18, anti-seize 0.12 (Shigley). Proof strength: 8.8 580 MPa to M16 and 600 above, 9.8 650, 10.9 830, 12.9 970 (ISO 898-1).",
            ),
        ],
        formula: "A = π/4 · (d − 13√3/24 · P)², of an inch thread π/4 · (d − 0.9743 · P)²; T = K · d · share · proof strength · A",
        source: "ISO 724 and ISO 898-1 for area and strength; the area of unified inch threads, whose pitch is a whole part of an inch, by ASME B1.1; T = K·d·F, Shigley, Mechanical Engineering Design",
        cautions: &[(
            Warning,
            "For steel in steel only. Threads in light alloy, plugs, jets and hollow bolts take far less. The maker's torque comes first.",
        )],
        ..BLANK
    },
    Sum {
        id: "turn",
        group: Group::Screw,
        title: "Turn of a screw adjuster",
        aka: &["adjuster screw"],
        answers_what: "How far to turn the adjusting screw of a rocker to bring the lash to where it should be.",
        inputs: &[
            one("measured", "lash as measured", "mm", "0.15 mm"),
            one("target", "lash wanted", "mm", "0.10 mm"),
            one("pitch", "pitch of the screw", "mm", "0.75 mm"),
            number(
                "ratio",
                "rocker ratio, valve side to screw side; 1 where the lash is measured at the screw",
                "1",
            )
            .or("1"),
        ],
        steps: &[("turn", "360 * (measured - target) / (pitch * ratio)")],
        must: &[
            (
                "measured >= 0 and target > 0 and pitch > 0 and ratio > 0",
                "no lash is below zero; target, pitch and ratio are above it",
            ),
            (
                "measured > 0",
                "at 0 nobody knows how tight it is: back the screw out until there is lash, then measure again",
            ),
        ],
        answers: &[
            answer("angle", "turn the screw by", "abs(turn)", "°", 3).words(&[
                ("turn > 0", "in: the lash is loose"),
                ("turn < 0", "out: the lash is tight"),
                ("1", "leave it"),
            ]),
            answer("turns", "in turns", "abs(turn) / 360", "turns", 3),
        ],
        notes: &[("abs(turn) > 360", "More than a full turn: measure again before turning.")],
        formula: "θ = 360 · (lash − target) ÷ (P · ratio)",
        source: "geometry of a screw (pitch 0.5 mm: 36° for 0.05 mm; 0.75: 24°; 1.0: 18°)",
        cautions: &[(
            Notice,
            "Hold the screw while the lock nut is tightened, turn the crank two full turns in its own direction, and measure again: the nut moves the screw.",
        )],
        ..BLANK
    },
    Sum {
        id: "size",
        group: Group::Screw,
        title: "One shim",
        aka: &["which shim"],
        answers_what: "Which shim brings one valve to its target, and what lash the sizes that exist leave.",
        inputs: &[
            one("measured", "lash as measured", "mm", "0.09 mm"),
            one("fitted", "shim that is in it", "mm", "2.60 mm"),
            one("target", "lash wanted", "mm", "0.15 mm"),
            one("least", "least lash allowed", "mm", "0.10 mm").or(""),
            one("most", "most lash allowed", "mm", "0.20 mm").or(""),
            one("step", "step of the sizes", "mm", "0.05 mm").or("0.05 mm"),
            one("from", "a size of the set, where they are no multiples of the step", "mm", "0 mm")
                .or("0 mm"),
        ],
        steps: &[
            ("room", "fitted + measured"),
            ("wanted", "room - target"),
            ("below", "if(step > 0, from + floor((wanted - from) / step) * step, 0)"),
            ("above", "if(below = wanted, below, below + step)"),
            ("looser", "room - below"),
            ("tighter", "room - above"),
            (
                "tighter_fits",
                "tighter > 0 and (not given(least) or tighter >= least) and (not given(most) or tighter <= most)",
            ),
            ("looser_fits", "(not given(least) or looser >= least) and (not given(most) or looser <= most)"),
            ("nearer_above", "target - tighter < looser - target"),
        ],
        must: &[
            ("measured > 0", "at 0 nobody knows how tight it is: fit a thinner shim and measure again"),
            (
                "fitted > 0 and target > 0 and step > 0 and wanted > 0 and from >= 0",
                "the sizes are above zero",
            ),
            (
                "if(given(least), least <= target, 1) and if(given(most), most >= target, 1)",
                "the lash wanted lies within the lash allowed",
            ),
        ],
        answers: &[
            answer("wanted", "shim wanted", "wanted", "mm", 4).like("fitted"),
            answer("below", "size there is, or the next thinner", "below", "mm", 4)
                .like("fitted")
                .when("below > 0")
                .words(&[
                    ("above = below", "that very size"),
                    ("nearer_above", "the farther from the lash wanted"),
                    ("1", "the nearest to the lash wanted"),
                ]),
            answer("looser", "leaves", "looser", "mm", 3).like("measured").when("below > 0").words(&[
                ("not looser_fits", "too loose"),
                ("given(least) or given(most)", "within what is allowed"),
            ]),
            answer("above", "next thicker size", "above", "mm", 4)
                .like("fitted")
                .when("above != below")
                .words(&[
                    ("nearer_above", "the nearest to the lash wanted"),
                    ("1", "the farther from the lash wanted"),
                ]),
            answer("tighter", "leaves", "tighter", "mm", 3).like("measured").when("above != below").words(&[
                ("tighter <= 0", "no lash at all: the valve would stay open and burn"),
                ("not tighter_fits", "too tight"),
                ("given(least) or given(most)", "within what is allowed"),
            ]),
        ],
        notes: &[
            (
                "not looser_fits and not tighter_fits",
                "No size of this step leaves a lash that is allowed, as the step is wider than that: look for half sizes.",
            ),
            (
                "not given(least) or not given(most)",
                "A step no wider than the window always has a size that fits, a wider one may have none: give the least and the most lash.",
            ),
        ],
        formula: "new = fitted + measured − target; a size leaves fitted + measured − size",
        source: "the shim takes up what the gap loses: geometry (2.60 + 0.09 − 0.15 gives 2.54; the 2.55 leaves 0.14)",
        cautions: &[(
            Notice,
            "Measure each shim with a micrometer, whatever is marked on it, and measure the lash again after two full turns of the crank in its own direction.",
        )],
        ..BLANK
    },
];
