//! `baybook shims` as a technician runs it: a job file in, a plan out, or where the file is wrong.

use std::process::{Command, Output};

use serde_json::Value;

const VALVES: &str = r#"
[[valves]]
name = "front intake"
measured = "0.10 mm"
fitted = "2.60 mm"

[[valves]]
name = "front exhaust"
measured = "0.30 mm"
fitted = "2.50 mm"

[[valves]]
name = "rear intake"
measured = "0 mm"
fitted = "2.55 mm"

[[valves]]
name = "rear exhaust"
measured = "0.32 mm"
fitted = "2.50 mm"
"#;

fn run(text: &str, more: &[&str]) -> Output {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.toml"), text).unwrap();
    Command::new(env!("CARGO_BIN_EXE_baybook"))
        .current_dir(folder.path())
        .env("NO_COLOR", "1")
        .args(["shims", "job.toml"])
        .args(more)
        .output()
        .unwrap()
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).expect("JSON")
}

#[test]
fn a_job_gives_a_plan_to_work_from() {
    let job = format!("window = \"0.15..0.25 mm\"\nstock = [\"2.60 mm\", \"2.65 mm\"]\n{VALVES}");
    let output = run(&job, &[]);
    assert_eq!(output.status.code(), Some(0));
    let sheet = String::from_utf8(output.stdout).unwrap();
    let expected = "\
Shim plan: 4 valves, window 0.15..0.25 mm, aim 0.20 mm

valve           lash now   shim now   fit       from            lash after
front intake    0.10 mm    2.60 mm    2.50 mm   front exhaust   0.20 mm
front exhaust   0.30 mm    2.50 mm    2.60 mm   front intake    0.20 mm
rear intake     0 mm       2.55 mm    -         -               not solved
rear exhaust    0.32 mm    2.50 mm    2.60 mm   stock           0.22 mm

From stock: 1: 2.60 mm
Left over: 2.50 mm (rear exhaust)
Not solved: rear intake: at 0 mm nobody knows how tight it is; fit a thinner shim and measure again
";
    assert!(sheet.starts_with(expected), "{sheet}");
    for word in ["two full", "in its own direction", "measure every valve again", "current"] {
        assert!(sheet.contains(word), "{word}: {sheet}");
    }
    let answer = json(&run(&job, &["--format", "json"]));
    assert_eq!(answer["bought"], 1);
    assert_eq!(answer["unsolved"], serde_json::json!(["rear intake"]));
    assert_eq!(answer["plan"][0]["moved_from"], "front exhaust");
}

#[test]
fn a_valve_can_have_a_window_of_its_own() {
    let valves =
        VALVES.replacen("fitted = \"2.50 mm\"", "fitted = \"2.50 mm\"\nwindow = \"0.28..0.32 mm\"", 1);
    let output = run(&format!("window = \"0.15..0.25 mm\"\nstock = [\"2.60 mm\"]\n{valves}"), &[]);
    let sheet = String::from_utf8(output.stdout).unwrap();
    assert!(sheet.contains("front exhaust, window 0.28..0.32 mm\n"), "{sheet}");
    assert!(sheet.contains("front exhaust   0.30 mm    2.50 mm    stays "), "{sheet}");
}

#[test]
fn a_broken_job_says_where_and_how_to_mend_it() {
    let stock = "stock = [\"2.50 mm\"]\n";
    let whole = "window = \"0.15..0.25 mm\"\n";
    // What is typed; the rule, line and column of its finding; a word of its message.
    let cases = [
        (format!("window = \"0.15..0.25 kPa\"\n{stock}{VALVES}"), "unit-of-another-kind", 1, 10, "pressure"),
        (format!("window = \"0.15..0.25\"\n{stock}{VALVES}"), "value-not-understood", 1, 11, "unit"),
        (format!("window = \"max 0.25 mm\"\n{stock}{VALVES}"), "missing-key", 1, 10, "one end"),
        (format!("{whole}target = \"0.30 mm\"\n{stock}{VALVES}"), "set-to-outside-window", 2, 10, "target"),
        (format!("{whole}{VALVES}"), "missing-key", 1, 10, "stock"),
        (
            format!("{whole}{stock}stock_steps = \"1..2 mm by 0.05 mm\"\n{VALVES}"),
            "wrong-count",
            3,
            15,
            "twice",
        ),
        (format!("{whole}stock_steps = \"1..2 mm\"\n{VALVES}"), "value-not-understood", 2, 15, "step"),
        (format!("{whole}stock_steps = \"1..900 mm by 0.05 mm\"\n{VALVES}"), "wrong-count", 2, 15, "2000"),
        (format!("{whole}stock = [\"2.50 mm\", \"2.5o mm\"]\n{VALVES}"), "unit-unknown", 2, 25, "o mm"),
        (
            format!("{whole}stock = [{{ size = \"0 mm\", pieces = 1 }}]\n{VALVES}"),
            "value-not-understood",
            2,
            19,
            "size",
        ),
        (
            format!("{whole}{stock}{}", VALVES.replace("rear exhaust", "front intake")),
            "duplicate-id",
            20,
            8,
            "front intake",
        ),
        (
            format!("{whole}{stock}{}", VALVES.replace("\"0.32 mm\"", "\"max 0.32 mm\"")),
            "value-not-understood",
            21,
            12,
            "measured",
        ),
        (
            format!("{whole}{stock}{}", VALVES.replace("measured = \"0.32", "mesured = \"0.32")),
            "unknown-key",
            21,
            1,
            "mesured",
        ),
        (format!("{whole}{stock}valves = []\n"), "wrong-count", 3, 10, "no members"),
        (format!("{whole}{stock}[[valves]\n"), "toml-syntax", 3, 1, "heading"),
    ];
    for (text, rule, line, column, word) in cases {
        let output = run(&text, &["--format", "json"]);
        let answer = json(&output);
        assert_eq!(output.status.code(), Some(1), "{text}\n{answer}");
        let finding = &answer["findings"][0];
        let place = (finding["line"].as_u64().unwrap(), finding["column"].as_u64().unwrap());
        assert_eq!((finding["rule"].as_str().unwrap(), place), (rule, (line, column)), "{text}\n{answer}");
        assert!(finding["message"].as_str().unwrap().contains(word), "{word}: {finding}");
        assert!(!finding["help"].as_str().unwrap().is_empty());
        assert!(!answer["error"]["message"].as_str().unwrap().is_empty());
        let shown = String::from_utf8(run(&text, &[]).stderr).unwrap();
        assert!(shown.contains(&format!("job.toml:{line}:{column}")), "{shown}");
    }
}

#[test]
fn a_job_that_is_not_there_is_a_fault_of_the_call() {
    let output = Command::new(env!("CARGO_BIN_EXE_baybook"))
        .args(["shims", "nowhere.toml", "--format", "json"])
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(json(&output)["error"]["message"].as_str().unwrap().contains("nowhere.toml"));
}
