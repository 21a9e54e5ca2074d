//! Compression and leak-down, and the air they depend on.

use crate::compute::sums::{BLANK, Group, PRACTICE, Sum, answer, many, one};
use crate::model::SignalWord::Warning;

const CRANK: &str = "Earth the plug or unplug the ignition before cranking, and keep the fuel off: a spark beside open fuel burns.";
const SPINS: &str =
    "Air in the cylinder spins the crank: lock it or stand clear, and take tools off it first.";

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "altitude",
        group: Group::Compression,
        title: "Compression at altitude",
        aka: &["height"],
        answers_what: "What a cranking compression given for sea level becomes where you stand.",
        inputs: &[
            one("limit", "compression at sea level, by gauge", "kPa", "150 psi"),
            one("height", "height above the sea", "m", "5000 ft"),
        ],
        steps: &[
            ("level", "6356766 * height / (6356766 + height)"),
            ("ratio", "(1 - 0.0065 * level / 288.15) ^ 5.255876"),
        ],
        must: &[
            ("limit > 0", "the compression is above zero"),
            (
                "height >= 0 - 500 and height <= 11000",
                "the formula holds from 500 m below the sea to 11 000 m above it",
            ),
        ],
        answers: &[
            answer("here", "here", "limit * ratio", "kPa", 4).like("limit"),
            answer("air", "the air itself", "101.325 * ratio", "kPa abs", 4),
            answer("share", "of sea level", "100 * ratio", "%", 4),
        ],
        notes: &[(
            "1",
            "A gauge reading scales with the pressure of the air, not with its density. If the manual says at which height its limit holds, start from there.",
        )],
        formula: "p = p₀ · (1 − 0.0065 · H ÷ 288.15)^5.255876, H geopotential",
        source: "ISO 2533, US Standard Atmosphere 1976 (150 psi: 134.4 at 3000 ft, 124.8 at 5000, 120.2 at 6000)",
        cautions: &[(Warning, CRANK)],
        ..BLANK
    },
    Sum {
        id: "spread",
        group: Group::Compression,
        title: "Compression side by side",
        answers_what: "How far cylinders differ.",
        inputs: &[
            many("readings", "compression of each cylinder, in order", "kPa", "1100 kPa, 1050 kPa"),
            one("allowed", "spread allowed", "%", "10 %").or("10 %"),
        ],
        must: &[
            ("smallest(readings) > 0", "readings are above zero"),
            ("count(readings) > 1", "it takes two cylinders to compare"),
        ],
        answers: &[
            answer(
                "spread",
                "spread",
                "100 * (largest(readings) - smallest(readings)) / largest(readings)",
                "%",
                3,
            )
            .words(&[
                (
                    "100 * (largest(readings) - smallest(readings)) / largest(readings) <= allowed",
                    "within what is allowed",
                ),
                ("1", "more than is allowed"),
            ]),
            answer(
                "below",
                "below the highest",
                "100 * (largest(readings) - one) / largest(readings)",
                "%",
                3,
            )
            .each("readings"),
        ],
        notes: &[(
            "1",
            "Two neighbours low: the head gasket between them. Readings of two different testers do not compare.",
        )],
        formula: "spread = 100 · (highest − lowest) ÷ highest",
        source: PRACTICE,
        cautions: &[(Warning, CRANK)],
        ..BLANK
    },
    Sum {
        id: "leak",
        group: Group::Compression,
        title: "Leak-down",
        aka: &["leak-down", "cylinder leakage"],
        answers_what: "How much air a cylinder loses.",
        inputs: &[
            one("supply", "pressure before the orifice", "kPa", "80 psi"),
            one("cylinder", "pressure at the cylinder", "kPa", "60 psi"),
        ],
        must: &[(
            "supply > 0 and cylinder >= 0 and cylinder <= supply",
            "the cylinder holds no more than is supplied",
        )],
        answers: &[answer("leak", "leaks", "100 * (supply - cylinder) / supply", "%", 3)],
        formula: "leak = 100 · (supply − cylinder) ÷ supply",
        source: "common practice, no source (80 and 60 psi give 25 %)",
        cautions: &[(Warning, SPINS)],
        ..BLANK
    },
    Sum {
        id: "together",
        group: Group::Compression,
        title: "Compression and leak-down together",
        answers_what: "Where to look, from cranking compression, leak-down and, if low, compression with a little oil.",
        inputs: &[
            one("reading", "cranking compression", "kPa", "780 kPa"),
            one("least", "least the manual allows where you stand", "kPa", "950 kPa"),
            one("leak", "leak-down, if measured", "%", "28 %").or(""),
            one("most", "most leak-down the manual allows", "%", "15 %").or(""),
            one("oiled", "compression with a spoon of oil, if tried", "kPa", "900 kPa").or(""),
        ],
        steps: &[
            ("low", "reading < least"),
            ("known", "given(leak)"),
            ("leaky", "if(known and given(most), leak > most, 0)"),
            ("wet", "if(given(oiled), oiled, reading)"),
            ("lifted", "wet > 1.1 * reading"),
        ],
        must: &[
            ("not known or given(most)", "say how much leak-down the manual allows"),
            (
                "reading > 0 and least > 0 and wet > 0 and (not known or leak >= 0 and leak <= 100)",
                "pressures are above zero, the leak is 0 to 100 %",
            ),
        ],
        answers: &[
            answer("below", "below the least", "100 * (least - reading) / least", "%", 3).when("low"),
            answer("above", "above the least", "100 * (reading - least) / least", "%", 3).when("not low"),
            answer("rise", "rise with oil", "100 * (wet - reading) / reading", "%", 3).when("given(oiled)"),
        ],
        notes: &[
            ("not low and known and not leaky", "Both are good: this cylinder seals."),
            ("not low and not known", "Compression is good; leak-down tells whether it seals."),
            (
                "low and known and not leaky and not lifted",
                "Low compression in a cylinder that seals: look at cam timing, the decompressor, and whether the throttle was held open.",
            ),
            (
                "low and known and not leaky and lifted",
                "Two tests disagree: oil lifts it as if the rings leaked, and by leak-down it seals. Measure again: throttle open, full cranking speed, the same tester, then leak-down with the piston at the top.",
            ),
            (
                "low and leaky",
                "It leaks: listen at the inlet (inlet valve), the exhaust (exhaust valve), the crankcase (rings, bore), and look for bubbles in the radiator (gasket).",
            ),
            (
                "not low and leaky",
                "Two tests disagree: it leaks, though it cranks well. Measure again with the piston at the top, then listen where the air goes.",
            ),
            ("low and (leaky or not known) and lifted", "Oil lifts it by more than 10 %: rings or bore."),
            (
                "low and leaky and given(oiled) and not lifted",
                "Oil changes little: valves or gasket rather than rings.",
            ),
            (
                "low and not known and given(oiled) and not lifted",
                "Oil changes little: valves, gasket or cam timing rather than rings.",
            ),
            ("low and not known", "Leak-down comes next: it tells a leak from cam timing or a decompressor."),
            (
                "not low and given(oiled)",
                "Oil tells something of a cylinder whose compression is low: of this one, nothing.",
            ),
            (
                "low",
                "High above the sea a sound engine reads low too: hold it against the limit at your height, by the sum of compression at altitude.",
            ),
        ],
        formula: "low: reading < least; leaky: leak > most; rings: low, leaky or not tested, and with oil > 1.1 · reading",
        source: PRACTICE,
        cautions: &[(Warning, CRANK), (Warning, SPINS)],
        ..BLANK
    },
];
