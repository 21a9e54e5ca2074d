//! Nothing that the lead types is lost on the way: a base that uses every key of every file is walked, and
//! each thing typed is held to stand in the JSON, in the database and in the CSV tables.
//!
//! The base is `tests/cases/clean/every-key`. A key that is added to a file of the base is missed here until
//! that base uses it. That JSON, database and CSV are the same in all their parts is held from outside, by
//! `tests/outside/bundle/same.py`.

mod shared;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use baybook::emit::Tree;
use baybook::emit::bundle::bundle;
use baybook::load::disk::Content;
use baybook::load::place::FileKind;
use baybook::load::schema;
use rusqlite::Connection;
use rusqlite::types::Value as Stored;
use serde_json::Value;

/// Keys that leave no trace of their own in a bundle, and why.
const NOT_CARRIED: [(&str, &str); 8] = [
    ("base.TextWaiver.rule", "a waiver of the base is about its files, and of no datum"),
    ("base.TextWaiver.because", "said to whoever reads the base"),
    ("base.TextWaiver.until", "the same"),
    ("base.TextWaiverTarget.file", "the same"),
    ("base.TextWaiverTarget.text", "the same"),
    ("catalogue.order", "the groups stand in that order"),
    ("relations.RelationOff.relation", "it takes a relation out"),
    ("relations.RelationOff.because", "said to whoever reads the base: the relation is not in the bundle"),
];

static BASE: LazyLock<shared::Base> =
    LazyLock::new(|| shared::read(&shared::tests("cases/clean/every-key/base")));

static TREE: LazyLock<Tree> = LazyLock::new(|| {
    let examined = shared::examine(BASE.clone());
    let all = shared::printed(&examined.findings, &examined.sources);
    assert!(examined.findings.is_empty(), "{all}");
    bundle(examined.checked.expect("no errors").model()).expect("made").tree
});

/// Something that was typed: the path of its key without places in lists, and the text of it.
type Typed = (String, String);

/// A file of the base as JSON, with its kind; of a procedure its front matter.
fn files() -> Vec<(FileKind, Value)> {
    let mut all = Vec::new();
    for (path, content) in BASE.iter() {
        let (Some(kind), Content::Bytes(bytes)) = (FileKind::at(path), content) else { continue };
        let text = std::str::from_utf8(bytes).expect("UTF-8");
        let text =
            if kind == FileKind::Procedure { text.split("+++").nth(1).expect("it has one") } else { text };
        let table: toml::Table = text.parse().unwrap_or_else(|error| panic!("{path}: {error}"));
        all.push((kind, json(toml::Value::Table(table))));
    }
    all
}

/// A value of TOML, its days as texts.
fn json(value: toml::Value) -> Value {
    match value {
        toml::Value::Datetime(day) => day.to_string().into(),
        toml::Value::Array(items) => items.into_iter().map(json).collect(),
        toml::Value::Table(keys) => keys.into_iter().map(|(key, value)| (key, json(value))).collect(),
        other => serde_json::to_value(other).expect("JSON"),
    }
}

/// One schema, and what it leads to.
#[derive(Clone, Copy)]
struct Place<'a> {
    root: &'a Value,
    schema: &'a Value,
}

impl<'a> Place<'a> {
    /// The schema itself, references and lists followed, and the name of its definition, if it has one.
    fn meant(self) -> (Place<'a>, Option<&'a str>) {
        let mut at = (self, None);
        loop {
            let Place { root, schema } = at.0;
            let inner = if let Some(name) = schema["$ref"].as_str().and_then(|to| to.strip_prefix("#/$defs/"))
            {
                at.1 = Some(name);
                &root["$defs"][name]
            } else if schema["items"].is_object() {
                &schema["items"]
            } else {
                return at;
            };
            at.0 = Place { root, schema: inner };
        }
    }

    fn key(self, name: &str) -> Option<Place<'a>> {
        let schema = self.schema["properties"].get(name)?;
        Some(Place { root: self.root, schema })
    }
}

/// Every key of a schema and of those it leads to, each once for its definition: `engine.Spec.window`.
fn keys(kind: &str, place: Place<'_>, found: &mut BTreeSet<String>) {
    let (place, name) = place.meant();
    for key in place.schema["properties"].as_object().into_iter().flatten().map(|(key, _)| key) {
        if found.insert(format!("{kind}.{}{key}", name.map(|name| format!("{name}.")).unwrap_or_default())) {
            keys(kind, place.key(key).expect("there"), found);
        }
    }
}

/// Walks what was typed along its schema: every key, every text, and of tables with free keys these too.
fn walk(
    value: &Value,
    kind: &str,
    path: &str,
    place: Place<'_>,
    used: &mut BTreeSet<String>,
    typed: &mut Vec<Typed>,
) {
    let (list, (place, name)) = (place, place.meant());
    match value {
        Value::Array(items) => items.iter().for_each(|item| walk(item, kind, path, list, used, typed)),
        Value::Object(all) => {
            for (key, inner) in all {
                if let Some(deeper) = place.key(key) {
                    let path =
                        format!("{kind}.{}{key}", name.map(|name| format!("{name}.")).unwrap_or_default());
                    used.insert(path.clone());
                    walk(inner, kind, &path, deeper, used, typed);
                } else {
                    typed.push((path.to_owned(), key.clone()));
                    let schema = &place.schema["additionalProperties"];
                    walk(inner, kind, path, Place { schema, ..place }, used, typed);
                }
            }
        }
        Value::String(text) => typed.push((path.to_owned(), text.clone())),
        other => typed.push((path.to_owned(), other.to_string())),
    }
}

/// Keys that the schemas know, keys that the base uses, and all that is typed in it.
fn typed() -> (BTreeSet<String>, BTreeSet<String>, Vec<Typed>) {
    let (mut known, mut used, mut all) = (BTreeSet::new(), BTreeSet::new(), Vec::new());
    for kind in FileKind::ALL.into_iter().filter(|kind| kind.pattern().is_some()) {
        let schema = schema::of(kind);
        keys(kind.schema_name(), Place { root: &schema, schema: &schema }, &mut known);
    }
    for (kind, value) in files() {
        let schema = schema::of(kind);
        let place = Place { root: &schema, schema: &schema };
        walk(&value, kind.schema_name(), "", place, &mut used, &mut all);
    }
    (known, used, all)
}

#[test]
fn the_base_uses_every_key_of_every_file() {
    let (known, used, _) = typed();
    let unused: Vec<_> = known.difference(&used).collect();
    assert!(unused.is_empty(), "{unused:#?}");
    assert!(known.len() > 200, "{} keys", known.len());
}

/// What is typed, as it must be found: years as their ends, a cause with its complaint as two ids.
fn wanted(path: &str, text: &str) -> Vec<String> {
    let split = |by: &str| text.split(by).filter(|part| !part.is_empty()).map(ToOwned::to_owned).collect();
    match path.rsplit('.').next() {
        Some("years") => split(".."),
        Some("raises") => split("/"),
        _ => vec![text.to_owned()],
    }
}

/// Holds everything typed to be among some texts.
fn hold(found: &BTreeSet<String>, of: &str) {
    let exempt: BTreeMap<_, _> = NOT_CARRIED.into_iter().collect();
    let (_, _, all) = typed();
    assert!(all.len() > 480, "{} things are typed", all.len());
    let lost: Vec<_> = all
        .iter()
        .filter(|(path, _)| !exempt.contains_key(path.as_str()))
        .flat_map(|(path, text)| wanted(path, text).into_iter().map(move |text| (path, text)))
        .filter(|(_, text)| !found.contains(text))
        .collect();
    assert!(lost.is_empty(), "not in the {of}: {lost:#?}");
}

/// Every text, number and key of some JSON.
fn leaves(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(all) => {
            for (key, inner) in all {
                found.insert(key.clone());
                leaves(inner, found);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| leaves(item, found)),
        Value::String(text) => _ = found.insert(text.clone()),
        other => _ = found.insert(other.to_string()),
    }
}

#[test]
fn everything_typed_is_in_the_json() {
    let mut found = BTreeSet::new();
    for (path, bytes) in TREE.iter() {
        let path = path.strip_prefix("bundle/").expect("below it");
        // The index of the find repeats names, and would hide what is lost elsewhere.
        let data = baybook::bundle::is_data(path) && !["find.json", "datapackage.json"].contains(&path);
        if data {
            leaves(&serde_json::from_slice(bytes).expect("JSON"), &mut found);
        }
    }
    hold(&found, "JSON");
}

#[test]
fn everything_typed_is_in_the_database() {
    let mut connection = Connection::open_in_memory().expect("opened");
    let bytes: &'static [u8] = &TREE["bundle/baybook.sqlite"];
    connection.deserialize_bytes("main", bytes).expect("a database");
    let mut names = connection
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'search%'")
        .expect("a query");
    let names: Vec<String> =
        names.query_map([], |row| row.get(0)).expect("asked").map(|name| name.expect("a name")).collect();
    let mut found = BTreeSet::new();
    for name in names {
        let mut query = connection.prepare(&format!("SELECT * FROM {name}")).expect("a table");
        let columns = query.column_count();
        let mut rows = query.query([]).expect("asked");
        while let Some(row) = rows.next().expect("read") {
            for at in 0..columns {
                match row.get(at).expect("a cell") {
                    Stored::Text(text) => _ = found.insert(text),
                    Stored::Integer(number) => _ = found.insert(number.to_string()),
                    _ => {}
                }
            }
        }
    }
    found.extend(["true".to_owned(), "false".to_owned()]);
    hold(&found, "database");
}

#[test]
fn everything_typed_is_in_the_csv_tables() {
    let mut found = BTreeSet::new();
    for (_, bytes) in TREE.iter().filter(|(path, _)| path.starts_with("bundle/tables/")) {
        let mut reader = csv::ReaderBuilder::new().from_reader(bytes.as_slice());
        for record in reader.records() {
            found.extend(record.expect("a row").iter().map(ToOwned::to_owned));
        }
    }
    hold(&found, "CSV tables");
}

/// True and false say nothing by themselves: each is held to stand under its own name.
#[test]
fn what_is_true_is_true_under_its_name() {
    let read =
        |path: &str| -> Value { serde_json::from_slice(&TREE[&format!("bundle/{path}")]).expect("JSON") };
    let (head, catalogue, complaints) =
        (read("bundle.json"), read("catalogue.json"), read("complaints.json"));
    assert_eq!((&head["invented"], &head["publish"]["labels"]), (&true.into(), &true.into()));
    assert_eq!(head["publish"]["unconfirmed"], true);
    let entries: Vec<&Value> = catalogue["groups"]
        .as_array()
        .expect("a list")
        .iter()
        .flat_map(|group| group["entries"].as_array().expect("a list"))
        .collect();
    let those = |key: &str| -> Vec<&str> {
        entries.iter().filter(|one| one[key] == true).map(|one| one["id"].as_str().expect("an id")).collect()
    };
    assert_eq!((those("critical"), those("card")), (vec!["torque.head-bolt"], vec!["lash.exhaust"]));
    let stops: Vec<_> = entries.iter().map(|one| &one["stop"]).filter(|stop| !stop.is_null()).collect();
    assert_eq!(stops, ["above"]);
    let causes = complaints["complaints"][0]["causes"].as_array().expect("a list");
    let residual: Vec<_> = causes.iter().map(|one| &one["residual"]).collect();
    assert_eq!(residual, [&Value::from(false), &true.into()]);
    let relations = read("relations.json");
    let own = &relations["relations"][0];
    assert_eq!((&own["id"], &own["arithmetic"]), (&"relation-of-ours".into(), &true.into()));
}

/// The words of a procedure's text, which no schema lists, and what its links lead to.
#[test]
fn every_word_and_link_of_a_procedure_is_carried() {
    let procedures: Value = serde_json::from_slice(&TREE["bundle/procedures.json"]).expect("JSON");
    let all = procedures["procedures"].as_array().expect("a list");
    let one = all.iter().find(|one| one["id"] == "valve-lash").expect("there");
    let said: Vec<String> = one["body"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|block| {
            let part = |part: &Value| {
                let to = ["of", "hazard", "step", "procedure", "complaint", "code"];
                let to = to.iter().map(|key| &part[key]).find(|to| !to.is_null());
                let to = to.map(|to| {
                    format!(
                        "<{} {}>",
                        part["sort"].as_str().expect("a sort"),
                        to.to_string().trim_matches('"')
                    )
                });
                let style = part["style"].as_str().map(|style| format!("<{style}>")).unwrap_or_default();
                let cell = if part["sort"] == "cell" { "|" } else { "" };
                format!("{cell}{style}{}{}", part["text"].as_str().expect("a text"), to.unwrap_or_default())
            };
            let parts: String = block["parts"].as_array().expect("a list").iter().map(part).collect();
            format!(
                "{} {} {}: {parts}",
                block["sort"].as_str().expect("a sort"),
                block["step"],
                block["depth"]
            )
        })
        .collect();
    assert_eq!(
        said,
        [
            "heading null 0: Cool and turn",
            "paragraph null 0: Fuel first:<hazard fuel-pressure> <spec fuel.pressure-running>",
            "step 1 1: Let the engine <strong>cool. <hazard hot-parts>",
            "step 2 1: Turn the crank: <turn rotation.crank>.",
            "step 3 1: Exhaust lash<reading lash.exhaust> should be <spec lash.exhaust>.",
            "item 3 2: Bolts in each hole, <emphasis>clean ones <code>M6.",
            "step 4 1: See <code 31>, <complaint loses-charge>, <procedure fuel-pressure> or go back to <step 2>.",
            "paragraph 4 1: A second paragraph of the step.",
            "note null 0: Set apart.",
            "row null 0: |What|How",
            "row null 0: |Leaf|straight",
            "lines null 0: kept  as it is\n",
            "step 5 1: Close up.",
        ]
    );
    assert_eq!(one["steps"], 5);
}
