//! The shim plan against a search through every plan there is, and as vectors for the browser and for an
//! independent check in `tests/outside/shims`.
//!
//! The committed file must equal what the code works out. After a wanted change write it anew with
//! `BLESS=1 cargo test --test shims`, and run the independent check.

use std::path::Path;

use baybook::compute::shims::{Job, Line, Plan, Source, Stock, Valve, plan, sizes};
use baybook::quantity::{Value, parse_exact};
use serde_json::{Value as Json, json};

const FILE: &str = "tests/vectors/shims.json";

fn value(text: &str) -> Value {
    Value::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// A job from its JSON form, which is its TOML form in other brackets.
fn job(json: &Json) -> Job {
    let text = |json: &Json| value(json.as_str().expect("a text"));
    let stock = |one: &Json| match one {
        Json::String(size) => Stock { size: value(size), pieces: None },
        limited => Stock {
            size: text(&limited["size"]),
            pieces: Some(u32::try_from(limited["pieces"].as_u64().expect("a count")).unwrap()),
        },
    };
    let stock = match json.get("stock_steps") {
        Some(steps) => sizes(steps.as_str().unwrap())
            .unwrap_or_else(|error| panic!("{error}"))
            .into_iter()
            .map(|size| Stock { size, pieces: None })
            .collect(),
        None => json["stock"].as_array().unwrap().iter().map(stock).collect(),
    };
    let valve = |one: &Json| Valve {
        name: one["name"].as_str().unwrap().to_owned(),
        measured: text(&one["measured"]),
        fitted: text(&one["fitted"]),
        window: one.get("window").map(text),
        target: one.get("target").map(text),
    };
    Job {
        window: text(&json["window"]),
        target: json.get("target").map(text),
        stock,
        valves: json["valves"].as_array().unwrap().iter().map(valve).collect(),
    }
}

fn answer(json: &Json) -> Json {
    let plan = plan(&job(json)).unwrap_or_else(|error| panic!("{json}: {error}"));
    serde_json::to_value(&plan).unwrap()
}

/// Xorshift: the same numbers on every machine.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: i64) -> i64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        i64::try_from(self.0 % u64::try_from(sides).unwrap()).unwrap()
    }
}

/// A head in thousandths of a millimetre: what the search below works on, with no code of Baybook.
#[derive(Clone, Debug)]
struct Head {
    aim: Aim,
    stock: Vec<(i64, Option<i64>)>,
    valves: Vec<Seat>,
}

#[derive(Clone, Copy, Debug)]
struct Aim {
    low: i64,
    high: i64,
    /// Twice the target, so that the middle of a window is whole.
    target2: i64,
    stated: bool,
}

#[derive(Clone, Copy, Debug)]
struct Seat {
    lash: i64,
    shim: i64,
    /// Where it has a window of its own.
    own: Option<Aim>,
}

impl Aim {
    fn random(dice: &mut Dice) -> Self {
        let low = 50 + 10 * dice.roll(16);
        let high = low + 10 * (1 + dice.roll(12));
        let stated = dice.roll(3) == 0;
        let target2 = if stated { 2 * (low + dice.roll(high - low + 1)) } else { low + high };
        Self { low, high, target2, stated }
    }

    fn write(&self, into: &mut Json) {
        into["window"] = json!(format!("{}..{}", mm(self.low).trim_end_matches(" mm"), mm(self.high)));
        if self.stated {
            into["target"] = json!(mm(self.target2 / 2));
        }
    }
}

fn mm(thousandths: i64) -> String {
    format!("{}.{:03} mm", thousandths / 1000, thousandths % 1000)
}

impl Head {
    /// A head of some valves, with windows, steps and stock as a shop has them, often scarce.
    fn random(dice: &mut Dice, most: i64) -> Self {
        let step = [25, 50, 50, 50, 100][usize::try_from(dice.roll(5)).unwrap()];
        let aim = Aim::random(dice);
        let base = 2000 + 100 * dice.roll(5);
        let size = |dice: &mut Dice| base + step * dice.roll(8);
        let count = dice.roll(5);
        let mut stock = Vec::new();
        for _ in 0..count {
            let pieces = if dice.roll(3) == 0 { None } else { Some(dice.roll(3)) };
            stock.push((size(dice), pieces));
        }
        let valves = 1 + dice.roll(most);
        let valve = |dice: &mut Dice| {
            let own = (dice.roll(4) == 0).then(|| Aim::random(dice));
            let high = own.unwrap_or(aim).high;
            let lash = if dice.roll(12) == 0 { 0 } else { 10 * dice.roll(1 + (high + 100) / 10) };
            Seat { lash, shim: size(dice), own }
        };
        let valves = (0..valves).map(|_| valve(dice)).collect();
        Self { aim, stock, valves }
    }

    fn json(&self) -> Json {
        let stock = |(size, pieces): &(i64, Option<i64>)| match pieces {
            None => json!(mm(*size)),
            Some(pieces) => json!({ "size": mm(*size), "pieces": pieces }),
        };
        let valve = |(place, seat): (usize, &Seat)| {
            let name = format!("valve {}", place + 1);
            let mut valve = json!({ "name": name, "measured": mm(seat.lash), "fitted": mm(seat.shim) });
            seat.own.iter().for_each(|own| own.write(&mut valve));
            valve
        };
        let mut job = json!({
            "stock": self.stock.iter().map(stock).collect::<Vec<_>>(),
            "valves": self.valves.iter().enumerate().map(valve).collect::<Vec<_>>(),
        });
        self.aim.write(&mut job);
        job
    }

    /// Where a valve aims.
    fn aim(&self, place: usize) -> Aim {
        self.valves[place].own.unwrap_or(self.aim)
    }

    /// The best plan by trying every one: how good it is in the four aims, and which it is.
    fn searched(&self) -> (Quality, Vec<Source>) {
        let mut search = Search { head: self, chosen: Vec::new(), stock: Vec::new(), best: None };
        search.stock = self.stock.iter().map(|(_, pieces)| pieces.unwrap_or(i64::MAX)).collect();
        search.go(Quality::default());
        search.best.unwrap()
    }
}

/// How good a plan is: the smaller, the better, the first aim first.
#[derive(Clone, Copy, Debug, Default, Eq, Ord, PartialEq, PartialOrd)]
struct Quality {
    unsolved: i64,
    bought: i64,
    moved: i64,
    /// Twice the sum of the distances from the target.
    off2: i64,
}

/// Every plan of a head, in the order in which the file decides between equals.
struct Search<'a> {
    head: &'a Head,
    chosen: Vec<Source>,
    stock: Vec<i64>,
    best: Option<(Quality, Vec<Source>)>,
}

impl Search<'_> {
    fn go(&mut self, so_far: Quality) {
        if self.best.as_ref().is_some_and(|(best, _)| so_far > *best) {
            return; // No aim ever gets better by going on.
        }
        let place = self.chosen.len();
        let Some(&Seat { shim, .. }) = self.head.valves.get(place) else {
            // Who keeps a shim does not give it up.
            let kept = |place: usize| matches!(self.chosen[place], Source::Kept | Source::Unsolved);
            let sound = self
                .chosen
                .iter()
                .all(|one| if let Source::Engine(from) = one { !kept(*from) } else { true });
            if sound && self.best.as_ref().is_none_or(|(best, _)| so_far < *best) {
                self.best = Some((so_far, self.chosen.clone()));
            }
            return;
        };
        self.take(Source::Kept, Some(shim), so_far);
        for other in (0..self.head.valves.len()).filter(|other| *other != place) {
            if !self.chosen.contains(&Source::Engine(other)) {
                self.take(Source::Engine(other), Some(self.head.valves[other].shim), so_far);
            }
        }
        for index in 0..self.stock.len() {
            if self.stock[index] > 0 {
                self.stock[index] -= 1;
                self.take(Source::Stock(index), Some(self.head.stock[index].0), so_far);
                self.stock[index] += 1;
            }
        }
        self.take(Source::Unsolved, None, so_far);
    }

    /// Goes on with a shim for the next valve, if it fits there.
    fn take(&mut self, source: Source, size: Option<i64>, mut quality: Quality) {
        let Seat { lash, shim, .. } = self.head.valves[self.chosen.len()];
        let Aim { low, high, target2, .. } = self.head.aim(self.chosen.len());
        if let Some(size) = size {
            let after = lash + shim - size;
            if lash == 0 || after < low || after > high {
                return;
            }
            quality.off2 += (2 * after - target2).abs();
        }
        match source {
            Source::Kept => {}
            Source::Engine(_) => quality.moved += 1,
            Source::Stock(_) => quality.bought += 1,
            Source::Unsolved => quality.unsolved += 1,
        }
        self.chosen.push(source);
        self.go(quality);
        self.chosen.pop();
    }
}

/// How good a plan is, from what it says.
fn quality(plan: &Plan, head: &Head) -> Quality {
    let count = |of: fn(&Source) -> bool| {
        i64::try_from(plan.lines.iter().filter(|line| of(&line.source)).count()).unwrap()
    };
    let off2 = |(place, line): (usize, &Line)| {
        let lash = line.lash_after.clone().unwrap() * parse_exact("2000").unwrap();
        (lash - parse_exact(&head.aim(place).target2.to_string()).unwrap()).numer().clone()
    };
    let solved = plan.lines.iter().enumerate().filter(|(_, line)| line.source != Source::Unsolved);
    let off2 = solved.map(|one| i64::try_from(off2(one)).unwrap().abs()).sum();
    Quality {
        unsolved: count(|source| *source == Source::Unsolved),
        bought: count(|source| matches!(source, Source::Stock(_))),
        moved: count(|source| matches!(source, Source::Engine(_))),
        off2,
    }
}

#[test]
fn the_plan_is_the_best_of_all_plans() {
    let mut dice = Dice(0x5eed_0000_2545_f491);
    let (mut moved, mut unsolved) = (0, 0);
    for (cases, valves) in [(2500, 5), (500, 8)] {
        for _ in 0..cases {
            let head = Head::random(&mut dice, valves);
            let json = head.json();
            let found = plan(&job(&json)).unwrap_or_else(|error| panic!("{json}: {error}"));
            let (best, chosen) = head.searched();
            assert_eq!(quality(&found, &head), best, "{json}");
            let sources: Vec<_> = found.lines.iter().map(|line| line.source).collect();
            assert_eq!(sources, chosen, "another plan of equals: {json}");
            moved += best.moved;
            unsolved += best.unsolved;
        }
    }
    assert!(moved > 300 && unsolved > 300, "{moved} moved, {unsolved} unsolved: the cases are too easy");
}

#[test]
fn sixteen_valves_with_a_wide_stock_take_no_time() {
    let valve = |place: i64| json!({ "name": format!("v{place}"), "measured": mm(40 + 35 * (place % 9)), "fitted": mm(1800 + 25 * (place % 7)) });
    let stock: Vec<_> =
        (0..90).map(|step| json!({ "size": mm(1200 + 25 * step), "pieces": 1 + step % 2 })).collect();
    let head = |count: i64| {
        json!({
            "window": "0.15 ± 0.03 mm",
            "stock": stock,
            "valves": (0..count).map(valve).collect::<Vec<_>>(),
        })
    };
    let started = std::time::Instant::now();
    assert_eq!(answer(&head(16))["plan"].as_array().unwrap().len(), 16);
    assert_eq!(answer(&head(64))["plan"].as_array().unwrap().len(), 64);
    assert!(started.elapsed().as_secs() < 10, "{:?}", started.elapsed());
}

/// Jobs with a known answer, and edges.
fn told() -> Vec<Json> {
    let valve = |name: &str, measured: &str, fitted: &str| json!({ "name": name, "measured": measured, "fitted": fitted });
    vec![
        // 2.60 + 0.09 − 0.15 = 2.54; of the sizes by 0.05 mm the 2.55 leaves 0.14 (worked by hand).
        json!({ "window": "0.10..0.20 mm", "stock_steps": "1.20..3.50 mm by 0.05 mm",
            "valves": [valve("a", "0.09 mm", "2.60 mm")] }),
        // Two valves that put each other right.
        json!({ "window": "0.15..0.25 mm", "stock": ["2.50 mm", "2.60 mm"],
            "valves": [valve("a", "0.10 mm", "2.60 mm"), valve("b", "0.30 mm", "2.50 mm")] }),
        // A good valve moved, as that saves a purchase.
        json!({ "window": "0.15..0.25 mm", "stock": ["2.50 mm"],
            "valves": [valve("a", "0.10 mm", "2.60 mm"), valve("good", "0.17 mm", "2.50 mm"), valve("b", "0.30 mm", "2.47 mm")] }),
        // The last piece goes to the valve that stands first.
        json!({ "window": "0.15..0.25 mm", "stock": [{ "size": "2.50 mm", "pieces": 1 }],
            "valves": [valve("a", "0.10 mm", "2.60 mm"), valve("b", "0.10 mm", "2.60 mm")] }),
        // No leaf goes in: not solved, and its shim stays where it is.
        json!({ "window": "0.15..0.25 mm", "stock": [],
            "valves": [valve("a", "0 mm", "2.50 mm"), valve("b", "0.10 mm", "2.60 mm"), valve("c", "under 0.03 mm", "2.50 mm")] }),
        // The limits themselves are allowed, but not those of `under` and `over`.
        json!({ "window": "0.15..0.25 mm", "stock": [], "valves": [valve("low", "0.15 mm", "2.50 mm"), valve("high", "0.25 mm", "2.70 mm")] }),
        json!({ "window": "under 0.25 mm", "target": "0.20 mm", "stock": ["2.75 mm"], "valves": [valve("high", "0.25 mm", "2.70 mm")] }),
        json!({ "window": "over 0.15 mm", "target": "0.20 mm", "stock": ["2.45 mm"], "valves": [valve("low", "0.15 mm", "2.50 mm")] }),
        // Inches beside millimetres.
        json!({ "window": "0.006 ± 0.001 in", "stock": ["2.45 mm", "2.50 mm", "0.1 in"],
            "valves": [valve("a", "0.010 in", "2.40 mm"), valve("b", "0.08 mm", "2.55 mm")] }),
        // A step wider than the window.
        json!({ "window": "0.15..0.18 mm", "stock_steps": "2.00..3.00 mm by 0.10 mm",
            "valves": [valve("a", "0.21 mm", "2.50 mm"), valve("b", "0.26 mm", "2.50 mm")] }),
        // Intake and exhaust valves of one head, each with its own window, put each other right.
        json!({ "window": "0.10..0.15 mm", "stock": ["2.50 mm"],
            "valves": [valve("intake", "0.20 mm", "2.50 mm"),
                { "name": "exhaust", "measured": "0.16 mm", "fitted": "2.58 mm", "window": "0.20..0.30 mm", "target": "0.24 mm" }] }),
        // An uneven tolerance: its middle is not its nominal.
        json!({ "window": "0.20 +0.06/-0.02 mm", "stock": ["2.48 mm", "2.50 mm"], "valves": [valve("a", "0.10 mm", "2.62 mm")] }),
    ]
}

#[test]
fn the_committed_vectors_are_what_is_worked_out() {
    let mut dice = Dice(0x0bad_5eed_1234_5678);
    let mut jobs = told();
    jobs.extend((0..300).map(|_| Head::random(&mut dice, 6).json()));
    jobs.extend((0..60).map(|_| Head::random(&mut dice, 8).json()));
    let cases: Vec<_> = jobs
        .into_iter()
        .map(|job| {
            let answer = answer(&job);
            json!({ "job": job, "answer": answer })
        })
        .collect();
    let mut text = String::from("[\n");
    for (place, case) in cases.iter().enumerate() {
        text += &format!("{case}{}\n", if place + 1 < cases.len() { "," } else { "" });
    }
    text += "]\n";
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE);
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(committed == text, "{FILE} is not what the code works out: look, then run with BLESS=1");
}
