//! Sensors: curves both ways, and whether sensors agree after a night.

use crate::compute::sums::{BLANK, Group, Input, Sort, Sum, answer, many, one};
use crate::model::SignalWord::{Caution, Notice};

const NTC_POINTS: Input = Input {
    key: "points",
    title: "points of the manual, temperature = resistance",
    sort: Sort::Points { at: "°C", unit: "Ω" },
    unless: None,
    example: "20 °C = 2.45 kΩ, 80 °C = 318 Ω",
};

const LINE_POINTS: Input = Input {
    key: "points",
    title: "points of the manual, pressure = voltage",
    sort: Sort::Points { at: "kPa abs", unit: "V" },
    unless: None,
    example: "20 kPa abs = 0.5 V, 100 kPa abs = 4.1 V",
};

const NTC: &str = "R = R₀ · exp[β(1/T − 1/T₀)] between two points: ln R is a straight line over 1/T; a component maker's generic 10 kΩ table agrees within 0.2 % between points 20 K apart";

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "resistance",
        group: Group::Sensor,
        title: "Resistance of a temperature sensor",
        aka: &["thermistor"],
        answers_what: "What a thermistor should read at a temperature, between the points the manual gives.",
        inputs: &[NTC_POINTS, one("at", "temperature", "°C", "50 °C")],
        answers: &[answer("reads", "should read", "thermistor(points, at)", "Ω", 4)],
        formula: "ln R straight over 1/T between two points; nothing beyond them",
        source: NTC,
        cautions: &[(
            Notice,
            "Unplug the sensor before measuring its resistance; a powered circuit gives a wrong reading and can hurt the meter.",
        )],
        ..BLANK
    },
    Sum {
        id: "temperature",
        group: Group::Sensor,
        title: "Temperature from a resistance",
        aka: &["thermistor"],
        answers_what: "Which temperature a thermistor reports by its resistance, between the points the manual gives.",
        inputs: &[NTC_POINTS, one("reads", "resistance", "Ω", "1.2 kΩ")],
        must: &[("reads > 0", "the resistance is above zero")],
        answers: &[answer("at", "is", "back_thermistor(points, reads)", "°C", 4)],
        formula: "ln R straight over 1/T between two points; nothing beyond them",
        source: NTC,
        cautions: &[(Caution, "A hot sensor sits in hot coolant: let the engine cool before taking it out.")],
        ..BLANK
    },
    Sum {
        id: "voltage",
        group: Group::Sensor,
        title: "Voltage of a pressure sensor",
        answers_what: "What a manifold pressure sensor should give at a pressure: a straight line between points.",
        inputs: &[LINE_POINTS, one("at", "pressure", "kPa abs", "60 kPa abs")],
        answers: &[answer("reads", "should read", "straight(points, at)", "V", 4)],
        formula: "straight line between two points; nothing beyond them",
        source: "linear interpolation",
        cautions: &[(
            Notice,
            "Key on, engine off, the sensor should read the pressure of the air around it.",
        )],
        ..BLANK
    },
    Sum {
        id: "pressure",
        group: Group::Sensor,
        title: "Pressure from a voltage",
        answers_what: "Which pressure a manifold sensor reports by its voltage.",
        inputs: &[LINE_POINTS, one("reads", "voltage", "V", "2.3 V")],
        answers: &[answer("at", "is", "back_straight(points, reads)", "kPa abs", 4)],
        formula: "straight line between two points; nothing beyond them",
        source: "linear interpolation",
        ..BLANK
    },
    Sum {
        id: "soak",
        group: Group::Sensor,
        title: "Sensors after a night",
        aka: &["cold soak"],
        answers_what: "Whether sensors that stood together overnight agree with the shop and with one another.",
        inputs: &[
            one("shop", "temperature of the shop", "°C", "62 °F"),
            many("sensors", "what each sensor reports", "°C", "62 °F, 61 °F"),
            one("allowed", "difference allowed", "K", "3 K").or("3 K"),
        ],
        must: &[("allowed > 0", "the difference allowed is above zero")],
        answers: &[
            answer("off", "off by", "one - shop", "K", 3)
                .like("shop")
                .each("sensors")
                .words(&[("abs(one - shop) <= allowed", "agrees"), ("1", "does not agree")]),
            answer(
                "spread",
                "largest difference between sensors",
                "largest(sensors) - smallest(sensors)",
                "K",
                3,
            )
            .like("shop"),
        ],
        notes: &[
            (
                "largest(sensors) - smallest(sensors) <= allowed and abs(largest(sensors) - shop) <= allowed and abs(smallest(sensors) - shop) <= allowed",
                "All agree: none is off at this temperature. A sensor can still be off when hot.",
            ),
            (
                "largest(sensors) - smallest(sensors) > allowed",
                "They differ from one another: compare the odd one with the manual's table before replacing it.",
            ),
        ],
        formula: "difference = sensor − shop",
        source: "common practice, no source; 3 K covers the usual tolerance of two sensors and a thermometer",
        cautions: &[(
            Notice,
            "Only after the machine stood cold overnight: starting it once voids the comparison for hours.",
        )],
        ..BLANK
    },
    Sum {
        id: "copper",
        group: Group::Sensor,
        title: "Winding resistance at 20 °C",
        aka: &["winding at temperature"],
        answers_what: "What a copper winding would read at 20 °C, from what it reads warm or cold.",
        inputs: &[
            one("resistance", "resistance as read", "Ω", "0.62 Ω"),
            one("at", "temperature of the winding", "°C", "35 °C"),
        ],
        must: &[(
            "resistance > 0 and at > 0 - 234.5",
            "the resistance is above zero, and copper is a metal there",
        )],
        answers: &[answer("cold", "at 20 °C", "resistance * 254.5 / (234.5 + at)", "Ω", 4).like("resistance")],
        formula: "R₂₀ = R · 254.5 ÷ (234.5 + T)",
        source: "copper, 234.5 °C (IEC 60034-1; value from memory)",
        ..BLANK
    },
];
