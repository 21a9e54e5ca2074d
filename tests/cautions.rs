//! What can hurt reaches whoever reads the step: a reading brings the hazards of its gauge, and a step that leads to
//! another procedure names those that stand there and not here.

mod shared;

use baybook::emit::{self, Tree};
use baybook::load::disk::Content;
use serde_json::Value;

use shared::{Base, replaced, rule_base_with, with};

/// Beside the two of the base, one of each other signal word.
const HAZARDS: &str = r#"
[[hazard]]
id = "carbon-monoxide"
signal = "DANGER"
hazard = "Carbon monoxide & soot"
consequence = "It kills within minutes in a closed room"
avoid = "Run the engine outdoors"

[[hazard]]
id = "brake-paint"
signal = "NOTICE"
hazard = "Brake fluid on paint"
consequence = "It lifts"
avoid = "Cover the paint"
"#;

/// Entries without hazards of their own: one measured with a gauge that has some, one with a gauge that has none.
const ENTRIES: &str = r#"
[[entry]]
id = "tap.hold"
title = "Pressure that a fuel tap holds"
kind = "pressure"
forms = ["window"]
gauge = "fuel-gauge"

[[entry]]
id = "plug.gap"
title = "Plug gap"
kind = "length"
forms = ["window"]
gauge = "feeler"
"#;

const STATEMENTS: &str = r#"
[[spec]]
of = "tap.hold"
window = ["20..30 kPa"]
page = "41"

[[spec]]
of = "plug.gap"
window = ["0.7..0.8 mm"]
page = "42"
"#;

/// The small base with more hazards, two more entries, and procedures: id, what its front matter adds, its text.
fn base(procedures: &[(&str, &str, &str)]) -> Base {
    with(with_its_own_hazards(procedures), "hazards.toml", HAZARDS)
}

/// The same without the hazards, which nothing else names.
fn with_its_own_hazards(procedures: &[(&str, &str, &str)]) -> Base {
    let added = [("catalogue/fuel-and-fluids.toml", ENTRIES), ("engines/quarrick/engine-a.toml", STATEMENTS)];
    let mut base = rule_base_with(&added);
    for (id, head, text) in procedures {
        let text = format!("+++\nid = \"{id}\"\ntitle = \"Title of {id}\"\n{head}\n+++\n{text}\n");
        base.insert(format!("procedures/{id}.md"), Content::Bytes(text.into_bytes()));
    }
    base
}

/// The findings of one procedure `p`: rule, message, and what of its text is underlined.
fn found(head: &str, text: &str) -> Vec<(&'static str, String, String)> {
    let examined = shared::examine(with_its_own_hazards(&[("p", head, text)]));
    let underlined = |one: &baybook::diag::Finding| {
        let file = examined.sources.get(one.span.file).expect("its file");
        file.text()[one.span.range()].to_owned()
    };
    examined.findings.iter().map(|one| (one.rule.name, one.message.clone(), underlined(one))).collect()
}

const FITS: &str = "fits = { has = [\"tap.hold\", \"plug.gap\"] }";

#[test]
fn a_reading_brings_the_hazards_of_its_usual_gauge() {
    let found = found(FITS, "1. Tap shut: [held](reading:tap.hold).\n2. [Again](reading:tap.hold).");
    let message = "the procedure `p` has the hazard `fuel-pressure` from the gauge `fuel-gauge` that `tap.hold` is \
                   read with, and does not declare it";
    let at = "[held](reading:tap.hold)";
    assert_eq!(found, [("hazard-not-declared", message.to_owned(), at.to_owned())]);
}

#[test]
fn what_is_declared_not_read_or_harmless_gives_no_finding() {
    let declared = format!("{FITS}\nhazards = [\"fuel-pressure\"]");
    let stepped = "1. Cloth round the joint. [](hazard:fuel-pressure)\n2. [Held](reading:tap.hold).";
    assert_eq!(found(&declared, stepped), [], "declared");
    assert_eq!(
        found(FITS, "1. It holds [](spec:tap.hold)."),
        [],
        "a value that is read off the page, not measured"
    );
    assert_eq!(found(FITS, "1. [Gap](reading:plug.gap)."), [], "a gauge that hurts nobody");
    assert_eq!(found(FITS, "1. [Lash](reading:lash.exhaust)."), [], "an entry without a usual gauge");
}

#[test]
fn a_gauge_that_is_needed_and_read_with_is_said_once_at_the_reading() {
    let found = found(&format!("{FITS}\nneeds = [\"fuel-gauge\"]"), "1. [Held](reading:tap.hold).");
    let at: Vec<_> = found.iter().map(|(rule, _, at)| (*rule, at.as_str())).collect();
    assert_eq!(at, [("hazard-not-declared", "[Held](reading:tap.hold)")]);
}

#[test]
fn a_usual_gauge_that_is_not_there_is_one_finding_and_none_of_the_procedure() {
    let base = with_its_own_hazards(&[("p", FITS, "1. [Held](reading:tap.hold).")]);
    let base = replaced(base, "catalogue/fuel-and-fluids.toml", "fuel-gauge", "no-gauge");
    let examined = shared::examine(base);
    let rules: Vec<_> = examined.findings.iter().map(|one| one.rule.name).collect();
    assert_eq!(rules, ["unknown-reference"]);
}

const HERE: &str = "fits = {}\nhazards = [\"hot-parts\"]";
const FUEL: &str = "fits = {}\nhazards = [\"hot-parts\", \"fuel-pressure\", \"carbon-monoxide\"]";
const BRAKE: &str = "fits = {}\nhazards = [\"brake-paint\"]";
const DIESEL: &str = "fits = { fuel = \"diesel\" }\nhazards = [\"carbon-monoxide\"]";
const FUEL_STEPS: &str =
    "1. Let it cool. [](hazard:hot-parts)\n2. Outdoors. [](hazard:carbon-monoxide) [](hazard:fuel-pressure)";

/// The sheets of a base whose procedure `p`, which declares hot parts, has a text, and leads to others.
fn sheets(text: &str) -> Tree {
    let steps = format!("{text}\n\n8. Wait. [](hazard:hot-parts)");
    let examined = shared::examine(base(&[
        ("p", HERE, &steps),
        ("fuel", FUEL, FUEL_STEPS),
        ("hot", HERE, "1. Let it cool. [](hazard:hot-parts)"),
        ("brake", BRAKE, "1. Fill up. [](hazard:brake-paint)"),
        ("diesel", DIESEL, "1. Run it. [](hazard:carbon-monoxide)"),
    ]));
    let found = examined.findings.iter().filter(|one| one.rule.name != "procedure-fits-nothing");
    assert_eq!(shared::printed(found, &examined.sources), "");
    emit::compile(&examined.checked.expect("no errors")).expect("it compiles")
}

fn sheet(tree: &Tree) -> &str {
    std::str::from_utf8(&tree["builds/engine-a/p.html"]).expect("UTF-8")
}

/// The lines of a part of a sheet that name hazards of elsewhere, as text.
fn lines(html: &str) -> Vec<String> {
    let line = |rest: &str| {
        let text = rest.split("</p>").next().expect("a line");
        let words = text.split('<').filter_map(|one| one.split_once('>').map(|(_, words)| words));
        words.collect::<String>().replace("&amp;", "&")
    };
    html.split("<p class=\"hazards there\"").skip(1).map(|rest| line(&format!("<p{rest}"))).collect()
}

/// The part of a sheet that is a step.
fn step(html: &str, number: u32) -> &str {
    let rest = html.split(&format!("data-step=\"{number}\">")).nth(1).expect("the step");
    rest.split("data-step=").next().expect("its end")
}

/// The texts of the steps, tips and sections in the JSON-LD.
fn texts(html: &str) -> Vec<String> {
    let data = html.split("<script type=\"application/ld+json\">").nth(1).expect("JSON-LD");
    let data: Value = serde_json::from_str(data.split("</script>").next().expect("its end")).expect("JSON");
    let mut texts = Vec::new();
    for one in data["step"].as_array().expect("steps") {
        texts.extend(one["name"].as_str().map(ToOwned::to_owned));
        let within = one["itemListElement"].as_array().map_or_else(|| vec![one], |all| all.iter().collect());
        texts.extend(within.iter().map(|one| one["text"].as_str().expect("a text").to_owned()));
    }
    texts
}

const THERE: &str = "There: DANGER Carbon monoxide & soot. WARNING Fuel under pressure.";

#[test]
fn a_step_names_the_hazards_of_the_procedure_it_leads_to_after_its_text() {
    let tree = sheets("1. Look.\n2. On to [the fuel](procedure:fuel).\n3. Done.");
    let html = sheet(&tree);
    // The gravest first; hot parts stand at the head of this sheet already.
    assert_eq!(lines(html), [THERE]);
    let own = step(html, 2);
    assert_eq!(lines(own), [THERE]);
    let at = |words: &str| own.find(words).unwrap_or_else(|| panic!("{words} in {own}"));
    assert!(at("<a href=\"fuel.html\">the fuel</a>.") < at("hazards there"), "{own}");
    for (id, signal) in [("carbon-monoxide", "DANGER"), ("fuel-pressure", "WARNING")] {
        assert!(own.contains(&format!("<span data-hazard=\"{id}\"><b>{signal}</b> ")), "{own}");
    }
    assert!(!own.contains("class=\"panel"), "not the whole caution again: {own}");
    assert_eq!(
        texts(html)[..3],
        ["Look.".to_owned(), format!("On to the fuel. {THERE}"), "Done.".to_owned()]
    );
}

#[test]
fn nothing_is_named_that_is_declared_here_or_that_no_sheet_of_the_build_leads_to() {
    let tree =
        sheets("1. See [](procedure:hot).\n2. A [diesel](procedure:diesel) only.\n3. [Again](procedure:p).");
    let html = sheet(&tree);
    assert_eq!(lines(html), [""; 0]);
    assert!(!html.contains("There:"), "{html}");
}

#[test]
fn every_step_that_leads_there_says_so_and_each_once() {
    let tree = sheets("1. [The fuel](procedure:fuel), and [again](procedure:fuel).\n2. [](procedure:fuel)");
    let html = sheet(&tree);
    assert_eq!(lines(step(html, 1)), [THERE]);
    assert_eq!(lines(step(html, 2)), [THERE]);
    assert_eq!(texts(html)[..2], [format!("The fuel, and again. {THERE}"), format!("Title of fuel {THERE}")]);
}

#[test]
fn a_text_that_leads_to_several_procedures_tells_them_apart() {
    let tree =
        sheets("1. First [the fuel](procedure:fuel), then [](procedure:brake), [heat](procedure:hot).");
    let html = sheet(&tree);
    let fuel = THERE.replace("There", "the fuel");
    let brake = "Title of brake: NOTICE Brake fluid on paint.";
    assert_eq!(lines(html), [fuel.as_str(), brake]);
    assert_eq!(texts(html)[0], format!("First the fuel, then Title of brake, heat. {fuel} {brake}"));
}

#[test]
fn the_line_stands_at_the_words_that_lead_there() {
    let text = "\
1. Low: [the fuel](procedure:fuel):
   - look at it;
   - or else [the brake](procedure:brake).

   > Set apart: [the fuel](procedure:fuel).

   Further down.
2. [Lash](reading:lash.exhaust), or [the fuel](procedure:fuel).

Between: [the brake](procedure:brake).

| Where |
|---|
| [the fuel](procedure:fuel) |

## With [the brake](procedure:brake)
";
    let tree = sheets(text);
    let html = sheet(&tree);
    let brake = "There: NOTICE Brake fluid on paint.";
    assert_eq!(lines(html), [THERE, brake, THERE, THERE, brake, THERE, brake]);
    let first = step(html, 1);
    let lines_at: Vec<_> = first.match_indices("hazards there").map(|(at, _)| at).collect();
    let at = |words: &str| first.find(words).unwrap_or_else(|| panic!("{words} in {first}"));
    assert!(lines_at[0] < at("look at it"), "{first}");
    assert!(at("or else") < lines_at[1] && lines_at[1] < at("Set apart"), "{first}");
    assert!(lines_at[2] < at("Further down"), "{first}");
    let second = step(html, 2);
    let place = |words: &str| second.find(words).expect(words);
    assert!(place("hazards there") < place("class=\"readings\""), "{second}");
    assert_eq!(
        texts(html)[..6],
        [
            format!(
                "Low: the fuel: {THERE} look at it; or else the brake. {brake} Set apart: the fuel. {THERE} Further down."
            ),
            format!("Lash, or the fuel. {THERE}"),
            format!("Between: the brake. {brake}"),
            "Where".to_owned(),
            format!("the fuel {THERE}"),
            "With the brake".to_owned(),
        ]
    );
    assert_eq!(texts(html)[6], brake, "what a heading leads to is no part of its name");
}

#[test]
fn the_steps_of_the_demo_base_are_as_its_bundle_has_them() {
    let specs = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let tree = emit::compile(&shared::examine(shared::read(&specs)).checked.expect("no errors"))
        .expect("it compiles");
    let read = |path: &str| -> Value { serde_json::from_slice(&tree[path]).expect("JSON") };
    let (procedures, hazards) = (read("bundle/procedures.json"), read("bundle/hazards.json"));
    let list = |json: &Value| json.as_array().expect("a list").clone();
    let find =
        |all: &Value, id: &Value| list(all).into_iter().find(|one| one["id"] == *id).expect("it is there");
    let mut held = 0;
    for procedure in list(&procedures["procedures"]) {
        for block in list(&procedure["body"]) {
            let to = list(&block["parts"]).into_iter().find(|part| !part["procedure"].is_null());
            let Some(to) = to.map(|part| find(&procedures["procedures"], &part["procedure"])) else {
                continue;
            };
            for build in list(&procedure["builds"]) {
                let path = format!(
                    "builds/{}/{}.html",
                    build.as_str().expect("an id"),
                    procedure["id"].as_str().expect("an id")
                );
                let html = std::str::from_utf8(&tree[path.as_str()]).expect("UTF-8");
                let number = block["step"].as_u64().and_then(|number| u32::try_from(number).ok());
                let said = lines(number.map_or(html, |number| step(html, number))).concat();
                for id in list(&to["hazards"]) {
                    let hazard = find(&hazards["hazards"], &id);
                    let named = format!(
                        "{} {}.",
                        hazard["signal"].as_str().expect("a word"),
                        hazard["hazard"].as_str().expect("words")
                    );
                    let wanted =
                        list(&to["builds"]).contains(&build) && !list(&procedure["hazards"]).contains(&id);
                    assert_eq!(said.contains(&named), wanted, "{path}: {named} in {said}");
                    held += usize::from(wanted);
                }
            }
        }
    }
    assert!(held > 50, "{held} hazards");
}
