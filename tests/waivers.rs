//! What waivers accept, when they lapse, and what is said of one that stands at the wrong place.

mod shared;

use baybook::Examined;
use baybook::diag::Severity;
use baybook::load::disk::Content;
use shared::{Base, replaced, rule_base_with};

const ENGINE: &str = "engines/quarrick/engine-a.toml";
const PROCEDURE: &str = "procedures/valve-lash.md";
/// A waiver for the size of a wrench.
const WRENCH: &str = "file = \"procedures/valve-lash.md\", text = \"10 mm\"";

fn waiver(rule: &str, on: &str) -> String {
    format!("[[waive]]\nrule = \"{rule}\"\non = {{ {on} }}\nbecause = \"So be it\"\nuntil = 2027-06-30\n")
}

fn procedure(step: &str) -> String {
    format!(
        "+++\nid = \"valve-lash\"\ntitle = \"Check the valve lash\"\nfits = {{ has = [\"lash.exhaust\"] }}\n+++\n\n\
         1. {step}\n2. Measure [the lash](reading:lash.exhaust)."
    )
}

/// What is found, notes left out, each with the text it underlines; every finding keeps what is promised of it.
fn of(examined: &Examined) -> Vec<(&'static str, String)> {
    examined.findings.iter().for_each(|one| shared::hold_to_promises(one, &examined.sources));
    let grave = examined.findings.iter().filter(|one| one.severity() != Severity::Note);
    grave.map(|one| (one.rule.name, examined.sources.slice(one.span).to_owned())).collect()
}

#[track_caller]
fn hold(base: Base, expected: &[(&str, &str)]) {
    let found = of(&shared::examine(base));
    let found: Vec<_> = found.iter().map(|(rule, at)| (*rule, at.as_str())).collect();
    assert_eq!(found, expected);
}

/// The message of the one finding of a rule, and its help.
#[track_caller]
fn said(base: Base, rule: &str) -> (String, String) {
    let examined = shared::examine(base);
    of(&examined);
    let mut own = examined.findings.iter().filter(|one| one.rule.name == rule);
    let first = own.next().unwrap_or_else(|| panic!("no {rule}"));
    assert!(own.next().is_none(), "one {rule}");
    (first.message.clone(), first.help.clone())
}

#[test]
fn a_text_is_waived_wherever_the_rule_underlines_it_in_the_file() {
    let waive = waiver("number-in-prose", WRENCH);
    let step = procedure("Loosen it with a wrench of 10 mm, the bracket with one of 10 mm too.");
    hold(
        rule_base_with(&[(PROCEDURE, &step)]),
        &[("number-in-prose", "10 mm"), ("number-in-prose", "10 mm")],
    );
    hold(rule_base_with(&[(PROCEDURE, &step), ("base.toml", &waive)]), &[]);
    // A line may end in it, and `CRLF` may end the line.
    let broken = procedure("Loosen it with a wrench of 10\r\n   mm.");
    hold(rule_base_with(&[(PROCEDURE, &broken), ("base.toml", &waive)]), &[]);
    let other = procedure("Loosen it with a wrench of 10 mm, and that with one of 12 mm.");
    hold(rule_base_with(&[(PROCEDURE, &other), ("base.toml", &waive)]), &[("number-in-prose", "12 mm")]);
}

#[test]
fn a_waiver_of_a_text_lapses_when_the_text_changes() {
    let waive = waiver("number-in-prose", WRENCH);
    let other = rule_base_with(&[(PROCEDURE, &procedure("Use a wrench of 12 mm.")), ("base.toml", &waive)]);
    hold(other.clone(), &[("waiver-lapsed", "\"10 mm\""), ("number-in-prose", "12 mm")]);
    let (message, help) = said(other, "waiver-lapsed");
    assert_eq!(
        message,
        "`number-in-prose` finds no `10 mm` in `procedures/valve-lash.md`, so there is nothing to waive"
    );
    assert_eq!(help, "look at what it finds there now; then mend the waiver or take it out");
    // It stands there still, where nobody reads it.
    let aside =
        rule_base_with(&[(PROCEDURE, &procedure("Loosen it. <!-- 10 mm -->")), ("base.toml", &waive)]);
    hold(aside.clone(), &[("waiver-lapsed", "\"10 mm\"")]);
    assert_eq!(said(aside, "waiver-lapsed").1, "take the waiver out");
}

#[test]
fn a_waiver_for_a_file_that_is_not_there_is_found_at_its_path() {
    let step = procedure("Use a wrench of 10 mm.");
    let waive = waiver("number-in-prose", "file = \"procedures/valve-lahs.md\", text = \"10 mm\"");
    let base = rule_base_with(&[(PROCEDURE, &step), ("base.toml", &waive)]);
    hold(base.clone(), &[("waiver-lapsed", "\"procedures/valve-lahs.md\""), ("number-in-prose", "10 mm")]);
    let (message, help) = said(base, "waiver-lapsed");
    assert_eq!(
        message,
        "the base has no file `procedures/valve-lahs.md`, and `number-in-prose` is waived for it"
    );
    assert_eq!(help, "did you mean `procedures/valve-lash.md`?");
}

#[test]
fn a_waiver_of_a_text_ends_with_its_last_day() {
    let step = procedure("Use a wrench of 10 mm.");
    let ended = waiver("number-in-prose", WRENCH).replace("2027-06-30", "2026-11-24");
    hold(
        rule_base_with(&[(PROCEDURE, &step), ("base.toml", &ended)]),
        &[("waiver-lapsed", "2026-11-24"), ("number-in-prose", "10 mm")],
    );
    // The day itself is its last.
    hold(rule_base_with(&[(PROCEDURE, &step), ("base.toml", &ended.replace("11-24", "11-25"))]), &[]);
}

#[test]
fn a_file_that_nothing_reads_is_waived_without_a_text() {
    let on = "file = \"notes/plan.txt\"";
    let waive = waiver("file-out-of-place", on);
    hold(rule_base_with(&[("notes/plan.txt", "Later")]), &[("file-out-of-place", "")]);
    hold(rule_base_with(&[("notes/plan.txt", "Later"), ("base.toml", &waive)]), &[]);
    let mut link = rule_base_with(&[("base.toml", &waive)]);
    link.insert("notes/plan.txt".to_owned(), Content::Link);
    hold(link, &[]);
    let with_text = waiver("file-out-of-place", &format!("{on}, text = \"Later\""));
    let named = rule_base_with(&[("notes/plan.txt", "Later"), ("base.toml", &with_text)]);
    assert_eq!(said(named, "waiver-lapsed").1, "it is about the file as a whole: leave `text` out");
    let without = waiver("number-in-prose", "file = \"procedures/valve-lash.md\"");
    let unnamed =
        rule_base_with(&[(PROCEDURE, &procedure("Use a wrench of 10 mm.")), ("base.toml", &without)]);
    assert_eq!(said(unnamed, "waiver-lapsed").1, "say in `text` what it underlines there");
}

#[test]
fn measures_of_the_layout_and_a_variant_that_states_nothing_are_waived_in_the_file_of_the_base() {
    let long = |base| {
        replaced(
            base,
            ENGINE,
            ", bore = \"80.0 mm\", stroke = \"66.0 mm\", displacement = \"332 cm³\"",
            ", bore = \"40.0 mm\", stroke = \"66.0 mm\"",
        )
    };
    let found = of(&shared::examine(long(rule_base_with(&[]))));
    let [("relation-broken", at)] = found.as_slice() else { panic!("{found:?}") };
    let on = format!("file = \"{ENGINE}\", text = \"{}\"", at.trim_matches('"'));
    let waive = waiver("relation-broken", &on);
    hold(long(rule_base_with(&[("base.toml", &waive)])), &[]);
    let (message, _) = said(rule_base_with(&[("base.toml", &waive)]), "waiver-lapsed");
    assert!(message.starts_with("`relation-broken` finds no"), "{message}");

    let empty = "[[variant]]\nid = \"sb-1\"\napplies = [{ machine = \"machine-a\", years = \"2022\" }]";
    hold(rule_base_with(&[(ENGINE, empty)]), &[("variant-changes-nothing", "\"sb-1\"")]);
    let waive = waiver("variant-changes-nothing", &format!("file = \"{ENGINE}\", text = \"sb-1\""));
    hold(rule_base_with(&[(ENGINE, empty), ("base.toml", &waive)]), &[]);
    // One that states something is about what it states.
    let restates = format!(
        "{empty}\n[[variant.spec]]\nof = \"lash.exhaust\"\nwindow = [\"0.15..0.25 mm\"]\npage = \"1\""
    );
    let (message, _) =
        said(rule_base_with(&[(ENGINE, &restates), ("base.toml", &waive)]), "waiver-not-allowed");
    assert_eq!(
        message,
        "`variant-changes-nothing` is about a value, and is waived in the file of its engine"
    );
}

#[test]
fn what_is_not_waived_is_said_alike_at_both_places() {
    let cases = [
        ("dual-units-disagree", "`dual-units-disagree` is an error, and errors cannot be waived"),
        ("never-used", "`never-used` is only a note, and needs no waiver"),
        ("waiver-lapsed", "`waiver-lapsed` says that a waiver no longer acts, and is not waived itself"),
        ("number-in-porse", "there is no rule `number-in-porse`"),
    ];
    let value = "of = \"lash.exhaust\", when = { engine = \"cold\" }, value = \"0.15..0.25 mm\"";
    for (rule, wanted) in cases {
        for (path, on) in [("base.toml", WRENCH), (ENGINE, value)] {
            assert_eq!(said(rule_base_with(&[(path, &waiver(rule, on))]), "waiver-not-allowed").0, wanted);
        }
    }
}

#[test]
fn what_is_broken_elsewhere_makes_no_waiver_lapse() {
    let wrench = waiver("number-in-prose", WRENCH);
    let step = procedure("Use a wrench of 10 mm.");
    let lapsed = |base: Base| {
        let found = of(&shared::examine(base));
        assert!(!found.is_empty());
        found.iter().filter(|(rule, _)| *rule == "waiver-lapsed").count()
    };
    let waived = || rule_base_with(&[(PROCEDURE, &step), ("base.toml", &wrench)]);
    for (from, to) in
        [("+++\n\n1.", "\n\n1."), ("title = \"Check", "titel = \"Check"), ("fits = {", "fits = [")]
    {
        assert_eq!(lapsed(replaced(waived(), PROCEDURE, from, to)), 0, "{to}");
    }
    let garbled = rule_base_with(&[(PROCEDURE, "half a"), ("base.toml", &wrench)]);
    assert_eq!(lapsed(garbled), 0);
    // A variant that is cut out beside one that is found.
    let variant = |id: &str, years: &str| {
        format!(
            "[[variant]]\nid = \"{id}\"\nnote = \"A note\"\napplies = [{{ machine = \"machine-a\", years = {years} }}]\n"
        )
    };
    let waive = waiver("variant-fits-nothing", &format!("file = \"{ENGINE}\", text = \"machine-a\""));
    let cut = variant("a", "\"1990\"") + "[[spec]]\nof = 3\npage = \"1\"";
    hold(rule_base_with(&[(ENGINE, &variant("a", "\"1990\"")), ("base.toml", &waive)]), &[]);
    assert_eq!(lapsed(rule_base_with(&[(ENGINE, &cut), ("base.toml", &waive)])), 0);
    assert_eq!(lapsed(rule_base_with(&[(ENGINE, &variant("a", "[]")), ("base.toml", &waive)])), 0);
    // A value that is not understood is not another one.
    let hot = "[[spec]]\nof = \"lash.exhaust\"\nwhen = { engine = \"hot\" }\nwindow = [\"0.48..0.58 mm\"]\npage = \"12\"\n";
    let hot = hot.to_owned()
        + &waiver(
            "outside-plausible",
            "of = \"lash.exhaust\", when = { engine = \"hot\" }, value = \"0.48..0.58 mm\"",
        );
    hold(rule_base_with(&[(ENGINE, &hot)]), &[]);
    assert_eq!(
        lapsed(replaced(
            rule_base_with(&[(ENGINE, &hot)]),
            ENGINE,
            "[\"0.48..0.58 mm\"]",
            "[\"0.48..0.58 mn\"]"
        )),
        0
    );
    // Its plausible span is not read.
    let unread = replaced(
        rule_base_with(&[(ENGINE, &hot)]),
        "catalogue/top-end.toml",
        "plausible = \"",
        "plausible = \"about ",
    );
    assert_eq!(lapsed(unread), 0);
    // A stray file may be what names the bulletin.
    let bulletin = "[[source]]\nid = \"stop-1\"\ntitle = \"Stop notice 1\"\nclass = \"stop\"";
    let waive = waiver("stop-never-cited", "file = \"sources.toml\", text = \"stop-1\"");
    hold(rule_base_with(&[("sources.toml", bulletin), ("base.toml", &waive)]), &[]);
    let stray = rule_base_with(&[("sources.toml", bulletin), ("base.toml", &waive), ("engine/b.toml", "")]);
    hold(stray, &[("file-out-of-place", "")]);
}

/// A statement of each form that prints no value, what a waiver of its superseded source names, and a change of it.
#[test]
fn a_statement_without_a_printed_value_is_waived_for_what_it_says() {
    let cases = [
        ("direction = \"clockwise\"\nseen_from = \"clutch side\"", "clockwise", "counter-clockwise"),
        ("text = \"Long life, 5W40\"", "Long life, 5W40", "5W30"),
        ("text = \"20Nm\"", "20 N·m", "21Nm"),
        ("absent = \"not-given\"", "not-given", "not-applicable"),
        (
            "pins = [{ cavity = \"1\", function = \"Earth\" }, { cavity = \"2\", function = \"Signal\" }]",
            "Signal",
            "Supply",
        ),
        (
            "selection = { by = [\"case mark\"], rows = [[\"1\", \"red\"], [\"2\", \"blue\"]] }",
            "blue",
            "green",
        ),
    ];
    let entry = "[[entry]]\nid = \"odd.entry\"\ntitle = \"Odd entry\"\nforms = [\"direction\", \"text\", \"pins\", \"selection\"]\n";
    let manuals = "[[source]]\nid = \"manual-0\"\ntitle = \"Manual 0\"\n\n\
                   [[source]]\nid = \"manual-1\"\ntitle = \"Manual 1\"\nsupersedes = [\"manual-0\"]\n";
    let found = ("superseded-source", "\"odd.entry\"");
    for (form, value, other) in cases {
        let stated = |form: &str| {
            format!("[[spec]]\nof = \"odd.entry\"\n{form}\nsource = \"manual-0\"\npage = \"1\"\n")
        };
        let waive = waiver("superseded-source", &format!("of = \"odd.entry\", value = \"{value}\""));
        let in_base = |text: &str| {
            rule_base_with(&[("catalogue/top-end.toml", entry), ("sources.toml", manuals), (ENGINE, text)])
        };
        hold(in_base(&stated(form)), &[found]);
        hold(in_base(&(stated(form) + &waive)), &[]);
        let word = if value == "20 N·m" { "20Nm" } else { value };
        let changed = stated(&form.replace(word, other)) + &waive;
        hold(in_base(&changed), &[found, ("waiver-lapsed", &format!("\"{value}\""))]);
    }
}
