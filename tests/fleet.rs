//! Three hundred engines of the ordinary spread of practice, drawn from a seed: no finding, so many as there are to
//! compare with; and a slip in any of them stands out.
//!
//! The catalogue is that of the demo base. Spans and shares: common practice, no source.

#[path = "fleet/drawing.rs"]
mod drawing;
#[path = "fleet/engine.rs"]
mod engine;
#[path = "fleet/printing.rs"]
mod printing;
mod shared;

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

use baybook::Examined;
use baybook::diag::Severity;
use baybook::load::disk::Content;
use drawing::Drawing;
use engine::Engine;
use shared::Base;

const ENGINES: usize = 300;

fn drawn() -> Vec<Engine> {
    let mut drawing = Drawing::new(0x5bd1_e995_2545_f491);
    (0..ENGINES).map(|count| engine::drawn(count, &mut drawing)).collect()
}

/// A base of these engines, each in a machine of its own.
fn base(engines: &[Engine]) -> Base {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut base: Base = shared::read(&specs);
    let shared =
        |path: &str| path.starts_with("catalogue/") || ["hazards.toml", "gauges.toml"].contains(&path);
    base.retain(|path, _| shared(path));
    let mut put = |path: &str, text: String| {
        base.insert(path.to_owned(), Content::Bytes(text.into_bytes()));
    };
    put(
        "base.toml",
        "title = \"Fleet\"\nrelease = \"2026.11\"\ndate = 2026-11-25\ninvented = true\nlicence = \"CC-BY-4.0\"\n\
         notice = \"Invented: check against the maker's current manual.\"\n"
            .to_owned(),
    );
    put(
        "sources.toml",
        "[[source]]\nid = \"manual\"\ntitle = \"Workshop manual\"\nedition = \"1\"\ndate = 2024-02-01\n"
            .to_owned(),
    );
    let mut machines = "maker = \"fleet\"\nname = \"Fleet\"\n".to_owned();
    for engine in engines {
        let id = &engine.id;
        write!(
            machines,
            "[[machine]]\nid = \"in-{id}\"\nname = \"In {id}\"\nfitted = [{{ engine = \"{id}\", years = \"2020..2024\" }}]\n"
        )
        .expect("a string takes everything");
        put(&format!("engines/fleet/{id}.toml"), engine.text());
    }
    put("machines/fleet.toml", machines);
    base
}

fn found(examined: &Examined) -> Vec<String> {
    let loud = examined.findings.iter().filter(|one| one.severity() != Severity::Note);
    loud.map(|one| format!("{}: {}: {}", examined.sources.path(one.span.file), one.rule.name, one.message))
        .collect()
}

#[test]
fn three_hundred_ordinary_engines_give_no_finding() {
    let examined = shared::examine(base(&drawn()));
    assert_eq!(examined.summary.engines, ENGINES);
    assert!(examined.summary.statements >= ENGINES * 30, "{} statements", examined.summary.statements);
    let found = found(&examined);
    assert!(found.is_empty(), "{} findings:\n{}", found.len(), found.join("\n"));
}

/// Entries in which a point is moved in one engine each: their values lie close enough in practice that ten times is far.
/// What differs tenfold by itself, as the current drawn with the key off, no comparison can tell.
const MOVED: [&str; 9] = [
    "cap.pressure",
    "disc.thickness",
    "fuel.pressure-running",
    "head.warp",
    "idle.speed",
    "limiter",
    "plug.gap",
    "starter.draw",
    "valve.seat-width",
];

#[test]
fn a_value_of_ten_times_stands_out_among_half_of_them() {
    let mut engines = drawn();
    engines.truncate(ENGINES / 2);
    let mut moved = BTreeSet::new();
    for (count, of) in MOVED.into_iter().enumerate() {
        let from = count * engines.len() / MOVED.len();
        let engine =
            engines[from..].iter_mut().find(|engine| engine.has(of)).expect("it is an ordinary entry");
        engine.move_point(of);
        moved.insert((format!("engines/fleet/{}.toml", engine.id), of));
    }
    let mut base = base(&engines);
    // Without the spans of what is plausible the peers alone can tell.
    for (path, content) in &mut base {
        if let (true, Content::Bytes(bytes)) = (path.starts_with("catalogue/"), &content) {
            let text = String::from_utf8(bytes.clone()).expect("UTF-8");
            let lines: Vec<_> = text.lines().filter(|line| !line.starts_with("plausible")).collect();
            *content = Content::Bytes(lines.join("\n").into_bytes());
        }
    }
    let examined = shared::examine(base);
    let far = examined.findings.iter().filter(|one| one.rule.name == "far-from-peers");
    let told: BTreeSet<(String, &str)> = far
        .map(|one| {
            let of = MOVED.into_iter().find(|of| one.message.contains(&format!("`{of}`")));
            let of = of.unwrap_or_else(|| panic!("a false alarm: {}", one.message));
            (examined.sources.path(one.span.file).to_owned(), of)
        })
        .collect();
    let missed: Vec<_> = moved.difference(&told).collect();
    assert_eq!(told, moved, "not found: {missed:?}");
}
