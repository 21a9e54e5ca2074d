//! One ordinary engine: a size is drawn, and what depends on it follows, with the spread that makers differ by.

use std::fmt::Write as _;

use super::drawing::Drawing;
use super::printing::{KPA, LITRE, MM, NM, alone};

/// One statement, as typed.
struct Spec {
    of: &'static str,
    /// `where`, `when`, `fastener`: the lines between.
    more: String,
    /// Key and printed forms.
    forms: Vec<(&'static str, Vec<String>)>,
}

/// An engine to be written into a base.
pub struct Engine {
    pub id: String,
    layout: String,
    specs: Vec<Spec>,
}

impl Engine {
    pub fn has(&self, of: &str) -> bool {
        self.specs.iter().any(|spec| spec.of == of)
    }

    /// Ten times the value in each of its forms, as of a statement whose point was moved and then converted.
    pub fn move_point(&mut self, of: &str) {
        let spec = self.specs.iter_mut().find(|spec| spec.of == of).expect("it has one");
        for text in spec.forms.iter_mut().flat_map(|(_, forms)| forms) {
            let words = text.split(' ').map(|word| {
                let ends = word.split("..").map(ten_times).collect::<Vec<_>>();
                ends.join("..")
            });
            *text = words.collect::<Vec<_>>().join(" ");
        }
    }

    pub fn text(&self) -> String {
        let id = &self.id;
        let mut text = format!(
            "id = \"{id}\"\nmaker = \"fleet\"\ntitle = \"{id}\"\nlayout = {{ {} }}\n\
             defaults = {{ source = \"manual\", read_by = \"mk\" }}\n",
            self.layout
        );
        for (page, spec) in self.specs.iter().enumerate() {
            let page = page + 1;
            write!(text, "\n[[spec]]\nof = \"{}\"\n{}page = \"{page}\"\n", spec.of, spec.more)
                .expect("a string");
            for (key, forms) in &spec.forms {
                let quoted: Vec<_> = forms.iter().map(|form| format!("\"{form}\"")).collect();
                if *key == "text" {
                    writeln!(text, "text = {}", quoted[0]).expect("a string");
                } else {
                    writeln!(text, "{key} = [{}]", quoted.join(", ")).expect("a string");
                }
            }
        }
        text
    }
}

fn ten_times(word: &str) -> String {
    match (word.split_once('.'), word.parse::<f64>()) {
        (Some((whole, part)), Ok(_)) => {
            let digits = format!("{whole}{}", &part[..1]);
            let whole = digits.trim_start_matches('0');
            let whole = if whole.is_empty() { "0" } else { whole };
            if part.len() > 1 { format!("{whole}.{}", &part[1..]) } else { whole.to_owned() }
        }
        (None, Ok(_)) => format!("{word}0"),
        _ => word.to_owned(),
    }
}

/// What an engine is, from which the rest follows.
#[derive(Clone, Copy)]
#[allow(clippy::struct_excessive_bools, reason = "each is a fact of its own, and any two go together")]
struct Size {
    two_stroke: bool,
    diesel: bool,
    injected: bool,
    liquid: bool,
    cylinders: f64,
    bore: f64,
    /// In litres.
    displacement: f64,
    /// Whether the manual prints a second unit.
    dual: bool,
}

/// The engine of a number.
pub fn drawn(count: usize, draw: &mut Drawing) -> Engine {
    let (size, layout) = size(draw);
    let mut writer = Writer { specs: Vec::new(), size };
    top_end(&mut writer, draw);
    bottom_end(&mut writer, draw);
    fluids(&mut writer, draw);
    fuel_and_spark(&mut writer, draw);
    electrical(&mut writer, draw);
    drive_and_chassis(&mut writer, draw);
    Engine { id: format!("fl-{count}"), layout, specs: writer.specs }
}

fn size(draw: &mut Drawing) -> (Size, String) {
    let (two_stroke, diesel) = draw.one_of(
        &[(false, false); 6]
            .iter()
            .chain(&[(true, false); 3])
            .chain(&[(false, true); 2])
            .copied()
            .collect::<Vec<_>>(),
    );
    let cylinders = f64::from(draw.one_of(&[1, 1, 1, 2, 2, 3]));
    // The more cylinders the smaller: none of these machines has an engine of more than a litre and a half.
    let largest = 102.0 - 9.0 * (cylinders - 1.0);
    let (bore, stroke) = if diesel {
        let bore = draw.between(62.0, largest - 4.0);
        (bore, bore * draw.between(0.92, 1.15))
    } else if two_stroke {
        let bore = draw.by_ratio(38.0, largest - 14.0);
        (bore, bore * draw.between(0.75, 1.08))
    } else {
        let bore = draw.by_ratio(42.0, largest);
        (bore, bore * draw.between(0.58, 1.2))
    };
    let (bore, stroke) = ((bore * 10.0).round() / 10.0, (stroke * 10.0).round() / 10.0);
    let cubic = std::f64::consts::FRAC_PI_4 * bore * bore * stroke * cylinders / 1000.0;
    let decimals = usize::from(cubic < 120.0);
    let words = |two| if two { "two-stroke" } else { "four-stroke" };
    let fuel = if diesel { "diesel" } else { "petrol" };
    let layout = format!(
        "cycle = \"{}\", fuel = \"{fuel}\", cylinders = {cylinders}, bore = \"{bore:.1} mm\", stroke = \"{stroke:.1} mm\", displacement = \"{cubic:.decimals$} cm³\"",
        words(two_stroke)
    );
    let size = Size {
        two_stroke,
        diesel,
        injected: !diesel && draw.chance(55),
        liquid: draw.chance(60),
        cylinders,
        bore,
        displacement: cubic / 1000.0,
        dual: draw.chance(50),
    };
    (size, layout)
}

/// Puts statements down.
struct Writer {
    specs: Vec<Spec>,
    size: Size,
}

impl Writer {
    fn put(&mut self, of: &'static str, more: &str, forms: Vec<(&'static str, Vec<String>)>) {
        let more = if more.is_empty() { String::new() } else { format!("{more}\n") };
        self.specs.push(Spec { of, more, forms });
    }

    fn window(&mut self, of: &'static str, more: &str, forms: Vec<String>) {
        self.put(of, more, vec![("window", forms)]);
    }

    fn setting(&mut self, of: &'static str, more: &str, forms: Vec<String>) {
        self.put(of, more, vec![("setting", forms)]);
    }

    fn fit(&mut self, of: &'static str, more: &str, new: Vec<String>, limit: Vec<String>) {
        self.put(of, more, vec![("new", new), ("wear_limit", limit)]);
    }

    /// A clearance from `least` to so much more, with its limit beyond.
    fn clearance(&mut self, of: &'static str, more: &str, least: f64, spread: f64, limit: f64) {
        let dual = self.size.dual;
        let most = least * spread + 0.01;
        self.fit(of, more, MM.range(least, most, 3, dual), MM.most((most * limit).max(most + 0.01), 3, dual));
    }
}

const COLD: &str = "when = { engine = \"cold\" }";

fn top_end(to: &mut Writer, draw: &mut Drawing) {
    let Size { two_stroke, diesel, bore, dual, .. } = to.size;
    let ratio = match (diesel, two_stroke) {
        (true, _) => draw.between(16.5, 23.0),
        (_, true) => draw.between(6.2, 13.5),
        _ => draw.between(8.0, 13.0),
    };
    to.setting("compression.ratio", "", alone(":1").setting(ratio, 1, false));
    let each = match (diesel, two_stroke) {
        (true, _) => draw.between(122.0, 150.0),
        (_, true) => draw.between(85.0, 115.0),
        _ => draw.between(100.0, 118.0),
    };
    let cranking = (ratio * each / 10.0).round() * 10.0;
    let spread = draw.between(0.94, 0.97);
    to.window(
        "compression.cranking",
        "when = { throttle = \"open\" }",
        KPA.range(cranking * spread, cranking / spread, 0, dual),
    );
    to.window("leakdown", "", alone("%").most(draw.between(8.0, 25.0), 0, false));
    to.put(
        "head.warp",
        "",
        vec![("wear_limit", MM.most(draw.one_of(&[0.03, 0.05, 0.05, 0.05, 0.08, 0.10]), 2, dual))],
    );
    let gap = bore * draw.between(0.0025, 0.0048);
    let most = gap * draw.between(1.4, 1.7);
    to.fit(
        "ring.end-gap",
        "where = { ring = \"top\" }",
        MM.range(gap, most, 2, dual),
        MM.most((most * draw.between(1.4, 1.9)).min(bore * 0.0125), 2, dual),
    );
    let share = if two_stroke { draw.between(0.0007, 0.0011) } else { draw.between(0.0003, 0.0006) };
    to.clearance("piston.clearance", "", bore * share, 1.3, draw.between(1.5, 2.0));
    if !two_stroke {
        valves(to, draw);
    }
    plug(to, draw);
}

fn valves(to: &mut Writer, draw: &mut Drawing) {
    let dual = to.size.dual;
    let intake = draw.between(0.06, 0.24);
    let tolerance = if intake < 0.10 { 0.02 } else { draw.one_of(&[0.02, 0.03, 0.04]) };
    to.window("lash.intake", COLD, MM.tolerance(intake, tolerance, 2, dual));
    to.window("lash.exhaust", COLD, MM.tolerance(intake + draw.between(0.0, 0.10), tolerance, 2, dual));
    let clearance = draw.between(0.010, 0.025);
    let exhaust = clearance + draw.between(0.005, 0.020);
    let limit = draw.between(1.6, 2.2);
    to.clearance("valve.stem-clearance", "where = { valve = \"intake\" }", clearance, 1.3, limit);
    to.clearance("valve.stem-clearance", "where = { valve = \"exhaust\" }", exhaust, 1.3, limit);
    let seat = draw.between(0.8, 1.3);
    for valve in ["intake", "exhaust"] {
        let place = format!("where = {{ valve = \"{valve}\" }}");
        to.fit(
            "valve.seat-width",
            &place,
            MM.range(seat, seat + 0.2, 1, dual),
            MM.most(seat + draw.between(0.5, 1.0), 1, dual),
        );
    }
}

fn plug(to: &mut Writer, draw: &mut Drawing) {
    let Size { diesel, bore, dual, two_stroke, .. } = to.size;
    if diesel {
        return;
    }
    to.window("plug.gap", "", MM.tolerance(draw.between(0.55, 0.95), 0.05, 2, dual));
    let (thread, least, most) =
        if bore < 60.0 && !two_stroke { ("M10x1", 9.0, 13.0) } else { ("M14x1.25", 17.0, 28.0) };
    let fastener = format!("fastener = {{ thread = \"{thread}\", into = \"aluminium\" }}");
    to.setting("torque.spark-plug", &fastener, NM.setting(draw.between(least, most), 0, dual));
    let inductive = draw.chance(40);
    let primary = if inductive { draw.by_ratio(1.8, 5.0) } else { draw.by_ratio(0.2, 0.6) };
    let primary_ohms = alone("Ω").range(primary * 0.85, primary * 1.15, 2, false);
    to.window("coil.primary", "", primary_ohms);
    let secondary = draw.by_ratio(4.5, 14.0);
    to.window("coil.secondary", "", alone("kΩ").range(secondary * 0.85, secondary * 1.15, 1, false));
    let pickup = draw.by_ratio(95.0, 480.0);
    to.window("pickup.resistance", "", alone("Ω").range(pickup * 0.8, pickup * 1.2, 0, false));
    let idle = draw.between(4.0, 14.0);
    to.window("timing.idle", "", alone("°").tolerance(idle, 2.0, 0, false));
    to.window("timing.full", "", alone("°").tolerance(idle + draw.between(10.0, 22.0), 2.0, 0, false));
}

fn bottom_end(to: &mut Writer, draw: &mut Drawing) {
    let Size { dual, .. } = to.size;
    to.put(
        "crank.runout",
        "",
        vec![("wear_limit", MM.most(draw.one_of(&[0.03, 0.04, 0.05, 0.06, 0.08, 0.10]), 2, dual))],
    );
    let side = draw.between(0.10, 0.35);
    to.fit(
        "rod.side-clearance",
        "",
        MM.range(side, side + draw.between(0.15, 0.35), 2, dual),
        MM.most(side + draw.between(0.5, 0.7), 2, dual),
    );
}

fn fluids(to: &mut Writer, draw: &mut Drawing) {
    let Size { two_stroke, displacement, dual, liquid, .. } = to.size;
    if two_stroke {
        to.setting("premix", "", alone(":1").setting(draw.one_of(&[25.0, 32.0, 40.0, 50.0]), 0, false));
    } else {
        let change = (displacement * draw.between(2.1, 4.0)).max(0.3);
        to.setting("oil.change", "", LITRE.setting(change, 2, dual));
        to.setting("oil.with-filter", "", LITRE.setting(change + draw.between(0.08, 0.25), 2, dual));
        let hot = draw.between(220.0, 480.0);
        to.window(
            "oil.pressure",
            "when = { engine = \"hot\", speed = \"4000 rpm\" }",
            KPA.range(hot * 0.88, hot * 1.12, 0, dual),
        );
    }
    if liquid {
        let opens = draw.one_of(&[71.0, 76.0, 80.0, 82.0, 88.0]);
        to.window("thermostat.opens", "", alone("°C").tolerance(opens, 2.0, 0, false));
        let on = opens + draw.between(9.0, 17.0);
        to.window("fan.on", "", alone("°C").tolerance(on, 2.0, 0, false));
        to.window("fan.off", "", alone("°C").tolerance(on - draw.between(4.0, 9.0), 2.0, 0, false));
        let cap = draw.between(90.0, 125.0);
        to.window("cap.pressure", "", KPA.range(cap, cap + 28.0, 0, dual));
        to.setting(
            "coolant.volume",
            "",
            LITRE.setting((displacement * draw.between(2.0, 4.5)).clamp(0.9, 11.0), 1, dual),
        );
    }
}

fn fuel_and_spark(to: &mut Writer, draw: &mut Drawing) {
    let Size { injected, diesel, dual, displacement, two_stroke, cylinders, .. } = to.size;
    let power = displacement
        * if diesel {
            draw.between(14.0, 22.0)
        } else if two_stroke {
            draw.between(55.0, 130.0)
        } else {
            draw.between(28.0, 70.0)
        };
    to.setting("engine.power", "", alone("kW").setting(power.clamp(1.2, 118.0), 1, false));
    let idle = if diesel { draw.between(850.0, 1100.0) } else { draw.between(1050.0, 1700.0) };
    let idle = (idle / 50.0).round() * 50.0;
    to.window("idle.speed", "", alone("rpm").tolerance(idle, draw.one_of(&[50.0, 100.0, 100.0]), 0, false));
    if injected {
        let pressure = draw.one_of(&[250.0, 294.0, 300.0, 343.0, 350.0, 380.0, 400.0]);
        to.window("fuel.pressure-running", "", KPA.range(pressure * 0.95, pressure * 1.05, 0, dual));
        // Most injectors are driven directly; some have a low resistance and a driver that limits the current.
        let ohms = if draw.chance(85) { draw.between(10.8, 14.5) } else { draw.between(0.9, 2.8) };
        to.window("injector.resistance", "", alone("Ω").range(ohms * 0.93, ohms * 1.07, 1, false));
        let flow = power.clamp(1.2, 118.0) / cylinders * draw.between(8.5, 12.0);
        let flow = flow.clamp(42.0, 860.0);
        if flow * cylinders > 7.3 * power {
            to.window("injector.flow", "", alone("mL/min").range(flow * 0.96, flow * 1.04, 0, false));
        }
        to.window(
            "sensor.throttle",
            "when = { throttle = \"shut\" }",
            alone("V").tolerance(draw.between(0.45, 0.85), 0.05, 2, false),
        );
        to.window(
            "sensor.throttle",
            "when = { throttle = \"open\" }",
            alone("V").tolerance(draw.between(3.7, 4.4), 0.15, 2, false),
        );
    }
}

fn electrical(to: &mut Writer, draw: &mut Drawing) {
    let Size { displacement, diesel, injected, .. } = to.size;
    let lithium = !diesel && draw.chance(12);
    let capacity = if lithium {
        draw.between(2.5, 7.0)
    } else {
        (8.0 + displacement * draw.between(9.0, 22.0)).min(60.0)
    };
    to.put("battery.kind", "", vec![("text", vec![if lithium { "Lithium iron" } else { "AGM" }.to_owned()])]);
    to.setting("battery.capacity", "", alone("A·h").setting(capacity, 0, false));
    let cold =
        if lithium { draw.between(120.0, 300.0) } else { (capacity * draw.between(10.0, 16.0)).max(70.0) };
    to.setting("battery.cca", "", alone("A CCA").setting(cold.round(), 0, false));
    to.window(
        "starter.draw",
        "",
        alone("A").range((cold * 0.28).max(32.0), (cold * draw.between(0.36, 0.5)).max(44.0), 0, false),
    );
    to.window(
        "ground.drop",
        "when = { starter = \"cranking\" }",
        alone("mV").most(draw.one_of(&[200.0, 200.0, 250.0, 300.0, 400.0, 500.0]), 0, false),
    );
    to.window("idle.drain", "when = { key = \"off\" }", alone("mA").most(draw.by_ratio(0.4, 9.0), 1, false));
    to.window(
        "charge.volts",
        "",
        alone("V").range(draw.between(13.4, 13.9), draw.between(14.3, 15.1), 1, false),
    );
    let watts = (displacement * draw.between(320.0, 620.0)).clamp(if injected { 130.0 } else { 60.0 }, 880.0);
    to.setting("stator.power", "when = { speed = \"5000 rpm\" }", alone("W").setting(watts, 0, false));
    let amps = watts / 14.0;
    to.window(
        "charge.current",
        "when = { speed = \"5000 rpm\" }",
        alone("A").most((amps * draw.between(0.6, 0.95)).floor().max(1.0), 0, false),
    );
    let fuse = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0].into_iter().find(|size| *size >= amps);
    to.setting("fuses", "where = { circuit = \"main\" }", alone("A").setting(fuse.unwrap_or(80.0), 0, false));
    let ohms = draw.by_ratio(0.12, 0.9);
    for phase in ["1-2", "2-3", "1-3"] {
        to.window(
            "stator.resistance",
            &format!("where = {{ phase = \"{phase}\" }}"),
            alone("Ω").range(ohms * 0.8, ohms * 1.2 + 0.01, 2, false),
        );
    }
}

fn drive_and_chassis(to: &mut Writer, draw: &mut Drawing) {
    let Size { dual, displacement, .. } = to.size;
    let full = (draw.between(5800.0, 8200.0) / 50.0).round() * 50.0;
    let engages = (draw.between(2150.0, 3900.0) / 50.0).round() * 50.0;
    to.window("clutch.engagement", "", alone("rpm").range(engages, engages + 200.0, 0, false));
    to.window("clutch.full-shift", "", alone("rpm").range(full, full + 250.0, 0, false));
    to.setting(
        "limiter",
        "",
        alone("rpm").setting(full + (draw.between(600.0, 1500.0) / 100.0).round() * 100.0, 0, false),
    );
    let width = draw.between(26.0, 38.0);
    to.fit(
        "belt.width",
        "",
        MM.tolerance(width, 0.4, 1, dual),
        MM.least(width * draw.between(0.93, 0.97), 1, dual),
    );
    let disc = draw.one_of(&[3.5, 3.8, 4.0, 4.5, 5.0]);
    to.fit(
        "disc.thickness",
        "where = { wheel = \"front\" }",
        MM.tolerance(disc, 0.1, 1, dual),
        MM.least(disc * draw.between(0.80, 0.92), 1, dual),
    );
    to.setting(
        "torque.wheel-nut",
        "where = { wheel = \"front\" }",
        NM.setting(draw.between(55.0, 120.0), 0, dual),
    );
    to.setting("torque.drain-plug", "", NM.setting(draw.between(17.0, 34.0), 0, dual));
    to.setting(
        "torque.flywheel",
        "",
        NM.setting((50.0 + displacement * draw.between(70.0, 160.0)).min(300.0), 0, dual),
    );
}
