//! What a technician types, and whether the wanted line comes first: by hand, and by rule from the
//! catalogue, so that the queries grow with it. The browser is held to the same list elsewhere.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::LazyLock;

use baybook::find::{Found, Index, Row, search};
use serde_json::{Value, json};

static INDEX: LazyLock<Index> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let base = baybook::load::disk::read_base(&root.join("specs")).expect("the demo base");
    let examined = baybook::examine(base, None);
    baybook::emit::found::index(examined.checked.expect("no error").model())
});

/// The queries by hand.
fn by_hand() -> Vec<Value> {
    let text = include_str!("vectors/find.json");
    let all: Value = serde_json::from_str(text).expect("JSON");
    all["queries"].as_array().expect("a list").clone()
}

/// The queries by hand of which it matters what is said.
fn said() -> Vec<Value> {
    let text = include_str!("vectors/find-said.json");
    let all: Value = serde_json::from_str(text).expect("JSON");
    all["queries"].as_array().expect("a list").clone()
}

/// The word with a letter from its middle left out, if it is long enough for a slip.
fn slipped(name: &str) -> Option<String> {
    let words: Vec<&str> = name.split(' ').collect();
    let longest = words.iter().enumerate().max_by_key(|(at, word)| (word.chars().count(), *at))?.0;
    let letters: Vec<char> = words[longest].chars().collect();
    let plain = letters.len() >= 7 && letters.iter().all(char::is_ascii_lowercase);
    plain.then(|| {
        let mut words: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
        words[longest] = letters
            .iter()
            .enumerate()
            .filter(|(at, _)| *at != letters.len() / 2)
            .map(|(_, one)| one)
            .collect();
        words.join(" ")
    })
}

/// Queries from the catalogue: of each entry, on a machine that states it, title, other name, slip in turn.
fn by_rule() -> Vec<Value> {
    let index = &*INDEX;
    let mut seen = BTreeSet::new();
    let things = index.things.things.iter().enumerate();
    let entries = things.filter(|(_, one)| one.kind == "statement" && seen.insert(one.of.clone()));
    let query = |(at, (thing, one)): (usize, (usize, &baybook::find::Thing))| {
        let states = |build: &usize| index.builds[*build].lines.iter().any(|line| line.thing == thing);
        let builds: Vec<usize> = (0..index.builds.len()).filter(states).collect();
        let build = builds[at % builds.len()];
        let machine = index.fitted.iter().find(|fitted| fitted.build == build).expect("fitted");
        let names = &index.things.named[one.named];
        let name = match at % 3 {
            0 => one.title.to_lowercase(),
            1 => names[at % names.len()].join(" "),
            _ => slipped(&one.title.to_lowercase()).unwrap_or_else(|| one.title.clone()),
        };
        // One name may be that of several entries: then each of them is right.
        let same = index
            .things
            .things
            .iter()
            .filter(|other| index.things.named[other.named].iter().any(|other| other.join(" ") == name));
        let of: BTreeSet<&String> = same.map(|other| &other.of).chain([&one.of]).collect();
        json!({ "query": format!("{name} {}", machine.name.to_lowercase()), "wanted": { "of": of, "machine": machine.machine } })
    };
    entries.enumerate().map(query).collect()
}

/// Whether a line is the wanted one: all that is named of it is so.
fn is(found: &Found, wanted: &Value) -> bool {
    let texts = |key: &str| {
        wanted[key].as_array().map(|all| all.iter().filter_map(Value::as_str).collect::<Vec<_>>())
    };
    let build = found.build.as_deref().unwrap_or_default();
    let engine = wanted["engine"]
        .as_str()
        .is_none_or(|engine| build == engine || build.starts_with(&format!("{engine}~")));
    let place = wanted["where"].as_object().is_none_or(|place| {
        place.iter().all(|(axis, word)| found.place.get(axis).map(String::as_str) == word.as_str())
    });
    let machine = wanted["machine"].as_str().is_none_or(|machine| {
        let fits = |one: &&baybook::find::Fitted| one.machine == machine;
        INDEX.fitted.iter().filter(fits).any(|one| INDEX.builds[one.build].id == build)
    });
    engine
        && place
        && machine
        && texts("of").is_none_or(|of| of.contains(&found.of.as_str()))
        && wanted["kind"].as_str().is_none_or(|kind| found.kind == kind)
        && wanted["title"].as_str().is_none_or(|title| found.title == title)
}

#[test]
fn the_wanted_line_comes_first() {
    let (hand, rule) = (by_hand(), by_rule());
    assert!(hand.len() >= 100 && rule.len() >= 100, "{} by hand, {} by rule", hand.len(), rule.len());
    for (name, queries) in [("by hand", hand), ("by rule", rule)] {
        let (mut first, mut third, mut told) = (0, 0, Vec::new());
        for one in &queries {
            let query = one["query"].as_str().expect("text");
            let found = search(&INDEX, query, one["last"].as_str(), 3).lines;
            let at = found.iter().position(|found| is(found, &one["wanted"]));
            first += usize::from(at == Some(0));
            third += usize::from(at.is_some());
            if at != Some(0) {
                let got: Vec<_> = found
                    .iter()
                    .map(|one| (&one.of, one.build.as_deref().unwrap_or("-"), one.score))
                    .collect();
                told.push(format!("{query}: wanted {}, got {got:?}", one["wanted"]));
            }
        }
        let all = queries.len();
        println!("{name}: {first} of {all} first, {third} in the first three\n{}", told.join("\n"));
        assert!(first * 100 >= all * 92, "{name}: {first} of {all} first\n{}", told.join("\n"));
        assert!(third * 100 >= all * 98, "{name}: {third} of {all} in the first three\n{}", told.join("\n"));
    }
}

/// What is found for every query, for the browser's test to compare with: `target/find-answers.json`.
#[test]
fn answers_are_written_for_the_browser() {
    let answer = |one: &Value| {
        let query = one["query"].as_str().expect("text");
        let found = search(&INDEX, query, one["last"].as_str(), 12);
        let lines: Vec<Value> = found
            .lines
            .iter()
            .map(|one| {
                json!([
                    one.kind, one.of, one.build, one.builds, one.place, one.when, one.title, one.text,
                    one.score
                ])
            })
            .collect();
        json!({
            "query": query, "last": one["last"], "found": lines, "left_out": found.left_out, "notes": found.notes
        })
    };
    let more = [
        "",
        "9999 psi",
        "exhaust lash 888",
        "tarnhawk 887 2019 lash",
        "exhaust lash qwertyzz 887",
        "57 psi compression",
        "TH22-455 lash",
        "0 mm",
        "22",
        "0.26",
        "zzzz",
        "é",
        "lash 8 thou 887 2022",
        "-5 °C",
        "1/4 in",
        "krain",
        // One figure: all that may round to it.
        "1",
        "2",
        "5",
        "9",
        "0.2",
        "0.3 lash",
        "20",
        "-2",
        // A complaint on machines that have none.
        "starts badly cold beckhauler 1021",
        "starts badly cold tarnsip 61",
    ];
    let more = more.iter().map(|query| json!({ "query": query }));
    // As they are typed, key by key.
    let keys = by_hand().into_iter().step_by(5).flat_map(|one| {
        let query = one["query"].as_str().expect("text").to_owned();
        let ends: Vec<usize> = query.char_indices().map(|(at, _)| at).skip(1).collect();
        ends.into_iter().map(move |end| json!({ "query": query[..end].trim(), "last": one["last"] }))
    });
    let all = by_hand().into_iter().chain(by_rule()).chain(said()).chain(more).chain(keys);
    let all: Vec<Value> = all.map(|one| answer(&one)).collect();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/find-answers.json");
    std::fs::create_dir_all(path.parent().expect("target")).expect("a folder");
    std::fs::write(&path, serde_json::to_vec(&all).expect("JSON")).expect("written");
}

#[test]
fn what_fits_nothing_is_said() {
    let left_out = |query: &str| search(&INDEX, query, None, 5).left_out;
    // A machine, a year and a word that are in no base, and numbers that no compression prints.
    assert_eq!(left_out("exhaust lash 888"), ["888"]);
    assert_eq!(left_out("tarnhawk 887 2019 lash"), ["2019"]);
    assert_eq!(left_out("exhaust lash qwertyzz 887"), ["qwertyzz"]);
    assert_eq!(left_out("9999 psi compression"), ["9999 psi"]);
    // A slip that is forgiven, a year, a serial number and a printed number do fit.
    for query in ["ex lash tarn 887 22", "krain plug", "TH22-455 lash", "58 psi", "0.26 lash", "headbolt"] {
        assert_eq!(left_out(query), [""; 0], "{query}");
    }
}

#[test]
fn what_is_left_out_is_said_with_what_is_near() {
    let mut wrong = Vec::new();
    for one in said() {
        let query = one["query"].as_str().expect("text");
        let answer = search(&INDEX, query, one["last"].as_str(), 12);
        let notes = answer.notes.join("\n");
        let first = answer.lines.first();
        let holds = json!(answer.left_out) == one["left_out"]
            && one["says"]
                .as_array()
                .expect("a list")
                .iter()
                .all(|word| notes.contains(word.as_str().expect("text")))
            && match &one["first"] {
                Value::Null => one.get("first").is_none() || first.is_none(),
                wanted => first.is_some_and(|first| is(first, wanted)),
            }
            && one["text"].as_str().is_none_or(|text| first.is_some_and(|first| first.text.contains(text)))
            && one["builds"]
                .as_u64()
                .is_none_or(|least| first.is_some_and(|first| first.builds as u64 >= least));
        if !holds {
            wrong.push(format!("{query}: {:?}, {notes}, {first:?}", answer.left_out));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_number_is_found_where_it_is_printed_and_nowhere_else() {
    let of = |query: &str| search(&INDEX, query, None, 50).lines;
    assert!(
        of("58 psi")
            .iter()
            .all(|one| one.text.contains("58") || one.text.contains("400") || one.text.contains("4.0")),
        "{:#?}",
        of("58 psi")
    );
    assert!(!of("58 psi").is_empty());
    // No slip is forgiven in figures.
    assert!(of("9999 psi").is_empty());
}

#[test]
fn nothing_typed_finds_nothing_and_nothing_panics() {
    for text in
        ["", " ", "?", "0 mm", "-", "1e99 mm", "999999999999999999999999 N·m", "é ü", &"a".repeat(5000)]
    {
        let _ = search(&INDEX, text, Some("no-such-build"), 5);
    }
    assert!(search(&INDEX, "", None, 5).lines.is_empty());
}

/// The demo base many times over under other names, to about sixty thousand statements; of three copies two state
/// values of their own.
fn large() -> Index {
    let small = &*INDEX;
    let statements: usize = small.builds.iter().map(|one| one.lines.len()).sum();
    let times = 60_000 / statements + 1;
    let mut large = Index { things: small.things.clone(), fixed: small.fixed.clone(), ..Index::default() };
    large.rows = vec![Vec::new(); small.rows.len()];
    for time in 0..times {
        let (first, letters) =
            (large.builds.len(), ["ba", "ke", "lo", "mi", "nu", "ra", "se", "to", "vi", "wu"]);
        let name = |text: &str| format!("{}{}{text}", letters[time % 10], letters[time / 10 % 10]);
        let own = time % 3 != 0;
        // Where a copy's rows begin: those that it shares are the first of all.
        let begins: Vec<usize> = large.rows.iter().map(|rows| if own { rows.len() } else { 0 }).collect();
        for (to, rows) in large.rows.iter_mut().zip(&small.rows) {
            for (at, row) in rows.iter().enumerate() {
                let builds = row.builds.iter().map(|build| build + first);
                if own || time == 0 {
                    let text =
                        if own { row.text.replace('2', &(time % 10).to_string()) } else { row.text.clone() };
                    to.push(Row { text, open: row.open, builds: builds.collect() });
                } else {
                    to[at].builds.extend(builds);
                }
            }
        }
        let moved = |(thing, row): (usize, usize)| (thing, begins[thing] + row);
        large.builds.extend(small.builds.iter().cloned().map(|mut one| {
            one.title = one.title.replace(&one.id, &name(&one.id));
            one.id = name(&one.id);
            one.lines.iter_mut().for_each(|line| line.row = moved((line.thing, line.row)).1);
            one
        }));
        large.fitted.extend(small.fitted.iter().cloned().map(|mut one| {
            one.machine = name(&one.machine);
            one.name = name(&one.name);
            one.build += first;
            for word in &mut one.words {
                *word =
                    word.parse::<usize>().map_or_else(|_| name(word), |number| (number + time).to_string());
            }
            one
        }));
        let printing = small.values.iter().filter(|_| own || time == 0);
        for (bucket, units) in printing {
            for (unit, numbers) in units {
                for (number, rows) in numbers {
                    let held =
                        large.values.entry(bucket.clone()).or_default().entry(unit.clone()).or_default();
                    let held = held.entry(number.clone()).or_default();
                    held.aimed.extend(rows.aimed.iter().map(|row| moved(*row)));
                    held.limits.extend(rows.limits.iter().map(|row| moved(*row)));
                }
            }
        }
    }
    in_order(&mut large, small);
    large
}

/// The rows of each thing in the order that an index has them: the commonest first, then those that read alike. What a
/// copy states reads as what it is a copy of, whose numbers it prints.
fn in_order(large: &mut Index, small: &Index) {
    let places: Vec<Vec<usize>> = large
        .rows
        .iter_mut()
        .zip(&small.rows)
        .map(|(rows, of)| {
            let mut order: Vec<usize> = (0..rows.len()).collect();
            let alike = |row: usize| of.get(row % of.len().max(1)).map(|one| one.text.as_str());
            order.sort_by_key(|row| (std::cmp::Reverse(rows[*row].builds.len()), alike(*row), *row));
            let mut places = vec![0; rows.len()];
            order.iter().enumerate().for_each(|(place, row)| places[*row] = place);
            *rows = order.iter().map(|row| rows[*row].clone()).collect();
            places
        })
        .collect();
    let moved = |(thing, row): (usize, usize)| (thing, places[thing][row]);
    for line in large.builds.iter_mut().flat_map(|one| &mut one.lines) {
        line.row = moved((line.thing, line.row)).1;
    }
    for held in large.values.values_mut().flat_map(|units| units.values_mut()).flat_map(|of| of.values_mut())
    {
        for rows in [&mut held.aimed, &mut held.limits] {
            rows.iter_mut().for_each(|row| *row = moved(*row));
            rows.sort_unstable();
        }
    }
}

/// Who types `lash` alone sees what there is of it, and not one setting for twelve machines.
#[test]
fn a_number_itself_comes_before_one_that_rounds_to_it() {
    for typed in ["12", "0.3", "0.26"] {
        let answer = search(&INDEX, typed, None, 12);
        let first = &answer.lines.first().expect("it is printed").text;
        let numbers = first.split(|c: char| !c.is_ascii_digit() && c != '.').map(|one| one.trim_matches('.'));
        let same = |one: &str| one.parse::<f64>().is_ok_and(|one| Ok(one) == typed.parse());
        assert!(numbers.into_iter().any(same), "{typed}: {first}");
    }
}

#[test]
fn things_that_fit_as_well_take_turns() {
    let answer = search(&INDEX, "lash", None, 12);
    let of: Vec<&str> = answer.lines.iter().map(|one| one.of.as_str()).collect();
    let distinct: BTreeSet<&str> = of.iter().copied().collect();
    assert!(distinct.len() >= 3, "{of:?}");
    let best = answer.lines.iter().take_while(|one| one.score == answer.lines[0].score);
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for one in best {
        let rows = seen.entry(format!("{} {:?} {:?}", one.of, one.place, one.when)).or_default();
        *rows += 1;
        assert!(*rows <= 2, "{of:?}");
    }
    // A thing that fits better than any other is listed for every machine.
    let drain = search(&INDEX, "drain plug", None, 12);
    assert!(drain.lines.iter().take(8).all(|one| one.of == "torque.drain-plug"));
}

/// Who asks for fewer lines gets the first of them.
#[test]
fn fewer_lines_are_the_first_of_more() {
    for one in by_hand() {
        let (query, last) = (one["query"].as_str().expect("text"), one["last"].as_str());
        let (all, few) = (search(&INDEX, query, last, 12), search(&INDEX, query, last, 3));
        assert_eq!((few.left_out, few.notes), (all.left_out, all.notes), "{query}");
        let (all, few) = (all.lines, few.lines);
        let told = |lines: &[Found]| {
            lines.iter().map(|one| (one.of.clone(), one.build.clone(), one.text.clone())).collect::<Vec<_>>()
        };
        assert_eq!(told(&few), told(&all[..all.len().min(3)]), "{query}");
    }
}

/// What may be typed first of all on a large base: its copies are named `baba…`, `keba…` and so on.
const FIRST: [&str; 20] = [
    "ex lash babatarnhawk 887 22",
    "drain plug",
    "58 psi",
    "0.26 mm",
    "0.26 lash",
    "0.26",
    "22",
    "22 Nm drain plug",
    "exhuast lash kebamoorlugger",
    "lash",
    "torque",
    "petrol",
    "compression",
    "57 psi compression",
    "code 17",
    "exhaust lash 888x",
    "starts badly cold",
    "idle speed lokecrageel",
    "tyre pressure rear milotarnhawk",
    "th22-455 exhaust lash",
];

/// The parts of a large index, for the browser's test to read as a sheet does: `target/find-large.json`.
#[test]
fn the_index_of_a_large_base_is_written_for_the_browser() {
    let large = large();
    let parts = baybook::find::shards(&large);
    let statements: usize = large.builds.iter().map(|one| one.lines.len()).sum();
    let all: usize = parts.values().map(|rows| rows.to_string().len()).sum();
    println!("{statements} statements, {} parts, {all} bytes", parts.len());
    assert!(statements >= 60_000);
    // A text stands twice, with what it is a value of and with its build: a query then loads few parts.
    assert!(all / statements <= 95, "{} bytes a statement", all / statements);
    // What is typed whole, and its beginnings three keys apart.
    let keys = FIRST.iter().flat_map(|query| (1..query.len()).step_by(3).map(|end| query[..end].trim()));
    let told = |query: &str| {
        let found = search(&large, query, None, 12);
        let lines = found.lines.iter();
        let lines = lines.map(|one| json!([one.kind, one.of, one.build, one.builds, one.text, one.score]));
        json!({ "query": query, "found": lines.collect::<Vec<_>>(), "left_out": found.left_out, "notes": found.notes })
    };
    let (answers, typed): (Vec<_>, Vec<_>) = (FIRST.map(told).to_vec(), keys.map(told).collect());
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/find-large.json");
    let told = json!({ "statements": statements, "parts": parts, "answers": answers, "typed": typed });
    std::fs::write(&path, serde_json::to_vec(&told).expect("JSON")).expect("written");
}

/// Valve clearance is another name of lash in the trade (common practice, no source): the gap that is adjusted
/// comes first, the stem in its guide after it.
#[test]
fn valve_clearance_is_the_lash_first() {
    for query in ["valve clearance", "valve clearance tarnhawk 887", "tappet gap"] {
        let lines = search(&INDEX, query, None, 12).lines;
        let of: Vec<&str> = lines.iter().map(|one| one.of.as_str()).collect();
        assert!(of.first().is_some_and(|of| of.starts_with("lash.")), "{query}: {of:?}");
    }
}

/// A setting and its procedure sit together: first what the machine states of it, then the procedure that reads it.
#[test]
fn a_procedure_stands_beside_what_it_uses() {
    for (query, setting, procedure) in [
        ("exhaust lash tarnhawk 887", "lash.exhaust", "valve-lash"),
        ("oil drain plug tarnhawk 887", "torque.drain-plug", "oil-change"),
        ("cranking compression tarnhawk 887", "compression.cranking", "compression-test"),
    ] {
        let lines = search(&INDEX, query, None, 12).lines;
        let of: Vec<&str> = lines.iter().map(|one| one.of.as_str()).collect();
        let other = of.iter().find(|of| **of != setting);
        assert_eq!((of.first(), other), (Some(&setting), Some(&procedure)), "{query}: {of:?}");
    }
}
