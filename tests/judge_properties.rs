//! What holds for every reading and every limit, and that nothing typed makes anything panic.

use baybook::compute::judge::{Accuracy, Judged, Limits, Question, Seen, State, Verdict, judge};
use baybook::compute::reading;
use baybook::quantity::{Exact, Unit, Value};
use proptest::prelude::*;

/// Millimetres in hundredths, as text.
fn hundredths(number: u32) -> String {
    format!("{}.{:02}", number / 100, number % 100)
}

fn window() -> impl Strategy<Value = String> {
    (0..60u32, 0..60u32, 0..6u8).prop_map(|(one, other, shape)| {
        let (low, high) = (hundredths(one.min(other)), hundredths(one.max(other)));
        match shape {
            0 => format!("min {low} mm"),
            1 => format!("max {high} mm"),
            2 => format!("under {high} mm"),
            3 => format!("over {low} mm"),
            _ => format!("{low}..{high} mm"),
        }
    })
}

fn ask(window: &str, seen: Seen, accuracy: Option<&str>) -> Judged {
    let unit = Unit::parse("mm").unwrap();
    let question = Question {
        limits: Limits::Window(vec![Value::parse(window).unwrap()]),
        below: "tight".to_owned(),
        above: "loose".to_owned(),
        fitting_new: false,
        needs_state: Vec::new(),
        state: State::Met,
        gauge: None,
        accuracy: accuracy.map(|text| Accuracy::read(text, unit).unwrap()),
        seen,
    };
    judge(&question).unwrap_or_else(|refusal| panic!("{question:?}: {refusal}"))
}

fn read(window: &str, text: &str, accuracy: &str) -> Judged {
    ask(window, Seen::Reading(text.to_owned()), Some(accuracy))
}

proptest! {
    #[test]
    fn a_truer_gauge_never_turns_a_verdict_round(limits in window(), value in 0..80u32, error in 0..20u32, truer in 0..20u32) {
        let text = format!("{} mm", hundredths(value));
        let coarse = read(&limits, &text, &hundredths(error.max(truer))).answer;
        let fine = read(&limits, &text, &hundredths(error.min(truer))).answer;
        if coarse.verdict != Verdict::TooClose {
            prop_assert_eq!(coarse.verdict, fine.verdict);
            prop_assert_eq!(coarse.verdict, coarse.as_read);
        }
        prop_assert_eq!(coarse.as_read, fine.as_read);
        prop_assert_ne!(fine.as_read, Verdict::TooClose);
    }

    /// A unit switch never changes what is true.
    #[test]
    fn the_unit_of_the_reading_changes_no_verdict(limits in window(), value in 0..80u32, error in 0..20u32) {
        let millimetres = read(&limits, &format!("{} mm", hundredths(value)), &hundredths(error)).answer;
        let micrometres = read(&limits, &format!("{} µm", value * 10), &format!("{} µm", error * 10)).answer;
        prop_assert_eq!(&millimetres, &micrometres);
        // 1 thou is 0.0254 mm exactly.
        let thou = read(&limits, &format!("{value} thou"), "0").answer;
        let exact = read(&limits, &format!("{}.{:04} mm", value * 254 / 10000, value * 254 % 10000), "0").answer;
        prop_assert_eq!(thou, exact);
    }

    #[test]
    fn what_is_said_fits_the_verdict(limits in window(), value in 0..80u32, error in 0..20u32) {
        let answer = read(&limits, &format!("{} mm", hundredths(value)), &hundredths(error)).answer;
        prop_assert_eq!(answer.by.is_some(), answer.verdict == Verdict::OutOfSpec);
        prop_assert_eq!(answer.settle.is_some(), answer.verdict == Verdict::TooClose);
        prop_assert!(answer.direction.is_none() || answer.verdict != Verdict::InSpec);
        if let Some(by) = answer.by {
            prop_assert!(by.min.clone().unwrap() >= Exact::default() && by.min <= by.max);
        }
    }

    /// A pair of leaves is decided only if every lash between them is.
    #[test]
    fn leaves_agree_with_every_reading_between_them(limits in window(), goes in 0..40u32, more in 1..6u32) {
        let leaf = |number| Some(format!("{} mm", hundredths(number)));
        let pair = ask(&limits, Seen::Leaves { goes: leaf(goes), stops: leaf(goes + more) }, None).answer;
        let between = (goes * 10..(goes + more) * 10).map(|step| read(&limits, &format!("{step} µm"), "0").answer.verdict);
        let verdicts: std::collections::BTreeSet<_> = between.map(Verdict::word).collect();
        if verdicts.len() == 1 {
            prop_assert!(verdicts.contains(pair.verdict.word()));
        } else {
            prop_assert_eq!(pair.verdict, Verdict::TooClose);
        }
    }

    #[test]
    fn no_text_makes_a_reading_panic(text in "\\PC{0,40}", unit in 0..150usize) {
        let units: Vec<Unit> = Unit::all().collect();
        if let Ok(taken) = reading(&text, units[unit % units.len()]) {
            prop_assert!(reading(&taken.text, taken.unit).is_ok_and(|again| again.value == taken.value));
        }
    }

    #[test]
    fn nothing_like_a_number_makes_a_reading_panic(text in "[-−+±]?[0-9.,' /½]{0,8}( ?(mm|in|thou|psi|C|F|deg|%|:1|V|kΩ))?", unit in 0..150usize) {
        let units: Vec<Unit> = Unit::all().collect();
        if let Ok(taken) = reading(&text, units[unit % units.len()]) {
            prop_assert!(reading(&taken.text, taken.unit).is_ok_and(|again| again.value == taken.value));
        }
    }
}
