//! Fuel: injectors, throttles side by side, trims, premix.

use crate::compute::sums::{BLANK, Sum, answer, many, one};
use crate::model::SignalWord::{Danger, Warning};

pub(super) const SUMS: &[Sum] = &[
    Sum {
        id: "duty",
        title: "Injector duty",
        answers_what: "How much of the time an injector is open: one squirt in two turns.",
        inputs: &[one("open", "time open", "ms", "9 ms"), one("speed", "engine speed", "rpm", "8000 rpm")],
        must: &[("open > 0 and speed > 0", "time and speed are above zero")],
        answers: &[answer("duty", "duty", "open * speed / 1200", "%", 3).words(&[
            ("open * speed / 1200 > 100", "it cannot be: the time is longer than two turns"),
            ("open * speed / 1200 > 85", "over 85 %: at its limit"),
            ("1", "within what an injector does"),
        ])],
        formula: "duty % = ms · rpm ÷ 1200",
        source: "two turns last 120 000 ÷ rpm milliseconds: arithmetic; 85 % common practice, no source",
        ..BLANK
    },
    Sum {
        id: "flow",
        title: "Injector flow at another pressure",
        answers_what: "What an injector flows when the fuel pressure across it changes.",
        inputs: &[
            one("flow", "flow", "mL/min", "180 mL/min"),
            one("from", "at pressure", "kPa", "300 kPa"),
            one("to", "at the other pressure", "kPa", "350 kPa"),
        ],
        must: &[("flow > 0 and from > 0 and to > 0", "flow and pressures are above zero")],
        answers: &[answer("flow", "flows", "flow * sqrt(to / from)", "mL/min", 4).like("flow")],
        formula: "flow₂ = flow₁ · √(p₂ ÷ p₁)",
        source: "flow through an orifice (Bernoulli)",
        cautions: &[(
            Warning,
            "Fuel under pressure sprays and burns, and injected fuel pierces skin: let the pressure down first.",
        )],
        ..BLANK
    },
    Sum {
        id: "balance",
        title: "Throttles side by side",
        aka: &["carburettor synchronising", "synchronisation"],
        answers_what: "How far each throttle body or carburettor lies from their mean.",
        inputs: &[many("readings", "vacuum of each, in order", "kPa", "28 kPa, 31 kPa")],
        must: &[("count(readings) > 1 and smallest(readings) > 0", "it takes two readings above zero")],
        answers: &[
            answer("off", "off the mean by", "100 * (one - mean(readings)) / mean(readings)", "%", 3)
                .each("readings"),
            answer("mean", "mean", "mean(readings)", "kPa", 3).like("readings"),
        ],
        formula: "100 · (p − mean) ÷ mean",
        source: "arithmetic",
        cautions: &[(
            Danger,
            "Carbon monoxide: never run an engine indoors without extraction; open doors are no guarantee.",
        )],
        ..BLANK
    },
    Sum {
        id: "trim",
        title: "Fuel trims together",
        answers_what: "What short and long fuel trim make together.",
        inputs: &[one("short", "short trim", "%", "4 %"), one("long", "long trim", "%", "8 %")],
        must: &[("short > 0 - 100 and long > 0 - 100", "a trim is above −100 %")],
        answers: &[answer("total", "together", "100 * ((1 + short / 100) * (1 + long / 100) - 1)", "%", 3)],
        formula: "total = (1 + short)(1 + long) − 1",
        source: "arithmetic",
        ..BLANK
    },
    Sum {
        id: "premix",
        title: "Premix",
        aka: &["fuel oil ratio", "two-stroke mix"],
        answers_what: "How much oil goes into the fuel of a two-stroke.",
        inputs: &[one("ratio", "fuel to oil", ":1", "40:1"), one("fuel", "fuel", "mL", "5 L")],
        must: &[("ratio > 0 and fuel > 0", "ratio and fuel are above zero")],
        answers: &[
            answer("oil", "oil", "fuel / ratio", "mL", 3),
            answer("percent", "of the fuel", "100 / ratio", "%", 3),
        ],
        notes: &[(
            "ratio < 16 or ratio > 100",
            "Ratios lie between 16:1 and 100:1: look at the manual again.",
        )],
        formula: "oil = fuel ÷ ratio; % = 100 ÷ ratio",
        source: "arithmetic; 16:1 to 100:1 common practice, no source",
        cautions: &[(
            Warning,
            "Petrol vapour burns: mix outdoors, away from flames, in a can made for it and stood on the ground.",
        )],
        ..BLANK
    },
];
