//! Nothing that a file writes runs: a base whose every text tries to leave its place is compiled, and
//! no page may hold a script, a handler or an element that the templates did not write.

use std::fmt::Write as _;

use baybook::examine;
use baybook::load::disk::{Content, Found};

/// Closes text, attribute and SVG lettering alike.
const HOSTILE: &str = r#"</text></svg><script>alert(1)</script><img src=x onerror=alert(2)>' onload='alert(3)' x=\" onload=\"alert(4)"#;

fn base() -> Vec<Found> {
    let h = HOSTILE;
    let mut files: Vec<(&str, String)> = Vec::new();
    files.push(("base.toml", format!("title = \"{h}\"\nrelease = \"1\"\ndate = 2026-11-25\ninvented = true\nlicence = \"{h}\"\nnotice = \"{h}\"\n")));
    let hazard = |id: &str| {
        format!(
            "[[hazard]]\nid = \"{id}\"\nsignal = \"DANGER\"\nhazard = \"{id} {h}\"\nconsequence = \"{h}\"\navoid = \"{h}\"\n"
        )
    };
    files.push(("hazards.toml", hazard("hot") + &hazard("there")));
    files.push(("sources.toml", format!(
        "[[source]]\nid = \"m\"\ntitle = \"{h}\"\nedition = \"{h}\"\nnote = \"{h}\"\n[[source]]\nid = \"stop\"\nclass = \"stop\"\ntitle = \"{h}\"\nnote = \"{h}\"\n"
    )));
    files.push(("gauges.toml", format!("[[gauge]]\nid = \"g\"\ntitle = \"{h}\"\nkind = \"length\"\nspan = \"0.05..1.00 mm\"\nerror = \"0.005 mm\"\nhazards = [\"hot\"]\n")));
    files.push(("catalogue/all.toml", catalogue()));
    files.push(("machines/q.toml", format!(
        "maker = \"q\"\nname = \"{h}\"\n[[machine]]\nid = \"m\"\nname = \"{h}\"\nsort = \"{h}\"\nserial_at = \"{h}\"\n[[machine.fitted]]\nengine = \"e\"\nyears = \"2020..2021\"\n"
    )));
    files.push(("engines/q/e.toml", engine()));
    files.push(("complaints/c.toml", format!(
        "id = \"c\"\ntitle = \"{h}\"\naka = [\"{h}\"]\n[fits]\nhas = [\"a.window\"]\n[[causes]]\nid = \"one\"\ntitle = \"{h}\"\nshare = 3\n[[causes]]\nid = \"rest\"\ntitle = \"{h}\"\nshare = 1\nresidual = true\n[[access]]\nid = \"a\"\ntitle = \"{h}\"\nminutes = 1\n[[checks]]\nid = \"k\"\ntitle = \"{h}\"\nminutes = 2\nshows = [\"one\"]\nneeds = [\"a\"]\nprocedure = \"p\"\n"
    )));
    files.push(("codes/k.toml", format!(
        "id = \"k\"\ntitle = \"{h}\"\nengines = [\"e\"]\nread = \"{h}\"\nclear = \"{h}\"\nsource = \"m\"\npage = \"{h}\"\n[[code]]\nid = \"1\"\ntitle = \"{h}\"\nset_when = \"{h}\"\nraises = [\"c/one\"]\nmeasure = [\"a.window\"]\n"
    )));
    files.push(("procedures/p.md", format!(
        "+++\nid = \"p\"\ntitle = \"{h}\"\nneeds = [\"g\", \"{h}\"]\nproof = \"{h}\"\nfits = {{ has = [\"a.window\"] }}\nhazards = [\"hot\"]\n+++\n# A heading {{onclick=alert(5)}}\n\n1. Look & see &lt;script&gt;alert(6)&lt;/script&gt;. [](hazard:hot)\n2. [`<b>x</b>`](reading:a.window) and [](spec:a.window), `<script>alert(7)</script>`.\n3. [](turn:crank 90°)\n4. On to [](procedure:q), or [<i onclick=alert(8)>x</i>](procedure:r).\n"
    )));
    for (path, id) in [("procedures/q.md", "q"), ("procedures/r.md", "r")] {
        files.push((path, format!(
            "+++\nid = \"{id}\"\ntitle = \"{id} {h}\"\nfits = {{}}\nhazards = [\"there\"]\n+++\n1. Look. [](hazard:there)\n"
        )));
    }
    files
        .into_iter()
        .map(|(path, text)| Found { path: path.into(), content: Content::Bytes(text.into_bytes()) })
        .collect()
}

fn catalogue() -> String {
    let h = HOSTILE;
    let mut text = format!("group = \"all\"\ntitle = \"{h}\"\n");
    let entries = [
        ("a.window", "kind = \"length\"\nforms = [\"window\"]", "gauge = \"g\"\nhazards = [\"hot\"]\n"),
        ("a.points", "kind = \"resistance\"\ninput = \"temperature\"\nforms = [\"points\"]", ""),
        ("a.pins", "forms = [\"pins\"]", ""),
        ("a.one", "forms = [\"selection\"]", ""),
        ("a.two", "forms = [\"selection\"]", ""),
        ("a.text", "forms = [\"text\"]", ""),
        ("a.torque", "kind = \"torque\"\nforms = [\"setting\"]", ""),
        ("rotation.crank", "forms = [\"direction\"]", ""),
    ];
    for (id, forms, more) in entries {
        let _ = write!(
            text,
            "[[entry]]\nid = \"{id}\"\ntitle = \"{id} {h}\"\naka = [\"{id} or {h}\"]\nnote = \"{h}\"\n{forms}\n{more}"
        );
    }
    text
}

fn engine() -> String {
    let h = HOSTILE;
    let mut text = format!(
        "id = \"e\"\nmaker = \"q\"\ntitle = \"{h}\"\nlayout = {{ cycle = \"four-stroke\", fuel = \"petrol\", cylinders = 1, words = \"{h}\" }}\n[defaults]\nsource = \"m\"\nread_by = \"{h}\"\n"
    );
    let found =
        format!("page = \"{h}\"\nrow = \"{h}\"\ncolumn = \"{h}\"\nfootnote = \"{h}\"\nnote = \"{h}\"\n");
    let forms = [
        ("a.window", "window = [\"0.15..0.25 mm\"]".to_owned()),
        ("a.points", "points = [[\"20 °C\", \"2.45 kΩ ± 10 %\"], [\"80 °C\", \"318 Ω ± 10 %\"]]".to_owned()),
        (
            "a.pins",
            format!(
                "pins = [{{ cavity = \"{h}\", wire = \"{h}\", function = \"{h}\", expect = {{ \"{h}\" = \"{h}\" }} }}]"
            ),
        ),
        ("a.one", format!("selection = {{ by = [\"{h}\"], rows = [[\"{h}\", \"{h}\"]] }}")),
        ("a.two", format!("selection = {{ by = [\"{h}\", \"b\"], rows = [[\"{h}\", \"{h}\", \"{h}\"]] }}")),
        ("a.text", format!("text = \"{h}\"")),
        (
            "a.torque",
            format!(
                "setting = [\"20 N·m\"]\npattern = [[0, 0], [40, 0]]\nfastener = {{ thread = \"{h}\", class = \"{h}\", threads = \"{h}\", into = \"{h}\", count = 2 }}"
            ),
        ),
        ("rotation.crank", format!("direction = \"clockwise\"\nseen_from = \"{h}\"")),
    ];
    for (of, form) in forms {
        let _ = write!(text, "[[spec]]\nof = \"{of}\"\n{form}\n{found}");
    }
    let _ = write!(
        text,
        "[[variant]]\nid = \"v\"\nsource = \"stop\"\nnote = \"{h}\"\napplies = [{{ machine = \"m\", years = \"2021\", serial = {{ prefix = \"{h}\", from = 1 }} }}]\n[[variant.spec]]\nof = \"a.text\"\ntext = \"other {h}\"\n{found}"
    );
    text
}

/// A page without its blocks of data, which no browser runs: one ends where it is closed, as nothing in it opens or
/// closes an element.
fn without_data(page: &str, path: &str, found: &mut usize) -> String {
    let Some((before, rest)) = page.split_once("<script type=\"application/ld+json\">") else {
        return page.to_owned();
    };
    let (data, after) = rest.split_once("</script>").expect("closed");
    assert!(!data.contains(['<', '>']), "{path}: {data}");
    let read: serde_json::Value = serde_json::from_str(data).expect("JSON");
    assert!(read.to_string().contains("alert("), "{path}: the hostile text is in it, as text");
    *found += 1;
    before.to_owned() + &without_data(after, path, found)
}

#[test]
fn no_text_of_a_file_becomes_markup() {
    let examined = examine(base(), None);
    let findings: Vec<String> =
        examined.findings.iter().map(|one| format!("{}: {}", one.rule.name, one.message)).collect();
    let checked = examined.checked.unwrap_or_else(|| panic!("the base is hostile, not wrong: {findings:#?}"));
    let tree = baybook::emit::compile(&checked).expect("compiled");
    let pages: Vec<_> = tree.iter().filter(|(path, _)| path.ends_with(".html")).collect();
    assert!(pages.len() > 10);
    let mut seen = 0;
    let mut data_blocks = 0;
    for (path, bytes) in pages {
        let page = without_data(std::str::from_utf8(bytes).expect("text"), path, &mut data_blocks);
        for (at, _) in page.match_indices("<script") {
            let tag = &page[at..page.len().min(at + 12)];
            assert_eq!(tag, "<script src=", "{path}: {}", &page[at..page.len().min(at + 60)]);
        }
        for forbidden in
            ["<img", "<b>x</b>", "<h3 onclick", "onerror=alert(2)>", "' onload='", "\" onload=\""]
        {
            assert!(!page.contains(forbidden), "{path}: {forbidden}");
        }
        seen += page.matches("&lt;script&gt;alert(1)").count();
    }
    assert!(data_blocks > 0, "a procedure has its data");
    for path in [
        "sources/m.html",
        "codes/k.html",
        "builds/e/complaint-c.html",
        "gauges.html",
        "complaints.html",
        "coverage/e.html",
    ] {
        let page = std::str::from_utf8(&tree[path]).expect("text");
        assert!(page.matches("&lt;script&gt;alert(1)").count() > 3, "{path} should show the hostile text");
    }
    let step = std::str::from_utf8(&tree["builds/e/p.html"]).expect("text");
    let named: Vec<_> = step.split("<p class=\"hazards there\">").skip(1).collect();
    assert_eq!(named.len(), 2, "two procedures that a step leads to");
    assert!(
        named.iter().all(|line| line.starts_with("<span>") && line.contains("there &lt;/text&gt;")),
        "{step}"
    );
    assert!(seen > 200, "the hostile text should stand, escaped, all over the handbook: {seen}");
}
