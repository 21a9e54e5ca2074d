//! How long a large base takes, beside what the same work costs without Baybook.
//!
//!     cargo bench --bench base            1,000 engines of 60 statements
//!     cargo bench --bench base -- 100     fewer engines
//!
//! Each phase is timed on the same bytes as its floor (the parser or the disk alone) and its peer (the same data as
//! JSON through `serde_json` and `jsonschema`), in the same run; the least and the median of the rounds are printed.
//! It is never a test: times are of the machine they were taken on.

use std::fmt::Write as _;
use std::fs;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use baybook::check::Checked;
use baybook::diag::Sink;
use baybook::emit::{self, Tree};
use baybook::load::disk::{Content, Found};
use baybook::load::place::FileKind;
use baybook::load::schema;
use baybook::{check, load, resolve};
use serde_json::Value;
use toml::de::DeTable;

/// Statements of one engine.
const STATEMENTS: usize = 60;
/// How often each phase is timed.
const ROUNDS: usize = 5;

/// The texts of a base: path and content.
type Texts = Vec<(String, String)>;

fn main() {
    let engines = std::env::args().skip(1).find_map(|argument| argument.parse().ok()).unwrap_or(1_000);
    let texts = base(engines);
    let bytes: usize = texts.iter().map(|(_, text)| text.len()).sum();
    println!(
        "{engines} engines, {} statements, {} files, {bytes} bytes of TOML\n",
        engines * STATEMENTS,
        texts.len()
    );

    let mut table = Table::default();
    reading(&texts, &mut table);
    let checked = checking(&texts, &mut table);
    let tree = compiling(&checked, &mut table);
    writing(&tree, &mut table);
    let size: usize = tree.values().map(Vec::len).sum();
    println!("{table}\n{} files, {size} bytes written", tree.len());
}

/// The parser alone, the same data as JSON held against the same schemas, and Baybook's load.
fn reading(texts: &Texts, table: &mut Table) {
    table.time("floor: parse the TOML, no more", || {
        texts.iter().for_each(|(_, text)| drop(black_box(DeTable::parse(text).expect("TOML"))));
    });
    let engine = schema::of(FileKind::Engine);
    let validator = jsonschema::draft202012::new(&engine).expect("a schema");
    let as_json: Vec<String> =
        texts.iter().filter(|(path, _)| path.starts_with("engines/")).map(|(_, text)| json(text)).collect();
    table.time("peer: the engines as JSON, serde_json", || {
        as_json.iter().for_each(|text| drop(black_box(serde_json::from_str::<Value>(text).expect("JSON"))));
    });
    table.time("peer: the same, held by jsonschema::evaluate", || {
        for text in &as_json {
            let value: Value = serde_json::from_str(text).expect("JSON");
            assert!(validator.evaluate(&value).flag().valid);
        }
    });
    table.time("load: parse, hold to the schema, decode with spans", || {
        let mut sink = Sink::default();
        black_box(load::load(found(texts), &mut sink));
        assert!(!sink.has_errors());
    });
}

fn checking(texts: &Texts, table: &mut Table) -> Checked {
    let mut sink = Sink::default();
    let loaded = load::load(found(texts), &mut sink);
    table.time("resolve: references, values, builds", || {
        drop(black_box(resolve::resolve(&loaded, &mut Sink::default())));
    });
    let model = resolve::resolve(&loaded, &mut sink);
    let today = model.base.date;
    let public_before = &std::collections::BTreeSet::new();
    let sources = &loaded.sources;
    let subject = check::Subject { model: &model, sources, damaged: &loaded.damaged, public_before, today };
    table.time("check: every rule", || check::run(&subject, &mut Sink::default()));
    table.time("all of `baybook check`, files in memory", || {
        assert!(black_box(baybook::examine(found(texts), None)).checked.is_some());
    });
    baybook::examine(found(texts), None).checked.expect("the base has no errors")
}

fn compiling(checked: &Checked, table: &mut Table) -> Tree {
    table.time("compile: handbook and bundle, in memory", || {
        drop(black_box(emit::compile(checked).expect("compiled")));
    });
    emit::compile(checked).expect("compiled")
}

/// The disk alone, and the whole-or-nothing writer on the same files.
fn writing(tree: &Tree, table: &mut Table) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut plain = (0..).map(|number| folder.path().join(format!("plain-{number}")));
    table
        .time("floor: write the same files plainly", || write_plainly(tree, &plain.next().expect("endless")));
    let mut fresh = (0..).map(|number| folder.path().join(format!("new-{number}")));
    table.time("write: a new output", || {
        emit::disk::write(tree, &fresh.next().expect("endless")).expect("written");
    });
    let again = folder.path().join("new-0");
    table.time("write: the same output again", || emit::disk::write(tree, &again).expect("written"));
}

fn write_plainly(tree: &Tree, out: &Path) {
    for (path, bytes) in tree {
        let to = out.join(path);
        fs::create_dir_all(to.parent().expect("below the output")).expect("made");
        fs::write(to, bytes).expect("written");
    }
}

fn json(text: &str) -> String {
    let table: toml::Table = toml::from_str(text).expect("TOML");
    serde_json::to_string(&table).expect("JSON")
}

fn found(texts: &Texts) -> Vec<Found> {
    let one = |(path, text): &(String, String)| Found {
        path: path.clone(),
        content: Content::Bytes(text.clone().into_bytes()),
    };
    texts.iter().map(one).collect()
}

/// A base of many engines that differ in every number, and of nothing else that costs time.
fn base(engines: usize) -> Texts {
    let mut catalogue = "group = \"top-end\"\ntitle = \"Top end\"\n".to_owned();
    for entry in 0..STATEMENTS {
        let _ = write!(
            catalogue,
            "\n[[entry]]\nid = \"gap.{entry}\"\ntitle = \"Gap {entry}\"\nkind = \"length\"\nforms = [\"window\"]\n\
             axes = {{ cylinder = [\"front\", \"rear\"] }}\nstates = {{ engine = [\"cold\", \"hot\"] }}\n"
        );
    }
    let mut machines = "maker = \"quarrick\"\nname = \"Quarrick\"\n".to_owned();
    for number in 0..engines {
        let _ = write!(
            machines,
            "\n[[machine]]\nid = \"machine-{number}\"\nname = \"Machine {number}\"\n\
             [[machine.fitted]]\nengine = \"engine-{number}\"\nyears = \"2020..2024\"\n"
        );
    }
    let general = "title = \"Large base\"\nrelease = \"2026.11\"\ndate = 2026-11-25\ninvented = true\nlicence = \"CC-BY-4.0\"\n\
                   notice = \"Check against the maker's current manual.\"\n";
    let sources =
        "[[source]]\nid = \"manual-a\"\ntitle = \"Workshop manual\"\nedition = \"1\"\ndate = 2024-02-01\n";
    let mut texts = vec![
        ("base.toml".to_owned(), general.to_owned()),
        ("catalogue/top-end.toml".to_owned(), catalogue),
        ("machines/quarrick.toml".to_owned(), machines),
        ("sources.toml".to_owned(), sources.to_owned()),
    ];
    texts.extend(
        (0..engines).map(|number| (format!("engines/quarrick/engine-{number}.toml"), engine(number))),
    );
    texts.sort();
    texts
}

fn engine(number: usize) -> String {
    let mut text = format!(
        "id = \"engine-{number}\"\nmaker = \"quarrick\"\ntitle = \"Engine {number}\"\n\
         layout = {{ cycle = \"four-stroke\", fuel = \"petrol\", cylinders = 2 }}\n\n\
         [defaults]\nsource = \"manual-a\"\nread_by = \"mk\"\n"
    );
    for entry in 0..STATEMENTS {
        let low = 100 + (number * 7 + entry * 13) % 400;
        let _ = write!(
            text,
            "\n[[spec]]\nof = \"gap.{entry}\"\nwhere = {{ cylinder = \"front\" }}\nwhen = {{ engine = \"cold\" }}\n\
             window = [\"0.{low}..0.{} mm\"]\npage = \"{}-{entry}\"\nrow = \"Gap {entry}, front cylinder\"\n\
             column = \"Clearance, cold\"\nnote = \"Turn the crank two full turns and measure again\"\n",
            low + 50,
            number % 20 + 1,
        );
    }
    text
}

/// What was timed, in order.
#[derive(Default)]
struct Table(Vec<(&'static str, Duration, Duration)>);

impl Table {
    fn time(&mut self, what: &'static str, mut work: impl FnMut()) {
        let mut all: Vec<Duration> = (0..ROUNDS)
            .map(|_| {
                let begun = Instant::now();
                work();
                begun.elapsed()
            })
            .collect();
        all.sort();
        self.0.push((what, all[0], all[ROUNDS / 2]));
    }
}

impl std::fmt::Display for Table {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        writeln!(f, "| what | least, ms | median, ms |\n|---|---:|---:|")?;
        for (what, least, median) in &self.0 {
            writeln!(f, "| {what} | {} | {} |", least.as_millis(), median.as_millis())?;
        }
        Ok(())
    }
}
