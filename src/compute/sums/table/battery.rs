//! Batteries, by kind, and what charges them.

use crate::compute::sums::{BLANK, Group, Sum, answer, many, one, word};
use crate::model::SignalWord::{Danger, Warning};

/// Lead-acid at rest, 12 V: volts, and how full it is.
const FLOODED: (&str, &[(&str, &str)]) =
    ("flooded_rest", &[("11.89", "0"), ("12.06", "25"), ("12.24", "50"), ("12.45", "75"), ("12.65", "100")]);
const AGM: (&str, &[(&str, &str)]) =
    ("agm_rest", &[("11.80", "0"), ("12.00", "25"), ("12.30", "50"), ("12.60", "75"), ("12.80", "100")]);
/// Least volts under load, by degrees Fahrenheit.
const LOAD: (&str, &[(&str, &str)]) = (
    "least_volts",
    &[
        ("0", "8.5"),
        ("10", "8.7"),
        ("20", "8.9"),
        ("30", "9.1"),
        ("40", "9.3"),
        ("50", "9.4"),
        ("60", "9.5"),
        ("70", "9.6"),
    ],
);

const KINDS: &[&str] = &["flooded", "agm", "lithium"];
const NOT_LITHIUM: (&str, &str) = (
    "kind != lithium",
    "a lithium iron battery holds nearly one voltage until it is empty: this table says nothing of it; use its maker's",
);
const GAS: &str = "A battery gives off hydrogen: no flame, no spark, eyes covered. The earth lead comes off first and goes on last.";

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "rest",
        group: Group::Battery,
        title: "Battery at rest",
        aka: &["state of charge", "resting voltage"],
        answers_what: "How full a 12 V lead battery is, from its voltage after hours of rest.",
        inputs: &[
            word("kind", "kind of battery", KINDS, "flooded"),
            one("volts", "voltage at rest", "V", "12.45 V"),
        ],
        tables: &[FLOODED, AGM],
        steps: &[("empty", "if(kind = agm, 11.80, 11.89)"), ("full", "if(kind = agm, 12.80, 12.65)")],
        must: &[
            NOT_LITHIUM,
            ("volts > 9 and volts < 15", "that is not the voltage of a 12 V battery at rest"),
            (
                "volts < 13.2",
                "that is the voltage of a battery being charged, or with its surface charge: let it rest, or load it for a moment",
            ),
        ],
        answers: &[answer(
            "charge",
            "charged to about",
            "if(volts >= full, 100, if(volts <= empty, 0, if(kind = agm, straight(agm_rest, volts), straight(flooded_rest, volts))))",
            "%",
            2,
        )],
        notes: &[
            (
                "volts < 12.4",
                "Charge it before any cranking or load test: a flat battery makes good parts look bad.",
            ),
            (
                "volts <= empty",
                "Left flat a lead battery sulphates: charge it soon, then test it under load.",
            ),
        ],
        formula: "straight line between the points of the table",
        source: "flooded: a battery maker's published table at 80 °F; AGM: value from memory, common practice, the maker's own table comes first",
        cautions: &[(Warning, GAS)],
    },
    Sum {
        id: "gravity",
        group: Group::Battery,
        title: "Hydrometer",
        aka: &["specific gravity", "acid density"],
        answers_what: "Specific gravity of each cell at 80 °F, and whether the cells are alike.",
        inputs: &[
            many("cells", "reading of each cell", "SG", "1.258 SG, 1.255 SG, 1.260 SG"),
            one("at", "temperature of the acid", "°F", "100 °F"),
        ],
        steps: &[("spread", "largest(cells) - smallest(cells)")],
        must: &[("smallest(cells) >= 1 and largest(cells) < 1.4", "acid reads between 1.000 and 1.400")],
        answers: &[
            answer("corrected", "corrected", "one + 0.004 * (at - 80) / 10", "SG", 4).each("cells"),
            answer("spread", "largest difference", "spread", "SG", 2),
        ],
        notes: &[
            (
                "spread > 0.025",
                "Cells more than 0.025 apart: the battery is unserviceable (US Army TM 9-6140-200-14).",
            ),
            (
                "1",
                "At 80 °F: 1.265 full, 1.225 three quarters, 1.190 half, 1.155 a quarter, 1.120 flat. The correction is for gravity alone, never for volts.",
            ),
        ],
        formula: "corrected = reading + 0.004 · (°F − 80) ÷ 10",
        source: "a battery maker's published table and rule (1.258 at 100 °F gives 1.266)",
        cautions: &[(Warning, "Acid burns: goggles and gloves, water at hand."), (Warning, GAS)],
        ..BLANK
    },
    Sum {
        id: "load",
        group: Group::Battery,
        title: "Battery under load",
        aka: &["cranking voltage", "load test"],
        answers_what: "What to load a 12 V lead battery with, and whether it held.",
        inputs: &[
            word("kind", "kind of battery", KINDS, "flooded"),
            one("cca", "cold-cranking current", "A CCA", "500 A CCA"),
            one("at", "temperature of the battery", "°F", "60 °F"),
            one("volts", "voltage at the end of 15 s", "V", "9.7 V").or(""),
        ],
        tables: &[LOAD],
        steps: &[("least", "if(at >= 70, 9.6, straight(least_volts, at))")],
        must: &[
            NOT_LITHIUM,
            ("cca > 0", "the cold-cranking current is above zero"),
            ("at >= 0", "below 0 °F the table says nothing: warm the battery first"),
        ],
        answers: &[
            answer("load", "load it for 15 s with", "cca / 2", "A", 3),
            answer("least", "it must hold at least", "least", "V", 3).words(&[
                ("not given(volts)", "measure at the end of the 15 s"),
                ("if(given(volts), volts, 0) >= least", "it held"),
                ("1", "it did not hold: charge it fully and test again, then replace it"),
            ]),
        ],
        notes: &[("1", "Only a battery charged to three quarters or more can be judged under load.")],
        formula: "load = CCA ÷ 2; least volts by temperature, straight between rows",
        source: "Battery Council International table, as reproduced in equipment literature (500 A CCA: 250 A; 9.6 V at 70 °F and above)",
        cautions: &[(Warning, GAS), (Warning, "Cables and clamps get hot under load. Stop at 15 s.")],
    },
    Sum {
        id: "rise",
        group: Group::Battery,
        title: "Does it charge",
        aka: &["charging voltage"],
        answers_what: "Whether the charging system lifts the battery's voltage, and into the span that fills it.",
        inputs: &[
            one("rest", "voltage at rest", "V", "12.6 V"),
            one("running", "voltage running, at the speed the manual gives", "V", "14.1 V"),
            one("nominal", "nominal voltage of the battery", "V", "12 V").or("12 V"),
        ],
        steps: &[
            ("rise", "running - rest"),
            ("hardly", "0.5 * nominal / 12"),
            ("least", "13.5 * nominal / 12"),
            ("most", "15.2 * nominal / 12"),
        ],
        must: &[
            ("nominal > 0 and running >= 0", "voltages are above zero"),
            (
                "rest > 0.6 * nominal and rest < 1.2 * nominal",
                "no battery of that nominal voltage rests there: say its nominal voltage, or charge it first",
            ),
        ],
        answers: &[
            answer("rise", "rise", "rise", "V", 3).words(&[
                ("running > most", "it overcharges"),
                ("rise < hardly", "too little: it does not charge"),
                ("running < least", "it rises, but does not charge fully"),
                ("1", "it charges"),
            ]),
            answer("least", "running, at least", "least", "V", 3),
            answer("most", "running, at most", "most", "V", 3),
        ],
        notes: &[
            (
                "rise < hardly and running <= most",
                "Measure the stator's V~ by phase next. Good V~ with poor DC points to the regulator or the wiring between.",
            ),
            (
                "rise >= hardly and running < least",
                "Too low to fill a battery: look at the belt, the speed, the regulator, the stator by phase, and what load is on. A flat battery holds the voltage down: charge it and measure again.",
            ),
            (
                "running > most",
                "Stop the engine: so high a voltage boils a battery, which gives off hydrogen and acid. Look at the regulator, its ground and its sensing lead.",
            ),
            (
                "1",
                "Lead batteries: 13.5 to 15.2 V where 12 V are nominal, others in proportion. The manual's own charging voltage comes first.",
            ),
        ],
        formula: "rise = running − rest, at least 0.5 V; running 13.5 to 15.2 V; both for 12 V nominal, else in proportion",
        cautions: &[
            (
                Danger,
                "Carbon monoxide: never run an engine indoors without extraction; open doors are no guarantee.",
            ),
            (Warning, GAS),
        ],
        ..BLANK
    },
    Sum {
        id: "stator",
        group: Group::Battery,
        title: "Stator by phase",
        answers_what: "Whether a stator's phases give alike, from the V~ between each two of its leads at one speed.",
        inputs: &[
            many("readings", "V~ between each two leads, regulator unplugged", "V~", "42 V~, 41 V~, 43 V~"),
            one("speed", "speed at which they were read", "rpm", "3000 rpm"),
            one("allowed", "difference allowed, of their mean", "%", "10 %").or("10 %"),
        ],
        must: &[
            ("count(readings) = 3", "three phases have three readings: 1-2, 2-3, 1-3"),
            (
                "smallest(readings) >= 0 and largest(readings) > 0",
                "readings are not below zero, and not all zero",
            ),
            ("speed > 0 and allowed > 0", "the speed and the difference allowed are above zero"),
        ],
        steps: &[(
            "unequal",
            "if(count(readings) = 3 and mean(readings) > 0, max(largest(readings) - mean(readings), mean(readings) - smallest(readings)) > mean(readings) * allowed / 100, 1)",
        )],
        answers: &[
            answer("each", "for each 1000 rpm", "one * 1000 / speed", "V~", 3).each("readings"),
            answer("off", "from the mean", "100 * (one - mean(readings)) / mean(readings)", "%", 2)
                .each("readings")
                .words(&[
                    ("abs(one - mean(readings)) <= mean(readings) * allowed / 100", "alike"),
                    ("one < mean(readings)", "low"),
                    ("1", "high"),
                ]),
        ],
        notes: &[
            (
                "not unequal",
                "The phases are equal: if they reach what the manual gives and the battery still gets too little, look at the regulator or the wiring between.",
            ),
            (
                "unequal",
                "The phases are unequal: stop, let it cool, and measure each winding's resistance and each lead against ground; look at the plug for burnt pins.",
            ),
            ("1", "V~ goes by speed: hold each reading against the manual's at its own speed."),
        ],
        formula: "V~ · 1000 ÷ rpm of each; 100 · (V~ − mean) ÷ mean, equal within 10 %",
        cautions: &[
            (
                Danger,
                "Carbon monoxide: never run an engine indoors without extraction; open doors are no guarantee.",
            ),
            (
                Warning,
                "An unplugged stator gives a shock: probes in place before the engine starts, hands off the leads, clear of belt and flywheel.",
            ),
        ],
        ..BLANK
    },
    Sum {
        id: "net",
        group: Group::Battery,
        title: "Current left for the battery",
        aka: &["charging balance"],
        answers_what: "What a stator leaves for the battery when everything is switched on.",
        inputs: &[
            one("stator", "stator output at that speed", "W", "300 W"),
            many("loads", "loads that are on", "W", "60 W, 35 W, 40 W"),
        ],
        must: &[("stator >= 0 and smallest(loads) >= 0", "powers are not below zero")],
        answers: &[answer("net", "left over", "(stator - sum(loads)) / 14", "A", 3).words(&[
            ("stator < sum(loads)", "the battery runs down at this speed"),
            ("1", "the battery gains"),
        ])],
        formula: "A = stator W ÷ 14 − Σ load W ÷ 14",
        ..BLANK
    },
    Sum {
        id: "refill",
        group: Group::Battery,
        title: "Hours to recharge",
        answers_what: "How long a charger takes to fill a lead battery.",
        inputs: &[
            one("capacity", "capacity", "A·h", "18 A·h"),
            one("charge", "charged to", "%", "50 %"),
            one("current", "charger", "A", "1.8 A"),
        ],
        must: &[(
            "capacity > 0 and current > 0 and charge >= 0 and charge <= 100",
            "capacity and current are above zero, the charge is 0 to 100 %",
        )],
        answers: &[answer("hours", "about", "capacity * (1 - charge / 100) * 1.15 / current", "h", 2)],
        notes: &[(
            "current > capacity * 0.25",
            "That is more than a quarter of the capacity in amperes: most lead batteries want a tenth. Look at the battery's label.",
        )],
        formula: "h = A·h · (1 − charge) · 1.15 ÷ A",
        cautions: &[
            (Warning, GAS),
            (
                Warning,
                "A lithium battery needs its own charger: the wrong one sets it on fire. Never charge a frozen or swollen battery.",
            ),
        ],
        ..BLANK
    },
    Sum {
        id: "drain",
        group: Group::Battery,
        title: "Days to half empty",
        aka: &["key-off drain", "parasitic draw"],
        answers_what: "How long a parked machine's battery lasts with the drain that was measured.",
        inputs: &[
            one("capacity", "capacity", "A·h", "18 A·h"),
            one("current", "drain at rest", "mA", "3.5 mA"),
        ],
        must: &[("capacity > 0 and current > 0", "capacity and drain are above zero")],
        answers: &[answer("days", "half empty after", "0.5 * capacity * 1000 / (24 * current)", "days", 2)],
        formula: "days = 0.5 · A·h · 1000 ÷ (24 · mA)",
        cautions: &[(
            Warning,
            "Connect the meter in series with the key off, and do not crank through it: its fuse blows, or its leads burn.",
        )],
        ..BLANK
    },
];
