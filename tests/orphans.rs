//! Nothing orphaned: what nothing names is found where it is one, and not a second time where another finding already
//! says why nothing names it.

mod shared;

use baybook::diag::Severity;
use baybook::load::disk::Content;
use shared::{Base, rule_base_with};

const ENGINE: &str = "engines/quarrick/engine-a.toml";
const COMPLAINT: &str = "complaints/loses-charge.toml";
const CODES: &str = "codes/quarrick-blink.toml";

/// The rules that find something and at what, notes too; every finding keeps what is promised of it.
fn found(base: Base) -> Vec<(&'static str, String)> {
    let examined = shared::examine(base);
    let sources = &examined.sources;
    examined.findings.iter().for_each(|one| shared::hold_to_promises(one, sources));
    let at = |span| sources.slice(span).trim_matches('"').to_owned();
    examined.findings.iter().map(|one| (one.rule.name, at(one.span))).collect()
}

/// That these are found and nothing else.
#[track_caller]
fn hold(files: &[(&str, &str)], expected: &[(&str, &str)]) {
    let found = found(rule_base_with(files));
    let found: Vec<_> = found.iter().map(|(rule, at)| (*rule, at.as_str())).collect();
    assert_eq!(found, expected, "{files:?}");
}

/// A complaint with access steps, a check that has some `needs`, and what else stands in the file.
fn complaint(access: &[(&str, &str)], needs: &str, more: &str) -> String {
    let steps = access
        .iter()
        .map(|(id, needs)| format!("[[access]]\nid = \"{id}\"\nminutes = 2\nneeds = [{needs}]\n"));
    format!(
        "id = \"loses-charge\"\ntitle = \"Loses charge\"\n[[causes]]\nid = \"regulator\"\ntitle = \"Regulator\"\nshare = 3\n\
         {}[[checks]]\nid = \"volts\"\ntitle = \"Volts\"\nminutes = 4\nshows = [\"regulator\"]\nneeds = [{needs}]\n{more}",
        steps.collect::<String>()
    )
}

#[test]
fn an_access_step_is_needed_by_a_check_or_by_a_step_after_it() {
    let of = |access: &[(&str, &str)], needs: &str, more: &str, expected: &[(&str, &str)]| {
        hold(&[(COMPLAINT, &complaint(access, needs, more))], expected);
    };
    let way = [("seat", ""), ("panels", "\"seat\""), ("tank", "\"panels\"")];
    of(&way, "\"tank\"", "", &[]);
    of(&way, "\"panels\"", "", &[("access-never-needed", "tank")]);
    // What comes before it is needed once it is.
    of(&way, "", "", &[("access-never-needed", "tank")]);
    of(
        &[("seat", ""), ("hood", "")],
        "",
        "",
        &[("access-never-needed", "seat"), ("access-never-needed", "hood")],
    );
    // A circle has its own finding.
    of(&[("seat", "\"hood\""), ("hood", "\"seat\"")], "", "", &[("access-in-a-circle", "seat")]);
    // So has the name that was to be this one's, and the check that was to need it.
    of(&[("seat", ""), ("hood", "")], "\"seat\", \"hod\"", "", &[("unknown-reference", "hod")]);
    let twice = "[[checks]]\nid = \"volts\"\ntitle = \"Volts, hot\"\nminutes = 4\nshows = [\"regulator\"]\nneeds = [\"hood\"]";
    of(&[("seat", ""), ("hood", "")], "\"seat\"", twice, &[("duplicate-id", "volts")]);
    let broken = twice.replace("\"volts\"", "\"amps\"").replace("minutes = 4", "minutes = \"four\"");
    of(&[("seat", ""), ("hood", "")], "\"seat\"", &broken, &[("wrong-type", "four")]);
}

#[test]
fn a_complaint_fits_some_build() {
    let complaint = |fits: &str| complaint(&[], "", "").replace("[[causes]]", &format!("{fits}\n[[causes]]"));
    let of = |fits: &str, more: &[(&str, &str)], expected: &[(&str, &str)]| {
        let complaint = complaint(fits);
        hold(&[&[(COMPLAINT, complaint.as_str())], more].concat(), expected);
    };
    let nothing = [("complaint-fits-nothing", "loses-charge")];
    for right in [
        "",
        "fits = {}",
        "fits = { has = [\"lash.exhaust\"], engines = [\"engine-a\"], cycle = \"four-stroke\" }",
    ] {
        of(right, &[], &[]);
    }
    for wrong in ["has = [\"oil.change\"]", "cycle = \"two-stroke\"", "fuel = \"diesel\""] {
        of(&format!("fits = {{ {wrong} }}"), &[], &nothing);
    }
    // No such thing is no value.
    let absent = (ENGINE, "[[spec]]\nof = \"oil.change\"\nabsent = \"not-applicable\"");
    of("fits = { has = [\"oil.change\"] }", &[absent], &nothing);
    // Another finding says why.
    of(
        "fits = { engines = [\"engine-a\", \"engine-q\"], has = [\"oil.change\"] }",
        &[],
        &[("unknown-reference", "engine-q")],
    );
    let b = "engines/quarrick/engine-b.toml";
    let other =
        "id = \"engine-b\"\nmaker = \"quarrick\"\ntitle = \"Engine B\"\n[defaults]\nsource = \"manual-a\"\n";
    of("fits = { engines = [\"engine-b\"] }", &[(b, other)], &[("engine-not-fitted", "engine-b")]);
    let misspelt = (ENGINE, "[[spec]]\nof = \"oil.chagne\"\nsetting = [\"1.3 L\"]\npage = \"8\"");
    of("fits = { has = [\"oil.change\"] }", &[misspelt], &[("unknown-reference", "oil.chagne")]);
    let bulletin = "[[variant]]\nid = \"v\"\napplies = [{ machine = \"machine-a\", years = \"2030\" }]\n\
                    [[variant.spec]]\nof = \"oil.change\"\nsetting = [\"1.3 L\"]\npage = \"1\"";
    of("fits = { has = [\"oil.change\"] }", &[(ENGINE, bulletin)], &[("variant-fits-nothing", "machine-a")]);
}

/// What a variant finds of which this is the statement; the base states 0.15..0.25 mm, cold.
#[track_caller]
fn variant(more: &str, spec: &str, expected: &[&str]) {
    let spec =
        if spec.is_empty() { String::new() } else { format!("[[variant.spec]]\n{spec}\npage = \"1\"") };
    let text = format!(
        "[[variant]]\nid = \"v\"\napplies = [{{ machine = \"machine-a\", years = \"2022\" }}]\n{more}\n{spec}"
    );
    let rules: Vec<_> = found(rule_base_with(&[(ENGINE, &text)])).into_iter().map(|(rule, _)| rule).collect();
    assert_eq!(rules, expected, "{text}");
}

#[test]
fn a_variant_states_something_else() {
    const NOTHING: &[&str] = &["variant-changes-nothing"];
    let lash = |value: &str| {
        format!("of = \"lash.exhaust\"\nwhen = {{ engine = \"cold\" }}\nwindow = [\"{value}\"]")
    };
    for same in ["0.15..0.25 mm", "0.20 ± 0.05 mm", "0.150..0.250 mm", "150..250 µm"] {
        variant("", &lash(same), NOTHING);
    }
    variant("note = \"Harder seats\"", &lash("0.15..0.25 mm"), NOTHING);
    variant("", &lash("0.15..0.25 mm").replace("when = { engine = \"cold\" }\n", ""), NOTHING);
    variant("", "of = \"rotation.crank\"\ndirection = \"clockwise\"\nseen_from = \"flywheel side\"", NOTHING);
    variant("", "", NOTHING);

    variant("", &lash("0.15..0.26 mm"), &[]);
    variant("", &lash("0.15..0.25 mm\", \"0.006..0.010 in"), &[]);
    variant("", &format!("{}\nnote = \"Rear first\"", lash("0.15..0.25 mm")), &[]);
    variant("", &lash("0.15..0.25 mm").replace("cold", "hot"), &[]);
    variant("", "of = \"oil.change\"\nsetting = [\"1.3 L\"]", &[]);
    variant("", "of = \"lash.exhaust\"\nabsent = \"not-applicable\"", &[]);
    variant("", "of = \"oil.change\"\nabsent = \"not-applicable\"", &[]);
    variant(
        "",
        "of = \"rotation.crank\"\ndirection = \"counter-clockwise\"\nseen_from = \"flywheel side\"",
        &[],
    );
    variant("note = \"Look at the seats\"", "", &[]);
    // One that is not understood may say anything.
    variant("", &lash("0.15..0.25 mmm"), &["unit-unknown"]);
    variant("", "of = \"oil.chagne\"\nsetting = [\"1.3 L\"]", &["unknown-reference"]);
    variant("source = \"manual-q\"", "", &["unknown-reference"]);
}

#[test]
fn one_place_of_a_variant_is_held_against_what_the_engine_states_there() {
    let at = |place: &str, value: &str| {
        format!("of = \"lash.exhaust\"\n{place}when = {{ engine = \"hot\" }}\nwindow = [\"{value}\"]")
    };
    let own = |place: &str, value: &str| format!("[[spec]]\n{}\npage = \"12\"\n", at(place, value));
    let (front, rear) = ("where = { cylinder = \"front\" }\n", "where = { cylinder = \"rear\" }\n");
    let of = |own: &str, spec: &str| {
        let text = format!(
            "{own}[[variant]]\nid = \"v\"\napplies = [{{ machine = \"machine-a\", years = \"2022\" }}]\n\
             [[variant.spec]]\n{spec}\npage = \"1\""
        );
        found(rule_base_with(&[(ENGINE, &text)]))
            .into_iter()
            .any(|(rule, _)| rule == "variant-changes-nothing")
    };
    let everywhere = own("", "0.20..0.30 mm");
    assert!(of(&everywhere, &at(front, "0.20..0.30 mm")));
    assert!(!of(&everywhere, &at(front, "0.22..0.32 mm")));
    let two = everywhere + &own(front, "0.22..0.32 mm");
    assert!(of(&two, &at(front, "0.22..0.32 mm")));
    assert!(of(&two, &at(rear, "0.20..0.30 mm")));
    // It takes the front's own value out.
    assert!(!of(&two, &at("", "0.20..0.30 mm")));
    assert!(!of(&two, &at(front, "0.20..0.30 mm")));
}

#[test]
fn a_variant_that_replaces_or_stops_changes_something() {
    let first = "[[variant]]\nid = \"v1\"\napplies = [{ machine = \"machine-a\" }]\n[[variant.spec]]\nof = \"lash.exhaust\"\n\
                 window = [\"0.20..0.30 mm\"]\npage = \"1\"\n";
    let back = "[[variant]]\nid = \"v2\"\napplies = [{ machine = \"machine-a\", years = \"2022\" }]\nreplaces = [\"v1\"]\n";
    hold(&[(ENGINE, &format!("{first}{back}"))], &[]);
    let restated = "[[variant.spec]]\nof = \"lash.exhaust\"\nwindow = [\"0.15..0.25 mm\"]\npage = \"1\"\n";
    hold(&[(ENGINE, &format!("{first}{back}{restated}"))], &[]);
    let stop = "[[source]]\nid = \"stop-1\"\ntitle = \"Stop notice 1\"\nclass = \"stop\"";
    let named = "[[variant]]\nid = \"v\"\nsource = \"stop-1\"\napplies = [{ machine = \"machine-a\", years = \"2022\" }]";
    hold(&[("sources.toml", stop), (ENGINE, named)], &[]);
    // That it reaches no machine is said already.
    let late = "[[variant]]\nid = \"v\"\napplies = [{ machine = \"machine-a\", years = \"2030\" }]";
    hold(&[(ENGINE, late)], &[("variant-fits-nothing", "machine-a")]);
}

#[test]
fn a_restated_value_can_be_accepted_by_a_waiver() {
    let text = "[[variant]]\nid = \"v\"\napplies = [{ machine = \"machine-a\", years = \"2022\" }]\n[[variant.spec]]\n\
                of = \"lash.exhaust\"\nwindow = [\"0.15..0.25 mm\"]\npage = \"1\"\n\n[[waive]]\n\
                rule = \"variant-changes-nothing\"\non = { of = \"lash.exhaust\", when = { engine = \"cold\" }, value = \"0.15..0.25 mm\" }\n\
                because = \"The bulletin confirms it\"\nuntil = 2027-06-30";
    hold(&[(ENGINE, text)], &[]);
}

#[test]
fn a_bulletin_to_stop_heads_some_sheet() {
    let stop = |id: &str, more: &str| {
        format!("[[source]]\nid = \"{id}\"\ntitle = \"Notice {id}\"\nclass = \"stop\"\n{more}\n")
    };
    let first = stop("stop-1", "");
    hold(&[("sources.toml", &first)], &[("stop-never-cited", "stop-1")]);
    let value = "[[spec]]\nof = \"oil.change\"\nsetting = [\"1.3 L\"]\nsource = \"stop-1\"\npage = \"8\"";
    hold(&[("sources.toml", &first), (ENGINE, value)], &[]);
    // Fault codes bring it to no head of a sheet.
    let codes = codes("source = \"stop-1\"");
    hold(&[("sources.toml", &first), (CODES, &codes)], &[("stop-never-cited", "stop-1")]);
    // One that is past is past.
    let newer = first.clone() + &stop("stop-2", "supersedes = [\"stop-1\"]");
    hold(&[("sources.toml", &newer)], &[("stop-never-cited", "stop-2")]);
    // The name that was to be its own.
    let misspelt = value.replace("stop-1", "stop-l");
    hold(&[("sources.toml", &first), (ENGINE, &misspelt)], &[("unknown-reference", "stop-l")]);
    let broken = "[[spec]]\nof = \"oil.change\"\nsetting = 1.3\nsource = \"stop-1\"\npage = \"8\"";
    hold(&[("sources.toml", &first), (ENGINE, broken)], &[("wrong-type", "1.3")]);
}

fn codes(source: &str) -> String {
    format!(
        "id = \"quarrick-blink\"\ntitle = \"Blink codes\"\nengines = [\"engine-a\"]\nread = \"Count\"\nclear = \"Key off\"\n{source}\n\
         [[code]]\nid = \"13\"\ntitle = \"Sensor open\"\nset_when = \"Signal at its upper end\""
    )
}

#[test]
fn fault_codes_name_a_source() {
    hold(&[(CODES, &codes(""))], &[("codes-without-source", "quarrick-blink")]);
    hold(&[(CODES, &codes("source = \"manual-a\""))], &[]);
    hold(&[(CODES, &codes("source = \"manual-q\""))], &[("unknown-reference", "manual-q")]);
    hold(&[(CODES, &codes("source = 7"))], &[("wrong-type", "7")]);
    let unread = [("sources.toml", "[[source]"), (CODES, &codes("source = \"manual-b\""))];
    let rules: Vec<_> = found(rule_base_with(&unread)).into_iter().map(|(rule, _)| rule).collect();
    assert_eq!(rules, ["toml-syntax"]);
}

const MANUAL_B: (&str, &str) = ("sources.toml", "[[source]]\nid = \"manual-b\"\ntitle = \"Manual B\"");
const COOLANT: (&str, &str) = (
    "hazards.toml",
    "[[hazard]]\nid = \"hot-coolant\"\nsignal = \"WARNING\"\nhazard = \"Hot coolant\"\nconsequence = \"Scalds\"\navoid = \"Wait\"",
);

#[test]
fn a_source_is_named_by_something() {
    let note = [("never-used", "manual-b")];
    hold(&[MANUAL_B], &note);
    let b = "engines/quarrick/engine-b.toml";
    let engine =
        "id = \"engine-b\"\nmaker = \"quarrick\"\ntitle = \"Engine B\"\n[defaults]\nsource = \"manual-b\"\n";
    let machine = (
        "machines/quarrick.toml",
        "[[machine]]\nid = \"machine-b\"\nname = \"Machine B\"\n[[machine.fitted]]\nengine = \"engine-b\"\nyears = \"2023\"",
    );
    // Nothing falls back on it yet.
    hold(&[MANUAL_B, (b, engine), machine], &[]);
    hold(&[MANUAL_B, (CODES, &codes("source = \"manual-b\""))], &[]);
    let reread = "engine = \"engine-a\"\nread_by = \"jl\"\nsource = \"manual-b\"";
    hold(&[MANUAL_B, ("rereads/quarrick/engine-a.toml", reread)], &[]);
    let newer = "supersedes = [\"manual-b\"]";
    let third =
        ("sources.toml", "[[source]]\nid = \"manual-c\"\ntitle = \"Manual C\"\nsupersedes = [\"manual-b\"]");
    hold(&[MANUAL_B, third], &[("never-used", "manual-c")]);
    // The newer edition is said at every value.
    let over = ("sources.toml", newer);
    let superseding = format!("{}\n{}", MANUAL_B.1, over.1.replace("manual-b", "manual-a"));
    let twice = found(rule_base_with(&[("sources.toml", &superseding)]));
    assert!(twice.iter().all(|(rule, _)| *rule == "superseded-source"), "{twice:?}");
    // Other findings say why nothing names it.
    hold(&[MANUAL_B, (CODES, &codes("source = \"manual-d\""))], &[("unknown-reference", "manual-d")]);
    let stray = "code/quarrick-blink.toml";
    let strays: Vec<_> = found(rule_base_with(&[MANUAL_B, (stray, &codes("source = \"manual-b\""))]))
        .into_iter()
        .map(|(rule, _)| rule)
        .collect();
    assert_eq!(strays, ["file-out-of-place"]);
    // What is no file of a base names nothing.
    let odd: Vec<_> =
        found(rule_base_with(&[MANUAL_B, ("notes.txt", "")])).into_iter().map(|(rule, _)| rule).collect();
    assert_eq!(odd, ["file-out-of-place", "never-used"]);
}

#[test]
fn a_hazard_is_named_by_something() {
    hold(&[COOLANT], &[("never-used", "hot-coolant")]);
    let procedure = |head: &str, step: &str| {
        format!(
            "+++\nid = \"look\"\ntitle = \"Look\"\nfits = {{ engines = [\"engine-a\"] }}\n{head}\n+++\n\n1. Look. {step}"
        )
    };
    let look = "procedures/look.md";
    let named = |text: &str, expected: &[(&str, &str)]| {
        let mut base = rule_base_with(&[COOLANT]);
        base.insert(look.to_owned(), Content::Bytes(text.as_bytes().to_vec()));
        let found = found(base);
        let found: Vec<_> = found.iter().map(|(rule, at)| (*rule, at.as_str())).collect();
        assert_eq!(found, expected, "{text}");
    };
    named(&procedure("hazards = [\"hot-coolant\"]", ""), &[]);
    named(&procedure("", ""), &[("never-used", "hot-coolant")]);
    let undeclared = "[](hazard:hot-coolant)";
    named(&procedure("", undeclared), &[("hazard-not-declared", undeclared)]);
    let unknown = "[](hazrd:hot-coolant)";
    named(&procedure("", unknown), &[("link-not-understood", unknown)]);
    named(&procedure("hazards = [\"hot-colant\"]", ""), &[("unknown-reference", "hot-colant")]);
    let check = complaint(&[], "", "hazards = [\"hot-coolant\"]");
    hold(&[COOLANT, (COMPLAINT, &check)], &[]);
    // A gauge that is not understood names it all the same.
    let gauge = "[[gauge]]\nid = \"tester\"\ntitle = \"Cap tester\"\nkind = \"pressure\"\nspan = \"0..200 kPq\"\nerror = \"5 kPa\"\n\
                 hazards = [\"hot-coolant\"]";
    hold(&[COOLANT, ("gauges.toml", gauge)], &[("unit-unknown", "kPq")]);
}

#[test]
fn gauges_are_no_orphans() {
    let gauge = "[[gauge]]\nid = \"dial\"\ntitle = \"Dial gauge\"\nkind = \"length\"\nspan = \"0..10 mm\"\nerror = \"0.01 mm\"";
    hold(&[("gauges.toml", gauge)], &[]);
}

/// A library of sources and hazards is nobody's fault: it is told to those who ask.
#[test]
fn what_is_never_used_is_only_a_note() {
    let examined = shared::examine(rule_base_with(&[MANUAL_B, COOLANT]));
    assert_eq!(examined.findings.len(), 2);
    assert!(examined.findings.iter().all(|one| one.severity() == Severity::Note));
    assert!(examined.checked.is_some());
}

#[test]
fn nothing_of_the_demo_base_is_an_orphan() {
    let orphans = [
        "access-never-needed",
        "codes-without-source",
        "complaint-fits-nothing",
        "never-used",
        "stop-never-cited",
        "variant-changes-nothing",
    ];
    let specs = shared::tests("../specs");
    let examined = shared::examine(shared::read(&specs));
    let found: Vec<_> = examined.findings.iter().filter(|one| orphans.contains(&one.rule.name)).collect();
    assert!(found.is_empty(), "{}", shared::printed(found, &examined.sources));
}

#[test]
fn a_default_source_that_is_misspelt_is_found_before_anything_falls_back_on_it() {
    let engine =
        "id = \"engine-b\"\nmaker = \"quarrick\"\ntitle = \"Engine B\"\n[defaults]\nsource = \"manual-q\"\n";
    let machine = "[[machine]]\nid = \"machine-b\"\nname = \"Machine B\"\n[[machine.fitted]]\nengine = \"engine-b\"\nyears = \"2023\"";
    let files = [("engines/quarrick/engine-b.toml", engine), ("machines/quarrick.toml", machine)];
    hold(&files, &[("unknown-reference", "manual-q")]);
    // Said once, however many fall back on it.
    let two = "[[spec]]\nof = \"oil.change\"\nsetting = [\"1.3 L\"]\npage = \"8\"\n[[spec]]\nof = \"rotation.crank\"\n\
               direction = \"clockwise\"\nseen_from = \"flywheel side\"\npage = \"11\"";
    let engine = format!("{engine}{two}");
    hold(&[("engines/quarrick/engine-b.toml", &engine), files[1]], &[("unknown-reference", "manual-q")]);
    let reread = "engine = \"engine-a\"\nread_by = \"jl\"\nsource = \"manual-q\"";
    hold(&[("rereads/quarrick/engine-a.toml", reread)], &[("unknown-reference", "manual-q")]);
}
