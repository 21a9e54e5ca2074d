//! The compiler orders checks as the independent oracle in `tests/outside/vectors` does, which tries every
//! order; the handbook's script is held against the same vectors. Properties hold beyond what it can try.

use std::collections::BTreeMap;

use baybook::compute::Refusal;
use baybook::compute::order::{
    Access, Cause, Change, Check, Findings, Heat, Job, Order, Outcome, Warmth, heat, order,
};
use baybook::model::ProcedureState;
use baybook::quantity::{Exact, parse_exact};
use serde::Deserialize;
use serde_json::{Value as Json, json};

#[derive(Deserialize)]
struct Vectors {
    vectors: Vec<Vector>,
}

#[derive(Deserialize)]
struct Vector {
    job: Typed,
    #[serde(default)]
    results: BTreeMap<String, String>,
    answer: Json,
    /// Why each check stands where it stands.
    #[serde(default)]
    why: Vec<String>,
}

#[derive(Debug, Deserialize)]
struct Typed {
    causes: Vec<Part>,
    #[serde(default)]
    access: Vec<Part>,
    checks: Vec<Part>,
}

/// A cause, an access step or a check.
#[derive(Debug, Deserialize)]
struct Part {
    id: String,
    #[serde(alias = "share")]
    minutes: Json,
    #[serde(default)]
    residual: bool,
    #[serde(default)]
    shows: Vec<String>,
    #[serde(default)]
    needs: Vec<String>,
}

impl Part {
    fn number(&self) -> Exact {
        parse_exact(&self.minutes.to_string().replace('"', "")).expect("a number")
    }
}

fn job(typed: &Typed) -> Result<Job, Refusal> {
    let causes = typed.causes.iter();
    let causes = causes.map(|one| Cause { id: one.id.clone(), share: one.number(), residual: one.residual });
    let access = typed.access.iter();
    let access =
        access.map(|one| Access { id: one.id.clone(), minutes: one.number(), needs: one.needs.clone() });
    let checks = typed.checks.iter().map(|one| Check {
        id: one.id.clone(),
        minutes: one.number(),
        shows: one.shows.clone(),
        needs: one.needs.clone(),
    });
    Job::new(causes.collect(), access.collect(), checks.collect())
}

fn findings(results: &BTreeMap<String, String>) -> Findings {
    let outcome = |word: &String| if word == "shown" { Outcome::Shown } else { Outcome::Clear };
    results.iter().map(|(check, word)| (check.clone(), outcome(word))).collect()
}

#[test]
fn every_complaint_is_ordered_as_worked_out() {
    let file: Vectors = serde_json::from_str(include_str!("vectors/order.json")).expect("vectors");
    assert!(file.vectors.len() > 1500);
    for Vector { job: typed, results, answer: expected, why: reasons } in &file.vectors {
        let (answer, why) = match job(typed).and_then(|job| order(&job, &findings(results))) {
            Ok(order) => {
                let why = order.steps.iter().map(|step| step.why.words().to_owned()).collect();
                (serde_json::to_value(&order).unwrap(), why)
            }
            Err(refusal) => {
                (json!({ "error": { "message": refusal.message, "help": refusal.help } }), Vec::new())
            }
        };
        assert_eq!((&answer, &why), (expected, reasons), "{typed:?} {results:?}");
    }
}

/// Causes that stay together in every check still to be done are not told apart: straight from the definition.
#[test]
fn causes_that_no_check_tells_apart_are_said_to_be_so() {
    let file: Vectors = serde_json::from_str(include_str!("vectors/order.json")).expect("vectors");
    let mut seen = [0, 0];
    for Vector { job: typed, results, answer, .. } in &file.vectors {
        let Ok(order) = job(typed).and_then(|job| order(&job, &findings(results))) else { continue };
        let left: Vec<&String> = answer["left"].as_object().expect("causes").keys().collect();
        let to_do = typed.checks.iter().filter(|check| !results.contains_key(&check.id));
        let shown = |check: &Part| left.iter().filter(|cause| check.shows.contains(cause)).count();
        let alone = left.len() < 2 || to_do.map(shown).any(|some| some > 0 && some < left.len());
        assert_eq!(order.told_apart, alone, "{typed:?} {results:?}");
        seen[usize::from(alone)] += 1;
    }
    assert!(seen.iter().all(|number| *number > 30), "{seen:?}");
}

#[derive(Deserialize)]
struct HeatVectors {
    vectors: Vec<HeatVector>,
}

#[derive(Debug, Deserialize)]
struct HeatVector {
    done: Vec<Touch>,
    ahead: Vec<Touch>,
    answer: Vec<HeatAnswer>,
}

#[derive(Debug, Deserialize)]
struct Touch {
    state: ProcedureState,
    voids: Vec<String>,
}

#[derive(Debug, Deserialize)]
struct HeatAnswer {
    first: Option<String>,
    voids: Vec<usize>,
}

/// What heat costs, as `tests/outside/vectors/heat.py` works it out; the script is held to the same vectors.
#[test]
fn heat_costs_what_is_worked_out() {
    let file: HeatVectors = serde_json::from_str(include_str!("vectors/heat.json")).expect("vectors");
    assert!(file.vectors.len() > 500);
    let touch =
        |one: &Touch| Warmth { state: one.state, voids_cold: one.voids.iter().any(|state| state == "cold") };
    for vector in &file.vectors {
        let [done, ahead] =
            [&vector.done, &vector.ahead].map(|all| all.iter().map(touch).collect::<Vec<_>>());
        let change = |one: &HeatAnswer| match one.first.as_deref() {
            Some("warm") => Some(Change::Warm),
            Some(_) => Some(Change::Cool),
            None => None,
        };
        let wanted = vector.answer.iter().map(|one| Heat { first: change(one), voids: one.voids.clone() });
        assert_eq!(heat(&done, &ahead), wanted.collect::<Vec<_>>(), "{vector:?}");
    }
    // Common practice, no source: warming 12 min, cooling 180.
    assert_eq!([Change::Warm, Change::Cool].map(Change::minutes), [12, 180]);
}

/// A complaint of `checks` independent checks, or of checks that all hang together.
fn large(checks: usize, together: bool) -> Job {
    let number = |at: usize, times: usize| Exact::from_integer((1 + at * times % 11).into());
    let causes = (0..checks).map(|at| Cause { id: format!("c{at}"), share: number(at, 7), residual: false });
    let shows = |at: usize| {
        let all = if together { vec![at, (at + 1) % checks, (at + 5) % checks] } else { vec![at] };
        all.into_iter().map(|cause| format!("c{cause}")).collect()
    };
    let checks = (0..checks).map(|at| Check {
        id: format!("k{at}"),
        minutes: number(at, 5),
        shows: shows(at),
        needs: Vec::new(),
    });
    Job::new(causes.collect(), Vec::new(), checks.collect()).expect("a job")
}

fn rates_fall(order: &Order) -> bool {
    let rates: Vec<Exact> = order.steps.iter().map(|step| &step.finds / &step.minutes).collect();
    rates.windows(2).all(|pair| pair[0] >= pair[1])
}

/// Kadane and Simon 1975: independent checks go by share over minutes, however many there are.
#[test]
fn independent_checks_go_by_share_over_minutes() {
    let found = order(&large(60, false), &Findings::new()).expect("an order");
    assert!(found.proved && rates_fall(&found));
    assert!(found.expected_minutes < found.as_written_minutes);
}

#[test]
fn what_hangs_together_too_widely_is_ordered_and_said_to_be_without_proof() {
    let found = order(&large(24, true), &Findings::new()).expect("an order");
    assert!(!found.proved);
    assert!(found.expected_minutes <= found.as_written_minutes);
    assert_eq!(serde_json::to_value(&found).unwrap()["proved"], false);
    assert_eq!(found.steps.len(), 24);
}

/// Results move on from where the order stood: what is left of the expected minutes is what it promised.
#[test]
fn following_the_order_keeps_its_promise() {
    let file: Vectors = serde_json::from_str(include_str!("vectors/order.json")).expect("vectors");
    let mut followed = 0;
    for vector in file.vectors.iter().filter(|vector| vector.results.is_empty()) {
        let Ok(job) = job(&vector.job) else { continue };
        let before = order(&job, &Findings::new()).expect("an order");
        let first = &before.steps[0];
        let cleared = Findings::from([(first.check.clone(), Outcome::Clear)]);
        let after = order(&job, &cleared).expect("an order");
        let one = Exact::from_integer(1.into());
        let promised = &first.minutes + (one - &first.finds) * &after.expected_minutes;
        if first.finds < Exact::from_integer(1.into()) {
            assert_eq!(before.expected_minutes, promised, "{:?}", vector.job);
            followed += 1;
        }
    }
    assert!(followed > 500);
}
